//! The mat may hide a little of the image, as much as the person allows.

use super::case::by_unit;
use super::remedy::{wide_enough, with_backing};
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::{Rect, Side, Sides, Size};
use crate::layout::Window;
use crate::length::Length;
use crate::spec::{BoardBy, Opening, WindowBy, usual_overlap};

/// Hidden image beyond this is worth a word where the person set no limit: 1/4 in or 6 mm.
/// Source: common practice.
const MUCH: (Length, Length) = (Length::inches(0, 1, 4), Length::mm(6));

/// Beyond this a picture is likely to miss it, where the person set no limit: 1/2 in or 12 mm.
/// Source: common practice.
const TOO_MUCH: (Length, Length) = (Length::inches(0, 1, 2), Length::mm(12));

pub(super) const RULE: Rule = Rule {
    id: "hidden-image",
    judges: "how much of the image the mat hides on each side",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let usual = |(inch, metric)| by_unit(case.unit(), inch, metric);
    let own = case.mat.limits.hidden_image.map(|limit| limit.max(Length::ZERO));
    // A way out leaves no word of this rule behind.
    let least = own.unwrap_or(usual(MUCH));
    let most = own.unwrap_or(usual(TOO_MUCH));
    for (opening, window) in case.windows() {
        for (side, reveal) in window.reveal.each() {
            let hidden = -reveal;
            if hidden <= least {
                continue;
            }
            let (severity, limit) =
                if hidden > most { (Severity::Caution, most) } else { (Severity::Note, least) };
            let text = case.text(limit);
            let known = match (own, severity) {
                (Some(_), _) => format!("{text} is your limit"),
                (None, Severity::Note) => format!("up to {text} is usual"),
                (None, _) => format!("beyond {text} it is usually missed"),
            };
            findings.push(Finding {
                rule: RULE.id,
                severity,
                place: Place::side(window, side),
                measured: Amount::Length(hidden),
                required: Amount::Length(limit),
                source: if own.is_some() { "your own limit" } else { "common practice" },
                message: format!(
                    "The mat hides {} of the image at the {}; {known}. In all it covers {} of \
                     the picture. Make sure that it hides nothing important, such as a \
                     signature.",
                    case.against(hidden, limit),
                    side.name(),
                    covered(window),
                ),
                remedy: remedy(case, (opening, window), side, least),
            });
        }
    }
}

/// The share of the image that the mat covers on all sides together.
fn covered(window: &Window) -> String {
    let image = window.image.size;
    let [top, right, bottom, left] =
        window.reveal.each().map(|(_, reveal)| reveal.min(Length::ZERO));
    let area = |width: Length, height: Length| {
        i128::from(width.max(Length::ZERO).units())
            * i128::from(height.max(Length::ZERO).units())
    };
    let whole = area(image.width, image.height).max(1);
    let seen = area(image.width + left + right, image.height + top + bottom);
    // Whole percents, the nearest; a little is never none.
    let percent = (100 * (whole - seen) + whole / 2) / whole;
    if percent < 1 { "less than 1 %".to_owned() } else { format!("{percent} %") }
}

