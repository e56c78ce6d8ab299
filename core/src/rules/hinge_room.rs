//! Above the sheet there must be room for the cross-pieces, the yielding ones higher up.

use super::case::by_unit;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Side;
use crate::hinges::Usual;
use crate::length::Length;
use crate::spec::HingeKind;

/// Room for the lowest T hinges of use: 1/2 in or 12 mm. Source: derived from gap and tab.
const LEAST: (Length, Length) = (Length::inches(0, 1, 2), Length::mm(12));

pub(super) const RULE: Rule = Rule {
    id: "hinge-room",
    judges: "whether there is room above the sheet for its hinges",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let least = by_unit(case.unit(), LEAST.0, LEAST.1);
    for (window, sheet) in case.hinged() {
        let plan = &sheet.hinges;
        let Some(highest) = plan.hinges.iter().map(|hinge| hinge.rise).max() else { continue };
        if plan.kind != HingeKind::T {
            continue;
        }
        let room = plan.room_above;
        let least_room = Usual::of(case.unit()).least_room();
        let (severity, required) = if room < least_room {
            (Severity::Fault, least_room)
        } else if highest > room {
            (Severity::Fault, highest)
        } else if room < least {
            (Severity::Caution, least)
        } else {
            continue;
        };
        findings.push(Finding {
            rule: RULE.id,
            severity,
            place: Place::side(window, Side::Top),
            measured: Amount::Length(room),
            required: Amount::Length(required),
            source: "derived from gap and tab (Paschke 2014); least cross-piece by common practice",
            message: format!(
                "There is {} of room above the sheet, and the hinges need {} (loose ones need \
                 the most). Widen the top border, or use corner pockets or edge strips.",
                case.against(room, required),
                case.text(required),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::spec::BoardBy;
    /// Source: derived: gap 1/8 in + half of a 1/2 in cross-piece, and 1/8 in more to yield.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(top: &str, longer: Option<&str>, wanted: &str) {
            let mut document = hinged_at("8x10", &["1", "7"]);
            let mat = mat(&mut document);
            let mut borders = sides("2");
            borders.top = inches(top);
            mat.board_by = BoardBy::Borders(borders);
            mat.assembly.hinging.longer = longer.map(inches);
            check(&document, RULE.id, wanted);
        }
        // The sheet reaches 1/8 in under the mat; the board is upright, its hinge at the left.
        case("5/8", None, "");
        case(".6249", None, "caution top");
        // A cross-piece of 1/4 in and a gap of 1/8 in.
        case("1/2", None, "caution top");
        case(".4999", None, "fault top");
        case("2", Some("1 1/4"), "");
        case("2", Some("1.2501"), "fault top");
    }

    /// Source: common practice: a cross-piece is 1/4 in high at least. Where the sheet reaches to
    /// the board's end, T hinges are not chosen; asked for, they are stopped.
    #[test]
    fn no_room_at_all() {
        let mut document = plan(crate::length::Unit::Inch, "13x19");
        let mat = mat(&mut document);
        mat.board_by =
            BoardBy::Outer { size: size("13x19"), placement: crate::spec::Placement::Centred };
        let kind = |document: &crate::spec::Document| {
            let tables = crate::material::Tables::shipped();
            let derived = crate::derived::derive(document, &document.variants[0], tables);
            derived.assembly.sheets[0].hinges.kind
        };
        assert_eq!(kind(&document), HingeKind::Strips);
        assembly_of(&mut document).hinging.kind = Some(HingeKind::T);
        check(&document, RULE.id, "fault top");
    }

    #[test]
    fn in_words() {
        let under = |top| with_borders(hinged_at("8x10", &["1", "7"]), &format!("{top},2,2,2"));
        // The sheet reaches 1/8 in under the mat.
        for (top, room, needed) in [("9/16", "7/16", "1/2"), ("7/16", "5/16", "3/8")] {
            says(
                &under(top),
                RULE.id,
                &format!(
                    "There is {room} in of room above the sheet, and the hinges need {needed} \
                     in (loose ones need the most). Widen the top border, or use corner \
                     pockets or edge strips."
                ),
                "",
            );
        }
    }
}
