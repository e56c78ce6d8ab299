//! The rule of the ruler: the window is the largest on the ruler that is no larger than the
//! exact one and leaves equal borders equal (a wanted difference of borders keeps its nearest
//! ruler value); the borders take the rest, so that all adds up and the overlap is never
//! less than asked.
//!
//! Where only the place of one border is wanted (the optical centre, a ratio, a window placed by
//! hand), that border goes to its nearest mark and the other takes the rest.

use super::place::Placed;
use super::{BoardBy, Mat, Placement};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::Length;

/// The same mat on a ruler with such a step.
pub(super) fn on_the_ruler(placed: &Placed, mat: &Mat, step: Length) -> Placed {
    let exact = super::place::around(placed.spots.iter().map(|spot| spot.sight));
    let offsets: Vec<Vec<Sides<Length>>> = placed
        .spots
        .iter()
        .map(|spot| spot.offsets.iter().map(|offset| offset.map(|o| ruled(o, step))).collect())
        .collect();

    let (outer, at, taken) = match mat.board_by {
        BoardBy::Outer { size, placement } => {
            // A blank must still go into what it is made for: never larger than given.
            let outer = Size::new(size.width.floor_to(step), size.height.floor_to(step));
            let borders = exact.within(Rect::at_origin(placed.outer));
            let across = match placement {
                Placement::Free { .. } if borders.left != borders.right => {
                    placed_at(borders.left, exact.size.width, step)
                }
                _ => along(outer.width, exact.size.width, Length::ZERO, step),
            };
            let down = match placement {
                Placement::BottomRatio(_) | Placement::Optical | Placement::Free { .. }
                    if borders.top != borders.bottom =>
                {
                    placed_at(borders.top, exact.size.height, step)
                }
                _ => {
                    let more = borders.bottom - borders.top;
                    along(outer.height, exact.size.height, more, step)
                }
            };
            let taken =
                Size::new(exact.size.width - across.window, exact.size.height - down.window);
            (outer, Point::new(across.first, down.first), taken)
        }
        BoardBy::Borders(borders) => {
            let borders = borders.map(|border| border.round_to(step));
            let window = Size::new(
                ruled_window(exact.size.width, step),
                ruled_window(exact.size.height, step),
            );
            // One group of windows: its deepest stack of undermats reaches furthest out.
            let all = offsets
                .iter()
                .map(|layers| layers.iter().fold(Sides::default(), |sum, o| o.plus(sum)))
                .reduce(|a, b| a.zip(b, Length::max))
                .unwrap_or_default();
            let inner = borders.plus(all);
            let sums = inner.sums();
            let outer = Size::new(window.width + sums.width, window.height + sums.height);
            let taken =
                Size::new(exact.size.width - window.width, exact.size.height - window.height);
            (outer, Point::new(inner.left, inner.top), taken)
        }
    };

    let spots = placed.spots.iter().zip(offsets).map(|(spot, offsets)| {
        let from_group =
            Point::new(spot.sight.left() - exact.left(), spot.sight.top() - exact.top());
        let sight = Rect::new(
            Point::new(at.x + from_group.x.round_to(step), at.y + from_group.y.round_to(step)),
            Size::new(
                spot.sight.size.width - taken.width,
                spot.sight.size.height - taken.height,
            ),
        );
        // What the window gave up lies on the sheet, half on each side.
        let [(left, _), (top, _)] = [taken.width, taken.height].map(Length::halves);
        spot.under(sight, Point::new(left, top), offsets)
    });
    Placed { outer, spots: spots.collect() }
}

/// The nearest on the ruler, but at least one step: an undermat is not lost.
pub(super) fn ruled(offset: Length, step: Length) -> Length {
    let nearest = offset.round_to(step);
    if nearest == Length::ZERO && offset.is_positive() { step } else { nearest }
}

/// The largest window on the ruler within `window`; less than one step stays as it is.
fn ruled_window(window: Length, step: Length) -> Length {
    if window < step { window } else { window.floor_to(step) }
}

struct Along {
    /// The border before the window.
    first: Length,
    window: Length,
}

/// The first border at its nearest mark; the one behind takes the rest.
fn placed_at(first: Length, window: Length, step: Length) -> Along {
    Along { first: first.round_to(step), window: ruled_window(window, step) }
}

/// One direction across the board: `more` is how much longer the border behind is.
fn along(board: Length, window: Length, more: Length, step: Length) -> Along {
    let more = more.round_to(step);
    let mut cut = ruled_window(window, step);
    // Both borders on the ruler: what the window and the difference leave must halve evenly.
    if !(board - cut - more).is_on(step * 2) && cut > step {
        cut -= step;
    }
    let (first, _) = (board - cut - more).halves();
    Along { first, window: cut }
}
