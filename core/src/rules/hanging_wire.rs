//! Wire and rings are rated against tension, which a taut wire multiplies.

use super::case::grams;
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::length::Length;
use crate::package::Hung;
use crate::spec::{Hanging, Hooks};

/// At least so many times the tension. Source: weak.
const LEAST: f64 = 2.0;

pub(super) const RULE: Rule =
    Rule { id: "hanging-wire", judges: "whether wire and rings stand the pull", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(packed) = &case.assembly.package else { return };
    let hanging = &case.mat.assembly.hanging;
    let place = Place::default();
    if hanging.rings_apart.is_some() && hanging.rise.is_some() && packed.hung.wire.is_none() {
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Fault,
            place,
            measured: Amount::Length(hanging.rise.unwrap_or_default()),
            required: Amount::Length(Length::MM),
            source: "derived",
            message:
                "A wire cannot hang like this. Pulled up, it must rise above its rings, and \
                 the hooks must be no further apart than the rings."
                    .to_owned(),
            remedy: None,
        });
    }
    let Some((wire, rated)) = packed.hung.wire.zip(hanging.wire_rated_g) else { return };
    let tension = Hung::grams(wire.tension_n);
    let factor = packed.hung.factor;
    let rated_g = f64::from(rated);
    if rated_g >= tension * factor {
        return;
    }
    let (has, needs) = case.rated(rated, tension * factor);
    findings.push(Finding {
        rule: RULE.id,
        severity: if rated_g < tension * LEAST { Severity::Fault } else { Severity::Caution },
        place,
        measured: Amount::Grams(rated),
        required: Amount::Grams(grams(tension * factor)),
        source: "weak source (at least twice); common practice (four times)",
        message: format!(
            "At {:.1}° each side of the wire pulls with {}. Wire and rings are rated for only \
             {has} and need {needs}, {factor} times the pull. Give the wire more slack, or \
             use stronger parts.",
            wire.angle_deg,
            case.mass(tension),
        ),
        remedy: steeper(case, rated_g / factor),
    });
}

/// The rise at which each side is pulled by no more than `most_g`, where the wire can be so
/// steep: sin a = weight / (2 × pull). 60 degrees are the most that is hung so; from memory.
fn steeper(case: &Case<'_>, most_g: f64) -> Option<Remedy> {
    let packed = case.assembly.package.as_ref()?;
    let hanging = case.mat.assembly.hanging;
    let between = match hanging.hooks {
        Hooks::One => Length::ZERO,
        Hooks::Two(apart) => apart,
    };
    let run = (hanging.rings_apart? - between).to_mm() / 2.0;
    let sine = packed.mass_g / (2.0 * most_g);
    if !(0.0..=60.0_f64.to_radians().sin()).contains(&sine) || run <= 0.0 {
        return None;
    }
    // Up to the ruler's next mark, so that rounding never takes away what was asked for.
    let step = case.document.ruler.step();
    let rise = Length::from_mm_nearest(run * sine.asin().tan()).floor_to(step) + step;
    let hanging = Hanging { rise: Some(rise), ..hanging };
    Some(Remedy {
        words: format!("Let the wire rise {} above the rings", case.exact(rise)),
        command: Command::SetHanging(case.variant, hanging),
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Millimetre;
    /// Source: derived: T = W / (2 sin a): 4 kg on rings 600 mm apart, 300 mm up: 45 degrees,
    /// 2828 g; at least twice (weak), four times by trade habit.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(rated: u32, rise: &str, wanted: &str) {
            let mut document = plan(Millimetre, "8x10");
            let assembly = assembly_of(&mut document);
            assembly.package.mass_g = Some(4000);
            assembly.hanging.rings_apart = Some(inches("600mm"));
            assembly.hanging.rise = Some(inches(rise));
            assembly.hanging.wire_rated_g = Some(rated);
            check(&document, RULE.id, wanted);
        }
        case(11_314, "300mm", "");
        case(11_313, "300mm", "caution");
        case(5_657, "300mm", "caution");
        case(5_656, "300mm", "fault");
        case(99_999, "0mm", "fault");
    }

    #[test]
    fn in_words() {
        let hung = |rise: &str| {
            let mut document = plan(Millimetre, "8x10");
            let behind = assembly_of(&mut document);
            behind.package.mass_g = Some(4000);
            behind.hanging.rings_apart = Some(inches("600mm"));
            behind.hanging.rise = Some(inches(rise));
            behind.hanging.wire_rated_g = Some(10_000);
            document
        };
        // 2828.4 g at 45 degrees, four times that 11 313.7 g. A pull of 2.5 kg: the sine is 0.8,
        // so a rise of four thirds of 300 mm, and one step more.
        says(
            &hung("300mm"),
            RULE.id,
            "At 45.0° each side of the wire pulls with 2.83 kg. Wire and rings are rated for \
             only 10 kg and need 11.4 kg, 4 times the pull. Give the wire more slack, or use \
             stronger parts.",
            "Let the wire rise 401 mm above the rings",
        );
        says(
            &hung("0mm"),
            RULE.id,
            "A wire cannot hang like this. Pulled up, it must rise above its rings, and the \
             hooks must be no further apart than the rings.",
            "",
        );
    }

    #[test]
    fn in_pounds() {
        let mut document = plan(crate::length::Unit::Inch, "8x10");
        let behind = assembly_of(&mut document);
        behind.package.mass_g = Some(4000);
        behind.hanging.rings_apart = Some(inches("24"));
        behind.hanging.rise = Some(inches("12"));
        behind.hanging.wire_rated_g = Some(10_000);
        // A rise of four thirds of 12 in, and a step of the ruler more.
        says(
            &document,
            RULE.id,
            "At 45.0° each side of the wire pulls with 6.2 lb. Wire and rings are rated for \
             only 22 lb and need 25 lb, 4 times the pull. Give the wire more slack, or use \
             stronger parts.",
            "Let the wire rise 16 1/16 in above the rings",
        );
    }
}
