//! The plan sheet: one page with every figure of the plan.

use std::collections::BTreeMap;

use sightedge_core::drawing::{Drawing, Item, Pen};
use sightedge_core::geometry::{Side, Size};
use sightedge_core::layout::Window;
use sightedge_core::length::typeset;
use sightedge_core::plates::{self, Look};
use sightedge_core::spec::WorkId;

use crate::frame::{MARGIN, Plan, body, keys};
use crate::marks::{Marks, Scale, fine};
use crate::page::{Block, Leaf, Mark, count};
use crate::tables;
use crate::words::{BODY, HEADING, KEY, SMALL, extents};

/// Heights of table rows tried, from roomy to tight.
const ROWS: [f64; 6] = [4.8, 4.4, 4.1, 3.8, 3.5, 3.2];
/// Between blocks at least.
const LEAST_GAP: f64 = 2.8;
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
    /// Of the drawing.
    scale: Scale,
    /// Of the picture: the same, or smaller where both find no room so.
    picture: Scale,
    stacked: bool,
}

impl Setting {
    /// How wide and high picture and drawing are together; `drawn` says how large the drawing
    /// is at each scale.
    fn needs(self, plan: &Plan<'_>, drawn: &[(i64, [f64; 2])]) -> [f64; 2] {
        let Self { scale, picture, stacked } = self;
        let outer = plan.figures().outer;
        let [pw, ph] = [outer.width, outer.height].map(|length| picture.mm(length));
        let [w, h] = drawn
            .iter()
            .find(|(thing, _)| *thing == scale.thing)
            .map_or([f64::MAX; 2], |(_, size)| *size);
        if stacked {
            [w.max(pw), h + ph + 4.0 + SMALL.pitch()]
        } else {
            [w + pw + 6.0, h.max(ph)]
        }
    }

    /// Every setting, the one that shows most first.
    fn all() -> Vec<Self> {
        let pairs = Scale::SMALLER.into_iter().flat_map(|drawing| {
            let smaller = Scale::SMALLER.into_iter().filter(move |thing| *thing >= drawing);
            smaller.take(3).map(move |picture| [drawing, picture])
        });
        let mut all: Vec<Self> = pairs
            .flat_map(|things| {
                let [scale, picture] = things.map(Scale::smaller);
                [false, true].map(|stacked| Self { scale, picture, stacked })
            })
            .collect();
        // Side by side looks better than one above the other, unless that shows far more.
        all.sort_by_key(|setting| {
            let Self { scale, picture, stacked } = setting;
            (scale.thing + picture.thing + if *stacked { 3 } else { 0 }, scale.thing)
        });
        all
    }
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
    let (figures, unit) = (plan.figures(), plan.unit());
    let boards = plan.materials(window, wide * 0.28);
    let sizes = tables::sizes(unit, plan.size_rows(figures, window));
    let names = ["Top", "Right", "Bottom", "Left"];
    let around = tables::sides(unit, names, plan.side_rows(figures, window, false));
    let caption = SMALL.pitch() + 1.2;
    let heading = HEADING.pitch() + 0.8;
    let foot = Foot::of(plan, wide);
    let room = |row: f64| {
        let tables = boards.height(row) + sizes.height(row).max(around.height(row));
        let taken = tables + SIGN + foot.least() + 3.0 * heading + 4.0 * LEAST_GAP + caption;
        Room { row, high: bottom - top - taken }
    };
    let rooms = ROWS.map(room);
    let drawn = Scale::SMALLER.map(|thing| {
        let scale = Scale::smaller(thing);
        let Size { width, height } = drawn(plan, scale).bounds.size;
        (thing, [width, height].map(|length| scale.mm(length)))
    });
    // The largest scale that fits at all, then the roomiest rows it leaves.
    let least = Scale::smaller(100);
    let fits = |setting: &Setting, room: &Room| {
        let [w, h] = setting.needs(plan, &drawn);
        w <= wide && h <= room.high
    };
    let (setting, room) = Setting::all()
        .into_iter()
        .find_map(|setting| {
            rooms.iter().find(|room| fits(&setting, room)).map(|room| (setting, room))
        })
        .unwrap_or((Setting { scale: least, picture: least, stacked: false }, &rooms[5]));

