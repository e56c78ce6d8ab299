//! Two hinges do not lie on each other.

use super::remedy::evenly;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Rect;
use crate::hinges::Hinge;
use crate::length::Length;

pub(super) const RULE: Rule =
    Rule { id: "hinge-overlap", judges: "whether two hinges overlap", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged() {
        for two in sheet.hinges.hinges.windows(2) {
            let [first, second] = two else { continue };
            let over = laps(first, second);
            if !over.is_positive() {
                continue;
            }
            findings.push(Finding {
                rule: RULE.id,
                severity: Severity::Fault,
                place: Place::window(window),
                measured: Amount::Length(over),
                required: Amount::Length(Length::ZERO),
                source: "common practice",
                message: format!(
                    "Two hinges overlap by {}. Move one of them, or leave it out.",
                    case.some(over),
                ),
                remedy: evenly(case),
            });
        }
    }
}

/// How far a hinge lies on the next one to the right.
pub(super) fn laps(first: &Hinge, second: &Hinge) -> Length {
    let right = first.cross.map_or(first.tab.right(), Rect::right);
    let left = second.cross.map_or(second.tab.left(), Rect::left);
    right - left
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: common practice: 1 1/2 in tabs with cross-pieces 1/2 in longer each side.
    #[test]
    fn limits() {
        check(&hinged_at("13x19", &["2", "4 1/2", "11"]), RULE.id, "");
        check(&hinged_at("13x19", &["2", "4.4999", "11"]), RULE.id, "fault");
        check(&hinged_at("13x19", &[]), RULE.id, "");
    }

    #[test]
    fn in_words() {
        says(
            &hinged_at("13x19", &["2", "4", "11"]),
            RULE.id,
            "Two hinges overlap by 1/2 in. Move one of them, or leave it out.",
            "Place the hinges evenly along the edge",
        );
    }
}
