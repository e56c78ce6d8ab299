//! What moving an edge or the window makes of the outer size and the borders.

use sightedge_core::command::Command;
use sightedge_core::geometry::{Side, Sides, Size};
use sightedge_core::length::Length;
use sightedge_core::spec::{BoardBy, OpeningId, Placement, WindowBy};

use super::rests::window_rests;
use super::{HandleContext, Pull, Tie, board};

/// Other reveals. Of a window placed by hand the picture stays where it is on the board, and the
/// edges move round it; anywhere else the placement says where it goes.
pub(super) fn set_reveal(
    cx: HandleContext<'_>,
    id: OpeningId,
    old: Sides<Length>,
    new: Sides<Length>,
) -> Command {
    let variant = cx.variant.id;
    let window_by = Command::SetWindowBy(variant, id, WindowBy::Reveal(new));
    let BoardBy::Outer { size, placement: Placement::Free { left, top } } = cx.mat().board_by
    else {
        return window_by;
    };
    let out = new.minus(old);
    if (out.left, out.top) == (Length::ZERO, Length::ZERO) {
        return window_by;
    }
    let placement = Placement::Free { left: left - out.left, top: top - out.top };
    let board_by = Command::SetBoardBy(variant, BoardBy::Outer { size, placement });
    Command::Together(window_by.name(), vec![window_by, board_by])
}

pub(super) fn place_window(cx: HandleContext<'_>, value: Length, across: bool) -> Command {
    let borders = cx.figures().group().within(board(cx.figures()));
    let variant = cx.variant.id;
    let board_by = match cx.mat().board_by {
        BoardBy::Borders(top) => {
            let (old, first, second) = if across {
                (borders.left, Side::Left, Side::Right)
            } else {
                (borders.top, Side::Top, Side::Bottom)
            };
            let by = value - old;
            BoardBy::Borders(
                top.with(first, top.of(first) + by).with(second, top.of(second) - by),
            )
        }
        BoardBy::Outer { size, placement } => {
            let room = borders.top + borders.bottom;
            let placement = match placement {
                Placement::Free { top, .. } if across => Placement::Free { left: value, top },
                Placement::Free { left, .. } => Placement::Free { left, top: value },
                _ => {
                    let rests = window_rests(cx, false);
                    let on = |name| rests.iter().any(|r| r.name == name && r.value == value);
                    if on("equal borders") {
                        Placement::Centred
                    } else if on("optical centre") {
                        Placement::Optical
                    } else {
                        Placement::BottomExtra(room - value * 2)
                    }
                }
            };
            BoardBy::Outer { size, placement }
        }
    };
    Command::SetBoardBy(variant, board_by)
}

/// Another width, height or border. A width that is given moves the one edge, or both where
/// opposite sides are tied; borders that are given move as the sides of a window do.
pub(super) fn set_outer(
    cx: HandleContext<'_>,
    side: Side,
    value: Length,
    pull: Pull,
) -> Command {
    let board_by = match cx.mat().board_by {
        BoardBy::Borders(borders) => BoardBy::Borders(pull.applied(borders, side, value)),
        BoardBy::Outer { size, placement } => {
            let across = matches!(side, Side::Left | Side::Right);
            let (by, outer) = if across {
                (value - size.width, Size::new(value, size.height))
            } else {
                (value - size.height, Size::new(size.width, value))
            };
            // A window placed by hand stays where it is under the fixed edge, or in the middle
            // of what both edges leave.
            let first = match (pull.tie, side) {
                (Tie::Opposite, _) => by.halves().0,
                (Tie::All | Tie::One, Side::Left | Side::Top) => by,
                (Tie::All | Tie::One, Side::Right | Side::Bottom) => Length::ZERO,
            };
            let placement = match placement {
                Placement::Free { left, top } if across => {
                    Placement::Free { left: left + first, top }
                }
                Placement::Free { left, top } => Placement::Free { left, top: top + first },
                other => other,
            };
            BoardBy::Outer { size: outer, placement }
        }
    };
    Command::SetBoardBy(cx.variant.id, board_by)
}
