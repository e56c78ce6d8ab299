//! The dimensions of a mat, as a draughtsman sets them.

use super::draughting::{Axis, Draughtsman, Span};
use crate::drawing::{Drawing, Measure};
use crate::geometry::{Rect, Side};
use crate::layout::Figures;
use crate::length::{Length, Unit};

/// The dimensions of a mat, to be laid over its front: board and window outside below and at
/// the right, the borders of the innermost sight edge on the board itself. With several
/// windows, of the rectangle round them all. `height` is that of a figure at the drawing's
/// scale; figures are in `unit`.
pub fn dimensions(figures: &Figures, unit: Unit, height: Length) -> Drawing {
    let board = Rect::at_origin(figures.outer);
    let sight = figures.group();
    let mut sheet = Draughtsman::new(unit, height);
    let step = sheet.height.scaled(23, 10);
    for (rect, place, across, down) in [
        (sight, 1, Measure::WindowWidth, Measure::WindowHeight),
        (board, 2, Measure::OuterWidth, Measure::OuterHeight),
    ] {
        let width = [rect.left(), rect.right()];
        let span = Span { measure: across, axis: Axis::Across, ends: width };
        sheet.outside(span, rect.bottom(), board.bottom() + step * place);
        let height = [rect.top(), rect.bottom()];
        let span = Span { measure: down, axis: Axis::Down, ends: height };
        sheet.outside(span, rect.right(), board.right() + step * place);
    }
    for side in Side::ALL {
        let (axis, ends, outer, along) = match side {
            Side::Top => (Axis::Down, [board.top(), sight.top()], 0, width(sight)),
            Side::Bottom => (Axis::Down, [sight.bottom(), board.bottom()], 1, width(sight)),
            Side::Left => (Axis::Across, [board.left(), sight.left()], 0, depth(sight)),
            Side::Right => (Axis::Across, [sight.right(), board.right()], 1, depth(sight)),
        };
        // At the right and below, a figure that stands outside clears the other dimensions.
        let beyond = if outer == 1 { step * 2 + sheet.gap() } else { Length::ZERO };
        let [from, long] = along;
        let offs = [(1, 2), (1, 3), (2, 3), (1, 5), (4, 5)]
            .map(|(over, under)| from + long.scaled(over, under));
        let span = Span { measure: Measure::Border(side), axis, ends };
        sheet.between(span, &offs, outer, beyond);
    }
    sheet.finish(board)
}

fn width(rect: Rect) -> [Length; 2] {
    [rect.left(), rect.size.width]
}

fn depth(rect: Rect) -> [Length; 2] {
    [rect.top(), rect.size.height]
}
