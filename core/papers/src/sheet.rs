//! The plan sheet: one page that tells all of it.

use std::collections::BTreeMap;

use sightedge_core::drawing::{Drawing, Item, Pen};
use sightedge_core::geometry::Side;
use sightedge_core::layout::Window;
use sightedge_core::plates::{self, Look};
use sightedge_core::spec::WorkId;

use crate::frame::{GAP, MARGIN, Plan, body, keys};
use crate::marks::{Marks, Scale, fine};
use crate::page::{Block, Leaf, Mark, count};
use crate::words::{BODY, HEADING, KEY, SMALL, extents};

/// Heights of table rows tried, from roomy to tight.
const ROWS: [f64; 4] = [4.4, 4.1, 3.8, 3.5];
/// The height of a figure in a drawing, on paper.
const FIGURE: f64 = 2.7;
/// Where the places to sign are, how high.
const SIGN: f64 = 26.0;
/// The column of the key sizes.
const KEYS: f64 = 36.0;

/// What does not depend on how large the drawings are.
#[derive(Debug)]
struct Room {
    row: f64,
    /// What is left for the pictures of the mat.
    high: f64,
}

/// How picture and drawing stand to each other.
#[derive(Clone, Copy, Debug)]
struct Setting {
    scale: Scale,
    stacked: bool,
}

/// Lays out the plan sheet.
pub(crate) fn pages(
    plan: &Plan<'_>,
    pictures: &BTreeMap<WorkId, String>,
    shades: bool,
) -> Vec<Vec<Block>> {
    let [page_wide, page_high] = plan.paper.size();
    let wide = page_wide - 2.0 * MARGIN;
    let mut leaf = Leaf::default();
    let top = plan.head(&mut leaf, "Plan sheet", wide);
    let bottom = page_high - MARGIN;
    let Some(window) = plan.figures().openings.first() else {
        plan.foot(&mut leaf, [page_wide, page_high], [1, 1]);
        return vec![leaf.blocks];
    };
    let sizes = plan.size_rows(plan.figures(), window);
    let around = plan.side_rows(plan.figures(), window, false);
    let caption = SMALL.pitch() + 1.2;
    let heading = HEADING.pitch() + 0.8;
    let half = (wide - 6.0) * 0.49;
    let right_wide = wide - half - 6.0;
    let cut_high = section_needs(plan, window, right_wide);
    let room = |row: f64| {
        let materials = row * count(plan.mat().layers.len() + 3);
        let beside = (row * count(sizes.len() + 2)).max(cut_high - heading);
        let tables = beside + row * count(around.len() + 2);
        let taken = materials + tables + 4.0 * heading + 4.0 * GAP + SIGN + caption;
        Room { row, high: bottom - top - taken }
    };
    let rooms = ROWS.map(room);
    // The largest scale that fits at all, then the roomiest rows it leaves.
    let (setting, room) = Scale::SMALLER
        .into_iter()
        .flat_map(|thing| [false, true].map(|stacked| (thing, stacked)))
        .find_map(|(thing, stacked)| {
            let setting = Setting { scale: Scale::smaller(thing), stacked };
            let [w, h] = needs(plan, setting);
            rooms.iter().find(|room| w <= wide && h <= room.high).map(|room| (setting, room))
        })
        .unwrap_or((Setting { scale: Scale::smaller(100), stacked: false }, &rooms[3]));

    let mut y =
        mat_and_drawing(plan, window, pictures, shades, setting, [top, wide], &mut leaf);
    // What is left over goes between the blocks.
    let space = GAP + ((room.high - needs(plan, setting)[1]) / 5.0).clamp(0.0, 9.0);
    y += space;

    y = leaf.heading(MARGIN, y, wide, 2, "Boards");
    y = leaf.table(plan.materials(window, [MARGIN, y], wide, room.row)) + space;

    let start = leaf.heading(MARGIN, y, half, 2, "Sizes");
    let end = leaf.table(plan.sizes_table([MARGIN, start], half, room.row, sizes));
    let end = end.max(y + cut_high);
    let right = MARGIN + half + 6.0;
    section(plan, window, [right, y, right_wide, end - y], &mut leaf);
    y = end + space;

    y = leaf.heading(MARGIN, y, wide, 2, "Sides, seen from the front");
    let names = ["Top", "Right", "Bottom", "Left"];
    y = leaf.table(plan.sides_table([MARGIN, y], wide, room.row, names, around)) + space;

    let y = y.min(bottom - SIGN - heading);
    let most = ((bottom - y - heading) / BODY.pitch()).floor();
    checks(plan, [MARGIN, y, half], most, &mut leaf);
    sign([right, y, right_wide], &mut leaf);
    plan.foot(&mut leaf, [page_wide, page_high], [1, 1]);
    vec![leaf.blocks]
}

