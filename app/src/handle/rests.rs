//! Where a drag likes to rest.

use sightedge_core::geometry::Sides;
use sightedge_core::length::Length;

use super::{Bench, Handle, board};

/// A place a drag likes to rest at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Rest {
    /// The handle's value there.
    pub value: Length,
    /// What it is, as said beside the pointer.
    pub name: &'static str,
}

impl Handle {
    /// Where a drag of this handle likes to rest.
    pub fn rests(self, bench: Bench<'_>, across: bool) -> Vec<Rest> {
        let rest = |value, name| Rest { value, name };
        match self {
            Self::Sight(id, side) => {
                let Some(window) = bench.window(id) else { return Vec::new() };
                let margin = window.overlap.of(side) + window.reveal.of(side);
                vec![
                    rest(Length::ZERO, "on the image's edge"),
                    rest(window.reveal.of(side.opposite()), "as the opposite side"),
                    rest(margin, "on the sheet's edge"),
                ]
            }
            Self::Liner(id, layer, side) => {
                let Some(opening) = bench.mat().opening(id) else { return Vec::new() };
                let opposite = opening.offset(layer).of(side.opposite());
                vec![rest(opposite, "as the opposite side")]
            }
            Self::Window(_) => window_rests(bench, across),
            Self::Sheet(id) => {
                let Some(window) = bench.window(id) else { return Vec::new() };
                let (overlap, reveal) = (window.overlap, window.reveal);
                let (sheet, image) = if across {
                    let even = |s: Sides<Length>| (s.left + s.right).halves().0;
                    (even(overlap), overlap.left + reveal.left - even(reveal))
                } else {
                    let even = |s: Sides<Length>| (s.top + s.bottom).halves().0;
                    (even(overlap), overlap.top + reveal.top - even(reveal))
                };
                vec![rest(sheet, "the sheet centred"), rest(image, "the image centred")]
            }
            Self::Outer(_) => Vec::new(),
        }
    }
}

pub(super) fn window_rests(bench: Bench<'_>, across: bool) -> Vec<Rest> {
    let group = bench.figures().group();
    let borders = group.within(board(bench.figures()));
    if across {
        let equal = (borders.left + borders.right).halves().0;
        return vec![Rest { value: equal, name: "equal borders" }];
    }
    let room = borders.top + borders.bottom;
    let (equal, _) = room.halves();
    // (W + w)(H - h) / 4W, as in the layout.
    let outer = bench.figures().outer;
    let optical = room.scaled(
        i128::from((outer.width + group.size.width).units()),
        4 * i128::from(outer.width.units()),
    );
    vec![
        Rest { value: equal, name: "equal borders" },
        Rest { value: optical, name: "optical centre" },
        Rest { value: borders.left, name: "top as the left side" },
    ]
}
