//! The page for the client: the plan's mats side by side in their frames, and room to say yes.
//! What is cut stands on the bench's pages, not here.

use std::collections::BTreeMap;

use sightedge_core::derived::{Derived, derive};
use sightedge_core::plates::{self, Look};
use sightedge_core::spec::{Variant, WorkId};

use crate::Order;
use crate::frame::{GAP, MARGIN, Plan, blank_line};
use crate::marks::{Marks, Scale};
use crate::page::{Block, Leaf, Table};
use crate::words::{BODY, LONG_TITLE, SMALL, SUBTITLE, Style, TITLE, near, prose};

/// The paper's name.
const NAME: &str = "For the client";
/// Mats on one page.
const MOST: usize = 4;
/// How high the pictures may be together, in millimetres.
const PICTURES: f64 = 112.0;
/// Height of a row.
const ROW: f64 = 6.4;
/// Read across a table.
const READ: Style = Style { size: 10.5, weight: 400, quiet: false };

/// Lays out the page, or as many as the mats need; the last one is signed.
pub(crate) fn pages(
    plan: &Plan<'_>,
    order: &Order<'_>,
    pictures: &BTreeMap<WorkId, String>,
    shades: bool,
) -> Vec<Vec<Block>> {
    let mats: Vec<(&Variant, Derived)> = plan
        .document
        .variants
        .iter()
        .map(|variant| (variant, derive(plan.document, variant, order.tables)))
        .collect();
    let sheets = mats.chunks(MOST);
    let all = sheets.len();
    let mut pages = Vec::with_capacity(all);
    for (index, some) in sheets.enumerate() {
        let mut leaf = Leaf::default();
        let y = head(plan, &mut leaf);
        let y = side_by_side(plan, some, (pictures, shades), y, &mut leaf);
        let y = table(plan, some, y + GAP, &mut leaf);
        if index + 1 == all {
            agreed(plan, &mats, y + GAP, &mut leaf);
        }
        let [wide, high] = plan.paper.size();
        let right = format!("{} / {all}", index + 1);
        let (at, room) = (high - MARGIN + 3.0, wide - 2.0 * MARGIN);
        leaf.set(MARGIN, at, room, SMALL, 0, "right", vec![right]);
        pages.push(leaf.blocks);
    }
    pages
}

fn head(plan: &Plan<'_>, leaf: &mut Leaf) -> f64 {
    let wide = plan.paper.size()[0] - 2.0 * MARGIN;
    let title = plan.title();
    let style = if TITLE.width(&title) > wide { LONG_TITLE } else { TITLE };
    let lines = vec![style.shortened(&title, wide)];
    let y = leaf.set(MARGIN, MARGIN, wide, style, 1, "left", lines) + 0.6;
    leaf.text(MARGIN, y, wide, SUBTITLE, vec![NAME.to_owned()]);
    let house = plan.house.line();
    let date = match house.as_str() {
        "" => plan.date.to_string(),
        house => format!("{} \u{b7} {}", SUBTITLE.shortened(house, wide * 0.6), plan.date),
    };
    let y = leaf.set(MARGIN, y, wide, SUBTITLE, 0, "right", vec![date]) + 1.4;
    leaf.rule(MARGIN, y, wide);
    y + 3.6
}

/// The mats at one scale, pictures in line, each with its name.
fn side_by_side(
    plan: &Plan<'_>,
    mats: &[(&Variant, Derived)],
    (pictures, shades): (&BTreeMap<WorkId, String>, bool),
    y: f64,
    leaf: &mut Leaf,
) -> f64 {
    let wide = plan.paper.size()[0] - 2.0 * MARGIN;
    let look = Look { margin: 0, ..Look::default() };
    let row: Vec<_> = mats
        .iter()
        .map(|(variant, derived)| {
            (&variant.mat, &derived.layout.exact, derived.assembly.package.as_ref())
        })
        .collect();
    let mut drawing = plates::row(&row, &look);
    drawing.ground = None;
    let size = drawing.bounds.size;
    let fits = |thing: &i64| {
        let scale = Scale::smaller(*thing);
        scale.mm(size.width) <= wide && scale.mm(size.height) <= PICTURES
    };
    let scale = Scale::smaller(Scale::ANY.into_iter().find(fits).unwrap_or(100));
    let [w, h] = [scale.mm(size.width), scale.mm(size.height)];
    let corner = drawing.bounds.at;
    let marks = Marks { scale, corner, pictures, shades, breaks: false };
    let names: Vec<&str> = mats.iter().map(|(variant, _)| variant.name.as_str()).collect();
    let alt = format!("{} side by side at one scale, from the front.", names.join(", "));
    let x = MARGIN + (wide - w) / 2.0;
    leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&drawing) });
    let words = match mats {
        [_] => "As it will look",
        _ => "Side by side at one scale, in the order of the table",
    };
    leaf.set(MARGIN, y + h + 1.6, wide, SMALL, 0, "middle", vec![words.to_owned()])
}