/// How wide and high picture and drawing are together.
fn needs(plan: &Plan<'_>, setting: Setting) -> [f64; 2] {
    let Setting { scale, stacked } = setting;
    let drawing = drawn(plan, scale).bounds.size;
    let outer = plan.figures().outer;
    let [w, h] = [drawing.width, drawing.height].map(|length| scale.mm(length));
    let [pw, ph] = [outer.width, outer.height].map(|length| scale.mm(length));
    if stacked { [w.max(pw), h + ph + 4.0 + SMALL.pitch()] } else { [w + pw + 6.0, h.max(ph)] }
}

/// The front in lines with its dimensions.
fn drawn(plan: &Plan<'_>, scale: Scale) -> Drawing {
    let figures = plan.figures();
    let mut outline = plates::outline(figures);
    // Sight edge and face opening would run into each other.
    let run = plan.mat().layers.iter().map(|layer| layer.bevel.shown(layer.board.thickness));
    if run.max().is_none_or(|run| scale.mm(run) < 0.4) {
        let fine = |item: &Item| matches!(item, Item::Line(line) if line.pen == Pen::Fine);
        outline.items.retain(|item| !fine(item));
    }
    let figure = scale.on_thing(FIGURE);
    outline.under(plates::dimensions(figures, plan.unit(), figure))
}

/// The matted picture, the drawing beside or below it, and the key sizes where there is room.
fn mat_and_drawing(
    plan: &Plan<'_>,
    window: &Window,
    pictures: &BTreeMap<WorkId, String>,
    shades: bool,
    setting: Setting,
    [top, wide]: [f64; 2],
    leaf: &mut Leaf,
) -> f64 {
    let Setting { scale, stacked } = setting;
    let figures = plan.figures();
    let outer = figures.outer;
    let look = Look { margin: 0, ..Look::default() };
    let mut front = plates::front(plan.mat(), figures, &look);
    front.ground = None;
    let marks = Marks { scale, corner: front.bounds.at, pictures, shades };
    let [pw, ph] = [outer.width, outer.height].map(|length| scale.mm(length));
    let title = plan.title();
    let alt = format!("The picture “{title}” in its mat, seen from the front.");
    let (x, y, w, h) = (MARGIN, top, pw, ph);
    leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&front) });

    let drawing = drawn(plan, scale);
    let marks = Marks { corner: drawing.bounds.at, ..marks };
    let [w, h] = [drawing.bounds.size.width, drawing.bounds.size.height].map(|l| scale.mm(l));
    // The board of the drawing stands level with the picture's.
    let rise = scale.mm(-drawing.bounds.at.y);
    let alt = format!(
        "The mat in lines with its dimensions: {}, window {}.",
        extents(outer, plan.unit()),
        extents(window.sight.size, plan.unit())
    );
    let caption = |leaf: &mut Leaf, x: f64, y: f64, w: f64, text: String| {
        leaf.text(x, y + 1.2, w, SMALL, vec![text])
    };
    let name = scale.name();
    if stacked {
        let end = caption(leaf, MARGIN, top + ph, wide, format!("As it will look, {name}"));
        if wide - w >= KEYS + 6.0 {
            key_sizes(plan, window, [MARGIN + wide - KEYS, top], leaf);
        }
        let (x, y) = (MARGIN, end + 4.0 - rise);
        leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&drawing) });
        let text = format!("Front with dimensions, {name}; sheet and image dashed");
        return caption(leaf, MARGIN, y + h, wide, text);
    }
    let left = wide - pw - w;
    let with_keys = left >= KEYS + 12.0;
    let space = if with_keys { (left - KEYS) / 2.0 } else { left };
    let x = MARGIN + pw + space + scale.mm(drawing.bounds.at.x).min(0.0);
    let x = x.max(MARGIN + pw + 4.0);
    let y = top - rise;
    leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&drawing) });
    if with_keys {
        key_sizes(plan, window, [MARGIN + wide - KEYS, top], leaf);
    }
    let foot = (top + ph).max(y + h);
    caption(leaf, MARGIN, foot, pw + space, format!("As it will look, {name}"));
    let text = format!("Front with dimensions, {name}; sheet and image dashed");
    caption(leaf, x - scale.mm(drawing.bounds.at.x), foot, w, text)
}

fn key_sizes(plan: &Plan<'_>, window: &Window, [x, y]: [f64; 2], leaf: &mut Leaf) {
    let (mut marks, mut said, mut down) = (Vec::new(), Vec::new(), 0.0);
    for (name, one, two) in keys(plan, window) {
        marks.push(Mark::Line {
            p: vec![[0.0, down], [KEYS, down]],
            closed: false,
            pen: "fine",
        });
        said.push(format!("{name} {one}"));
        down += 1.4;
        for (text, style) in [(name, SMALL), (one, KEY), (two, SMALL)] {
            // Letters stand on a line at four fifths of its pitch.
            let (y, w) = (fine(down + style.pitch() * 0.8), style.width(&text));
            let label = style.quiet;
            let size = style.size * (KEYS / w).min(1.0);
            marks.push(Mark::Text { x: 0.0, y, w, s: text, size, turned: false, label });
            down += style.pitch();
        }
        down += 3.0;
    }
    let alt = format!("Sizes, width × height: {}.", said.join(", "));
    leaf.blocks.push(Block::Drawing { x, y, w: KEYS, h: down, alt, marks });
}

