//! The cutter's card: what to set and cut, layer by layer.

mod job;

use sightedge_core::geometry::{Side, Sides};
use sightedge_core::layout::Blank;
use sightedge_core::length::Length;
use sightedge_core::spec::Layer;

use crate::frame::{GAP, MARGIN, Plan, blank_line};
use crate::marks::Scale;
use crate::page::{Block, Leaf, count};
use crate::tables;
use crate::words::{ASCENT, POINT, SMALL, Style};
use job::Job;

/// The height of a figure in a drawing, on paper: letters of 10 points, read at arm's length.
const FIGURE: f64 = 4.25;
/// How wide the drawing of a back may be.
const DRAWING: f64 = 84.0;
/// What stands above a layer's drawing.
const ABOVE: f64 = 10.0;
/// From one stop to the next.
const ROW: f64 = 10.2;
/// Where a stop stands in its row, and what is small beside it.
const STOP_AT: f64 = 25.0;
const BESIDE: f64 = 33.0;

// The card is pinned up 70 cm from the eyes; there 20 points look as 10 do in a book.
// Source: our own choice.
const LAYER: Style = Style { size: 13.0, weight: 600, quiet: false };
const BLANK: Style = Style { size: 12.0, weight: 400, quiet: false };
const SIDE: Style = Style { size: 14.0, weight: 400, quiet: false };
const STOP: Style = Style { size: 24.0, weight: 600, quiet: false };
const WORDS: Style = Style { size: 10.0, weight: 400, quiet: false };
const SECOND: Style = Style { size: 8.5, weight: 400, quiet: true };

