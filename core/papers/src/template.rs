//! True-size templates: where the sheet and its hinges go, tiled over pages, and the corners of
//! each layer; with bars to check the printer by.

use sightedge_core::geometry::{Rect, Size};
use sightedge_core::hinges;
use sightedge_core::length::Length;
use sightedge_core::plates::{corner, over_cut, placing};

use crate::frame::{MARGIN, Plan};
use crate::marks::{Marks, Scale};
use crate::page::{Block, Leaf, Mark, count};
use crate::tiles::{clipped, tiles};
use crate::words::{BODY, SMALL, STRONG, both};

/// Bars and page map at the foot of each page, how high.
const FOOT: f64 = 15.0;
/// From the edge of a tile to its registration marks.
const INSIDE: f64 = 8.0;
/// The same as a length.
const INSIDE_OF: Length = Length::mm(8);

/// Lays out the templates; the pages lie on their sides.
pub(crate) fn pages(plan: &Plan<'_>) -> Vec<Vec<Block>> {
    let [high, wide] = plan.paper.size();
    let size = [wide, high];
    let mut leaves = Vec::new();
    let figures = plan.figures();
    for window in &figures.openings {
        // On the bench's own figures: the sheet is laid under the window that is cut.
        let held = hinges::plan(plan.document.unit, plan.mat(), &plan.derived.layout, window);
        let drawing = placing(figures, window, &held.hinges);
        let mut probe = Leaf::default();
        let top = plan.head(&mut probe, "Template", wide - 2.0 * MARGIN);
        let top = top + STRONG.pitch() + 1.6;
        let room = [wide - 2.0 * MARGIN, high - MARGIN - FOOT - top];
        let [w, h] = room.map(Length::from_mm_nearest);
        let (across, all) = tiles(drawing.bounds, Size::new(w, h));
        for (index, tile) in all.iter().enumerate() {
            let mut leaf = Leaf::default();
            plan.head(&mut leaf, "True-size template, placing the sheet", wide - 2.0 * MARGIN);
            let name = format!(
                "Tile {} of {}, seen from the front. Print at 100 %, without fitting to the \
                 page; join tiles by their crosses.",
                index + 1,
                all.len()
            );
            let line = vec![STRONG.shortened(&name, wide - 2.0 * MARGIN)];
            leaf.text(MARGIN, top - STRONG.pitch() - 1.6, wide - 2.0 * MARGIN, STRONG, line);
            let part = clipped(&drawing, *tile);
            let marks = Marks { corner: tile.at, ..Marks::plain(&part, Scale::TRUE, false) };
            let mut made = marks.of(&part);
            crosses(&all, *tile, &marks, &mut made);
            let [w, h] =
                [tile.size.width, tile.size.height].map(|length| Scale::TRUE.mm(length));
            made.push(frame(w, h));
            let alt = format!(
                "True to size, tile {} of {}: the mat’s upper edge, the window, and the sheet \
                 under it with its hinges.",
                index + 1,
                all.len()
            );
            leaf.blocks.push(Block::Drawing { x: MARGIN, y: top, w, h, alt, marks: made });
            foot(size, Some((across, all.len(), index)), &mut leaf);
            leaves.push(leaf);
        }
    }
    leaves.push(corners(plan, size));
    let all = leaves.len();
    for (index, leaf) in leaves.iter_mut().enumerate() {
        plan.foot(leaf, size, [index + 1, all]);
    }
    leaves.into_iter().map(|leaf| leaf.blocks).collect()
}

/// The edge of a tile.
fn frame(w: f64, h: f64) -> Mark {
    let p = vec![[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]];
    Mark::Line { p, closed: true, pen: "tile" }
}

/// Crosses at the same places of the mat on every tile that shows them: near both ends of the
/// middle line of what two neighbours share.
fn crosses(all: &[Rect], tile: Rect, marks: &Marks<'_>, made: &mut Vec<Mark>) {
    let mut letter = b'A';
    for (index, one) in all.iter().enumerate() {
        for two in all.iter().skip(index + 1) {
            let Some(shared) = one.intersection(*two) else { continue };
            // Neighbours share a long strip; tiles that touch by a corner share a small one.
            let [w, h] = [shared.size.width, shared.size.height];
            let side_by_side = h == one.size.height && w < one.size.width;
            let above = w == one.size.width && h < one.size.height;
            if !side_by_side && !above {
                continue;
            }
            let name = char::from(letter).to_string();
            letter = letter.wrapping_add(1);
            if *one != tile && *two != tile {
                continue;
            }
            let (middle_x, middle_y) = (
                shared.left() + shared.size.width.halves().0,
                shared.top() + shared.size.height.halves().0,
            );
            let places = if side_by_side {
                [(middle_x, shared.top() + INSIDE_OF), (middle_x, shared.bottom() - INSIDE_OF)]
            } else {
                [(shared.left() + INSIDE_OF, middle_y), (shared.right() - INSIDE_OF, middle_y)]
            };
            for (number, (x, y)) in (1..).zip(places) {
                let [x, y] = marks.point(sightedge_core::geometry::Point::new(x, y));
                cross(x, y, &format!("{name}{number}"), made);
            }
        }
    }
}

/// A cross in a circle.
fn cross(x: f64, y: f64, name: &str, made: &mut Vec<Mark>) {
    let arm = INSIDE / 2.0;
    for p in [[[x - arm, y], [x + arm, y]], [[x, y - arm], [x, y + arm]]] {
        made.push(Mark::Line { p: p.to_vec(), closed: false, pen: "register" });
    }
    made.push(Mark::Circle { x, y, r: arm / 2.0 });
    let w = SMALL.width(name);
    made.push(Mark::Text {
        x: x + 1.2,
        y: y - 1.2 - arm / 4.0,
        w,
        s: name.to_owned(),
        size: SMALL.size,
        turned: false,
        label: true,
    });
}

