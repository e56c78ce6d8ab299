//! What each layer is cut from, and where the cutter's stops go.
//!
//! A straight cutter works from the back of the board: left and right are mirrored there, and
//! the stop is the border at the sight edge. An undermat's blank is smaller than the board above
//! it and stuck to its back before its window is cut, so that its stops run from the top
//! mat's edge; cut loose, they run from its own. Source: common practice.

use super::Figures;
use crate::geometry::{Rect, Sides};
use crate::length::{Length, Unit};
use crate::spec::{LayerId, OpeningId};

/// The blank of one layer, and its stops for one opening.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Blank {
    /// The layer.
    pub layer: LayerId,
    /// The opening its stops are for.
    pub opening: OpeningId,
    /// The blank, seen from the front.
    pub rect: Rect,
    /// Stops from the top mat's edge, as the maker sees the back.
    pub stuck: Sides<Length>,
    /// Stops from the blank's own edge, as the maker sees the back.
    pub loose: Sides<Length>,
}

/// How much smaller an undermat's blank is than the board above it, on each side.
/// Source: common practice.
const fn usual_step(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 4),
        Unit::Millimetre => Length::mm(6),
    }
}

impl Figures {
    /// Blanks and stops by opening, and in each from the top layer inwards.
    pub fn blanks(&self, unit: Unit) -> Vec<Blank> {
        let board = Rect::at_origin(self.outer);
        let mut blanks = Vec::new();
        for window in &self.openings {
            for (depth, cut) in (0_i64..).zip(&window.layers) {
                // A narrow border must keep board round the window.
                let most = cut.borders.least().halves().0;
                let inset = (usual_step(unit) * depth).min(most).max(Length::ZERO);
                let rect = board.inset(Sides::all(inset));
                let stuck = cut.borders.from_the_back();
                blanks.push(Blank {
                    layer: cut.layer,
                    opening: window.id,
                    rect,
                    stuck,
                    loose: stuck.map(|stop| stop - inset),
                });
            }
        }
        blanks
    }
}

#[cfg(test)]
mod tests {
    use crate::length::Unit;
    use crate::sample::{reference, sides, size};

    /// Source: worked out by hand (D), the reference piece.
    #[test]
    fn stops_of_the_reference_piece() {
        let document = reference();
        let laid = crate::layout::layout(&document, &document.variants[0].mat);
        for figures in [&laid.exact, &laid.bench] {
            let blanks = figures.blanks(Unit::Inch);
            let [top, undermat] = blanks.as_slice() else { panic!("{blanks:?}") };
            assert_eq!(top.rect.size, size("20x26"));
            assert_eq!(top.stuck, sides("4 1/2,3 13/16,5 1/2,4 5/16"));
            assert_eq!(top.loose, top.stuck);
            assert_eq!(undermat.rect.size, size("19 1/2x25 1/2"));
            assert_eq!(undermat.stuck, sides("4 11/16,4,5 11/16,4 1/2"));
            assert_eq!(undermat.loose, sides("4 7/16,3 3/4,5 7/16,4 1/4"));
        }
    }
}
