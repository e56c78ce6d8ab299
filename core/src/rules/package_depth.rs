//! The package and the points behind it must go into the rabbet.

use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::length::{Length, Round};
use crate::package::{Packed, Part};
use crate::spec::Package;

pub(super) const RULE: Rule = Rule {
    id: "package-depth",
    judges: "whether the rabbet is deep enough for the package",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((packed, framed)) = case.framed() else { return };
    let Some(deep) = framed.frame.rabbet_depth else { return };
    if packed.rabbet <= deep {
        return;
    }
    let (severity, required) = if packed.depth > deep {
        (Severity::Fault, packed.depth)
    } else {
        (Severity::Caution, packed.rabbet)
    };
    let short = case.short_by(required - deep);
    let needs = case.short_by(required);
    let has = deep.sensible(case.unit(), Round::Down);
    let message = if severity == Severity::Fault {
        format!(
            "The package is {short} too deep for the rabbet: it is {needs} deep before points \
             and dust cover, and the rabbet is {has}. Use a deeper frame or thinner layers."
        )
    } else {
        format!(
            "With room for points and dust cover the package is {short} too deep for the \
             rabbet: it needs {needs}, and the rabbet is {has}. Use a deeper frame or thinner \
             layers."
        )
    };
    findings.push(Finding {
        rule: RULE.id,
        severity,
        place: Place::default(),
        measured: Amount::Length(deep),
        required: Amount::Length(required),
        source: "framing shops' guides (the sum of the layers); room from memory",
        message,
        remedy: thinner(case, packed, deep).or_else(|| deeper(case, packed.rabbet)),
    });
}

/// The thickest filler of the tables with which the package goes in, room counted. Nothing at
/// all behind the backing is no filler.
fn thinner(case: &Case<'_>, packed: &Packed, deep: Length) -> Option<Remedy> {
    let now = packed.layers.iter().find(|layer| layer.part == Part::Filler)?;
    let room = deep - (packed.rabbet - now.thickness);
    let filler = case
        .tables
        .fillers
        .iter()
        .filter(|filler| filler.thickness.is_positive() && filler.thickness <= room)
        .max_by_key(|filler| filler.thickness)?;
    let package = &case.mat.assembly.package;
    let package = Package { filler: Some(filler.clone()), ..package.clone() };
    Some(Remedy {
        words: format!("Use “{}” behind the backing", filler.name),
        command: Command::SetPackage(case.variant, Box::new(package)),
    })
}

/// The shallowest frame of the tables that takes the package; its lip and the rabbet's size
/// stay as they are, so that nothing else changes.
fn deeper(case: &Case<'_>, needed: Length) -> Option<Remedy> {
    let package = &case.mat.assembly.package;
    let now = package.frame.as_ref()?;
    let deep = |depth: &Option<Length>| depth.is_some_and(|depth| depth >= needed);
    let frame = case
        .tables
        .frames
        .iter()
        .filter(|frame| deep(&frame.rabbet_depth) && frame.lip == now.lip)
        .min_by_key(|frame| frame.rabbet_depth)?;
    let package = Package { frame: Some(frame.clone()), ..package.clone() };
    Some(Remedy {
        words: format!("Use the frame “{}”", frame.name),
        command: Command::SetPackage(case.variant, Box::new(package)),
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::geometry::Sides;
    use crate::length::Unit::{Inch, Millimetre};
    use crate::material::Tables;
    use crate::spec::{Layer, LayerId};

    /// Source: framing shops' guides; room of 1/8 in from memory.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(deep: &str, wanted: &str) {
            let mut document = framed_in("16x20", "16 1/8x20 1/8");
            let frame = assembly_of(&mut document).package.frame.as_mut().unwrap();
            frame.rabbet_depth = Some(inches(deep));
            check(&document, RULE.id, wanted);
        }
        // 1/8 acrylic + .060 mat + .060 backing + 3/16 foam board = .4325 in.
        case(".5575", "");
        case(".5574", "caution");
        case(".4325", "caution");
        case(".4324", "fault");
        check(&plan(Inch, "8x10"), RULE.id, "");
    }

    /// Source: derived: 1/8 acrylic + two boards of .060 + a paper of 0.5 mm + a backing of .060
    /// + 3/16 foam board = 0.5122 in, with 1/8 in of room 0.6372 in; a rabbet of 5/8 in.
    #[test]
    fn a_shortage_in_64ths_and_its_ways_out() {
        let mut document = framed_in("16x20", "16 1/8x20 1/8");
        let first = mat(&mut document).layers[0].clone();
        mat(&mut document).layers.push(Layer { id: LayerId(2), ..first });
        mat(&mut document).openings[0].offsets.insert(LayerId(2), Sides::all(inches("1/4")));
        let tables = Tables::shipped();
        let assembly = assembly_of(&mut document);
        assembly.paper = tables.paper("cotton-300").cloned();
        assembly.package.frame = tables.frame("wide-wood").cloned();
        assert_eq!(
            words(&document, RULE.id),
            (
                "With room for points and dust cover the package is 1/64 in too deep for the \
                 rabbet: it needs 41/64 in, and the rabbet is 5/8 in. Use a deeper frame or \
                 thinner layers."
                    .to_owned(),
                // 0.6372 - 0.1875 + 0.1181 = 0.5678.
                "Use “Corrugated board, 1/8 in (3 mm)” behind the backing".to_owned()
            )
        );
        check(&document, RULE.id, "caution");
        // In 7/16 in (0.4375) even that does not go in: 0.5122 less 0.4375 is 0.0747, 5/64.
        assembly_of(&mut document).package.frame = tables.frame("narrow-metal").cloned();
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The package is 5/64 in too deep for the rabbet: it is 33/64 in deep before \
             points and dust cover, and the rabbet is 7/16 in. Use a deeper frame or thinner \
             layers."
        );
        assert_eq!(remedy, "Use the frame “Flat, white wood”");
        check(&document, RULE.id, "fault");
        // 13.01 + 3 mm of room in a metric plan, the rabbet 15.875 mm: 0.135 short, so 0.2.
        document.unit = Millimetre;
        assembly_of(&mut document).package.frame = tables.frame("wide-wood").cloned();
        let message = words(&document, RULE.id).0;
        assert!(
            message.contains(
                "is 0.2 mm too deep for the rabbet: it needs 16.1 mm, and the rabbet is 15.8 mm"
            ),
            "{message}"
        );
    }

    /// .4325 in are 10.99 mm, with 3 mm of room 13.99 mm.
    #[test]
    fn in_millimetres() {
        let mut document = metric(framed_in("16x20", "16 1/8x20 1/8"));
        let frame = assembly_of(&mut document).package.frame.as_mut().unwrap();
        frame.rabbet_depth = Some(inches("13.5mm"));
        says(
            &document,
            RULE.id,
            "With room for points and dust cover the package is 0.5 mm too deep for the \
             rabbet: it needs 14 mm, and the rabbet is 13.5 mm. Use a deeper frame or thinner \
             layers.",
            "Use “Corrugated board, 1/8 in (3 mm)” behind the backing",
        );
    }
}
