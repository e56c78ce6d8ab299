//! Enough of the sheet must lie under the mat when it is driest, too.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;

/// Least overlap that still holds the sheet. Source: common practice.
const LEAST: Length = Length::mm(2);

pub(super) const RULE: Rule = Rule {
    id: "movement-overlap",
    judges: "how far the mat lies on the sheet at its driest",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.moving() {
        let movement = &sheet.movement;
        let dry = &movement.bound.dry;
        for (side, overlap) in dry.overlap.each() {
            let now = window.overlap.of(side);
            // What is short in the room where it was hinged is told by `overlap`.
            if now < LEAST || overlap >= LEAST {
                continue;
            }
            let least = movement.ordinary.as_ref().map(|range| range.dry.overlap.of(side));
            let (severity, words) = match least {
                None => (Severity::Stop, "the mat lies on the sheet by only".to_owned()),
                Some(ordinary) => (
                    Severity::Note,
                    format!(
                        "paper or grain is not known; ordinarily the overlap would be {}, at the \
                         upper bound",
                        case.text(ordinary)
                    ),
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
                    "At {} % the sheet shrinks away from its locating hinge: at the {} {words} {}. \
                     At least {} is needed; give more overlap there, or locate nearer.",
                    dry.humidity.text(),
                    side.name(),
                    case.against(overlap, LEAST),
                    case.text(LEAST),
                ),
                remedy: None,
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: derived (D), the worked example of the trade reference: 17 × 22 in held by 1/8 in.
    #[test]
    fn the_worked_example() {
        let mut document = worked();
        check(&document, RULE.id, "stop right");
        let found = found(&document, RULE.id).remove(0);
        assert_eq!(found.measured, Amount::Length(inches("1.9558mm")));
        // Paper or grain unknown: a Note, never a Stop.
        behind_of(&mut document).grain = None;
        check(&document, RULE.id, "note right, note bottom");
        behind_of(&mut document).paper = None;
        check(&document, RULE.id, "note right, note bottom");
        let behind = behind_of(&mut document);
        *behind = crate::spec::Behind::default();
        check(&document, RULE.id, "");
    }

    /// Source: derived (D): it just holds where the locating hinge is 15.42 in from the edge.
    #[test]
    fn limits() {
        for (x, wanted) in [("1.3335", "stop right"), ("1.3400", "stop right"), ("1.6", "")] {
            let mut document = worked();
            behind_of(&mut document).hinging.at[0].x = inches(x);
            check(&document, RULE.id, wanted);
        }
    }
}
