//! A miscut is recorded as cut, and everything after it follows from the real window.

use super::Command;
use crate::geometry::Size;
use crate::layout::layout;
use crate::length::Length;
use crate::spec::{Document, Fixing, InHand, Meets, OpeningId, Placement, VariantId};

/// A board and a window as measured after cutting.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Measured {
    /// The board; `None` where it came out as planned.
    pub outer: Option<Size>,
    /// The innermost sight edge.
    pub sight: Size,
    /// From the board's left edge to it.
    pub left: Length,
    /// From the board's top edge to it.
    pub top: Length,
}

/// The command that puts the measured window in place of the planned one, the picture lying
/// in it as nearly as it did; `None` where there is no such window.
pub fn as_cut(
    document: &Document,
    id: VariantId,
    opening: OpeningId,
    measured: Measured,
) -> Option<Command> {
    let mat = &document.variant(id)?.mat;
    let exact = layout(document, mat).exact;
    let window = exact.opening(opening)?;
    let Measured { outer, sight, left, top } = measured;
    let (more_left, _) = (window.sight.size.width - sight.width).halves();
    let (more_top, _) = (window.sight.size.height - sight.height).halves();
    let hand = InHand {
        sight,
        overlap_left: window.overlap.left + more_left,
        overlap_top: window.overlap.top + more_top,
    };
    let fixing = Fixing::Outer {
        size: outer.unwrap_or(exact.outer),
        placement: Placement::Free { left, top },
    };
    Some(Command::Together(
        "as cut",
        vec![
            Command::SetMeets(id, opening, Meets::InHand(hand)),
            Command::SetFixing(id, fixing),
        ],
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::apply;
    use crate::sample::{inches, reference, sides, size};

    /// Source: common practice: everything follows from the window as it was cut.
    #[test]
    fn everything_follows_from_the_window_as_cut() {
        let mut document = reference();
        let measured = Measured {
            outer: None,
            sight: size("11 3/8x15 5/8"),
            left: inches("4 1/16"),
            top: inches("4 11/16"),
        };
        let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
        assert_eq!(command.name(), "as cut");
        assert_eq!(apply(&mut document, &command), Ok(()));
        let laid = layout(&document, &document.variants[0].mat);
        let window = &laid.exact.openings[0];
        assert!(laid.in_hand);
        assert_eq!(laid.exact.outer, size("20x26"));
        assert_eq!(window.borders, sides("4 11/16,4 9/16,5 11/16,4 1/16"));
        assert_eq!(window.overlap, sides("1 1/4,13/16,2 1/8,13/16"));
        assert!(as_cut(&document, VariantId(1), OpeningId(9), measured).is_none());
    }
}
