//! The cutter's card: what to set and cut, layer by layer.

use std::collections::BTreeMap;

use sightedge_core::drawing::Drawing;
use sightedge_core::geometry::Sides;
use sightedge_core::layout::{Blank, Cut, Window};
use sightedge_core::length::Length;
use sightedge_core::plates::{back, over_cut};
use sightedge_core::spec::{Bevel, Layer};

use crate::frame::{GAP, MARGIN, Plan, blank_line};
use crate::marks::{Marks, Scale};
use crate::page::{Block, Leaf, Table, count};
use crate::tables::{self, Cells};
use crate::words::{BODY, SMALL, both, extents, length, number, other, unit_name};

/// The height of a figure in a drawing, on paper.
const FIGURE: f64 = 2.35;
/// How wide the drawing of a back may be.
const DRAWING: f64 = 76.0;
/// What stands above a layer's drawing.
const ABOVE: f64 = 8.0;
/// The height of a table's row.
const ROW: f64 = 4.6;

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
                jobs.push(Job { plan, window, index, layer, cut, blank, below: false });
            }
        }
    }
    // A single layer has the page to itself: its drawing stands below, as wide as that.
    if let [job] = jobs.as_mut_slice()
        && !job.cut.done
    {
        job.below = true;
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
            Part::Job(job) if job.below => Some(job.fitting(wide, room - GAP)),
            Part::Job(job) => Some(job.fitting(DRAWING, least + room - ABOVE)),
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
    let mut text = "Boards lie face down: left and right are those of the back, as they lie \
                    before you. A stop is the border at the sight edge."
        .to_owned();
    let mat = plan.mat();
    let face = |layer: &&Layer| layer.bevel.from_the_face();
    let to_cut: Vec<&Layer> = mat.layers.iter().filter(|one| !mat.is_made(one.id)).collect();
    if to_cut.iter().any(face) {
        text.push_str(
            " A board with a reverse bevel is cut from its face and lies face up in the cutter: \
             there the stop given for the left is set at the right, and that for the right at \
             the left.",
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
            " Before each undermat, put the drop-out of the board above back into its window and \
             tape it there from the back, clear of the sight edge; stick the undermat’s blank to \
             that back, then cut its window with the stops from the top mat’s edge. A blank \
             that is cut loose has its stops from its own edge.",
        );
        if below().any(face) {
            text.push_str(
                " An undermat with a reverse bevel cannot be cut from its face once it is stuck: cut \
                 it loose first, with the loose stops, then stick it on.",
            );
        }
    }
    let lines = BODY.lines(&text, wide);
    leaf.text(MARGIN, y, wide, BODY, lines) + GAP * 0.8
}

/// One layer to be cut.
#[derive(Clone, Copy, Debug)]
struct Job<'a> {
    plan: &'a Plan<'a>,
    window: &'a Window,
    index: usize,
    layer: &'a Layer,
    cut: &'a Cut,
    blank: &'a Blank,
    /// Whether its drawing stands below its figures, else at their left.
    below: bool,
}

