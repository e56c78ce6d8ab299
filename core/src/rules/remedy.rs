//! Ways out that several rules share. Each is offered only where it clears its finding and
//! brings no worse one; a mat that was bought ready cut is never offered another window.

use super::{Case, hinge_hold, least_border};
use crate::assembly::Sheet;
use crate::command::Command;
use crate::finding::{Remedy, Severity};
use crate::geometry::{Side, Sides, Size};
use crate::hinges::{self, Usual, suits_without_adhesive};
use crate::layout::{Window, optical_top};
use crate::length::Length;
use crate::spec::{
    Assembly, Backing, BoardBy, Hinging, InHand, Mat, Opening, Placement, WindowBy,
    usual_overlap,
};

/// The words and the overlap for holding one side by the usual amount.
pub(super) fn hold(case: &Case<'_>, of: (&Opening, &Window), side: Side) -> Option<Remedy> {
    let usual = usual_overlap(case.unit());
    let command = overlaps(case, of, Sides::all(None).with(side, Some(usual)))?;
    let text = case.exact(usual);
    let words = match of.0.window_by {
        WindowBy::Reveal(_) => format!("Set the {} overlap to {text}", side.name()),
        WindowBy::InHand(_) => {
            format!("Move the sheet so that the {} overlap is {text}", side.name())
        }
    };
    Some(Remedy { words, command })
}

/// The overlaps changed where `wanted` names one: by another window, or by moving the sheet
/// under a window in hand where both sides of it can then be held.
pub(super) fn overlaps(
    case: &Case<'_>,
    (opening, window): (&Opening, &Window),
    wanted: Sides<Option<Length>>,
) -> Option<Command> {
    let window_by = match opening.window_by {
        WindowBy::Reveal(reveal) => {
            let more = wanted
                .zip(window.overlap, |wanted, now| wanted.map_or(Length::ZERO, |w| w - now));
            let (taken, sight) = (more.sums(), window.sight.size);
            let left = Size::new(sight.width - taken.width, sight.height - taken.height);
            // The sheet reaches further out under the mat: it must stay under it.
            let under = wanted
                .zip(case.reach(window), |wanted, reach| wanted.is_none_or(|w| w <= reach));
            let lies_well = optical_holds(case, window, taken.width)
                && under.each().iter().all(|(_, under)| *under);
            if !left.is_positive() || !lies_well {
                return None;
            }
            WindowBy::Reveal(reveal.minus(more))
        }
        WindowBy::InHand(hand) => {
            let sums = window.overlap.sums();
            let usual = usual_overlap(case.unit());
            let first = |first: Option<Length>, last: Option<Length>, now, sum: Length| {
                let first = match (first, last) {
                    (None, None) => return Some(now),
                    (Some(first), None) => first,
                    (None, Some(last)) => sum - last,
                    (Some(_), Some(_)) => sum.halves().0,
                };
                (first >= usual && sum - first >= usual).then_some(first)
            };
            WindowBy::InHand(InHand {
                sight: hand.sight,
                overlap_left: first(wanted.left, wanted.right, hand.overlap_left, sums.width)?,
                overlap_top: first(wanted.top, wanted.bottom, hand.overlap_top, sums.height)?,
            })
        }
    };
    Some(Command::SetWindowBy(case.variant, opening.id, window_by))
}

/// Hinges put by hand given up for those placed along the edge. Sizes that were given may
/// not fit there: then nothing is offered.
pub(super) fn evenly(case: &Case<'_>) -> Option<Remedy> {
    let mut hinging = case.mat.assembly.hinging.clone();
    if hinging.at.is_empty() || hinging.width.is_some() {
        return None;
    }
    hinging.at.clear();
    Some(Remedy {
        words: "Place the hinges evenly along the edge".to_owned(),
        command: Command::SetHinging(case.variant, hinging),
    })
}

