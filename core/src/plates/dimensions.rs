//! The dimensions of a mat, set as on a workshop drawing.

use super::dimensioning::{Axis, Dimensioner, Span};
use crate::drawing::{Drawing, Measure, around};
use crate::geometry::{Rect, Side};
use crate::layout::Figures;
use crate::length::{Length, Unit};
use crate::spec::layer_name;

/// The dimensions of a mat, to be laid over its front: board and window outside below and at
/// the right, the borders of each layer on the board itself, named with their layer where there
/// are several. With several windows, of the rectangle round them all. `height` is that of a
/// figure at the drawing's scale; figures are in `unit`.
pub fn dimensions(figures: &Figures, unit: Unit, height: Length) -> Drawing {
    let flat = arranged(figures, Dimensioner::new(unit, height), true);
    let layers = figures.openings.iter().map(|window| window.layers.len()).max();
    if layers.unwrap_or_default() < 2 {
        return flat;
    }
    // Beside a tall board names under their figures take less room, beside a low one in one line.
    let stacked = arranged(figures, Dimensioner::new(unit, height).stacked(), true);
    if stacked.bounds.size.width < flat.bounds.size.width { stacked } else { flat }
}

/// As [`dimensions`], for a screen: where names at the sides would take more room than the board
/// itself, only the figures above and below name their layers. The lines end at the edges of
/// theirs, and each says which it is under the pointer.
pub fn dimensions_on_screen(figures: &Figures, unit: Unit, height: Length) -> Drawing {
    let named = dimensions(figures, unit, height);
    if named.bounds.size.width <= figures.outer.width.scaled(5, 2) {
        return named;
    }
    arranged(figures, Dimensioner::new(unit, height), false)
}

/// The dimensions as this dimensioner puts them, those at the sides with the names of their layers
/// or without.
fn arranged(figures: &Figures, mut sheet: Dimensioner, named_sides: bool) -> Drawing {
    let board = Rect::at_origin(figures.outer);
    let sight = figures.group();
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
    let layers = figures.openings.iter().map(|window| window.layers.len()).max();
    for index in 0..layers.unwrap_or_default() {
        borders(&mut sheet, figures, (index, layers.unwrap_or_default()), named_sides);
    }
    sheet.finish(board)
}

/// The borders of one layer.
fn borders(
    sheet: &mut Dimensioner,
    figures: &Figures,
    (index, count): (usize, usize),
    named_sides: bool,
) {
    let board = Rect::at_origin(figures.outer);
    let cuts = || figures.openings.iter().filter_map(|window| window.layers.get(index));
    let Some(sight) = cuts().map(|cut| cut.sight.bounds).reduce(around) else { return };
    let name = (count > 1).then(|| layer_name(index, count).to_lowercase());
    let done = cuts().any(|cut| cut.done);
    let step = sheet.height.scaled(23, 10);
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
        let offs = [(1, 2), (1, 3), (2, 3), (1, 5), (4, 5), (1, 10), (9, 10)]
            .map(|(over, under)| from + long.scaled(over, under));
        // Above and below there is room to say that it is cut already.
        let own = name.as_ref().filter(|_| named_sides || axis == Axis::Down);
        sheet.of = own.map(|name| match axis {
            Axis::Down if done => format!("{name}, cut"),
            _ => name.clone(),
        });
        let span = Span { measure: Measure::Border(index, side), axis, ends };
        sheet.between(span, &offs, outer, beyond);
    }
    sheet.of = None;
}

fn width(rect: Rect) -> [Length; 2] {
    [rect.left(), rect.size.width]
}

fn depth(rect: Rect) -> [Length; 2] {
    [rect.top(), rect.size.height]
}
