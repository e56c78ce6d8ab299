//! Enough of the sheet must lie under the mat when it is driest, too.

use super::{Case, Rule};
use crate::assembly::Sheet;
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::layout::Window;
use crate::length::Length;
use crate::spec::HingeAt;

/// Least overlap that still holds the sheet. Source: common practice.
const LEAST: Length = Length::mm(2);

pub(super) const RULE: Rule = Rule {
    id: "movement-overlap",
    judges: "how far the mat overlaps the sheet in dry air",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.moving() {
        let movement = &sheet.movement;
        let dry = &movement.bound.dry;
        for (side, overlap) in dry.overlap.each() {
            let now = window.overlap.of(side);
            // `overlap` reports what is short in the room where it was hinged.
            if now < LEAST || overlap >= LEAST {
                continue;
            }
            let least = movement.ordinary.as_ref().map(|range| range.dry.overlap.of(side));
            let found = case.finely_against(overlap, LEAST);
            let (severity, words) = match least {
                None => (Severity::Fault, format!("to {found}")),
                Some(ordinary) => (
                    Severity::Note,
                    format!("to {}, or to {found} at worst", case.fine(ordinary)),
                ),
            };
            findings.push(Finding {
                rule: RULE.id,
                severity,
                place: Place::side(window, side),
                measured: Amount::Length(overlap),
                required: Amount::Length(LEAST),
                source: "derived from the paper's growth; common practice (2 mm)",
                message: format!(
                    "At {} % humidity the sheet shrinks away from its locating hinge: the overlap \
                     at the {} falls {words}. It needs at least {}. Cover more of the sheet \
                     there, or locate it by a hinge closer to that side.",
                    dry.humidity.text(),
                    side.name(),
                    case.fine(LEAST),
                ),
                remedy: nearer(case, window, sheet),
            });
        }
    }
}

/// Another hinge that holds the place, where every overlap is then enough at the driest and
/// none of what is damp is worse.
fn nearer(case: &Case<'_>, window: &Window, sheet: &Sheet) -> Option<Remedy> {
    let movement = &sheet.movement;
    let state = |x: Length, humidity| {
        let mut held = sheet.hinges.held(window);
        held.anchor.x = x;
        held.at(movement.bound.rates, movement.hinged_at, humidity)
    };
    let dry = movement.bound.dry.humidity;
    let x = sheet
        .hinges
        .hinges
        .iter()
        .filter(|hinge| !hinge.locates)
        .map(|hinge| (state(hinge.x, dry).overlap.least(), hinge.x))
        .filter(|(least, _)| *least >= LEAST)
        .max()?
        .1;
    let at = sheet.hinges.hinges.iter();
    let at = at.map(|hinge| HingeAt { x: hinge.x, locates: hinge.x == x }).collect();
    let hinging = crate::spec::Hinging { at, ..case.mat.assembly.hinging.clone() };
    Some(Remedy {
        words: format!("Locate by the hinge at {}", case.exact(x)),
        command: Command::SetHinging(case.variant, hinging),
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: derived (D), the worked example of the trade reference: 17 × 22 in held by 1/8 in.
    #[test]
    fn the_worked_example() {
        let mut document = worked();
        check(&document, RULE.id, "fault right");
        let found = found(&document, RULE.id).remove(0);
        assert_eq!(found.measured, Amount::Length(inches("1.9558mm")));
        // Paper or grain unknown: a Note, never a Fault.
        assembly_of(&mut document).grain = None;
        check(&document, RULE.id, "note right, note bottom");
        assembly_of(&mut document).paper = None;
        check(&document, RULE.id, "note right, note bottom");
        let assembly = assembly_of(&mut document);
        *assembly = crate::spec::Assembly::default();
        check(&document, RULE.id, "");
    }

    /// Source: derived (D): held in the middle of 17 in, 0.3 % of 8 1/2 in are lost at each side:
    /// 3.175 - 0.648 = 2.527 mm are left.
    #[test]
    fn the_hinge_in_the_middle_mends_it() {
        let mut document = worked();
        let hinging = &mut assembly_of(&mut document).hinging;
        hinging.at.insert(1, HingeAt { x: inches("8 1/2"), locates: false });
        check(&document, RULE.id, "fault right");
        assert_eq!(words(&document, RULE.id).1, "Locate by the hinge at 8 1/2 in");
        // Nothing that is at hand mends it with the two outer ones alone.
        assert_eq!(words(&worked(), RULE.id).1, "");
    }

    /// Source: derived (D): it just holds where the locating hinge is 15.42 in from the edge.
    #[test]
    fn limits() {
        for (x, wanted) in [("1.3335", "fault right"), ("1.3400", "fault right"), ("1.6", "")] {
            let mut document = worked();
            assembly_of(&mut document).hinging.at[0].x = inches(x);
            check(&document, RULE.id, wanted);
        }
    }

    /// Of 1/8 in are left 1.9558 mm, .077 in, where 2 mm, .079 in, are needed; at the bound of
    /// 0.03 % twice as much is lost, .096 in.
    #[test]
    fn in_words() {
        let mut document = worked();
        says(
            &document,
            RULE.id,
            "At 30 % humidity the sheet shrinks away from its locating hinge: the overlap at \
             the right falls to 0.077 in. It needs at least 0.079 in. Cover more of the sheet \
             there, or locate it by a hinge closer to that side.",
            "",
        );
        says(
            &metric(document.clone()),
            RULE.id,
            "At 30 % humidity the sheet shrinks away from its locating hinge: the overlap at \
             the right falls to 1.96 mm. It needs at least 2.00 mm. Cover more of the sheet \
             there, or locate it by a hinge closer to that side.",
            "",
        );
        assembly_of(&mut document).paper = None;
        says(
            &document,
            RULE.id,
            "At 30 % humidity the sheet shrinks away from its locating hinge: the overlap at \
             the right falls to 0.077 in, or to 0.029 in at worst. It needs at least 0.079 \
             in. Cover more of the sheet there, or locate it by a hinge closer to that side.",
            "",
        );
    }
}