/// Pockets or strips, where the overlap hides them and the sheet has room in them when damp.
pub(super) fn without_adhesive(
    case: &Case<'_>,
    window: &Window,
    sheet: &Sheet,
) -> Option<Remedy> {
    let grown = sheet.movement.bound.damp.moved.sums();
    let slack = case.mat.assembly.hinging.slack.unwrap_or(Usual::of(case.unit()).slack);
    if grown.width > slack || grown.height > slack {
        return None;
    }
    let kind = suits_without_adhesive(window.overlap)?;
    let hinging = Hinging { kind: Some(kind), ..case.mat.assembly.hinging.clone() };
    let assembly = Assembly { hinging: hinging.clone(), ..case.mat.assembly.clone() };
    let mat = Mat { assembly, ..case.mat.clone() };
    let after = hinges::plan(case.unit(), &mat, case.layout, window);
    let lost = hinge_hold::judged(case, &sheet.movement, &after);
    if lost.is_some_and(|(severity, _)| severity > Severity::Note) {
        return None;
    }
    Some(Remedy {
        words: format!("Hold the sheet by {}", kind.name()),
        command: Command::SetHinging(case.variant, hinging),
    })
}

/// The backing as large as the mat.
pub(super) fn full_backing(case: &Case<'_>) -> Remedy {
    let backing = Backing { size: None, board: case.mat.backing.board.clone() };
    Remedy {
        words: "Make the backing as large as the mat".to_owned(),
        command: Command::SetBacking(case.variant, backing),
    }
}

/// `command` makes the mat `outer`; the backing grows with it where it would be too small.
pub(super) fn with_backing(case: &Case<'_>, command: Command, outer: Size) -> Command {
    match case.mat.backing.size {
        Some(size) if size.width < outer.width || size.height < outer.height => {
            let size = Size::new(size.width.max(outer.width), size.height.max(outer.height));
            let board = case.mat.backing.board.clone();
            let backing = Backing { size: Some(size), board };
            Command::Together(
                command.name(),
                vec![command, Command::SetBacking(case.variant, backing)],
            )
        }
        _ => command,
    }
}

/// Whether top borders such as these, on a mat of that size, are wide enough for every rule.
pub(super) fn wide_enough(case: &Case<'_>, outer: Size, borders: Sides<Length>) -> bool {
    borders.each().iter().all(|(side, border)| {
        *border >= least_border::plain(case, outer)
            && (!case.mat.exhibition
                || *border >= least_border::exhibition(case.unit(), outer, *side))
    })
}

/// Whether every window can be moved by that much to the right and down: its borders stay
/// wide enough and the sheet stays on board and backing.
pub(super) fn can_move(case: &Case<'_>, right: Length, down: Length) -> bool {
    let shift = Sides::new(down, -right, -down, right);
    let outer = case.layout.exact.outer;
    case.all_windows().all(|(_, window)| {
        let Some(top) = window.top() else { return false };
        let clear = [case.board(), case.layout.exact.backing].iter().all(|ground| {
            let margins = window.sheet.within(*ground).plus(shift);
            !margins.least().is_negative()
        });
        clear && wide_enough(case, outer, top.borders.plus(shift))
    })
}

/// At the optical centre a window narrower by `taken` lies higher: its top border must still
/// be wide enough, and the sheet on board and backing.
pub(super) fn optical_holds(case: &Case<'_>, window: &Window, taken: Length) -> bool {
    let BoardBy::Outer { size, placement: Placement::Optical } = case.mat.board_by else {
        return true;
    };
    let room = i128::from((size.height - window.sight.size.height).units());
    let higher = within_reason(taken.scaled(room, 4 * i128::from(size.width.units())));
    taken == Length::ZERO || can_move(case, Length::ZERO, -higher)
}

/// A placement with the window's left or top border moved by that much.
pub(super) fn moved(case: &Case<'_>, right: Length, down: Length) -> Option<Command> {
    let BoardBy::Outer { size, .. } = case.mat.board_by else { return None };
    if case.layout.in_hand || !can_move(case, right, down) {
        return None;
    }
    let borders = case.layout.exact.group().within(case.board());
    let (left, top) = (borders.left + right, borders.top + down);
    let even = |first: Length, sum: Length| first == sum.halves().0;
    let sums = borders.sums();
    let placement = if even(left, sums.width) && even(top, sums.height) {
        Placement::Centred
    } else {
        Placement::Free { left, top }
    };
    Some(Command::SetBoardBy(case.variant, BoardBy::Outer { size, placement }))
}

