//! A yielding hinge gives way only as far as its free length lets it lean.

use super::{Case, Rule};
use crate::assembly::Sheet;
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::hinges::Usual;
use crate::length::Length;
use crate::spec::{HingeKind, Hinging};

pub(super) const RULE: Rule = Rule {
    id: "movement-travel",
    judges: "whether the loose hinges let the sheet move far enough",
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
                "The hinge {} from the sheet's left edge has to move {} and can give only {}. \
                 Make it longer, or move the locating hinge closer to it.",
                case.text(hinge.x),
                case.finely_against(travel, hinge.slack),
                case.fine(hinge.slack),
            ),
            remedy: longer(case, sheet, travel),
        });
    }
}

/// The yielding hinges as much longer as the travel wants, where there is room above for it:
/// four times the travel are free to lean by a quarter.
fn longer(case: &Case<'_>, sheet: &Sheet, travel: Length) -> Option<Remedy> {
    let plan = &sheet.hinges;
    let near = plan.locating()?.gap;
    let wanted = travel * 4 - near;
    let up = wanted + case.document.ruler.step() - Length::from_units(1);
    let longer = up.floor_to(case.document.ruler.step());
    if plan.kind != HingeKind::T
        || near + longer + Usual::of(case.unit()).cross > plan.room_above
    {
        return None;
    }
    let hinging = Hinging { longer: Some(longer), ..case.mat.assembly.hinging.clone() };
    Some(Remedy {
        words: format!("Make the loose hinges {} longer", case.exact(longer)),
        command: Command::SetHinging(case.variant, hinging),
    })
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
            assembly_of(&mut document).hinging.longer = Some(inches(longer));
            assert_eq!(summary(&document, RULE.id), wanted);
            // 4 × 1.143 mm less the gap of 1/8 in, up to the next sixteenth: 1/16 in.
            if !wanted.is_empty() {
                assert_eq!(words(&document, RULE.id).1, "Make the loose hinges 1/16 in longer");
                let mut remedied = document.clone();
                let remedy = found(&document, RULE.id).remove(0).remedy.unwrap();
                assert_eq!(crate::command::apply(&mut remedied, &remedy.command), Ok(()));
                assert_eq!(summary(&remedied, RULE.id), "");
            }
        }
        // A quarter of the gap of 3.175 mm and what is longer.
        case("1.397mm", "");
        case("1.39mm", "caution");
        case("1/2", "");
    }

    /// It travels 1.143 mm, .045 in; a quarter of 3.175 + 1 mm is 1.044 mm, .041 in.
    #[test]
    fn in_words() {
        let mut document = worked();
        assembly_of(&mut document).hinging.longer = Some(inches("1mm"));
        says(
            &document,
            RULE.id,
            "The hinge 16 in from the sheet's left edge has to move 0.045 in and can give \
             only 0.041 in. Make it longer, or move the locating hinge closer to it.",
            "Make the loose hinges 1/16 in longer",
        );
        assembly_of(&mut document).hinging.gap = Some(inches("3mm"));
        says(
            &metric(document),
            RULE.id,
            "The hinge 406.4 mm from the sheet's left edge has to move 1.14 mm and can give \
             only 1.00 mm. Make it longer, or move the locating hinge closer to it.",
            "Make the loose hinges 2 mm longer",
        );
    }
}
