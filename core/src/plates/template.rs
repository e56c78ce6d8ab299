//! True-size plates, to be laid on the work: where the sheet lies and its hinges go, and how
//! a corner of each layer is cut.

use super::cuts::over_cut;
use super::mirrored;
use crate::drawing::{Align, Baseline, Drawing, Item, Line, Pen, Text, TextRole, around};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::hinges::Hinge;
use crate::layout::{Cut, Figures, Window};
use crate::length::Length;
use crate::spec::Layer;

/// The height of a letter on a true-size plate: 8 points.
const LETTER: Length = Length::um(3_500);
/// What of the work is drawn below the upper edges of sheet and window.
const BELOW: Length = Length::mm(16);
/// What is drawn outside a layer's corner.
const OUTSIDE: Length = Length::mm(16);

/// The upper part of the mat, true to size, seen from the front: the board's edges, the window,
/// the sheet under it, and its `hinges`. The bounds end a little below
/// the upper edges of sheet and window.
pub fn placing(figures: &Figures, window: &Window, hinges: &[Hinge]) -> Drawing {
    let board = Rect::at_origin(figures.outer);
    let mut items = Vec::with_capacity(2 * hinges.len() + 8);
    closed(&mut items, board, Pen::Edge);
    closed(&mut items, window.sight, Pen::Section);
    closed(&mut items, window.sheet, Pen::Hidden);
    closed(&mut items, window.image, Pen::Fine);
    for hinge in hinges {
        closed(&mut items, hinge.tab, Pen::Fine);
        if let Some(cross) = hinge.cross {
            closed(&mut items, cross, Pen::Fine);
        }
    }
    let mut name = |text: &str, at: Point, align: Align| label(&mut items, text, at, align);
    let near = LETTER.scaled(9, 10);
    name("board", Point::new(board.left() + near, board.top() + near), Align::Start);
    // Below what the hinges hold of it.
    let sheet = window.sheet;
    let below = Point::new(sheet.left() + near, sheet.top() + near + LETTER * 3);
    name("sheet", below, Align::Start);
    let sight = Point::new(window.sight.right() - near, window.sight.top() + near);
    name("sight edge", sight, Align::End);
    for hinge in hinges {
        let words = if hinge.locates { "locating hinge" } else { "hinge" };
        let reach = hinge.cross.map_or(hinge.tab, |cross| around(cross, hinge.tab));
        name(words, Point::new(reach.right() + near, reach.top() + near), Align::Start);
    }
    let top = board.top().min(window.sheet.top());
    let bottom = window.sheet.top().max(window.sight.top()) + BELOW;
    let left = board.left().min(window.sheet.left());
    let right = board.right().max(window.sheet.right());
    let bounds = Rect::new(Point::new(left, top), Size::new(right - left, bottom - top));
    Drawing { bounds, ground: None, items }
}

/// The upper left corner of one layer's window, true to size, seen from the back: where both
/// cuts run on past the corner of the sight edge, and where the face ends. The drawing is as
/// large as `most`, less where the window is small.
pub fn corner(figures: &Figures, cut: &Cut, layer: &Layer, most: Size) -> Drawing {
    let wide = figures.outer.width;
    let (sight, face) = (mirrored(cut.sight.bounds, wide), mirrored(cut.face.bounds, wide));
    let run = over_cut(layer);
    let mut items = Vec::with_capacity(6);
    if face != sight {
        closed(&mut items, face, Pen::Hidden);
    }
    // Each cut runs on past the corners; the window's own edge is what lies between.
    let (left, top) = (sight.left(), sight.top());
    for points in [
        vec![Point::new(left - run, top), Point::new(sight.right() + run, top)],
        vec![Point::new(left, top - run), Point::new(left, sight.bottom() + run)],
    ] {
        items.push(Item::Line(Line { points, closed: false, pen: Pen::Section }));
    }
    let at = |x: i64, y: i64| Point::new(left + Length::mm(x), top + Length::mm(y));
    label(&mut items, "window", at(3, 4), Align::Start);
    label(&mut items, "back", at(3, -6), Align::Start);
    // No further than the middle, where the other corner begins.
    let reach =
        |most: Length, long: Length| (most - OUTSIDE).min(long.scaled(9, 20)).max(Length::ZERO);
    let across = reach(most.width, sight.size.width);
    let down = reach(most.height, sight.size.height);
    let bounds = Rect::new(sight.at, Size::new(across, down));
    let room = Sides::new(OUTSIDE, Length::ZERO, Length::ZERO, OUTSIDE);
    Drawing { bounds: bounds.outset(room), ground: None, items }
}

fn closed(items: &mut Vec<Item>, rect: Rect, pen: Pen) {
    if rect.size.is_positive() {
        items.push(Item::Line(Line { points: rect.path().points, closed: true, pen }));
    }
}

fn label(items: &mut Vec<Item>, text: &str, at: Point, align: Align) {
    let (role, baseline) = (TextRole::Label, Baseline::Beside);
    let text = text.to_owned();
    items.push(Item::Text(Text {
        text,
        role,
        at,
        align,
        baseline,
        turned: false,
        height: LETTER,
    }));
}
