//! Beyond the outer hinges a side of the sheet hangs free, and curls.

use super::remedy::evenly;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Side;
use crate::hinges::furthest_outer;

pub(super) const RULE: Rule = Rule {
    id: "hinge-outer",
    judges: "whether the outer hinges are close enough to the sheet's corners",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged() {
        let edge = window.sheet.size.width;
        let limit = furthest_outer(edge, case.unit());
        // A sheet that hangs from one hinge is judged by their number.
        let [first, .., last] = sheet.hinges.hinges.as_slice() else { continue };
        for (side, free) in [(Side::Right, edge - last.x), (Side::Left, first.x)] {
            if free <= limit {
                continue;
            }
            findings.push(Finding {
                rule: RULE.id,
                severity: Severity::Caution,
                place: Place::side(window, side),
                measured: Amount::Length(free),
                required: Amount::Length(limit),
                source: "Paschke, The Artist's Magazine, 2014 (just inside the corners); how far \
                         at most: common practice",
                message: format!(
                    "Seen from the front, the outer hinge at the {0} is {1} from the sheet's \
                     corner. Keep it within {2}, or that side of the sheet will sag.",
                    side.name(),
                    case.against(free, limit),
                    case.text(limit),
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
    use crate::length::Unit::Millimetre;

    /// Source: Paschke 2014: the outer two just inside the corners; common practice: at most
    /// 2 in from them, on small sheets the planned quarter and an eighth more.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(sheet: &str, at: &[&str], wanted: &str) {
            check(&hinged_at(sheet, at), RULE.id, wanted);
        }
        case("13x19", &[], "");
        case("13x19", &["1", "12"], "");
        case("13x19", &["7 5/8", "12"], "caution left");
        case("13x19", &["1", "7 5/8"], "caution right");
        case("13x19", &["2", "11"], "");
        case("13x19", &["2.0001", "11"], "caution left");
        case("13x19", &["2", "10.9999"], "caution right");
        case("13x19", &["5", "8"], "caution right, caution left");
        case("13x19", &["1", "6 1/2", "10 1/2"], "caution right");
        // A quarter of 4 in and an eighth.
        case("4x6", &["1", "2 1/2"], "");
        case("4x6", &["1", "2.4999"], "caution right");
        // One hinge: only their number is reported.
        case("13x19", &["6 1/2"], "");
    }

    /// Source: common practice: 50 mm.
    #[test]
    fn in_millimetres() {
        let mut document = hinged_at("500x700mm", &["50mm", "250mm", "450mm"]);
        document.unit = Millimetre;
        check(&document, RULE.id, "");
        assembly_of(&mut document).hinging.at[2].x = inches("449mm");
        check(&document, RULE.id, "caution right");
    }

    #[test]
    fn says_how_far_and_offers_what_is_planned() {
        let (message, remedy) = words(&hinged_at("13x19", &["7 5/8", "12"]), RULE.id);
        assert_eq!(
            message,
            "Seen from the front, the outer hinge at the left is 7 5/8 in from the sheet's \
             corner. Keep it within 2 in, or that side of the sheet will sag."
        );
        assert_eq!(remedy, "Place the hinges evenly along the edge");
    }

    #[test]
    fn in_millimetres_in_words() {
        says(
            &metric(hinged_at("500x700mm", &["50mm", "250mm", "446mm"])),
            RULE.id,
            "Seen from the front, the outer hinge at the right is 54 mm from the sheet's \
             corner. Keep it within 50 mm, or that side of the sheet will sag.",
            "Place the hinges evenly along the edge",
        );
    }
}