/// Lays out the card, as many layers on a page as have room; what is left over makes the
/// drawings larger.
pub(crate) fn pages(plan: &Plan<'_>) -> Vec<Vec<Block>> {
    let size = plan.paper.size();
    let wide = size[0] - 2.0 * MARGIN;
    let bottom = size[1] - MARGIN;
    let blanks = plan.figures().blanks(plan.unit());
    let mut jobs = Vec::new();
    for window in &plan.figures().openings {
        for (index, (layer, cut)) in plan.mat().layers.iter().zip(&window.layers).enumerate() {
            let wanted = |b: &&Blank| b.opening == window.id && b.layer == layer.id;
            if let Some(blank) = blanks.iter().find(wanted) {
                jobs.push(Job { plan, window, index, layer, cut, blank });
            }
        }
    }
    // What every part takes at least.
    let mut leaf = Leaf::default();
    let start = plan.head(&mut leaf, NAME, wide);
    let start =
        [intro(plan, start, wide, &mut leaf), plan.head(&mut Leaf::default(), NAME, wide)];
    let parts: Vec<Part<'_>> = jobs
        .into_iter()
        .map(Part::Job)
        .chain([test_cut, exact, checks].map(|tail| Part::Tail(plan, tail)))
        .collect();
    let least: Vec<f64> =
        parts.iter().map(|part| part.lay(0.0, wide, None, &mut Leaf::default())).collect();
    let layers = parts.iter().filter(|part| matches!(part, Part::Job(_))).count();
    let to_cut = |part: &Part<'_>| matches!(part, Part::Job(job) if !job.cut.done);
    let still = parts.iter().filter(|part| to_cut(part)).count();
    let mut pages = dealt(&least, layers, layers, start, bottom);
    // Where one page is too small, layers are spread evenly over pages.
    if pages.len() > 1 && layers > 1 && still == layers {
        pages = dealt(&least, layers, layers.div_ceil(2).min(3), start, bottom);
    }
    let all = pages.len();
    let mut blocks = Vec::with_capacity(all);
    for (number, (end, on)) in pages.into_iter().enumerate() {
        let mut y = start[0];
        if number > 0 {
            y = plan.head(&mut leaf, NAME, wide);
        }
        let on: Vec<(Part<'_>, f64)> =
            on.iter().filter_map(|n| Some((*parts.get(*n)?, *least.get(*n)?))).collect();
        let drawn = on.iter().filter(|(part, _)| to_cut(part)).count();
        let room = (bottom - end + GAP).max(0.0) / count(drawn.max(1));
        // One scale for a page: its backs are compared.
        let scales = on.iter().filter_map(|(part, least)| match part {
            Part::Job(job) if job.cut.done => None,
            Part::Job(job) => Some(job.fitting(least + room - ABOVE)),
            Part::Tail(..) => None,
        });
        let scale = scales.max_by_key(|scale| scale.thing);
        let scale = scale.unwrap_or(Scale::smaller(100));
        for (part, _) in &on {
            y = part.lay(y, wide, Some(scale), &mut leaf) + GAP;
        }
        plan.foot(&mut leaf, size, [number + 1, all]);
        blocks.push(std::mem::take(&mut leaf).blocks);
    }
    blocks
}

/// Which parts go on which page, with where each page ends: of the first `layers` parts no more
/// than `most` on one. The first page begins at `start[0]`, the others at `start[1]`.
fn dealt(
    least: &[f64],
    layers: usize,
    most: usize,
    start: [f64; 2],
    bottom: f64,
) -> Vec<(f64, Vec<usize>)> {
    let mut pages: Vec<(f64, Vec<usize>)> = vec![(start[0], Vec::new())];
    for (index, high) in least.iter().enumerate().filter(|(_, high)| **high > 0.0) {
        if let Some((end, on)) = pages.last_mut() {
            let full = index < layers && on.len() >= most;
            if on.is_empty() || (!full && *end + high <= bottom) {
                *end += high + GAP;
                on.push(index);
                continue;
            }
        }
        pages.push((start[1] + high + GAP, vec![index]));
    }
    pages
}

/// The paper's title.
const NAME: &str = "Cutter’s card";

/// One block of the card.
#[derive(Clone, Copy, Debug)]
enum Part<'a> {
    Job(Job<'a>),
    Tail(&'a Plan<'a>, fn(&Plan<'_>, f64, f64, &mut Leaf) -> f64),
}

impl Part<'_> {
    /// Lays it from `y` on, its drawing at `scale` or left out; returns where it ends.
    fn lay(&self, y: f64, wide: f64, scale: Option<Scale>, leaf: &mut Leaf) -> f64 {
        match self {
            Self::Job(job) => job.lay(y, wide, scale, leaf),
            Self::Tail(plan, tail) => tail(plan, y, wide, leaf),
        }
    }
}

fn intro(plan: &Plan<'_>, y: f64, wide: f64, leaf: &mut Leaf) -> f64 {
    let mut text =
        "Boards lie face down: left and right are as you see the back. A stop is the \
                    border at the sight edge. Sides stand in the order of cutting."
            .to_owned();
    let mat = plan.mat();
    let face = |layer: &&Layer| layer.bevel.from_the_face();
    let to_cut: Vec<&Layer> = mat.layers.iter().filter(|one| !mat.is_made(one.id)).collect();
    if to_cut.iter().any(face) {
        text.push_str(
            " A board with a reverse bevel lies face up in the cutter: there, set the left stop \
             at the right and the right stop at the left.",
        );
    }
    let top = mat.layers.first().map(|layer| layer.id);
    let below = || to_cut.iter().filter(|layer| Some(layer.id) != top);
    if to_cut.is_empty() {
        text.push_str(" Nothing is left to cut.");
    } else if below().next().is_some() {
        text.push_str(if to_cut.first().is_some_and(|layer| Some(layer.id) == top) {
            " Cut the top mat first."
        } else {
            " The top mat is cut already."
        });
        text.push_str(
            " Before each undermat, tape the drop-out of the board above back into its window, \
             from the back and clear of the sight edge; stick the undermat’s blank to that back; \
             then cut it with the stops from the top mat’s edge. A blank cut loose has stops of \
             its own.",
        );
        if below().any(face) {
            text.push_str(
                " An undermat with a reverse bevel can’t be cut from its face once it is stuck: \
                 cut it loose, then stick it on.",
            );
        }
    }
    let y = leaf.text(MARGIN, y, wide, WORDS, WORDS.lines(&text, wide));
    let y = match plan.framing_words() {
        Some(words) => leaf.text(MARGIN, y + 1.4, wide, WORDS, WORDS.lines(&words, wide)),
        None => y,
    };
    y + GAP * 0.8
}

/// The sides in the order of cutting: round the board from the top; those with one stop follow
/// each other, so that it is set once. Source: common practice.
fn in_order(stops: Sides<Length>) -> Vec<(Side, Length)> {
    let mut order: Vec<(Side, Length)> = Vec::with_capacity(4);
    for (side, stop) in stops.each() {
        let place = order.iter().rposition(|(_, other)| *other == stop);
        order.insert(place.map_or(order.len(), |place| place + 1), (side, stop));
    }
    order
}

/// One line with its letters on `base`.
fn on_base(leaf: &mut Leaf, [x, base, w]: [f64; 3], style: Style, text: String) {
    let y = base - style.size * POINT * ASCENT;
    leaf.text(x, y, w, style, vec![text]);
}

fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map(|c| c.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// The test cut, with places for what it shows, and the cautions.
fn test_cut(_: &Plan<'_>, y: f64, wide: f64, leaf: &mut Leaf) -> f64 {
    leaf.rule(MARGIN, y, wide);
    let y = leaf.heading(MARGIN, y + 1.6, wide, 2, "Test cut") + 0.2;
    let text = "Over-cuts are those of an ideal blade. Cut two sides of a square in a scrap of \
                the same board and look at the corner on the face. Write down how much too early \
                (+) or too late (−) your cutter starts and ends, and allow for it every time.";
    let y = leaf.text(MARGIN, y, wide, WORDS, WORDS.lines(text, wide)) + 3.0;
    let quarter = wide / 4.0;
    for (index, word) in ["Cutter", "Blade", "Start", "End"].into_iter().enumerate() {
        blank_line(leaf, MARGIN + quarter * count(index), y, quarter - 4.0, word);
    }
    let y = y + SMALL.pitch() + 3.0;
    let text = "Fresh blade for each mat. Fingers behind the guard. Retract the blade when you \
                put the head down. Old blades go into the sharps box.";
    leaf.text(MARGIN, y, wide, WORDS, WORDS.lines(text, wide))
}

/// The exact figures, where the ruler's differ from them.
fn exact(plan: &Plan<'_>, y: f64, wide: f64, leaf: &mut Leaf) -> f64 {
    let layout = &plan.derived.layout;
    let Some(window) = layout.exact.openings.first().filter(|_| layout.exact != layout.bench)
    else {
        return y;
    };
    leaf.rule(MARGIN, y, wide);
    let name = "Exact figures, before rounding to the ruler, from the front";
    let y = leaf.heading(MARGIN, y + 1.6, wide, 2, name);
    let sizes = tables::sizes(plan.unit(), plan.size_rows(&layout.exact, window));
    let names = ["Top", "Right", "Bottom", "Left"];
    let around = tables::sides(plan.unit(), names, plan.side_rows(&layout.exact, window, true));
    let pair = tables::beside([sizes, around], [MARGIN, y], [wide, 5.0], 4.3, 0.0);
    pair.into_iter().map(|table| leaf.table(table)).fold(y, f64::max)
}

/// Every check that is open.
fn checks(plan: &Plan<'_>, y: f64, wide: f64, leaf: &mut Leaf) -> f64 {
    leaf.rule(MARGIN, y, wide);
    let y = leaf.heading(MARGIN, y + 1.6, wide, 2, "Checks, left and right from the front");
    leaf.text(MARGIN, y, wide, WORDS, plan.checks(WORDS, wide, usize::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_with_one_stop_are_cut_one_after_the_other() {
        use Side::{Bottom, Left, Right, Top};
        for (stops, wanted) in [
            ([4, 4, 4, 4], [Top, Right, Bottom, Left]),
            ([4, 3, 5, 3], [Top, Right, Left, Bottom]),
            ([4, 3, 4, 3], [Top, Bottom, Right, Left]),
            ([1, 2, 3, 4], [Top, Right, Bottom, Left]),
        ] {
            let [top, right, bottom, left] = stops.map(|n| Length::inches(n, 0, 1));
            let order = in_order(Sides::new(top, right, bottom, left));
            assert_eq!(order.iter().map(|(side, _)| *side).collect::<Vec<_>>(), wanted);
        }
    }
}
