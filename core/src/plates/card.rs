//! The back of one board as it lies in the cutter: its stops and its window.

use super::dimensioning::{Axis, Dimensioner, Span};
use super::mirrored;
use crate::drawing::{Align, Drawing, Item, Line, Measure, Pen};
use crate::geometry::{Point, Rect, Side};
use crate::layout::{Blank, Cut, Figures};
use crate::length::{Length, Unit};

/// The back of `cut`'s board, left and right changed over: the blank with its sight edge, the
/// stops as the cutter sets them, and the edge of the top mat where the blank is stuck to it.
/// The stops run from that edge, or of one that is cut `loose` from the blank's own.
/// `height` is that of a figure at the drawing's scale; figures are in `unit`.
pub fn back(
    figures: &Figures,
    cut: &Cut,
    blank: &Blank,
    unit: Unit,
    height: Length,
    loose: bool,
) -> Drawing {
    let wide = figures.outer.width;
    let board = mirrored(Rect::at_origin(figures.outer), wide);
    let (outline, sight) = (mirrored(blank.rect, wide), mirrored(cut.sight.bounds, wide));
    let layers = figures.openings.iter().flat_map(|window| window.layers.iter().enumerate());
    let layer = layers.filter(|(_, one)| one.layer == cut.layer).map(|(index, _)| index).next();
    let layer = layer.unwrap_or_default();
    let mut sheet = Dimensioner::new(unit, height);
    let mut line = |rect: Rect, pen| {
        if rect.size.is_positive() {
            let points = rect.path().points;
            sheet.items.push(Item::Line(Line { points, closed: true, pen }));
        }
    };
    if outline != board {
        line(board, Pen::Hidden);
    }
    line(outline, Pen::Edge);
    line(sight, Pen::Section);
    let middle = |start: Length, long: Length| start + long.halves().0;
    let centre = Point::new(
        middle(sight.left(), sight.size.width),
        middle(sight.top(), sight.size.height),
    );
    let rise = height.scaled(7, 10);
    sheet.label("Back".to_owned(), Point::new(centre.x, centre.y - rise), Align::Middle);
    sheet.label(
        format!("top {}", '\u{2191}'),
        Point::new(centre.x, centre.y + rise),
        Align::Middle,
    );
    let board = if loose { outline } else { board };
    for side in Side::ALL {
        // Seen from the back the names of left and right belong to the hands of the maker.
        let (axis, ends, outer, along) = match side {
            Side::Top => (Axis::Down, [board.top(), sight.top()], 0, wide_of(sight)),
            Side::Bottom => (Axis::Down, [sight.bottom(), board.bottom()], 1, wide_of(sight)),
            Side::Left => (Axis::Across, [board.left(), sight.left()], 0, high_of(sight)),
            Side::Right => (Axis::Across, [sight.right(), board.right()], 1, high_of(sight)),
        };
        let offs = [(1, 2), (1, 4), (3, 4)]
            .map(|(over, under)| along[0] + along[1].scaled(over, under));
        let span = Span { measure: Measure::Border(layer, side), axis, ends };
        sheet.between(span, &offs, outer, Length::ZERO);
    }
    sheet.finish(board)
}

fn wide_of(rect: Rect) -> [Length; 2] {
    [rect.left(), rect.size.width]
}

fn high_of(rect: Rect) -> [Length; 2] {
    [rect.top(), rect.size.height]
}
