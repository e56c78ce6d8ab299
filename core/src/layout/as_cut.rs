//! What is cut already lies where it was measured, exactly, in both sets of figures, whatever
//! changed in the plan since. What is still to be cut keeps its size and lies in the middle of the
//! layer cut above it: on the maker's ruler the stops are on its marks, the window is no larger
//! than the exact one, and opposite strips are as even as the marks allow; where they cannot be
//! even, the first of them is the narrower one.

use super::place::{Placed, Spot};
use super::{Mat, WindowBy};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::Length;
use crate::spec::{AsCut, Opening};

impl AsCut {
    /// Where the window lies on its board.
    pub fn rect(&self) -> Rect {
        Rect::new(Point::new(self.borders.left, self.borders.top), self.sight)
    }

    /// The board it was cut from; of an undermat, the top mat's.
    pub fn board(&self) -> Size {
        let sums = self.borders.sums();
        Size::new(self.sight.width + sums.width, self.sight.height + sums.height)
    }
}

impl Mat {
    /// The board of what is cut already, by the topmost layer that is; `None` where all is
    /// still to be cut, or was bought ready cut.
    pub fn cut_board(&self) -> Option<Size> {
        let cut = |layer| self.openings.iter().find_map(|one| one.cut.get(&layer));
        self.layers.iter().find_map(|layer| cut(layer.id)).map(AsCut::board)
    }

    /// Whether a window of that layer, counted from the top, is cut already.
    pub fn is_cut(&self, opening: &Opening, index: usize) -> bool {
        self.layers.get(index).is_some_and(|layer| opening.is_cut(layer.id))
    }

    /// Whether that layer's window is still to be cut within one that is cut: it then follows
    /// from the picture and lies in the middle of the one above.
    pub fn follows_what_is_cut(&self, opening: &Opening, index: usize) -> bool {
        let Some(above) = index.checked_sub(1) else { return false };
        self.is_cut(opening, above)
            && (index..self.layers.len()).all(|below| !self.is_cut(opening, below))
    }
}

/// `placed` with all that is cut where it was measured. `planned` is the exact plan; with a
/// `step`, what is still to be cut is put on the maker's ruler.
pub(super) fn as_measured(
    mut placed: Placed,
    planned: &Placed,
    mat: &Mat,
    step: Option<Length>,
) -> Placed {
    let Some(board) = mat.cut_board() else { return placed };
    placed.outer = board;
    for ((opening, spot), planned_spot) in
        mat.openings.iter().zip(&mut placed.spots).zip(&planned.spots)
    {
        if let Some(settled) = settled(opening, planned_spot, mat, board, step) {
            *spot = settled;
        }
    }
    placed
}

