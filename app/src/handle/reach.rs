//! From the pointer on the board to a handle's value.

use sightedge_core::geometry::{Point, Rect, Side};
use sightedge_core::layout::Figures;
use sightedge_core::length::Length;
use sightedge_core::spec::Fixing;

use super::{Bench, Handle, Tie, board};

/// Where a dragged handle's value stands when the pointer is at `at` on the board, `at` being
/// measured with the handle's [`Anchor`](super::Anchor) held still.
pub fn value_at(
    handle: Handle,
    bench: Bench<'_>,
    at: Point,
    across: bool,
    tie: Tie,
) -> Option<Length> {
    let figures = bench.figures();
    Some(match handle {
        Handle::Sight(id, side) => {
            let image = bench.window(id)?.image;
            outwards(image, side, at)
        }
        Handle::Liner(id, layer, side) => {
            let window = bench.window(id)?;
            let below = window.layers.iter().find(|cut| cut.layer == layer)?;
            outwards(below.sight.bounds, side, at)
        }
        Handle::Window(_) => {
            if across {
                at.x
            } else {
                at.y
            }
        }
        Handle::Outer(side) => match bench.mat().fixing {
            Fixing::Borders(_) => {
                let window = around_top(figures)?;
                outwards(window, side, at)
            }
            // Both sides at once: the middle stays, so each side gives half.
            Fixing::Outer { size, .. } if tie != Tie::One => {
                let out = outwards(board(figures), side, at);
                let now = if matches!(side, Side::Left | Side::Right) {
                    size.width
                } else {
                    size.height
                };
                now + out * 2
            }
            Fixing::Outer { .. } => match side {
                Side::Right => at.x,
                Side::Left => figures.outer.width - at.x,
                Side::Bottom => at.y,
                Side::Top => figures.outer.height - at.y,
            },
        },
        Handle::Sheet(id) => {
            let sight = bench.window(id)?.sight;
            if across { sight.left() - at.x } else { sight.top() - at.y }
        }
    })
}

/// How far `at` lies outside one side of `rect`.
fn outwards(rect: Rect, side: Side, at: Point) -> Length {
    match side {
        Side::Top => rect.top() - at.y,
        Side::Right => at.x - rect.right(),
        Side::Bottom => at.y - rect.bottom(),
        Side::Left => rect.left() - at.x,
    }
}

/// The top layer's windows together.
fn around_top(figures: &Figures) -> Option<Rect> {
    let mut rects = figures.openings.iter().filter_map(|w| w.top().map(|cut| cut.sight.bounds));
    let first = rects.next()?;
    Some(rects.fold(first, |all, next| {
        let out = all.within(next).map(|inside| inside.max(Length::ZERO));
        all.outset(out)
    }))
}
