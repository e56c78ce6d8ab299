//! True-size plates, to be laid on the work: where the sheet lies and its hinges go, and how
//! a corner of each layer is cut.

use super::cuts::over_cut;
use super::mirrored;
use crate::drawing::{Align, Drawing, Item, Line, Pen, Stand, Text, TextRole};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::layout::{Cut, Figures, Window};
use crate::length::Length;
use crate::spec::Layer;

/// The height of a letter on a true-size plate.
const LETTER: Length = Length::mm(3);
/// What of the work is drawn below the upper edges of sheet and window.
const BELOW: Length = Length::mm(16);
/// A hinge's tab. Source: Paschke, *The Artist's Magazine*, 2014: about 1 1/2 × 1/2 in.
const TAB: Size = Size::new(Length::inches(1, 1, 2), Length::inches(0, 1, 2));
/// How far a tab holds onto the sheet. Source: Library of Congress: 5 mm usual.
const HOLD: Length = Length::mm(5);
/// From the sheet's corners to the outer tabs. Source: Paschke 2014, about 1 in.
const FROM_CORNER: Length = Length::inches(1, 0, 1);
/// The most between the middles of tabs (from memory: 10 to 12 in).
const APART: Length = Length::inches(12, 0, 1);
/// What is drawn outside a layer's corner.
const OUTSIDE: Length = Length::mm(16);

/// Where tabs usually go along a sheet's top edge, seen from the front: two just inside the
/// corners, the others evenly between. None on a sheet too small for two.
pub fn usual_tabs(sheet: Rect) -> Vec<Rect> {
    let first = sheet.left() + FROM_CORNER;
    let last = sheet.right() - FROM_CORNER - TAB.width;
    if first + TAB.width > last {
        return Vec::new();
    }
    let gaps = (last - first).units().div_euclid(APART.units()) + 1;
    let top = sheet.top() + HOLD - TAB.height;
    (0..=gaps)
        .map(|n| {
            let along = (last - first).scaled(i128::from(n), i128::from(gaps));
            Rect::new(Point::new(first + along, top), TAB)
        })
        .collect()
}

/// The upper part of the mat, true to size, seen from the front: the board's edges, the window,
/// the sheet under it, and `tabs` along the sheet's top edge. The bounds end a little below
/// the upper edges of sheet and window.
pub fn placing(figures: &Figures, window: &Window, tabs: &[Rect]) -> Drawing {
    let board = Rect::at_origin(figures.outer);
    let mut items = Vec::with_capacity(tabs.len() + 8);
    closed(&mut items, board, Pen::Edge);
    closed(&mut items, window.sight, Pen::Section);
    closed(&mut items, window.sheet, Pen::Hidden);
    closed(&mut items, window.image, Pen::Fine);
    for tab in tabs {
        closed(&mut items, *tab, Pen::Fine);
    }
    let mut name = |text: &str, at: Point, align: Align| label(&mut items, text, at, align);
    let near = LETTER.scaled(9, 10);
    name("board", Point::new(board.left() + near, board.top() + near), Align::Start);
    let inside = |rect: Rect| Point::new(rect.left() + near, rect.top() + near);
    name("sheet", inside(window.sheet), Align::Start);
    let sight = Point::new(window.sight.right() - near, window.sight.top() + near);
    name("sight edge", sight, Align::End);
    if let Some(tab) = tabs.first() {
        name("hinge", Point::new(tab.right() + near, tab.top() + near), Align::Start);
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
    let reach = |most: Length, long: Length| {
        (most - OUTSIDE).min(long.scaled(9, 20)).max(Length::ZERO)
    };
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
    let (role, stand) = (TextRole::Label, Stand::Beside);
    let text = text.to_owned();
    items.push(Item::Text(Text { text, role, at, align, stand, turned: false, height: LETTER }));
}
