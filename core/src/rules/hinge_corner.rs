//! A hinge too near the sheet's corner lets the corner turn up, and its tab cannot be reached.

use super::case::by_unit;
use super::remedy::evenly;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::hinges::Usual;
use crate::length::Length;

/// From a tab's end to the sheet's corner: 1/8 in or 3 mm. Source: from memory.
const LEAST: (Length, Length) = (Length::inches(0, 1, 8), Length::mm(3));

/// The same in the plan's unit.
pub(super) fn least(case: &Case<'_>) -> Length {
    by_unit(case.unit(), LEAST.0, LEAST.1)
}

pub(super) const RULE: Rule = Rule {
    id: "hinge-corner",
    judges: "whether a hinge is too close to the sheet's corner",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let least = least(case);
    for (window, sheet) in case.hinged() {
        for hinge in &sheet.hinges.hinges {
            let near = (hinge.tab.left() - window.sheet.left())
                .min(window.sheet.right() - hinge.tab.right());
            if near >= least || near.is_negative() {
                continue;
            }
            findings.push(Finding {
                rule: RULE.id,
                severity: Severity::Caution,
                place: Place::window(window),
                measured: Amount::Length(near),
                required: Amount::Length(least),
                source: "from memory",
                message: format!(
                    "A hinge ends {} from the sheet's corner. Leave at least {}, or the \
                     corner will curl up; the hinge's middle is usually about {} from the \
                     corner.",
                    case.against(near, least),
                    case.text(least),
                    case.text(Usual::of(case.unit()).from_corner),
                ),
                remedy: evenly(case),
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: from memory.
    #[test]
    fn limits() {
        case(&["1", "7"], "");
        case(&["7/8", "7 1/8"], "");
        case(&[".8749", "7"], "caution");
        case(&["1", "7.1251"], "caution");
        case(&[], "");
    }

    #[track_caller]
    fn case(at: &[&str], wanted: &str) {
        check(&hinged_at("8x10", at), RULE.id, wanted);
    }

    #[test]
    fn in_words() {
        says(
            &hinged_at("8x10", &["13/16", "7"]),
            RULE.id,
            "A hinge ends 1/16 in from the sheet's corner. Leave at least 1/8 in, or the \
             corner will curl up; the hinge's middle is usually about 1 in from the corner.",
            "Place the hinges evenly along the edge",
        );
        // A tab of 40 mm.
        says(
            &metric(hinged_at("200x250mm", &["22mm", "175mm"])),
            RULE.id,
            "A hinge ends 2 mm from the sheet's corner. Leave at least 3 mm, or the corner \
             will curl up; the hinge's middle is usually about 25 mm from the corner.",
            "Place the hinges evenly along the edge",
        );
    }
}
