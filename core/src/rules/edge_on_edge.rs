//! A sheet that ends where the window does is neither held nor floated.

use super::overlap::HELD;
use super::remedy::{hold, overlaps};
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::{Side, Sides};
use crate::layout::Window;
use crate::spec::{Opening, WindowBy, usual_overlap};

pub(super) const RULE: Rule = Rule {
    id: "edge-on-edge",
    judges: "whether an edge of the sheet is right at the sight edge",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (opening, window) in case.windows() {
        for (side, overlap) in window.overlap.each() {
            if overlap.abs() > HELD {
                continue;
            }
            findings.push(Finding {
                rule: RULE.id,
                severity: Severity::Fault,
                place: Place::side(window, side),
                measured: Amount::Length(overlap),
                required: Amount::Length(usual_overlap(case.unit())),
                source: "common practice",
                message: format!(
                    "The sheet's {} edge is right at the sight edge (overlap {}): it will \
                     catch on the bevel and slip through. Cover it by {}, or leave it well \
                     inside the window.",
                    side.name(),
                    case.text(overlap),
                    case.text(usual_overlap(case.unit())),
                ),
                remedy: remedy(case, (opening, window), side),
            });
        }
    }
}

/// Where the other three sides float, this one floats with them; else it is held.
fn remedy(case: &Case<'_>, of: (&Opening, &Window), side: Side) -> Option<Remedy> {
    let (opening, window) = of;
    let others = Side::ALL.into_iter().filter(|other| *other != side);
    let floated = others.clone().all(|other| window.overlap.of(other) < -HELD);
    if !floated || matches!(opening.window_by, WindowBy::InHand(_)) {
        return hold(case, of, side);
    }
    let as_across = window.overlap.of(side.opposite());
    let words = format!("Float the {} by {} too", side.name(), case.exact(-as_across));
    let command = overlaps(case, of, Sides::all(None).with(side, Some(as_across)))?;
    Some(Remedy { words, command })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};

    #[track_caller]
    fn case(unit: Unit, overlaps: &str, wanted: &str, way_out: &str) {
        let mut document = plan(unit, "200x250mm");
        let reveal = sides(overlaps).map(|overlap| -overlap);
        mat(&mut document).openings[0].window_by = WindowBy::Reveal(reveal);
        check(&document, RULE.id, wanted);
        if !wanted.is_empty() {
            assert_eq!(words(&document, RULE.id).1, way_out);
        }
    }

    /// Source: common practice.
    #[test]
    fn limits() {
        let held = "Set the right overlap to 3 mm";
        case(Millimetre, "3mm,.5mm,3mm,3mm", "fault right", held);
        case(Millimetre, "3mm,0mm,3mm,3mm", "fault right", held);
        case(Millimetre, "3mm,-.5mm,3mm,3mm", "fault right", held);
        case(Millimetre, "3mm,.501mm,3mm,-.501mm", "", "");
        case(Inch, "1/64,1/8,1/8,0", "fault top, fault left", "Set the top overlap to 1/8 in");
        case(Inch, "-1/4,-1/4,-1/4,0", "fault left", "Float the left by 1/4 in too");
    }

    #[test]
    fn in_words() {
        says(
            &overlapping("8x10", "-1/4,-1/4,-1/4,1/64"),
            RULE.id,
            "The sheet's left edge is right at the sight edge (overlap 1/64 in): it will \
             catch on the bevel and slip through. Cover it by 1/8 in, or leave it well inside \
             the window.",
            "Float the left by 1/4 in too",
        );
        says(
            &metric(overlapping("200x250mm", "3mm,0mm,3mm,3mm")),
            RULE.id,
            "The sheet's right edge is right at the sight edge (overlap 0 mm): it will catch \
             on the bevel and slip through. Cover it by 3 mm, or leave it well inside the \
             window.",
            "Set the right overlap to 3 mm",
        );
    }
}
