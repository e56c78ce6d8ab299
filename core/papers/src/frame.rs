//! What all papers have in common: the page, its head and its foot, tables of figures.

use sightedge_core::date::Date;
use sightedge_core::derived::Derived;
use sightedge_core::geometry::Size;
use sightedge_core::layout::Figures;
use sightedge_core::length::Unit;
use sightedge_core::plates::layer_name;
use sightedge_core::spec::{Document, Mat, Variant};

use crate::page::{Leaf, count};
use crate::words::{
    BODY, LONG_TITLE, SMALL, SUBTITLE, Style, TITLE, extents, near, other, prose,
};
use crate::{House, Paper};

/// Room at the edges of a page; every usual printer prints within it.
pub(crate) const MARGIN: f64 = 13.0;
/// Between blocks.
pub(crate) const GAP: f64 = 5.0;

/// One plan, laid out.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Plan<'a> {
    pub(crate) document: &'a Document,
    pub(crate) variant: &'a Variant,
    pub(crate) derived: &'a Derived,
    pub(crate) paper: Paper,
    pub(crate) date: Date,
    /// Who stands at the head of pages that leave the house.
    pub(crate) house: &'a House,
}

impl Plan<'_> {
    pub(crate) fn mat(&self) -> &Mat {
        &self.variant.mat
    }

    /// The bench's figures: what is cut.
    pub(crate) fn figures(&self) -> &Figures {
        &self.derived.layout.bench
    }

    pub(crate) fn unit(&self) -> Unit {
        self.document.unit
    }

    /// What the plan is called: the title of its work, else the name of its picture.
    pub(crate) fn title(&self) -> String {
        let Some(work) = self.document.works.first() else { return "Untitled".to_owned() };
        let title = work.title.split_whitespace().collect::<Vec<_>>().join(" ");
        if !title.is_empty() {
            return title;
        }
        let name = work.picture.path.rsplit('/').next().unwrap_or_default();
        let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
        if stem.is_empty() { "Untitled".to_owned() } else { stem.to_owned() }
    }

    /// What the layer `index` from the top is called.
    pub(crate) fn layer_name(&self, index: usize) -> String {
        layer_name(index, self.mat().layers.len())
    }

    /// The head of a page: title, what paper it is, and a rule; returns where it ends.
    pub(crate) fn head(&self, leaf: &mut Leaf, kind: &str, wide: f64) -> f64 {
        let title = self.title();
        let mut style = TITLE;
        let mut lines = style.lines(&title, wide);
        if lines.len() > 1 {
            style = LONG_TITLE;
            lines = style.lines(&title, wide);
        }
        if lines.len() > 2 {
            let rest = lines.split_off(1).join(" ");
            lines.push(style.shortened(&rest, wide));
        }
        let y = leaf.set(MARGIN, MARGIN, wide, style, 1, "left", lines) + 0.6;
        let outer = extents(self.figures().outer, self.unit());
        let named = match self.document.variants.as_slice() {
            [_] | [] => String::new(),
            _ => format!(" \u{b7} mat “{}”", self.variant.name),
        };
        let about = format!("{kind} \u{b7} mat {outer}, width × height{named}");
        let house = self.house.line();
        let date = match house.as_str() {
            "" => self.date.to_string(),
            house => format!("{} \u{b7} {}", SUBTITLE.shortened(house, wide * 0.4), self.date),
        };
        let room = wide - SUBTITLE.width(&date) - 4.0;
        leaf.text(MARGIN, y, room, SUBTITLE, vec![SUBTITLE.shortened(&about, room)]);
        let y = leaf.set(MARGIN, y, wide, SUBTITLE, 0, "right", vec![date]) + 1.4;
        leaf.rule(MARGIN, y, wide);
        y + 3.6
    }

    /// The foot of a page.
    pub(crate) fn foot(&self, leaf: &mut Leaf, size: [f64; 2], page: [usize; 2]) {
        let [wide, high] = size;
        let y = high - MARGIN + 3.0;
        let wide = wide - 2.0 * MARGIN;
        let ruler = self.document.ruler;
        let left = if self.derived.layout.in_hand {
            "Figures of the window in hand, as measured".to_owned()
        } else {
            let step = crate::words::length(ruler.step(), ruler.unit());
            format!("Figures on a ruler of {step}")
        };
        leaf.text(MARGIN, y, wide, SMALL, vec![left]);
        let right = format!("Sightedge plan {}   {} / {}", self.document.id, page[0], page[1]);
        leaf.set(MARGIN, y, wide, SMALL, 0, "right", vec![right]);
    }

    /// The frame from outside, its rabbet and the glazing; none where there is no frame.
    pub(crate) fn framing(&self) -> Vec<(&'static str, Size)> {
        let Some(packed) = &self.derived.assembly.package else { return Vec::new() };
        let Some(framed) = &packed.framed else { return Vec::new() };
        vec![
            ("Frame, outside", framed.outside),
            ("Rabbet", framed.rabbet),
            ("Glazing", packed.contents),
        ]
    }

    /// The same in one sentence.
    pub(crate) fn framing_words(&self) -> Option<String> {
        let sizes = self.framing();
        let near = |size: Size, unit: Unit| size.extent_text(|side| near(side, unit));
        let one = |(name, size): &(&str, Size)| {
            let [first, second] =
                [self.unit(), other(self.unit())].map(|unit| near(*size, unit));
            format!("{} {first} ({second})", name.to_lowercase())
        };
        let all: Vec<String> = sizes.iter().map(one).collect();
        (!all.is_empty()).then(|| format!("Width × height: {}.", all.join("; ")))
    }

    /// The checks that are still open, in lines no wider than `wide`, at most `most` of them.
    pub(crate) fn checks(&self, style: Style, wide: f64, most: usize) -> Vec<String> {
        let findings = &self.derived.findings;
        if findings.is_empty() {
            return vec!["All checks passed.".to_owned()];
        }
        let mut lines = Vec::new();
        for (index, finding) in findings.iter().enumerate() {
            let text = prose(&finding.message);
            let next = style.lines(&format!("{}: {text}", finding.severity.name()), wide);
            let left = findings.len() - index;
            let room = most.saturating_sub(lines.len());
            if next.len() > room || (left > 1 && next.len() == room) {
                let more = if index == 0 { "" } else { " more" };
                let noun = if left == 1 { "check" } else { "checks" };
                lines.push(format!("{left}{more} {noun} open: see the cutter’s card."));
                break;
            }
            lines.extend(next);
        }
        lines
    }
}

/// A place to write: a word and a line behind it.
pub(crate) fn blank_line(leaf: &mut Leaf, x: f64, y: f64, wide: f64, word: &str) {
    leaf.text(x, y, wide, SMALL, vec![word.to_owned()]);
    let at = SMALL.width(word) + 2.0;
    leaf.rule(x + at, y + SMALL.pitch() * 0.86, (wide - at).max(0.0));
}

/// How high so many lines of body text are.
pub(crate) fn body(lines: usize) -> f64 {
    BODY.pitch() * count(lines)
}