impl Job<'_> {
    fn lay(&self, y: f64, wide: f64, scale: Option<Scale>, leaf: &mut Leaf) -> f64 {
        let unit = self.plan.unit();
        let several = self.plan.figures().openings.len() > 1;
        let mut name = format!("{}  {}", self.index + 1, self.plan.layer_name(self.index));
        if several {
            name = format!("{name}, window {}", self.window.id.0);
        }
        if !self.layer.board.name.is_empty() {
            name = format!("{name}: {}", self.layer.board.name);
        }
        if self.cut.done {
            name.push_str(": cut, as measured");
        }
        leaf.rule(MARGIN, y, wide);
        let start = leaf.heading(MARGIN, y + 1.6, wide, 2, &name) + 0.4;
        if self.cut.done {
            return self.as_measured(start, wide, leaf);
        }
        let beside = if self.below { 0.0 } else { DRAWING + 6.0 };
        let (x, w) = (MARGIN + beside, wide - beside);
        let mut lines = vec![
            format!("Blank {}", extents(self.blank.rect.size, unit)),
            format!("Window {}", extents(self.cut.sight.bounds.size, unit)),
            format!("Drop-out, usable {}", extents(self.cut.drop_out, unit)),
        ];
        lines.extend(BODY.lines(&self.how(), w));
        let end = leaf.text(x, start, w, BODY, lines) + 1.6;
        let end = leaf.table(self.stops([x, end], w)) + 1.6;
        let end = leaf.text(x, end, w, BODY, self.sums(w));
        let Some(scale) = scale else { return end };
        if self.below {
            return self.drawing([MARGIN, end + GAP, wide], scale, leaf);
        }
        end.max(self.drawing([MARGIN, start, DRAWING], scale, leaf))
    }

    /// What is cut has nothing to be set any more: its figures, for the layers below it.
    fn as_measured(&self, y: f64, wide: f64, leaf: &mut Leaf) -> f64 {
        let unit = self.plan.unit();
        let lines = vec![
            format!("Blank {}", extents(self.blank.rect.size, unit)),
            format!("Window {}", extents(self.cut.sight.bounds.size, unit)),
            format!("Drop-out, usable {}", extents(self.cut.drop_out, unit)),
        ];
        let end = leaf.text(MARGIN, y, wide, BODY, lines) + 1.6;
        let end = leaf.table(self.stops([MARGIN, end], wide)) + 1.6;
        leaf.text(MARGIN, end, wide, BODY, self.sums(wide))
    }

    /// Whether it can be cut loose alone: stuck to the board above, its face is out of reach.
    const fn stops_at_own_edge(&self) -> bool {
        self.index > 0 && self.layer.bevel.from_the_face()
    }

    /// How the window is cut, in words.
    fn how(&self) -> String {
        let unit = self.plan.unit();
        let board = both(self.layer.board.thickness, unit);
        let cut = self.layer.bevel.name();
        let loose = if self.stops_at_own_edge() {
            "; cut it loose, its stops from its own edge, then stick it on"
        } else {
            ""
        };
        match self.layer.bevel {
            Bevel::Open(_) => format!(
                "Board {board}; {cut}, cut from the back, the blade leaning away from the \
                 window. Over-cut {} past each corner.",
                both(over_cut(self.layer), unit)
            ),
            Bevel::Straight => {
                format!("Board {board}; {cut}, cut from the back, no over-cut.")
            }
            Bevel::Reverse(_) => format!(
                "Board {board}; {cut}, cut from the face, the blade leaning away from the \
                 window: the board lies face up, left and right change places{loose}. No \
                 over-cut, it would show: free the corners from the back."
            ),
        }
    }

    /// For each side, its stop, and where along the cut the blade goes in and comes out.
    fn stops(&self, [x, y]: [f64; 2], wide: f64) -> Table {
        let own = self.stops_at_own_edge();
        let loose = self.index > 0 && !own;
        let units = [self.plan.unit(), other(self.plan.unit())];
        let stuck = if own { self.blank.loose } else { self.blank.stuck };
        let over = over_cut(self.layer);
        let outer = if own { self.blank.rect.size } else { self.plan.figures().outer };
        // Measured along each cut from the top mat's edge: the side's two neighbours.
        let ends = |side| {
            use sightedge_core::geometry::Side::{Bottom, Left, Right, Top};
            match side {
                Top | Bottom => [stuck.left - over, outer.width - stuck.right + over],
                Left | Right => [stuck.top - over, outer.height - stuck.bottom + over],
            }
        };
        let mut head = vec![String::new()];
        // What is cut has borders, seen from the back as its stops were, and no ends of a cut.
        let done = self.cut.done;
        let each: &[&str] = match (loose, done) {
            (true, false) => &["Stop", "Loose", "In", "Out"],
            (false, false) => &["Stop", "In", "Out"],
            (true, true) => &["Border", "Loose"],
            (false, true) => &["Border"],
        };
        for _ in units {
            head.extend(each.iter().map(|name| (*name).to_owned()));
        }
        let mut rows = Vec::new();
        for (side, stop) in stuck.each() {
            let name = side.name();
            let mut cells = vec![capital(name)];
            for unit in units {
                cells.push(number(stop, unit));
                if loose {
                    cells.push(number(self.blank.loose.of(side), unit));
                }
                if !done {
                    cells.extend(ends(side).map(|end| number(end, unit)));
                }
            }
            rows.push(cells);
        }
        let [one, two] = units.map(|unit| (unit_name(unit).to_owned(), each.len()));
        let groups = vec![(String::new(), 1), one, two];
        Cells { start: vec![0], groups, head, rows }.placed([x, y], wide.min(128.0), ROW)
    }

    /// The sums that must come out, across and down.
    fn sums(&self, wide: f64) -> Vec<String> {
        let unit = self.plan.unit();
        let own = self.stops_at_own_edge();
        let outer = if own { self.blank.rect.size } else { self.plan.figures().outer };
        let sight = self.cut.sight.bounds.size;
        let stops = if own { self.blank.loose } else { self.blank.stuck };
        let Sides { top, right, bottom, left } = stops;
        let sum = |name: &str, parts: [Length; 3], whole: Length| {
            let [a, b, c] = parts.map(|part| number(part, unit));
            format!("{name}: {a} + {b} + {c} = {}", length(whole, unit))
        };
        let mut lines = vec![
            sum("Adds up across", [left, sight.width, right], outer.width),
            sum("Adds up down", [top, sight.height, bottom], outer.height),
        ];
        if self.index > 0 && !self.cut.done {
            let edge = if own { "the blank’s own edge" } else { "the top mat’s edge" };
            let words = format!("In and out are measured from {edge}.");
            lines.extend(SMALL.lines(&words, wide));
        }
        lines
    }

    fn back(&self, scale: Scale) -> Drawing {
        let plan = self.plan;
        let height = scale.on_thing(FIGURE);
        let own = self.stops_at_own_edge();
        back(plan.figures(), self.cut, self.blank, plan.unit(), height, own)
    }

    /// The largest scale at which the back is no higher than `high` and no wider than `wide`.
    fn fitting(&self, wide: f64, high: f64) -> Scale {
        let fits = |scale: &Scale| {
            let size = self.back(*scale).bounds.size;
            let [w, h] = [size.width, size.height].map(|length| scale.mm(length));
            w <= wide && h + SMALL.pitch() <= high
        };
        let mut scales = Scale::SMALLER.into_iter().map(Scale::smaller);
        scales.find(fits).unwrap_or(Scale::smaller(100))
    }

    /// The back with its stops; returns where it ends.
    fn drawing(&self, [x, y, wide]: [f64; 3], scale: Scale, leaf: &mut Leaf) -> f64 {
        let (plan, unit) = (self.plan, self.plan.unit());
        let drawing = self.back(scale);
        let size = drawing.bounds.size;
        let [w, h] = [size.width, size.height].map(|length| scale.mm(length));
        let pictures = BTreeMap::new();
        let marks =
            Marks { scale, corner: drawing.bounds.at, pictures: &pictures, shades: false };
        let stops = self
            .blank
            .stuck
            .each()
            .map(|(side, stop)| format!("{} {}", side.name(), length(stop, unit)));
        let name = plan.layer_name(self.index).to_lowercase();
        let alt = format!("The back of the {name} with its stops: {}.", stops.join(", "));
        let left = x + (wide - w).max(0.0) / 2.0;
        leaf.blocks.push(Block::Drawing { x: left, y, w, h, alt, marks: marks.of(&drawing) });
        let text = vec![format!("From the back, {}", scale.name())];
        leaf.set(x, y + h, wide, SMALL, 0, "center", text)
    }
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
                the same board, look at the corner on the face, note here by how much your \
                cutter starts and ends too early (+) or too late (−), and add it every time.";
    let lines = BODY.lines(text, wide);
    let y = leaf.text(MARGIN, y, wide, BODY, lines) + 3.0;
    let quarter = wide / 4.0;
    for (index, word) in ["Cutter", "Blade", "Start", "End"].into_iter().enumerate() {
        blank_line(leaf, MARGIN + quarter * count(index), y, quarter - 4.0, word);
    }
    let y = y + SMALL.pitch() + 3.0;
    let text = "A fresh blade for each mat; fingers behind the guard; retract the blade when \
                you put the head down; old blades go into a sharps box.";
    leaf.text(MARGIN, y, wide, SMALL, SMALL.lines(text, wide))
}