/// A larger window, where the sheet stays well held and the borders stay wide enough.
fn remedy(
    case: &Case<'_>,
    (opening, window): (&Opening, &Window),
    side: Side,
    limit: Length,
) -> Option<Remedy> {
    let WindowBy::Reveal(reveal) = opening.window_by else { return None };
    let more = -reveal.of(side) - limit;
    let held = window.overlap.of(side) - more >= usual_overlap(case.unit());
    let top = window.top()?;
    let outer = case.layout.exact.outer;
    let (outer, room) = match case.mat.board_by {
        // A larger window makes a larger mat, of which more may be asked.
        BoardBy::Borders(_) => {
            let outer = if matches!(side, Side::Left | Side::Right) {
                Size::new(outer.width + more, outer.height)
            } else {
                Size::new(outer.width, outer.height + more)
            };
            let stock = case.tables.stock.iter().any(|row| outer.fits(row.size));
            (outer, stock && wide_enough(case, outer, top.borders))
        }
        // The borders give way, and with them the sheet may move.
        BoardBy::Outer { size, .. } => {
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
        format!("Hide only {} at the {}", case.exact(limit), side.name())
    };
    let window_by = WindowBy::Reveal(reveal.with(side, -limit));
    let command = Command::SetWindowBy(case.variant, opening.id, window_by);
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
        mat.openings[0].window_by = WindowBy::Reveal(sides(hidden).map(|hidden| -hidden));
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
        // Unset, beyond 1/2 in (12 mm) on a side.
        case(Inch, None, "1/2,.5001,5,1/4", "caution right, caution bottom, note top");
        case(Millimetre, None, "12mm,12.001mm,6mm,0mm", "caution right, note top");
        // A limit of one's own holds where it is wider, too.
        case(Inch, Some("1"), "1,1.0001,3/4,0", "caution right");
    }

    /// Source: derived: of 5 × 7 in covered by 1/8 in all round 4 3/4 × 6 3/4 is seen:
    /// 32.06 of 35 in², so 8.4 % is lost.
    #[test]
    fn the_share_that_is_lost() {
        #[track_caller]
        fn case(sheet: &str, hidden: &str, share: &str) {
            let mut document = plan(Inch, sheet);
            mat(&mut document).limits.hidden_image = Some(Length::ZERO);
            mat(&mut document).openings[0].window_by =
                WindowBy::Reveal(sides(hidden).map(|hidden| -hidden));
            let said = words(&document, RULE.id).0;
            assert!(
                said.contains(&format!("In all it covers {share} of the picture.")),
                "{said}"
            );
        }
        case("5x7", "1/8", "8 %");
        // 1/2 of 10 in; paper that shows on the other sides covers nothing.
        case("8x10", "1/2,-1/2,-1/2,-1/2", "5 %");
        case("8x10", "1/64,0,0,0", "less than 1 %");
    }

    #[test]
    fn a_way_out_only_where_the_sheet_stays_held() {
        let mut document = plan(Inch, "8x10");
        mat(&mut document).openings[0].window_by =
            WindowBy::Reveal(sides("-1/2,-1/8,-1/8,-1/8"));
        assert_eq!(words(&document, RULE.id).1, "Hide only 1/4 in at the top");
        mat(&mut document).limits.hidden_image = Some(inches("1/16"));
        check(&document, RULE.id, "caution top, caution right, caution bottom, caution left");
        assert_eq!(words(&document, RULE.id).1, "");
    }

    /// Of 8 × 10 in are seen 7 3/4 × 9 3/8, then 7 3/4 × 9 1/4, then 8 × 9 7/8 in.
    #[test]
    fn in_words() {
        let rest = "Make sure that it hides nothing important, such as a signature.";
        says(
            &overlapping("8x10", "1/2,1/8,1/8,1/8"),
            RULE.id,
            &format!(
                "The mat hides 1/2 in of the image at the top; up to 1/4 in is usual. In all \
                 it covers 9 % of the picture. {rest}"
            ),
            "Hide only 1/4 in at the top",
        );
        says(
            &overlapping("8x10", "5/8,1/8,1/8,1/8"),
            RULE.id,
            &format!(
                "The mat hides 5/8 in of the image at the top; beyond 1/2 in it is usually \
                 missed. In all it covers 10 % of the picture. {rest}"
            ),
            "Hide only 1/4 in at the top",
        );
        let mut limited = overlapping("8x10", "1/8,-1/8,0,0");
        mat(&mut limited).limits.hidden_image = Some(Length::ZERO);
        says(
            &limited,
            RULE.id,
            &format!(
                "The mat hides 1/8 in of the image at the top; 0 in is your limit. In all it \
                 covers 1 % of the picture. {rest}"
            ),
            "",
        );
        // Paper round the image is left to hold, once nothing of it is hidden.
        let mut margin = with_overlaps(reference(), "1/8,-1/4,-1/4,-1/4");
        mat(&mut margin).limits.hidden_image = Some(Length::ZERO);
        says(
            &margin,
            RULE.id,
            &format!(
                "The mat hides 1/8 in of the image at the top; 0 in is your limit. In all it \
                 covers 1 % of the picture. {rest}"
            ),
            "Hide nothing at the top",
        );
        says(
            &metric(overlapping("200x250mm", "10mm,3mm,3mm,3mm")),
            RULE.id,
            &format!(
                "The mat hides 10 mm of the image at the top; up to 6 mm is usual. In all it \
                 covers 8 % of the picture. {rest}"
            ),
            "Hide only 6 mm at the top",
        );
    }
}