/// How high the section is with its heading, true to size; nothing where it is too wide so.
fn section_needs(plan: &Plan<'_>, window: &Window, wide: f64) -> f64 {
    let size = cut_through(plan, window, Scale::TRUE, 2.2).bounds.size;
    let [w, h] = [size.width, size.height].map(|length| Scale::TRUE.mm(length));
    if w > wide { 0.0 } else { h + HEADING.pitch() + 0.9 }
}

fn cut_through(plan: &Plan<'_>, window: &Window, scale: Scale, figure: f64) -> Drawing {
    // The boards' names stand in their own table.
    let mut mat = plan.mat().clone();
    for board in mat.layers.iter_mut().map(|layer| &mut layer.board) {
        board.name.clear();
    }
    mat.backing.board.name.clear();
    plates::section(
        &mat,
        plan.figures(),
        window.id,
        Side::Bottom,
        &Look::default(),
        plan.unit(),
        scale.on_thing(figure),
    )
}

/// The section, as large as its place allows.
fn section(plan: &Plan<'_>, window: &Window, [x, y, w, h]: [f64; 4], leaf: &mut Leaf) {
    let high = h - HEADING.pitch() - 0.8;
    let scales = [(4, 1), (2, 1), (1, 1), (1, 2), (1, 4)];
    // Small figures rather than a small section.
    let tries = scales.into_iter().flat_map(|scale| [2.6, 2.2].map(|figure| (scale, figure)));
    for ((paper, thing), figure) in tries {
        let scale = Scale { paper, thing };
        let drawing = cut_through(plan, window, scale, figure);
        let size = drawing.bounds.size;
        let [wide, tall] = [size.width, size.height].map(|length| scale.mm(length));
        if (wide > w || tall > high) && (paper, thing) != (1, 4) {
            continue;
        }
        let text = format!("Section through the bottom, {}", scale.name());
        let top = leaf.heading(x, y, w, 2, &text);
        let alt = "A section through the mat’s bottom side: boards, bevels, sheet and backing.";
        let pictures = BTreeMap::new();
        let marks =
            Marks { scale, corner: drawing.bounds.at, pictures: &pictures, shades: false };
        let (w, h, alt) = (wide, tall, alt.to_owned());
        let y = top + ((high - tall) / 2.0).max(0.0);
        leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&drawing) });
        return;
    }
}

/// What is still open, and the maker's notes.
fn checks(plan: &Plan<'_>, [x, y, w]: [f64; 3], most: f64, leaf: &mut Leaf) {
    let mut room = 0;
    while count(room + 1) <= most {
        room += 1;
    }
    let y = leaf.heading(x, y, w, 2, "Checks");
    let notes = BODY.lines(&sightedge_core::length::typeset(&plan.mat().notes), w);
    let for_notes = if notes.is_empty() { 0 } else { (notes.len() + 2).min(room / 2) };
    let lines = plan.checks(w, room - for_notes);
    let y = y + body(lines.len());
    leaf.text(x, y - body(lines.len()), w, BODY, lines);
    if for_notes > 2 {
        let y = leaf.heading(x, y + 1.6, w, 2, "Notes");
        let mut notes = notes;
        let cut = notes.len() > for_notes - 2;
        notes.truncate(for_notes - 2);
        if cut && let Some(last) = notes.last_mut() {
            *last = BODY.shortened(&format!("{last} …"), w);
        }
        leaf.text(x, y, w, BODY, notes);
    }
}

/// Places for the inscription and the signatures.
fn sign([x, y, w]: [f64; 3], leaf: &mut Leaf) {
    let y = leaf.heading(x, y, w, 2, "Inscription and signatures");
    let third = w / 3.0;
    let step = 8.6;
    let rows: [&[(&str, f64)]; 3] = [
        &[("Title", third * 2.0 - 2.0), ("Number", third)],
        &[("Client", third * 2.0 - 2.0), ("Date", third)],
        &[("Maker", third * 2.0 - 2.0), ("Date", third)],
    ];
    let mut marks = Vec::new();
    for (index, row) in rows.into_iter().enumerate() {
        let foot = 2.4 + step * count(index) + SMALL.pitch() * 0.8;
        let mut at = 0.0;
        for (word, wide) in row {
            let (w, size) = (SMALL.width(word), SMALL.size);
            marks.push(Mark::Text {
                x: at,
                y: foot,
                w,
                s: (*word).to_owned(),
                size,
                turned: false,
                label: true,
            });
            let line = vec![[fine(at + w + 2.0), foot], [fine(at + wide), foot]];
            marks.push(Mark::Line { p: line, closed: false, pen: "fine" });
            at += wide + 2.0;
        }
    }
    // One drawing: a place to write on says nothing that would be read aloud line by line.
    let alt = "Places for title, number and signatures.".to_owned();
    leaf.blocks.push(Block::Drawing { x, y, w, h: step * 3.0, alt, marks });
}