/// Names, sizes and materials: nothing that is cut.
fn table(plan: &Plan<'_>, mats: &[(&Variant, Derived)], y: f64, leaf: &mut Leaf) -> f64 {
    let wide = plan.paper.size()[0] - 2.0 * MARGIN;
    let columns: Vec<f64> = [0.17, 0.15, 0.18, 0.28, 0.22].map(|share| share * wide).to_vec();
    let shown = |text: &str, column: usize| {
        READ.shortened(text, columns.get(column).copied().unwrap_or_default() - 2.0)
    };
    let unit = plan.unit();
    let rows = mats.iter().map(|(variant, derived)| {
        let mat = &variant.mat;
        let framed =
            derived.assembly.package.as_ref().and_then(|packed| packed.framed.as_ref());
        let outer = derived.layout.bench.outer.extent_text(|side| near(side, unit));
        let outside = framed.map(|framed| framed.outside.extent_text(|side| near(side, unit)));
        let made = plan.document.chosen == variant.id && plan.document.choice.is_some();
        let name =
            if made { format!("{}, chosen", variant.name) } else { variant.name.clone() };
        let frame = framed.map_or("", |framed| framed.frame.name.as_str());
        let mut boards: Vec<&str> =
            mat.layers.iter().map(|layer| layer.board.name.as_str()).collect();
        boards.dedup();
        vec![
            shown(&name, 0),
            prose(&outer),
            outside.map_or_else(|| "not framed".to_owned(), |text| prose(&text)),
            shown(&boards.join("; "), 3),
            shown(frame, 4),
        ]
    });
    leaf.table(Table {
        x: MARGIN,
        y,
        row: ROW,
        size: READ.size,
        start: vec![0, 1, 2, 3, 4],
        groups: Vec::new(),
        head: ["Mat", "Mat size", "Framed size", "Boards from the top", "Frame"]
            .map(str::to_owned)
            .to_vec(),
        rows: rows.collect(),
        columns,
    })
}

/// What decides colours, and room for a yes.
fn agreed(plan: &Plan<'_>, mats: &[(&Variant, Derived)], y: f64, leaf: &mut Leaf) {
    let wide = plan.paper.size()[0] - 2.0 * MARGIN;
    let mut samples: Vec<String> = Vec::new();
    for (variant, _) in mats {
        let mat = &variant.mat;
        let frame = mat.assembly.package.frame.as_ref().map(|frame| frame.name.clone());
        let boards = mat.layers.iter().map(|layer| layer.board.name.clone());
        for name in boards.chain(frame) {
            if !name.is_empty() && !samples.contains(&name) {
                samples.push(name);
            }
        }
    }
    let words = format!(
        "Sizes are width × height. Colours on screen and paper are approximate; the corner samples \
         decide: {}.",
        samples.join("; ")
    );
    let y = leaf.text(MARGIN, y, wide, BODY, BODY.lines(&words, wide));
    let y = match &plan.document.choice {
        Some(choice) if !choice.words.is_empty() => {
            let words = format!("“{}” ({})", choice.words, choice.when);
            leaf.text(MARGIN, y + 2.0, wide, READ, READ.lines(&words, wide))
        }
        _ => y,
    };
    let half = wide / 2.0 - 4.0;
    for (row, pair) in [["Chosen", "Price"], ["Deposit", "Ready by"], ["Date", "Signature"]]
        .into_iter()
        .enumerate()
    {
        let at = y + 8.0 + 11.0 * crate::page::count(row);
        for (column, word) in pair.into_iter().enumerate() {
            let x = MARGIN + (half + 8.0) * crate::page::count(column);
            blank_line(leaf, x, at, half, word);
        }
    }
}
