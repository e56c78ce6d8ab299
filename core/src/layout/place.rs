//! Where sight edges, sheets and images lie, exactly.

use super::{BoardBy, Document, Mat, Placement, WindowBy, Work};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::Length;
use crate::spec::Opening;

/// The board and what lies where on it; all other figures follow.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    pub(super) outer: Size,
    pub(super) spots: Vec<Spot>,
}

/// One opening's place.
#[derive(Clone, Debug)]
pub(super) struct Spot {
    /// Of the innermost layer.
    pub(super) sight: Rect,
    pub(super) sheet: Rect,
    pub(super) image: Rect,
    /// By layer from the top: how far its sight edge stands inside the one above.
    pub(super) offsets: Vec<Sides<Length>>,
}

/// The rectangle round all of `rects`.
pub(super) fn around(rects: impl Iterator<Item = Rect>) -> Rect {
    rects
        .reduce(|all, next| {
            let at = Point::new(all.left().min(next.left()), all.top().min(next.top()));
            let size = Size::new(
                all.right().max(next.right()) - at.x,
                all.bottom().max(next.bottom()) - at.y,
            );
            Rect::new(at, size)
        })
        .unwrap_or_default()
}

impl Spot {
    /// All of it moved.
    pub(super) fn moved(mut self, x: Length, y: Length) -> Self {
        for rect in [&mut self.sight, &mut self.sheet, &mut self.image] {
            rect.at = Point::new(rect.at.x + x, rect.at.y + y);
        }
        self
    }

    /// The same sheet under another window, which lies on it by so much more at the left and at
    /// the top.
    pub(super) fn under(&self, sight: Rect, more: Point, offsets: Vec<Sides<Length>>) -> Self {
        let overlap = self.sight.within(self.sheet);
        let sheet_at = Point::new(
            sight.left() - overlap.left - more.x,
            sight.top() - overlap.top - more.y,
        );
        let margin = Point::new(
            self.image.left() - self.sheet.left(),
            self.image.top() - self.sheet.top(),
        );
        let image_at = Point::new(sheet_at.x + margin.x, sheet_at.y + margin.y);
        Self {
            sight,
            sheet: Rect::new(sheet_at, self.sheet.size),
            image: Rect::new(image_at, self.image.size),
            offsets,
        }
    }

    /// The top layer's sight edge.
    pub(super) fn top_sight(&self) -> Rect {
        self.offsets.iter().fold(self.sight, |sight, offset| sight.outset(*offset))
    }
}

/// The window before it has a place on the board: its corner where the opening's `place` is.
fn spot(document: &Document, mat: &Mat, opening: &Opening) -> Spot {
    let nothing = (Size::default(), Rect::default());
    let (paper, printed) = document
        .work(opening.work)
        .map_or(nothing, |Work { sheet, image, .. }| (*sheet, *image));
    let margin_left_top = printed.at;
    let (sight, overlap_left, overlap_top) = match opening.window_by {
        WindowBy::Reveal(reveal) => {
            let shown = reveal.sums();
            let sight =
                Size::new(printed.size.width + shown.width, printed.size.height + shown.height);
            (sight, margin_left_top.x - reveal.left, margin_left_top.y - reveal.top)
        }
        WindowBy::InHand(hand) => (hand.sight, hand.overlap_left, hand.overlap_top),
    };
    let sight = Rect::new(opening.place, sight);
    let sheet_at = Point::new(sight.left() - overlap_left, sight.top() - overlap_top);
    let image_at = Point::new(sheet_at.x + margin_left_top.x, sheet_at.y + margin_left_top.y);
    let offsets = mat.layers.iter().enumerate().map(|(index, layer)| {
        if index == 0 { Sides::default() } else { opening.offset(layer.id) }
    });
    Spot {
        sight,
        sheet: Rect::new(sheet_at, paper),
        image: Rect::new(image_at, printed.size),
        offsets: offsets.collect(),
    }
}

/// Everything at its place on the board.
pub(super) fn place(document: &Document, mat: &Mat) -> Placed {
    let spots: Vec<Spot> =
        mat.openings.iter().map(|opening| spot(document, mat, opening)).collect();
    let (outer, group, at) = match mat.board_by {
        BoardBy::Outer { size, placement } => {
            let group = around(spots.iter().map(|spot| spot.sight));
            let at = corner(size, group.size, placement);
            (size, group, at)
        }
        BoardBy::Borders(borders) => {
            let group = around(spots.iter().map(Spot::top_sight));
            let sums = borders.sums();
            let outer =
                Size::new(group.size.width + sums.width, group.size.height + sums.height);
            (outer, group, Point::new(borders.left, borders.top))
        }
    };
    let (x, y) = (at.x - group.at.x, at.y - group.at.y);
    Placed { outer, spots: spots.into_iter().map(|spot| spot.moved(x, y)).collect() }
}

/// The top left corner of a window of size `window` on a board of size `board`.
pub(super) fn corner(board: Size, window: Size, placement: Placement) -> Point {
    let room = Size::new(board.width - window.width, board.height - window.height);
    let (left, _) = room.width.halves();
    let (middle, _) = room.height.halves();
    let top = match placement {
        Placement::Free { left, top } => return Point::new(left, top),
        Placement::Centred => middle,
        Placement::BottomExtra(extra) => (room.height - extra).halves().0,
        Placement::BottomRatio(weight) => {
            let (bottom, top) = (i128::from(weight.bottom), i128::from(weight.top));
            room.height.scaled(top, top + bottom)
        }
        Placement::Optical => optical_top(board, window),
    };
    Point::new(left, top)
}

/// How far below the board's top edge a window lies at the optical centre:
/// (W + w)(H - h) / 4W, the closed form of the drawn construction. It has none for a window wider
/// than the board; w = W, the middle, is the last it gives.
pub fn optical_top(board: Size, window: Size) -> Length {
    let across = window.width.max(Length::ZERO).min(board.width);
    (board.height - window.height)
        .scaled(i128::from((board.width + across).units()), 4 * i128::from(board.width.units()))
}
