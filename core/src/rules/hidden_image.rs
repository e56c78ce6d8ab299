//! The mat may hide a little of the image, as much as the person allows.

use super::case::by_unit;
use super::remedy::{wide_enough, with_backing};
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::{Rect, Side, Sides, Size};
use crate::layout::Window;
use crate::length::Length;
use crate::spec::{Fixing, Meets, Opening, usual_overlap};

/// Hidden image beyond this is worth a word where the person set no limit: 1/4 in or 6 mm.
/// Source: common practice.
const MUCH: (Length, Length) = (Length::inches(0, 1, 4), Length::mm(6));

pub(super) const RULE: Rule = Rule {
    id: "hidden-image",
    judges: "how much of the image the mat hides on each side",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let (severity, limit, source) = match case.mat.limits.hidden_image {
        Some(limit) => (Severity::Caution, limit.max(Length::ZERO), "your own limit"),
        None => (Severity::Note, by_unit(case.unit(), MUCH.0, MUCH.1), "common practice"),
    };
    for (opening, window) in case.windows() {
        for (side, reveal) in window.reveal.each() {
            let hidden = -reveal;
            if hidden <= limit {
                continue;
            }
            findings.push(Finding {
                rule: RULE.id,
                severity,
                place: Place::side(window, side),
                measured: Amount::Length(hidden),
                required: Amount::Length(limit),
                source,
                message: format!(
                    "The mat hides {} of the image at the {}; {} is {}. Make sure that \
                     nothing that matters, such as a signature, lies there.",
                    case.against(hidden, limit),
                    side.name(),
                    case.text(limit),
                    if severity == Severity::Note { "usual at most" } else { "your limit" },
                ),
                remedy: remedy(case, (opening, window), side, limit),
            });
        }
    }
}

/// A larger window, where the sheet stays well held and the borders stay wide enough.
fn remedy(
    case: &Case<'_>,
    (opening, window): (&Opening, &Window),
    side: Side,
    limit: Length,
) -> Option<Remedy> {
    let Meets::Reveal(reveal) = opening.meets else { return None };
    let more = -reveal.of(side) - limit;
    let held = window.overlap.of(side) - more >= usual_overlap(case.unit());
    let top = window.top()?;
    let outer = case.layout.exact.outer;
    let (outer, room) = match case.mat.fixing {
        // A larger window makes a larger mat, of which more may be asked.
        Fixing::Borders(_) => {
            let outer = if matches!(side, Side::Left | Side::Right) {
                Size::new(outer.width + more, outer.height)
            } else {
                Size::new(outer.width, outer.height + more)
            };
            let stock = case.tables.stock.iter().any(|row| outer.fits(row.size));
            (outer, stock && wide_enough(case, outer, top.borders))
        }
        // The borders give way, and with them the sheet may move.
        Fixing::Outer { size, .. } => {
            let clear = |ground: Rect| window.sheet.within(ground).least() >= more;
            let narrower = top.borders.minus(Sides::all(more));
            let clear = clear(case.board()) && clear(case.layout.exact.backing);
            (size, clear && wide_enough(case, size, narrower))
        }
    };
    if !held || !room || case.layout.in_hand {
        return None;
    }
    let words = if limit == Length::ZERO {
        format!("Hide nothing at the {}", side.name())
    } else {
        format!("Hide only {} at the {}", case.text(limit), side.name())
    };
    let meets = Meets::Reveal(reveal.with(side, -limit));
    let command = Command::SetMeets(case.variant, opening.id, meets);
    Some(Remedy { words, command: with_backing(case, command, outer) })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};

    #[track_caller]
    fn case(unit: Unit, limit: Option<&str>, hidden: &str, wanted: &str) {
        let mut document = plan(unit, "200x250mm");
        let mat = mat(&mut document);
        mat.limits.hidden_image = limit.map(inches);
        mat.openings[0].meets = Meets::Reveal(sides(hidden).map(|hidden| -hidden));
        check(&document, RULE.id, wanted);
    }

    /// Source: common practice.
    #[test]
    fn limits() {
        case(Inch, None, "1/4", "");
        case(Inch, None, "1/4,1/4,.2501,.2499", "note bottom");
        case(Millimetre, None, "6mm,6.001mm,5.999mm,3mm", "note right");
        case(Millimetre, Some("4mm"), "4mm,4.001mm,3.999mm,9mm", "caution right, caution left");
        case(Inch, Some("0"), "1/8,-1/8,0,0", "caution top");
        case(Inch, Some("1/2"), "1/2,3/8,1/8,1/8", "");
    }

    #[test]
    fn a_way_out_only_where_the_sheet_stays_held() {
        let mut document = plan(Inch, "8x10");
        mat(&mut document).openings[0].meets = Meets::Reveal(sides("-1/2,-1/8,-1/8,-1/8"));
        assert_eq!(words(&document, RULE.id).1, "Hide only 1/4 in at the top");
        mat(&mut document).limits.hidden_image = Some(inches("1/16"));
        check(&document, RULE.id, "caution top, caution right, caution bottom, caution left");
        assert_eq!(words(&document, RULE.id).1, "");
    }
}
