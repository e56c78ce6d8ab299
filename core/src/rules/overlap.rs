//! Enough of the sheet must lie under the mat for the mat to hold it.

use super::remedy::hold;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;
use crate::spec::usual_overlap;

/// Sheet under the mat by more than this is held; within it, edge lies on edge.
/// Source: common practice.
pub(super) const HELD: Length = Length::um(500);
/// Least overlap that still holds the sheet. Source: common practice.
const LEAST: Length = Length::mm(2);

pub(super) const RULE: Rule =
    Rule { id: "overlap", judges: "how far the mat overlaps the sheet on each side", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    // 1/8 in or 3 mm: workshop tutorials on measuring a mat; common practice.
    let usual = usual_overlap(case.unit());
    for (opening, window) in case.windows() {
        for (side, overlap) in window.overlap.each() {
            if overlap <= HELD || overlap >= usual {
                continue;
            }
            let name = side.name();
            let (severity, required, source, message) = if overlap < LEAST {
                let found = case.against(overlap, LEAST);
                let message = format!(
                    "The mat overlaps the sheet by only {found} at the {name}. It needs at \
                     least {}, or this edge will slip out as the sheet shrinks and shifts.",
                    case.text(LEAST)
                );
                (Severity::Fault, LEAST, "common practice", message)
            } else {
                let found = case.against(overlap, usual);
                let message = format!(
                    "The mat overlaps the sheet by {found} at the {name}; {} is usual. It \
                     holds, but leaves the sheet little room to move.",
                    case.text(usual)
                );
                let source = "workshop tutorials on measuring a mat; common practice";
                (Severity::Caution, usual, source, message)
            };
            findings.push(Finding {
                rule: RULE.id,
                severity,
                place: Place::side(window, side),
                measured: Amount::Length(overlap),
                required: Amount::Length(required),
                source,
                message,
                remedy: hold(case, (opening, window), side),
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit;
    use crate::length::Unit::{Inch, Millimetre};
    use crate::spec::{InHand, WindowBy};

    #[track_caller]
    fn case(unit: Unit, overlaps: &str, wanted: &str) {
        let mut document = plan(unit, "200x250mm");
        let reveal = sides(overlaps).map(|overlap| -overlap);
        mat(&mut document).openings[0].window_by = WindowBy::Reveal(reveal);
        check(&document, RULE.id, wanted);
    }

    /// Source: workshop tutorials on measuring a mat (1/8 in); common practice (3 and 2 mm).
    #[test]
    fn limits() {
        case(Millimetre, "3mm", "");
        case(Millimetre, "2.999mm,3mm,3.001mm,4mm", "caution top");
        case(Millimetre, "2mm,2.5mm,3mm,3mm", "caution top, caution right");
        case(Millimetre, "3mm,3mm,1.999mm,2mm", "fault bottom, caution left");
        case(Millimetre, ".501mm,3mm,3mm,3mm", "fault top");
        case(Millimetre, ".5mm,-3mm,-.5mm,0mm", "");
        case(Inch, "1/8", "");
        case(Inch, "1/8in,.1251in,.1249in,3mm", "caution bottom, caution left");
        case(Inch, "2mm,1/8in,1/8in,1.999mm", "fault left, caution top");
    }

    #[test]
    fn a_sheet_moves_under_a_window_in_hand() {
        let in_hand = |sight: &str| {
            let mut document = plan(Inch, "8x10");
            mat(&mut document).openings[0].window_by = WindowBy::InHand(InHand {
                sight: size(sight),
                overlap_left: inches("1/16"),
                overlap_top: inches("1/4"),
            });
            document
        };
        let roomy = in_hand("7 3/4x9 1/2");
        check(&roomy, RULE.id, "fault left");
        assert_eq!(
            words(&roomy, RULE.id).1,
            "Move the sheet so that the left overlap is 1/8 in"
        );
        let tight = in_hand("7 13/16x9 1/2");
        check(&tight, RULE.id, "fault left");
        assert_eq!(words(&tight, RULE.id).1, "", "no place holds both sides");
    }

    #[test]
    fn in_words() {
        let mut document = plan(Millimetre, "200x250mm");
        mat(&mut document).openings[0].window_by =
            WindowBy::Reveal(sides("-2.5mm,-3mm,-3mm,-3mm"));
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The mat overlaps the sheet by 2.5 mm at the top; 3 mm is usual. It holds, but \
             leaves the sheet little room to move."
        );
        assert_eq!(remedy, "Set the top overlap to 3 mm");
        mat(&mut document).openings[0].window_by =
            WindowBy::Reveal(Sides::all(Length::from_units(1) - Length::mm(2)));
        assert!(words(&document, RULE.id).0.contains("by only just under 2 mm at the top"));
    }

    use crate::geometry::Sides;

    #[test]
    fn a_stop_in_words() {
        says(
            &overlapping("8x10", "1/16,1/8,1/8,1/8"),
            RULE.id,
            "The mat overlaps the sheet by only 1/16 in at the top. It needs at least 5/64 \
             in, or this edge will slip out as the sheet shrinks and shifts.",
            "Set the top overlap to 1/8 in",
        );
        says(
            &overlapping("8x10", "1/8,1/8,1/8,3/32"),
            RULE.id,
            "The mat overlaps the sheet by 3/32 in at the left; 1/8 in is usual. It holds, \
             but leaves the sheet little room to move.",
            "Set the left overlap to 1/8 in",
        );
    }
}
