//! Between sheet and window nothing shows, unless the whole sheet is floated.

use super::overlap::HELD;
use super::remedy::hold;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::spec::usual_overlap;

pub(super) const RULE: Rule = Rule {
    id: "gap",
    judges: "whether board or backing shows between sheet and window",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let usual = usual_overlap(case.unit());
    for (opening, window) in case.windows() {
        let sides = window.overlap.each();
        // All four sides clear of the window are meant: that is a float.
        if sides.iter().all(|(_, overlap)| *overlap < -HELD) {
            continue;
        }
        for (side, overlap) in sides {
            if overlap >= -HELD {
                continue;
            }
            findings.push(Finding {
                rule: RULE.id,
                severity: Severity::Caution,
                place: Place::side(window, side),
                measured: Amount::Length(overlap),
                required: Amount::Length(usual),
                source: "common practice",
                message: format!(
                    "The sheet ends {} short of the window at the {}, so the backing shows. \
                     Cover its edge by {}, or float all four sides.",
                    case.text(-overlap),
                    side.name(),
                    case.text(usual),
                ),
                remedy: hold(case, (opening, window), side),
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::WindowBy;

    #[track_caller]
    fn case(unit: Unit, overlaps: &str, wanted: &str) {
        let mut document = plan(unit, "200x250mm");
        let reveal = sides(overlaps).map(|overlap| -overlap);
        mat(&mut document).openings[0].window_by = WindowBy::Reveal(reveal);
        check(&document, RULE.id, wanted);
    }

    /// Source: common practice.
    #[test]
    fn limits() {
        case(Millimetre, "-3mm", "");
        case(Millimetre, "3mm,3mm,-.501mm,3mm", "caution bottom");
        case(Millimetre, "3mm,3mm,-.5mm,3mm", "");
        case(Millimetre, "-3mm,0mm,-3mm,-3mm", "caution top, caution bottom, caution left");
        case(Inch, "1/8,-1/8,1/8,-1/8", "caution right, caution left");
        case(Inch, "-1/4", "");
    }

    #[test]
    fn in_words() {
        says(
            &overlapping("8x10", "1/8,1/8,-1/16,1/8"),
            RULE.id,
            "The sheet ends 1/16 in short of the window at the bottom, so the backing shows. \
             Cover its edge by 1/8 in, or float all four sides.",
            "Set the bottom overlap to 1/8 in",
        );
        says(
            &metric(overlapping("200x250mm", "3mm,3mm,-1mm,3mm")),
            RULE.id,
            "The sheet ends 1 mm short of the window at the bottom, so the backing shows. \
             Cover its edge by 3 mm, or float all four sides.",
            "Set the bottom overlap to 3 mm",
        );
    }
}
