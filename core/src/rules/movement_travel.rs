//! A yielding hinge gives way only as far as its free length lets it lean.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "movement-travel",
    judges: "whether a yielding hinge's slack takes up the sheet's travel",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.moving() {
        let movement = &sheet.movement;
        let (dry, damp) = (&movement.bound.dry.travel, &movement.bound.damp.travel);
        let travels = dry.iter().zip(damp).map(|(dry, damp)| dry.abs().max(damp.abs()));
        let beyond =
            sheet.hinges.hinges.iter().zip(travels).filter(|(hinge, _)| !hinge.locates);
        let Some((hinge, travel)) = beyond
            .filter(|(hinge, travel)| *travel > hinge.slack)
            .max_by_key(|(hinge, travel)| *travel - hinge.slack)
        else {
            continue;
        };
        findings.push(Finding {
            rule: RULE.id,
            severity: if movement.certain { Severity::Caution } else { Severity::Note },
            place: Place::window(window),
            measured: Amount::Length(travel),
            required: Amount::Length(hinge.slack),
            source: "derived from the paper's growth; slack from memory (a quarter of the free \
                     length)",
            message: format!(
                "The hinge {} from the sheet's left edge travels {} and gives way by {} only: \
                 make it longer, or locate nearer to it.",
                case.text(hinge.x),
                case.against(travel, hinge.slack),
                case.text(hinge.slack),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: derived (D): the yielding hinge of the worked example travels 1.143 mm.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(longer: &str, wanted: &str) {
            let mut document = worked();
            behind_of(&mut document).hinging.longer = Some(inches(longer));
            assert_eq!(told(&document, RULE.id), wanted);
        }
        // A quarter of the gap of 3.175 mm and what is longer.
        case("1.397mm", "");
        case("1.39mm", "caution");
        case("1/2", "");
    }
}