/// A mat so much larger that the border `now` on `side` is as wide as `least` asks of a mat
/// of that size. `None` where that would more than double the mat.
pub(super) fn widen(
    case: &Case<'_>,
    side: Side,
    now: Length,
    least: impl Fn(Size) -> Length,
) -> Option<Remedy> {
    if case.layout.in_hand {
        return None;
    }
    let outer = case.layout.exact.outer;
    let across = matches!(side, Side::Left | Side::Right);
    let grown = |by: Length| {
        if across {
            Size::new(outer.width + by, outer.height)
        } else {
            Size::new(outer.width, outer.height + by)
        }
    };
    let (over, under) = share(case, side)?;
    let step = case.document.ruler.step();
    let mut growth = Length::ZERO;
    // What is wanted grows with the mat, at most by an eighth: this settles in a few rounds.
    let settled = (0..24).any(|_| {
        let floor = (i128::from(growth.units()) * over).div_euclid(under);
        let border = now + i64::try_from(floor).map_or(Length::ZERO, Length::from_units);
        let wanted = least(grown(growth));
        if border >= wanted {
            return true;
        }
        growth = if over == under {
            wanted.ceil_to(step) - now
        } else {
            growth + within_reason((wanted - border).scaled(under, over)).ceil_to(step)
        };
        false
    });
    let larger = grown(growth);
    let dimension = if across { outer.width } else { outer.height };
    if !settled || growth > dimension || !stays_down(case, larger) {
        return None;
    }
    let (board_by, words) = match case.mat.board_by {
        BoardBy::Borders(borders) => {
            let words =
                format!("Widen the {} border to {}", side.name(), case.exact(now + growth));
            let wider = borders.with(side, borders.of(side) + growth);
            (BoardBy::Borders(wider), words)
        }
        BoardBy::Outer { placement, .. } => {
            let placement = match (placement, side) {
                (Placement::Free { left, top }, Side::Left) => {
                    Placement::Free { left: left + growth, top }
                }
                (Placement::Free { left, top }, Side::Top) => {
                    Placement::Free { left, top: top + growth }
                }
                (same, _) => same,
            };
            let words = format!("Make the mat {}", case.exact_size(larger));
            (BoardBy::Outer { size: larger, placement }, words)
        }
    };
    let command = Command::SetBoardBy(case.variant, board_by);
    Some(Remedy { words, command: with_backing(case, command, larger) })
}

/// At the optical centre the window lies higher in a wider mat: whether no top border becomes
/// too narrow by it, and no sheet's top edge leaves board or backing.
fn stays_down(case: &Case<'_>, larger: Size) -> bool {
    let BoardBy::Outer { size, placement: Placement::Optical } = case.mat.board_by else {
        return true;
    };
    let group = case.layout.exact.group().size;
    let above = |wide: Length| optical_top(Size::new(wide, size.height), group);
    let higher = above(size.width) - above(larger.width);
    if larger.width == size.width || !higher.is_positive() {
        return true;
    }
    let narrow = least_border::plain(case, larger);
    case.all_windows().all(|(_, window)| {
        let stays = |now: Length, least: Length| now < least || now - higher >= least;
        let borders = window.top().map(|top| top.borders.top);
        [case.board(), case.layout.exact.backing]
            .iter()
            .all(|ground| stays(window.sheet.within(*ground).top, Length::ZERO))
            && borders.is_none_or(|border| {
                // Nor less than half of what it needs, where a narrow one becomes a Fault.
                stays(border, narrow) && stays(border, narrow.halves().1)
            })
    })
}

/// Which part of what a mat grows by falls to the border of that side.
fn share(case: &Case<'_>, side: Side) -> Option<(i128, i128)> {
    let BoardBy::Outer { size, placement } = case.mat.board_by else { return Some((1, 1)) };
    let share = match (placement, side) {
        (Placement::Free { .. }, _) => (1, 1),
        (Placement::BottomRatio(weight), Side::Top | Side::Bottom) => {
            let part = if side == Side::Top { weight.top } else { weight.bottom };
            (i128::from(part), i128::from(weight.top) + i128::from(weight.bottom))
        }
        (Placement::Optical, Side::Top | Side::Bottom) => {
            // The middle is the most for a window wider than the board.
            let window = case.layout.exact.group().size.width;
            let window = window.max(Length::ZERO).min(size.width);
            let all = 4 * i128::from(size.width.units());
            let top = i128::from((size.width + window).units());
            (if side == Side::Top { top } else { all - top }, all)
        }
        _ => (1, 2),
    };
    (share.0 > 0 && share.1 > 0).then_some(share)
}

/// Held where sums still fit: a share of next to nothing is out of all measure.
fn within_reason(length: Length) -> Length {
    length.clamp(-Length::MOST, Length::MOST)
}