    let mut y =
        mat_and_drawing(plan, window, pictures, shades, setting, [top, wide], &mut leaf);
    // What is left over goes between the blocks.
    let over = room.high - setting.needs(plan, &drawn)[1];
    let space = LEAST_GAP + (over / 5.0).clamp(0.0, 7.0);
    y += space;

    y = leaf.heading(MARGIN, y, wide, 2, "Boards");
    y = leaf.table(boards.placed([MARGIN, y], wide, room.row)) + space;

    // Both heads stand above their tables, which share one size of text.
    let start = y + heading;
    let pair = tables::beside([sizes, around], [MARGIN, start], [wide, 7.0], room.row);
    let mut end = start;
    for (table, name) in pair.into_iter().zip(["Sizes", "Sides, seen from the front"]) {
        leaf.heading(table.x, y, wide / 2.0, 2, name);
        end = end.max(leaf.table(table));
    }
    y = end + space;

    let half = (wide - 8.0) / 2.0;
    section(plan, window, [MARGIN, y, half, SIGN + heading], &mut leaf);
    sign(plan, [MARGIN + half + 8.0, y, half], &mut leaf);
    y += SIGN + heading + space;
    foot.lay([MARGIN, y, wide, bottom], plan, &mut leaf);
    plan.foot(&mut leaf, [page_wide, page_high], [1, 1]);
    vec![leaf.blocks]
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
    let Setting { scale, picture, stacked } = setting;
    let figures = plan.figures();
    let outer = figures.outer;
    let look = Look { margin: 0, ..Look::default() };
    let mut front = plates::front(plan.mat(), figures, &look);
    front.ground = None;
    let marks = Marks { scale: picture, corner: front.bounds.at, pictures, shades };
    let [pw, ph] = [outer.width, outer.height].map(|length| picture.mm(length));
    let title = plan.title();
    let alt = format!("The picture “{title}” in its mat, seen from the front.");
    let (x, y, w, h) = (MARGIN, top, pw, ph);
    leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&front) });

    let drawing = drawn(plan, scale);
    let marks = Marks { scale, corner: drawing.bounds.at, ..marks };
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
    let (looks, name) = (format!("As it will look, {}", picture.name()), scale.name());
    if stacked {
        let end = caption(leaf, MARGIN, top + ph, wide, looks);
        if wide - w >= KEYS + 6.0 {
            key_sizes(plan, window, [MARGIN + wide - KEYS, top], leaf);
        }
        let (x, y) = (MARGIN, end + 4.0 - rise);
        leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&drawing) });
        let text = format!("Front with dimensions, {name}; sheet and image dashed");
        return caption(leaf, MARGIN, y + h, wide, text);
    }
    let left = wide - pw - w;
    let with_keys = left >= KEYS + 8.0;
    let space = if with_keys { (left - KEYS) / 2.0 } else { left };
    let x = MARGIN + pw + space + scale.mm(drawing.bounds.at.x).min(0.0);
    let x = x.max(MARGIN + pw + 4.0);
    let y = top - rise;
    leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&drawing) });
    if with_keys {
        key_sizes(plan, window, [MARGIN + wide - KEYS, top], leaf);
    }
    let foot = (top + ph).max(y + h);
    caption(leaf, MARGIN, top + ph, pw + space, looks);
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

/// What is still open, and the maker's notes: the foot of the sheet.
#[derive(Debug)]
struct Foot {
    checks: usize,
    notes: Vec<String>,
}

