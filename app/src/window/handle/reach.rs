//! From the pointer on the board to a handle's value.

use sightedge_core::command::apply;
use sightedge_core::geometry::{Point, Rect, Side};
use sightedge_core::layout::{Figures, layout};
use sightedge_core::length::Length;
use sightedge_core::spec::BoardBy;

use super::{Anchor, Handle, HandleContext, Pull, Tie, board};

/// The value that a dragged handle gets with the pointer at `at` on the board, `at` being measured
/// with the handle's [`Anchor`] held still on the plan as it is `shown`. `kept` is the plan as it
/// was when the handle was taken.
pub fn value_at(
    handle: Handle,
    shown: HandleContext<'_>,
    kept: HandleContext<'_>,
    at: Point,
    pull: Pull,
) -> Option<Length> {
    let (figures, across) = (shown.figures(), pull.across);
    Some(match handle {
        Handle::Sight(..) | Handle::Undermat(..)
            if handle.anchor(kept, pull.tie) == Anchor::Board =>
        {
            on_board(handle, kept, at, pull)?
        }
        Handle::Sight(id, side) => outwards(shown.window(id)?.image, side, at),
        Handle::Undermat(id, layer, side) => {
            let window = shown.window(id)?;
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
        Handle::Outer(side) => match shown.mat().board_by {
            BoardBy::Borders(_) => outwards(around_top(figures)?, side, at),
            // Both sides at once: the middle stays, so each side gives half.
            BoardBy::Outer { size, .. } if pull.tie == Tie::Opposite => {
                let out = outwards(board(figures), side, at);
                let now = if matches!(side, Side::Left | Side::Right) {
                    size.width
                } else {
                    size.height
                };
                now + out * 2
            }
            BoardBy::Outer { .. } => match side {
                Side::Right => at.x,
                Side::Left => figures.outer.width - at.x,
                Side::Bottom => at.y,
                Side::Top => figures.outer.height - at.y,
            },
        },
        Handle::Sheet(id) => {
            let sight = shown.window(id)?.sight;
            if across { sight.left() - at.x } else { sight.top() - at.y }
        }
    })
}

/// The value with which the edge lies at `at` on a board that stays where it is. The layout says
/// where an edge comes to lie: with one side pulled, a window that is kept in the middle moves by
/// half of it.
fn on_board(handle: Handle, kept: HandleContext<'_>, at: Point, pull: Pull) -> Option<Length> {
    let side = handle.side()?;
    // How far outside of where it was taken: the edge with such a value, and the pointer.
    let start = handle.rect(kept)?;
    let out = |value: Length| -> Option<Length> {
        let mut pulled = kept.document.clone();
        apply(&mut pulled, &handle.set(kept, value, pull)?).ok()?;
        let variant = pulled.variant(kept.variant.id)?;
        let layout = layout(&pulled, &variant.mat);
        let cx = HandleContext { document: &pulled, variant, layout: &layout };
        Some(handle.rect(cx)?.within(start).of(side)).map(|inside| -inside)
    };
    let goal = outwards(start, side, at);
    let (mut before, mut found) = (handle.value(kept, pull.across)?, Length::ZERO);
    let mut value = before + goal;
    // An edge moves evenly with its value, or nearly so (the optical centre): a few rounds of the
    // rule of false position come within a unit.
    for _ in 0..4 {
        let now = out(value)?;
        if now == goal || now == found {
            break;
        }
        let slope = (value - before, now - found);
        (before, found) = (value, now);
        value += (goal - now).scaled(i128::from(slope.0.units()), i128::from(slope.1.units()));
    }
    Some(value)
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
