//! How wide borders must be at least: what `narrow-border` and `exhibition-border` judge by, and
//! what the remedies of other rules keep to.

use super::Case;
use super::case::by_unit;
use crate::geometry::{Side, Size};
use crate::length::{Length, Unit};

/// Least border of the top layer for plain strength: 1 in or 25 mm. Source: from memory.
const PLAIN: (Length, Length) = (Length::inches(1, 0, 1), Length::mm(25));
/// A piece whose short side is under this (8 in or 200 mm) needs but an eighth of that side.
/// Source: from memory.
const SMALL_PIECE: (Length, Length) = (Length::inches(8, 0, 1), Length::mm(200));

/// Least border at the sides and the top, 2 in or 50 mm.
/// Source: college exhibition handouts.
const SHOWN: (Length, Length) = (Length::inches(2, 0, 1), Length::mm(50));
/// Least border at the bottom of a board larger than [`SMALL_BOARD`], 3 in or 75 mm.
/// Source: college exhibition handouts.
const SHOWN_BOTTOM: (Length, Length) = (Length::inches(3, 0, 1), Length::mm(75));
/// 11 × 14 in. Source: college exhibition handouts.
const SMALL_BOARD: Size = Size::new(Length::inches(11, 0, 1), Length::inches(14, 0, 1));

/// The least border of a mat of that size: the person's own, else the usual one.
pub(super) fn plain(case: &Case<'_>, outer: Size) -> Length {
    let unit = case.unit();
    match case.mat.limits.least_border {
        Some(limit) => limit,
        None if outer.short() < by_unit(unit, SMALL_PIECE.0, SMALL_PIECE.1) => {
            outer.short().scaled(1, 8)
        }
        None => by_unit(unit, PLAIN.0, PLAIN.1),
    }
}

/// What is asked of that side of a board of that size.
pub(super) fn exhibition(unit: Unit, outer: Size, side: Side) -> Length {
    let (inch, metric) =
        if side == Side::Bottom && !outer.fits(SMALL_BOARD) { SHOWN_BOTTOM } else { SHOWN };
    by_unit(unit, inch, metric)
}
