//! A mat's border must be wide enough to stay flat and whole. The figures are in `least_border`.

use super::least_border;
use super::remedy::widen;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "narrow-border",
    judges: "whether the top mat's borders are wide enough to be strong",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let limit = least_border::plain(case, case.layout.exact.outer);
    let source =
        if case.mat.limits.least_border.is_some() { "your own limit" } else { "from memory" };
    for (_, window) in case.windows() {
        let Some(top) = window.top() else { continue };
        for (side, border) in top.borders.each() {
            // Outside the board there is no border to judge: off-board reports it.
            if border.is_negative() || border >= limit {
                continue;
            }
            let weak = border * 2 < limit;
            let (severity, why) = if weak {
                (Severity::Fault, "the strip will bend or tear")
            } else {
                (Severity::Caution, "it may bow, and tear at the corners")
            };
            findings.push(Finding {
                rule: RULE.id,
                severity,
                place: Place::top_layer(window, side),
                measured: Amount::Length(border),
                required: Amount::Length(limit),
                source,
                message: format!(
                    "The {} border is {} wide. A mat of this size needs at least {}, or {why}.",
                    side.name(),
                    case.against(border, limit),
                    case.text(limit),
                ),
                remedy: widen(case, side, border, |outer| least_border::plain(case, outer)),
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::geometry::Sides;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::{BoardBy, Placement};

    #[track_caller]
    fn case(unit: Unit, sheet: &str, least: Option<&str>, borders: &str, wanted: &str) {
        let mut document = plan(unit, sheet);
        let mat = mat(&mut document);
        mat.limits.least_border = least.map(inches);
        mat.board_by = BoardBy::Borders(sides(borders));
        check(&document, RULE.id, wanted);
    }

    /// Source: from memory.
    #[test]
    fn limits() {
        case(Inch, "10x12", None, "1", "");
        case(Inch, "10x12", None, "1,.9999,1,1.0001", "caution right");
        case(Inch, "10x12", None, "1/2,1,.4999,1", "fault bottom, caution top");
        case(Inch, "10x12", None, "0,1,1,1", "fault top");
        case(Inch, "10x12", None, "-1/8,1,1,1", "");
        case(
            Millimetre,
            "250x300mm",
            None,
            "25mm,24.999mm,12.499mm,12.5mm",
            "fault bottom, caution right, caution left",
        );
        case(Inch, "10x12", Some("2"), "2,1.99,.99,2", "fault bottom, caution right");
        case(Inch, "10x12", Some("0"), "1/16", "");
    }

    /// Source: from memory: 4 1/4 in of window and 2 borders of 7/8: 6 in, an eighth is 3/4.
    #[test]
    fn small_pieces() {
        case(Inch, "4 3/4x7", None, "3/4", "");
        case(Inch, "4 3/4x7", None, "3/4,3/4,.7499,3/4", "caution bottom");
        case(Inch, "6 1/4x9", None, "1", "");
        case(Inch, "6 1/4x9", None, ".9999,1,1,1", "caution top");
        case(Millimetre, "126x180mm", None, "20mm", "");
        case(Millimetre, "126x180mm", None, "19.999mm,20mm,20mm,20mm", "caution top");
    }

    #[test]
    fn a_given_outer_size_grows() {
        for (placement, words_wanted) in [
            (Placement::Centred, "Make the mat 9 1/2 × 11 3/4 in"),
            (Placement::BottomExtra(inches("1/4")), "Make the mat 9 1/2 × 12 in"),
            (
                Placement::Free { left: inches("3/4"), top: inches("3/4") },
                "Make the mat 9 1/2 × 11 3/4 in",
            ),
        ] {
            let mut document = plan(Inch, "8x10");
            mat(&mut document).board_by =
                BoardBy::Outer { size: size("9 1/2x11 1/2"), placement };
            check(&document, RULE.id, &summary(&document, RULE.id));
            let (message, words) = words(&document, RULE.id);
            assert_eq!(words, words_wanted, "{message}");
        }
        let mut document = plan(Inch, "8x10");
        let mat = mat(&mut document);
        mat.board_by = BoardBy::Borders(
            Sides::all(inches("1")).with(crate::geometry::Side::Left, inches("7/8")),
        );
        mat.backing.size = Some(size("9 5/8x11 3/4"));
        check(&document, RULE.id, "caution left");
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The left border is 7/8 in wide. A mat of this size needs at least 1 in, or it \
             may bow, and tear at the corners."
        );
        assert_eq!(remedy, "Widen the left border to 1 in");
    }

    #[test]
    fn in_millimetres() {
        says(
            &metric(bordered("200x250mm", "40mm,40mm,40mm,20mm")),
            RULE.id,
            "The left border is 20 mm wide. A mat of this size needs at least 25 mm, or it \
             may bow, and tear at the corners.",
            "Widen the left border to 25 mm",
        );
    }
}
