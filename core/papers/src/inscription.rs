//! What is written on the print and on its mat: both sides at a scale, the words in full, and
//! with what. A page at the end of the steps.

use sightedge_core::drawing::{Drawing, Item};
use sightedge_core::inscription::{Inscription, LINE, Written};
use sightedge_core::length::{Length, typeset};
use sightedge_core::plates::inscription;

use crate::frame::{GAP, MARGIN, Plan};
use crate::marks::{Marks, Scale};
use crate::page::{Block, Leaf};
use crate::words::{BODY, SMALL, STRONG, length};

/// As high as handwriting in a drawing can still be read, in millimetres on the paper.
/// Source: our own choice (8 points).
const READABLE: f64 = 2.9;

/// The page; `None` where nothing is to be written.
pub(crate) fn page(plan: &Plan<'_>) -> Option<Leaf> {
    let made = plan.derived.inscription.as_ref()?;
    let [page_wide, page_high] = plan.paper.size();
    let wide = page_wide - 2.0 * MARGIN;
    let mut leaf = Leaf::default();
    let top = plan.head(&mut leaf, "Inscription", wide);
    let half = (wide - GAP * 2.0) / 2.0;
    let right = MARGIN + half + GAP * 2.0;
    // Half of the page for the drawings, the rest for what is written out.
    let high = (page_high - MARGIN - top) * 0.55;
    let layout = &plan.derived.layout;
    let back = inscription::back(made, layout, &plan.derived.assembly.sheets);
    let behind = if made.behind_image { "image" } else { "margin" };
    let name = format!("On the back of the sheet, behind the {behind}");
    // Line stands on line there.
    let pitch = LINE.to_mm();
    let area = [MARGIN, top, half, high];
    let left_end = side(&mut leaf, area, &name, (back, pitch), &made.back);
    let front = inscription::front(made, layout);
    let right_end = if made.front.is_empty() {
        leaf.heading(right, top, half, 2, "On the front: nothing")
    } else {
        side(
            &mut leaf,
            [right, top, half, high],
            plan.document
                .inscribed
                .as_ref()
                .map_or("On the front", |own| own.lettering.front.place_and_time()),
            (front, f64::INFINITY),
            &made.front,
        )
    };
    let y = left_end.max(right_end) + GAP;
    let y = leaf.heading(MARGIN, y, wide, 2, "With what, and where");
    let how = format!("With {}. {}", made.tool.with, made.tool.how);
    let y = leaf.text(MARGIN, y, wide, BODY, BODY.lines(&how, wide));
    leaf.text(MARGIN, y, wide, BODY, BODY.lines(&typeset(&heights(plan, made)), wide));
    Some(leaf)
}

/// How far the lowest line of the back ends above the sheet's edge.
fn heights(plan: &Plan<'_>, made: &Inscription) -> String {
    let window = plan.derived.layout.exact.openings.first();
    let (Some(window), Some(last)) = (window, made.back.last()) else { return String::new() };
    let above = window.sheet.bottom() - last.place.bottom();
    let above = above.round_to(plan.document.ruler.step());
    format!(
        "On the back the lowest line ends {} above the sheet's lower edge.",
        length(above, plan.unit())
    )
}

/// One side at the largest scale that fits, and its lines; returns where it ends. What is
/// written is drawn large enough to be read where the room to its next line, in true
/// millimetres, allows it.
fn side(
    leaf: &mut Leaf,
    [x, y, w, h]: [f64; 4],
    name: &str,
    (mut drawing, pitch): (Drawing, f64),
    lines: &[Written],
) -> f64 {
    let y = leaf.heading(x, y, w, 2, name);
    let size = drawing.bounds.size;
    let fits = |scale: &Scale| scale.mm(size.width) <= w && scale.mm(size.height) <= h;
    let scale = Scale::SMALLER.into_iter().map(Scale::smaller).find(fits);
    let scale = scale.unwrap_or(Scale::smaller(100));
    let per_mm = scale.mm(Length::mm(1));
    let readable = (READABLE / per_mm).min(pitch * 0.9);
    for item in &mut drawing.items {
        if let Item::Text(text) = item {
            let grown = Length::from_mm_nearest(readable).max(text.height) - text.height;
            // Downwards where nothing stands below, so that it keeps clear of the image.
            if pitch.is_infinite() {
                text.at.y += grown;
            }
            text.height += grown;
        }
    }
    let marks = Marks::plain(&drawing, scale, false);
    let made = marks.of(&drawing);
    let [wide, high] = [size.width, size.height].map(|length| scale.mm(length));
    let words: Vec<String> = lines.iter().map(quoted).collect();
    let alt = format!("{name}, {}: {}.", scale.name(), words.join("; "));
    leaf.blocks.push(Block::Drawing { x, y, w: wide, h: high, alt, marks: made });
    let y = leaf.text(x, y + high + 1.6, w, SMALL, vec![format!("Scale {}", scale.name())]);
    leaf.text(
        x,
        y + 1.6,
        w,
        STRONG,
        words.iter().flat_map(|line| STRONG.lines(line, w)).collect(),
    )
}

fn quoted(one: &Written) -> String {
    let sign = if one.sign { "(sign)" } else { "" };
    format!("{}  {sign}", one.text).trim().to_owned()
}
