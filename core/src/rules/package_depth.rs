//! The package and the points behind it must go into the rabbet.

use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::length::Length;
use crate::spec::Package;

pub(super) const RULE: Rule = Rule {
    id: "package-depth",
    judges: "whether the package goes into the depth of the rabbet",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((packed, framed)) = case.framed() else { return };
    let Some(deep) = framed.frame.rabbet_depth else { return };
    if packed.rabbet <= deep {
        return;
    }
    let (severity, required) = if packed.depth > deep {
        (Severity::Stop, packed.depth)
    } else {
        (Severity::Caution, packed.rabbet)
    };
    findings.push(Finding {
        rule: RULE.id,
        severity,
        place: Place::default(),
        measured: Amount::Length(deep),
        required: Amount::Length(required),
        source: "framing shops' guides (the sum of the layers); room from memory",
        message: format!(
            "The package is {} deep and wants {} with room for points and dust cover; the rabbet \
             is {}.",
            case.text(packed.depth),
            case.text(packed.rabbet),
            case.against(deep, required),
        ),
        remedy: deeper(case, packed.rabbet),
    });
}

/// The shallowest frame of the tables that takes the package; its lip and the rabbet's size
/// stay as they are, so that nothing else changes.
fn deeper(case: &Case<'_>, wanted: Length) -> Option<Remedy> {
    let package = &case.mat.behind.package;
    let now = package.frame.as_ref()?;
    let deep = |depth: &Option<Length>| depth.is_some_and(|depth| depth >= wanted);
    let frame = case
        .tables
        .frames
        .iter()
        .filter(|frame| deep(&frame.rabbet_depth) && frame.lip == now.lip)
        .min_by_key(|frame| frame.rabbet_depth)?;
    let package = Package { frame: Some(frame.clone()), ..package.clone() };
    Some(Remedy {
        words: format!("Take the frame “{}”", frame.name),
        command: Command::SetPackage(case.variant, Box::new(package)),
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Inch;
    /// Source: framing shops' guides; room of 1/8 in from memory.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(deep: &str, wanted: &str) {
            let mut document = framed_in("16x20", "16 1/8x20 1/8");
            let frame = behind_of(&mut document).package.frame.as_mut().unwrap();
            frame.rabbet_depth = Some(inches(deep));
            check(&document, RULE.id, wanted);
        }
        // 1/8 acrylic + .060 mat + .060 backing + 3/16 foam board = .4325 in.
        case(".5575", "");
        case(".5574", "caution");
        case(".4325", "caution");
        case(".4324", "stop");
        check(&plan(Inch, "8x10"), RULE.id, "");
    }
}