/// The bars to measure, and where this page lies among the others.
fn foot([wide, high]: [f64; 2], map: Option<(usize, usize, usize)>, leaf: &mut Leaf) {
    let y = high - MARGIN - FOOT + 3.0;
    for (x, long, parts, text) in [
        (MARGIN, 100.0, 10_u32, "100 mm: measure it"),
        (MARGIN + 110.0, 101.6, 4, "4 in: measure it"),
    ] {
        let mut marks = Vec::new();
        marks.push(Mark::Line { p: vec![[0.0, 3.0], [long, 3.0]], closed: false, pen: "bar" });
        for n in 0..=parts {
            let at = crate::marks::fine(long * f64::from(n) / f64::from(parts));
            let ends = n == 0 || n == parts;
            let p = vec![[at, if ends { 0.0 } else { 1.6 }], [at, 3.0]];
            marks.push(Mark::Line { p, closed: false, pen: "bar" });
        }
        let alt = format!("A bar of {}.", text.split(':').next().unwrap_or_default());
        leaf.blocks.push(Block::Drawing { x, y, w: long, h: 3.4, alt, marks });
        leaf.text(x, y + 4.0, long, SMALL, vec![text.to_owned()]);
    }
    let Some((across, all, here)) = map.filter(|(_, all, _)| *all > 1) else { return };
    let rows = all.div_ceil(across.max(1));
    let cell = [7.0, (9.0 / count(rows)).min(5.0)];
    let mut marks = Vec::new();
    for index in 0..all {
        let (column, row) = (index % across, index / across);
        let (x, y) = (count(column) * cell[0], count(row) * cell[1]);
        let p = vec![[x, y], [x + cell[0], y], [x + cell[0], y + cell[1]], [x, y + cell[1]]];
        if index == here {
            marks.push(Mark::Fill { p: p.clone(), c: "#404040".to_owned() });
        }
        marks.push(Mark::Line { p, closed: true, pen: "fine" });
    }
    let (w, h) = (cell[0] * count(across), cell[1] * count(rows));
    let x = wide - MARGIN - w;
    let alt = format!("Page map: this is tile {} of {all}.", here + 1);
    leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks });
    leaf.set(x - 40.0, y, 38.0, SMALL, 0, "right", vec![format!("Tile {} of {all}", here + 1)]);
}

/// One corner of each layer's window, from the back.
fn corners(plan: &Plan<'_>, size: [f64; 2]) -> Leaf {
    let [wide, _] = size;
    let mut leaf = Leaf::default();
    let y = plan.head(&mut leaf, "True-size template, corners", wide - 2.0 * MARGIN);
    let text = "The upper left corner of each layer’s window as it lies on the back, with its \
                over-cut: lay a test cut on it. The dashed line is where the opening ends on the face. \
                Print at 100 %, without fitting to the page.";
    let lines = BODY.lines(text, wide - 2.0 * MARGIN);
    let y = leaf.text(MARGIN, y, wide - 2.0 * MARGIN, BODY, lines) + 4.0;
    let (unit, figures) = (plan.unit(), plan.figures());
    let (mut x, mut y) = (MARGIN, y);
    let columns = count(plan.mat().layers.len().clamp(2, 4));
    let cell = (wide - 2.0 * MARGIN) / columns;
    let reach = Size::new(
        Length::from_mm_nearest(cell - 6.0),
        Length::from_mm_nearest((size[1] - MARGIN - FOOT - y - 13.0).min(112.0)),
    );
    for window in &figures.openings {
        for (index, (layer, cut)) in plan.mat().layers.iter().zip(&window.layers).enumerate() {
            if x + cell > wide - MARGIN + 0.01 {
                x = MARGIN;
                y += 12.0 + Scale::TRUE.mm(reach.height);
            }
            let drawing = corner(figures, cut, layer, reach);
            let part = clipped(&drawing, drawing.bounds);
            let marks = Marks::plain(&part, Scale::TRUE, false);
            let [w, h] =
                [part.bounds.size.width, part.bounds.size.height].map(|l| Scale::TRUE.mm(l));
            let mut made = marks.of(&part);
            made.push(frame(w, h));
            let name = plan.layer_name(index);
            let top = leaf.heading(x, y, cell, 2, &name);
            let over = format!("Over-cut {}", both(over_cut(layer), unit));
            let top = leaf.text(x, top, cell, BODY, vec![over]) + 1.5;
            let alt = format!("True to size: one corner of the {}.", name.to_lowercase());
            leaf.blocks.push(Block::Drawing { x, y: top, w, h, alt, marks: made });
            x += cell;
        }
    }
    foot(size, None, &mut leaf);
    leaf
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cross_has_both_arms() {
        let mut made = Vec::new();
        cross(20.0, 30.0, "A1", &mut made);
        let arms: Vec<_> = made
            .iter()
            .filter_map(|mark| match mark {
                Mark::Line { p, pen: "register", .. } => Some(p.clone()),
                _ => None,
            })
            .collect();
        let arm = INSIDE / 2.0;
        let across = vec![[20.0 - arm, 30.0], [20.0 + arm, 30.0]];
        let down = vec![[20.0, 30.0 - arm], [20.0, 30.0 + arm]];
        assert_eq!(arms, [across, down]);
    }
}
