//! Mats side by side at one scale, their pictures in line.

use super::{Look, finished};
use crate::drawing::{Drawing, around};
use crate::geometry::{Point, Rect, Sides};
use crate::layout::Figures;
use crate::length::Length;
use crate::package::Packed;
use crate::spec::Mat;

/// What lies between two mats, in thousandths of the longest side of any.
const GAP: i128 = 60;

/// Mats side by side, the first at the left, all at one scale: the middles of their first images
/// lie on one line. `figures` are those of each mat's own layout; a mat with a package is shown in
/// its frame. Nothing for no mat.
pub fn row(mats: &[(&Mat, &Figures, Option<&Packed>)], look: &Look) -> Drawing {
    let longest = mats.iter().map(|(_, figures, _)| figures.outer.long()).max();
    let gap = longest.unwrap_or_default().scaled(GAP, 1000);
    let mut left = Length::ZERO;
    let mut whole: Option<Drawing> = None;
    let bare = Look { margin: 0, ..*look };
    for (mat, figures, packed) in mats {
        let up = middle(figures).y;
        let piece = finished(mat, figures, *packed, &bare);
        // Where the piece begins left of its board's corner, which is the origin.
        let corner = left - piece.bounds.left();
        left = left + piece.bounds.size.width + gap;
        let mut one = piece.moved(Point::new(corner, -up));
        if let Some(before) = &mut whole {
            before.bounds = around(before.bounds, one.bounds);
            before.items.append(&mut one.items);
        } else {
            whole = Some(one);
        }
    }
    let Some(mut whole) = whole else { return Drawing::default() };
    let margin = longest.unwrap_or_default().scaled(i128::from(look.margin), 1000);
    whole.bounds = whole.bounds.outset(Sides::all(margin));
    whole
}

/// The middle of the first image, from the board's top left corner; of a mat without a window, its
/// own. Mats shown in turn or side by side keep it in its place.
pub fn middle(figures: &Figures) -> Point {
    let of = figures.openings.first().map_or(Rect::at_origin(figures.outer), |one| one.image);
    Point::new(of.left() + of.size.width.halves().0, of.top() + of.size.height.halves().0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::{Command, apply, copy_mat};
    use crate::drawing::Item;
    use crate::layout::layout;
    use crate::sample::{reference, size};
    use crate::spec::{BoardBy, Document, Placement};

    fn plan() -> Document {
        let mut document = reference();
        let command = copy_mat(&document, document.chosen, "Large").unwrap();
        apply(&mut document, &command).unwrap();
        let large = document.variants[1].id;
        let board_by = BoardBy::Outer { size: size("24x30"), placement: Placement::Centred };
        apply(&mut document, &Command::SetBoardBy(large, board_by)).unwrap();
        document
    }

    /// Common practice: prints compared on a wall hang in line at their middles, and a larger mat
    /// must not make the photograph look smaller.
    #[test]
    fn pictures_are_of_one_size_and_in_line() {
        let document = plan();
        let figures: Vec<Figures> =
            document.variants.iter().map(|one| layout(&document, &one.mat).exact).collect();
        let mats: Vec<(&Mat, &Figures, Option<&Packed>)> = document
            .variants
            .iter()
            .zip(&figures)
            .map(|(one, figures)| (&one.mat, figures, None))
            .collect();
        let drawing = row(&mats, &Look::default());
        let images: Vec<Rect> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Picture(picture) => Some(picture.image),
                _ => None,
            })
            .collect();
        let [one, two] = images.as_slice() else { panic!("{images:?}") };
        assert_eq!((one.size, one.top()), (two.size, two.top()));
        let boards: Vec<Rect> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Board(board) => {
                    let (first, last) = (board.outline.points[0], board.outline.points[2]);
                    let size = crate::geometry::Size::new(last.x - first.x, last.y - first.y);
                    Some(Rect::new(first, size))
                }
                _ => None,
            })
            .filter(|board| [size("20x26"), size("24x30")].contains(&board.size))
            .collect();
        let [small, large] = boards.as_slice() else { panic!("{boards:?}") };
        let gap = size("30x1").width.scaled(60, 1000);
        assert_eq!(large.left() - small.right(), gap);
        assert!(drawing.bounds.left() < small.left() && drawing.bounds.right() > large.right());
        assert!(drawing.bounds.top() < large.top() && drawing.bounds.bottom() > large.bottom());
    }

    #[test]
    fn no_mat_is_nothing() {
        assert_eq!(row(&[], &Look::default()), Drawing::default());
    }
}