impl Foot {
    fn of(plan: &Plan<'_>, wide: f64) -> Self {
        Self {
            checks: plan.checks(wide, usize::MAX).len(),
            notes: BODY.lines(&typeset(&plan.mat().notes), wide),
        }
    }

    /// The room it needs: a few lines of each, and their heads.
    fn least(&self) -> f64 {
        let heading = HEADING.pitch() + 0.8;
        let notes = if self.notes.is_empty() {
            0.0
        } else {
            body(self.notes.len().min(3)) + heading + 1.6
        };
        heading + body(self.checks.min(4)) + notes
    }

    fn lay(self, [x, y, w, bottom]: [f64; 4], plan: &Plan<'_>, leaf: &mut Leaf) {
        let Self { checks, mut notes } = self;
        let heading = HEADING.pitch() + 0.8;
        let lines = |room: f64| (0..200).take_while(|n| body(n + 1) <= room + 0.01).count();
        let for_notes =
            if notes.is_empty() { 0.0 } else { heading + 1.6 + body(notes.len().min(3)) };
        let most = lines(bottom - y - heading - for_notes).max(1);
        let y = leaf.heading(x, y, w, 2, "Checks, left and right from the front");
        let y = leaf.text(x, y, w, BODY, plan.checks(w, most.min(checks.max(1))));
        if notes.is_empty() {
            return;
        }
        let y = leaf.heading(x, y + 1.6, w, 2, "Notes");
        let most = lines(bottom - y).max(1);
        if notes.len() > most {
            notes.truncate(most);
            if let Some(last) = notes.last_mut() {
                *last = BODY.shortened(&format!("{last} …"), w);
            }
        }
        leaf.text(x, y, w, BODY, notes);
    }
}

/// Places for the inscription and the signatures; what is known of it stands there already.
fn sign(plan: &Plan<'_>, [x, y, w]: [f64; 3], leaf: &mut Leaf) {
    let y = leaf.heading(x, y, w, 2, "Inscription and signatures");
    let third = w / 3.0;
    let step = 8.6;
    let recorded = plan.document.inscribed.as_ref().map(|inscribed| &inscribed.recorded);
    let title = recorded.map(|recorded| recorded.title.clone()).unwrap_or_default();
    let number = recorded
        .and_then(|recorded| Some(recorded.notation?.text(recorded.numerals)))
        .unwrap_or_default();
    let none = String::new();
    let rows: [&[(&str, &String, f64)]; 3] = [
        &[("Title", &title, third * 2.0 - 2.0), ("Number", &number, third)],
        &[("Client", &none, third * 2.0 - 2.0), ("Date", &none, third)],
        &[("Maker", &none, third * 2.0 - 2.0), ("Date", &none, third)],
    ];
    let mut marks = Vec::new();
    for (index, row) in rows.into_iter().enumerate() {
        let foot = 2.4 + step * count(index) + SMALL.pitch() * 0.8;
        let mut at = 0.0;
        let mut set = |x: f64, style: crate::words::Style, s: String, label| {
            let (w, size) = (style.width(&s), style.size);
            marks.push(Mark::Text { x, y: foot, w, s, size, turned: false, label });
            w
        };
        let mut lines = Vec::new();
        for (word, known, wide) in row {
            let w = set(at, SMALL, (*word).to_owned(), true);
            let from = fine(at + w + 2.0);
            if !known.is_empty() {
                set(fine(from + 1.0), BODY, BODY.shortened(known, wide - w - 3.0), false);
            }
            lines.push(vec![[from, foot], [fine(at + wide), foot]]);
            at += wide + 2.0;
        }
        let drawn = |p| Mark::Line { p, closed: false, pen: "fine" };
        marks.extend(lines.into_iter().map(drawn));
    }
    // One drawing: a place to write on says nothing that would be read aloud line by line.
    let alt = "Places for title, number and signatures.".to_owned();
    leaf.blocks.push(Block::Drawing { x, y, w, h: step * 3.0, alt, marks });
}
