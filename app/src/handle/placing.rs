//! What moving the window or the board's edge makes of the outer size and the borders.

use sightedge_core::command::Command;
use sightedge_core::geometry::{Side, Size};
use sightedge_core::length::Length;
use sightedge_core::spec::{Fixing, Placement};

use super::rests::window_rests;
use super::{Bench, Tie, board};

pub(super) fn place_window(bench: Bench<'_>, value: Length, across: bool) -> Command {
    let borders = bench.figures().group().within(board(bench.figures()));
    let variant = bench.variant.id;
    let fixing = match bench.mat().fixing {
        Fixing::Borders(top) => {
            let (old, first, second) = if across {
                (borders.left, Side::Left, Side::Right)
            } else {
                (borders.top, Side::Top, Side::Bottom)
            };
            let by = value - old;
            Fixing::Borders(
                top.with(first, top.of(first) + by).with(second, top.of(second) - by),
            )
        }
        Fixing::Outer { size, placement } => {
            let room = borders.top + borders.bottom;
            let placement = match placement {
                Placement::Free { top, .. } if across => Placement::Free { left: value, top },
                Placement::Free { left, .. } => Placement::Free { left, top: value },
                _ => {
                    let rests = window_rests(bench, false);
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
            Fixing::Outer { size, placement }
        }
    };
    Command::SetFixing(variant, fixing)
}

pub(super) fn set_outer(bench: Bench<'_>, side: Side, value: Length, tie: Tie) -> Command {
    let fixing = match bench.mat().fixing {
        Fixing::Borders(mut borders) => {
            for side in tie.sides(side) {
                borders = borders.with(side, value);
            }
            Fixing::Borders(borders)
        }
        Fixing::Outer { size, placement } => {
            let across = matches!(side, Side::Left | Side::Right);
            let by = value - if across { size.width } else { size.height };
            let both = tie == Tie::All;
            let width = if across || both { size.width + by } else { size.width };
            let height = if !across || both { size.height + by } else { size.height };
            // A window placed by hand stays where it is under the fixed edge.
            let placement = match placement {
                Placement::Free { left, top } if tie == Tie::One => Placement::Free {
                    left: if side == Side::Left { left + by } else { left },
                    top: if side == Side::Top { top + by } else { top },
                },
                other => other,
            };
            Fixing::Outer { size: Size::new(width, height), placement }
        }
    };
    Command::SetFixing(bench.variant.id, fixing)
}