/// One opening's place; `None` where none of its windows is cut.
fn settled(
    opening: &Opening,
    planned_spot: &Spot,
    mat: &Mat,
    board: Size,
    step: Option<Length>,
) -> Option<Spot> {
    let facts: Vec<Option<Rect>> =
        mat.layers.iter().map(|layer| opening.cut.get(&layer.id).map(AsCut::rect)).collect();
    let deepest = facts.iter().rposition(Option::is_some)?;
    let planned_offsets: Vec<Sides<Length>> = planned_spot
        .offsets
        .iter()
        .map(|offset| match step {
            Some(step) => offset.map(|one| super::bench::ruled(one, step)),
            None => *offset,
        })
        .collect();
    let sight = match (facts.last().copied().flatten(), facts.get(deepest).copied().flatten()) {
        (Some(fact), _) => fact,
        // Its window is in hand.
        _ if matches!(opening.window_by, WindowBy::InHand(_)) => planned_spot.sight,
        (None, Some(above)) => {
            let below = planned_spot.offsets.get(deepest + 1).copied().unwrap_or_default();
            let inner = planned_offsets.get(deepest + 2..).unwrap_or_default();
            let inner = inner.iter().fold(Sides::default(), |sum, one| one.plus(sum));
            in_the_middle(above, planned_spot.sight.size, [below, inner], board, step)
        }
        (None, None) => return None,
    };
    let mut rects = vec![sight; facts.len()];
    for index in (0..facts.len().saturating_sub(1)).rev() {
        let below = rects.get(index + 1).copied().unwrap_or(sight);
        let offset = planned_offsets.get(index + 1).copied().unwrap_or_default();
        let fact = facts.get(index).copied().flatten();
        let follows = || {
            let around = below.outset(offset);
            match step {
                // To be cut anew above what is cut: its stops, too, are set on the ruler.
                Some(step) if index < deepest => on_marks(around, board, step),
                _ => around,
            }
        };
        if let Some(rect) = rects.get_mut(index) {
            *rect = fact.unwrap_or_else(follows);
        }
    }
    let mut offsets = vec![Sides::default()];
    offsets.extend(rects.windows(2).map(|pair| match pair {
        [above, below] => below.within(*above),
        _ => Sides::default(),
    }));
    offsets.truncate(facts.len());
    // Of a window in hand the sheet's place is given; else what the window is smaller or larger
    // falls on both sides alike.
    let [left, top] = match opening.window_by {
        WindowBy::InHand(_) => [Length::ZERO; 2],
        WindowBy::Reveal(_) => {
            let taken = [
                planned_spot.sight.size.width - sight.size.width,
                planned_spot.sight.size.height - sight.size.height,
            ];
            taken.map(|taken| taken.halves().0)
        }
    };
    Some(planned_spot.under(sight, Point::new(left, top), offsets))
}

/// The window whose borders are the marks nearest to those of `sight`: equal borders stay equal.
fn on_marks(sight: Rect, board: Size, step: Length) -> Rect {
    let borders = sight.within(Rect::at_origin(board)).map(|border| border.round_to(step));
    let sums = borders.sums();
    let size = Size::new(board.width - sums.width, board.height - sums.height);
    Rect::new(Point::new(borders.left, borders.top), size)
}

/// A window of that size in the middle of `above`: `strips` are the planned offsets of the first
/// layer below it, and the sum of all further ones.
fn in_the_middle(
    above: Rect,
    window: Size,
    [first, inner]: [Sides<Length>; 2],
    board: Size,
    step: Option<Length>,
) -> Rect {
    let across = Middle {
        above: [above.left(), above.size.width],
        window: window.width,
        planned_offsets: [first.left, first.right],
        inner: [inner.left, inner.right],
        board: board.width,
    };
    let down = Middle {
        above: [above.top(), above.size.height],
        window: window.height,
        planned_offsets: [first.top, first.bottom],
        inner: [inner.top, inner.bottom],
        board: board.height,
    };
    let [(left, width), (top, height)] = [across, down].map(|one| one.place(step));
    Rect::new(Point::new(left, top), Size::new(width, height))
}

/// One direction across the board.
struct Middle {
    /// Where the window above begins, and how long it is.
    above: [Length; 2],
    window: Length,
    /// The planned strips before and behind it; their difference is kept.
    planned_offsets: [Length; 2],
    /// What lies between those strips and the window.
    inner: [Length; 2],
    board: Length,
}

impl Middle {
    /// Where the window begins, and how long it is.
    fn place(&self, step: Option<Length>) -> (Length, Length) {
        let Self { above: [from, long], window, planned_offsets, inner, board } = *self;
        // Both stops are set on the ruler, each from its own edge: the window takes the rest.
        let window = match step {
            Some(step) if window >= step => board - (board - window).ceil_to(step),
            _ => window,
        };
        let strips = long - window - inner[0] - inner[1];
        let twice = (from + inner[0]) * 2 + strips + planned_offsets[0] - planned_offsets[1];
        let Some(step) = step else { return (twice.halves().0, window) };
        let mark = twice.floor_to(step * 2);
        let (first, _) = mark.halves();
        // Half-way between two marks, the first strip is the narrower one.
        (if twice - mark > step { first + step } else { first }, window)
    }
}