/// The exact figures, where the ruler's differ from them.
fn exact(plan: &Plan<'_>, y: f64, wide: f64, leaf: &mut Leaf) -> f64 {
    let layout = &plan.derived.layout;
    let Some(window) = layout.exact.openings.first().filter(|_| layout.exact != layout.bench)
    else {
        return y;
    };
    leaf.rule(MARGIN, y, wide);
    let y = leaf.heading(
        MARGIN,
        y + 1.6,
        wide,
        2,
        "Exact figures, before the ruler, from the front",
    );
    let sizes = tables::sizes(plan.unit(), plan.size_rows(&layout.exact, window));
    let names = ["Top", "Right", "Bottom", "Left"];
    let around = tables::sides(plan.unit(), names, plan.side_rows(&layout.exact, window, true));
    let pair = tables::beside([sizes, around], [MARGIN, y], [wide, 7.0], 4.1);
    pair.into_iter().map(|table| leaf.table(table)).fold(y, f64::max)
}

/// Every check that is open.
fn checks(plan: &Plan<'_>, y: f64, wide: f64, leaf: &mut Leaf) -> f64 {
    leaf.rule(MARGIN, y, wide);
    let y = leaf.heading(MARGIN, y + 1.6, wide, 2, "Checks, left and right from the front");
    let lines = plan.checks(wide, usize::MAX);
    leaf.text(MARGIN, y, wide, BODY, lines)
}
