//! One layer to be cut, on the card.

use sightedge_core::drawing::Drawing;
use sightedge_core::geometry::{Side, Sides};
use sightedge_core::layout::{Blank, Cut, Window};
use sightedge_core::length::Length;
use sightedge_core::plates::{back, over_cut};
use sightedge_core::spec::{Bevel, Layer};

use super::{
    BESIDE, BLANK, DRAWING, FIGURE, LAYER, ROW, SECOND, SIDE, STOP, STOP_AT, WORDS, capital,
    in_order, on_base,
};
use crate::frame::{MARGIN, Plan};
use crate::marks::{Marks, Scale};
use crate::page::{Block, Leaf};
use crate::words::{ASCENT, POINT, Style, both, extent, length, near, number, other};

/// One layer to be cut.
#[derive(Clone, Copy, Debug)]
pub(super) struct Job<'a> {
    pub(super) plan: &'a Plan<'a>,
    pub(super) window: &'a Window,
    pub(super) index: usize,
    pub(super) layer: &'a Layer,
    pub(super) cut: &'a Cut,
    pub(super) blank: &'a Blank,
}

impl Job<'_> {
    pub(super) fn lay(&self, y: f64, wide: f64, scale: Option<Scale>, leaf: &mut Leaf) -> f64 {
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
        // A page's head ends with a rule already.
        if !matches!(leaf.blocks.last(), Some(Block::Rule { .. })) {
            leaf.rule(MARGIN, y, wide);
        }
        let name = vec![LAYER.shortened(&name, wide)];
        let start = leaf.set(MARGIN, y + 1.6, wide, LAYER, 2, "left", name) + 0.6;
        if self.cut.done {
            return self.as_measured(start, wide, leaf);
        }
        let beside = DRAWING + 5.0;
        let (x, w) = (MARGIN + beside, wide - beside);
        let end = self.sizes([x, start, w], leaf);
        let end = leaf.text(x, end, w, WORDS, WORDS.lines(&self.how(), w)) + 0.6;
        let end = self.stops([x, end, w], leaf) + 2.0;
        let end = leaf.text(x, end, w, WORDS, self.sums());
        let Some(scale) = scale else { return end };
        end.max(self.drawing([MARGIN, start, DRAWING], scale, leaf))
    }

    /// What is cut to size, what falls out; the other unit small behind it.
    pub(super) fn sizes(&self, [x, y, w]: [f64; 3], leaf: &mut Leaf) -> f64 {
        let unit = self.plan.unit();
        let mut y = y;
        for (name, size) in [
            ("Blank", self.blank.rect.size),
            ("Window", self.cut.sight.bounds.size),
            ("Drop-out, usable", self.cut.drop_out),
        ] {
            let base = y + BLANK.size * POINT * ASCENT;
            let text = format!("{name} {}", extent(size, unit));
            let at = x + BLANK.width(&text) + 2.0;
            on_base(leaf, [x, base, w], BLANK, text);
            on_base(leaf, [at, base, w], SECOND, extent(size, other(unit)));
            y += BLANK.pitch();
        }
        y + 0.4
    }

    /// What is cut has nothing to be set any more: its figures, for the layers below it.
    pub(super) fn as_measured(&self, y: f64, wide: f64, leaf: &mut Leaf) -> f64 {
        let y = self.sizes([MARGIN, y, wide], leaf);
        let mut lines = self.in_a_line("Borders, from the back", self.blank.stuck, wide);
        if self.index > 0 {
            lines.extend(self.in_a_line("From its own edge", self.blank.loose, wide));
        }
        lines.extend(self.sums());
        leaf.text(MARGIN, y, wide, WORDS, lines)
    }

    /// Four sides in running text, in both units.
    pub(super) fn in_a_line(&self, name: &str, sides: Sides<Length>, wide: f64) -> Vec<String> {
        let unit = self.plan.unit();
        let four = |unit| {
            let each = sides
                .each()
                .map(|(side, by)| format!("{}\u{a0}{}", side.name(), number(by, unit)));
            format!("{}\u{a0}{}", each.join(", "), unit.sign())
        };
        WORDS.lines(&format!("{name}: {} ({})", four(unit), four(other(unit))), wide)
    }

    /// Whether it can be cut loose alone: stuck to the board above, its face is out of reach.
    pub(super) const fn stops_at_own_edge(&self) -> bool {
        self.index > 0 && self.layer.bevel.from_the_face()
    }

    /// How the window is cut, in words.
    pub(super) fn how(&self) -> String {
        let board = both(self.layer.board.thickness, self.plan.unit());
        let cut = self.layer.bevel.name();
        let loose = if self.stops_at_own_edge() {
            ": cut it loose, stops from its own edge, then stick it on"
        } else {
            ""
        };
        match self.layer.bevel {
            Bevel::Open(_) => {
                format!(
                    "Board {board}; {cut}, cut from the back, blade leaning away from the window."
                )
            }
            Bevel::Straight => {
                format!("Board {board}; {cut}, cut from the back, no over-cut.")
            }
            Bevel::Reverse(_) => format!(
                "Board {board}; {cut}, cut from the face, blade leaning away from the window. The \
                 board lies face up, left and right change places{loose}. No over-cut, it would \
                 show: free the corners from the back."
            ),
        }
    }

    /// A line a side: its stop large; the other unit, and where along the cut the blade goes in
    /// and comes out, small beside it.
    pub(super) fn stops(&self, [x, y, w]: [f64; 3], leaf: &mut Leaf) -> f64 {
        let own = self.stops_at_own_edge();
        let unit = self.plan.unit();
        let stuck = if own { self.blank.loose } else { self.blank.stuck };
        let over = over_cut(self.layer);
        let outer = if own { self.blank.rect.size } else { self.plan.figures().outer };
        // Measured along each cut from the top mat's edge: the side's two neighbours.
        let ends = |side| match side {
            Side::Top | Side::Bottom => [stuck.left - over, outer.width - stuck.right + over],
            Side::Left | Side::Right => [stuck.top - over, outer.height - stuck.bottom + over],
        };
        let mut y = y;
        let mut set = None;
        for (place, (side, stop)) in in_order(stuck).into_iter().enumerate() {
            let base = y + ROW * 0.76;
            on_base(leaf, [x, base, 6.0], SECOND, (place + 1).to_string());
            on_base(leaf, [x + 5.0, base, STOP_AT - 5.0], SIDE, capital(side.name()));
            // Never smaller than 20 points: a card is read, not studied.
            let text = length(stop, unit);
            let room = w - STOP_AT - BESIDE - 1.0;
            let size = (STOP.size * room / STOP.width(&text).max(1.0)).clamp(20.0, STOP.size);
            on_base(leaf, [x + STOP_AT, base, room], Style { size, ..STOP }, text);
            let at = x + w - BESIDE;
            let same = if set == Some(stop) { ", same stop" } else { "" };
            let second = format!("{}{same}", length(stop, other(unit)));
            on_base(leaf, [at, base - SECOND.pitch(), BESIDE], SECOND, second);
            let [enters, leaves] = ends(side).map(|end| near(end, unit));
            let enters = enters.trim_end_matches(unit.sign()).trim_end();
            let along = format!("in {enters}, out {leaves}");
            let size = (SECOND.size * BESIDE / SECOND.width(&along)).clamp(8.0, SECOND.size);
            on_base(leaf, [at, base, BESIDE], Style { size, ..SECOND }, along);
            leaf.rule(x, y + ROW, w);
            set = Some(stop);
            y += ROW;
        }
        let mut words = match self.index {
            0 => String::new(),
            _ if own => "Stops, in and out from the blank’s own edge. ".to_owned(),
            _ => "Stops, in and out from the top mat’s edge. ".to_owned(),
        };
        if over.is_positive() {
            words.extend(["Over-cut ", &both(over, unit), " past each corner."]);
        }
        let mut small = SECOND.lines(&words, w);
        if self.index > 0 && !own {
            let loose = |unit| {
                let each = in_order(self.blank.loose);
                let each = each
                    .into_iter()
                    .map(|(side, stop)| format!("{}\u{a0}{}", side.name(), number(stop, unit)));
                format!("{}\u{a0}{}", each.collect::<Vec<_>>().join(", "), unit.sign())
            };
            let words = format!(
                "Cut loose, from its own edge: {} ({}).",
                loose(unit),
                loose(other(unit))
            );
            small.extend(SECOND.lines(&words, w));
        }
        leaf.text(x, y + 0.8, w, SECOND, small)
    }

    /// The sums that must come out, across and down.
    pub(super) fn sums(&self) -> Vec<String> {
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
        vec![
            sum("Adds up across", [left, sight.width, right], outer.width),
            sum("Adds up down", [top, sight.height, bottom], outer.height),
        ]
    }

    pub(super) fn back(&self, scale: Scale) -> Drawing {
        let plan = self.plan;
        let height = scale.on_thing(FIGURE);
        let own = self.stops_at_own_edge();
        back(plan.figures(), self.cut, self.blank, plan.unit(), height, own)
    }

    /// The largest scale at which the back is no higher than `high` and no wider than its place.
    pub(super) fn fitting(&self, high: f64) -> Scale {
        let fits = |scale: &Scale| {
            let size = self.back(*scale).bounds.size;
            let [w, h] = [size.width, size.height].map(|length| scale.mm(length));
            // Round a drawing is room, which may lie outside.
            w - 2.0 * FIGURE <= DRAWING && h + SECOND.pitch() <= high
        };
        let mut scales = Scale::ANY.into_iter().map(Scale::smaller);
        scales.find(fits).unwrap_or(Scale::smaller(100))
    }

    /// The back with its stops; returns where it ends.
    pub(super) fn drawing(&self, [x, y, wide]: [f64; 3], scale: Scale, leaf: &mut Leaf) -> f64 {
        let (plan, unit) = (self.plan, self.plan.unit());
        let drawing = self.back(scale);
        let size = drawing.bounds.size;
        let [w, h] = [size.width, size.height].map(|length| scale.mm(length));
        let marks = Marks::plain(&drawing, scale, true);
        let stops = self
            .blank
            .stuck
            .each()
            .map(|(side, stop)| format!("{} {}", side.name(), length(stop, unit)));
        let name = plan.layer_name(self.index).to_lowercase();
        let alt = format!("The back of the {name} with its stops: {}.", stops.join(", "));
        let left = x + (wide - w) / 2.0;
        leaf.blocks.push(Block::Drawing { x: left, y, w, h, alt, marks: marks.of(&drawing) });
        let text = vec!["From the back".to_owned()];
        leaf.set(x, y + h, wide, SECOND, 0, "center", text)
    }
}
