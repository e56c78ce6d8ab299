//! What all papers have in common: the page, its head and its foot, tables of figures.

use sightedge_core::derived::Derived;
use sightedge_core::geometry::{Sides, Size};
use sightedge_core::layout::{Figures, Window};
use sightedge_core::length::{Length, Unit};
use sightedge_core::plates::layer_name;
use sightedge_core::spec::{Bevel, Document, Mat, Variant};

use crate::page::{Leaf, Table, count};
use crate::words::{
    BODY, LONG_TITLE, SMALL, SUBTITLE, TITLE, extent, extents, number, other, unit_name,
};
use crate::{Date, Paper};

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
        let variant = match self.document.variants.as_slice() {
            [_] | [] => String::new(),
            _ => format!(" \u{b7} mat “{}”", self.variant.name),
        };
        let about = format!("{kind} \u{b7} mat {outer}, width × height{variant}");
        let date = self.date.to_string();
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
            format!("Figures on the maker’s ruler of {step}")
        };
        leaf.text(MARGIN, y, wide, SMALL, vec![left]);
        let right = format!("Sightedge plan {}   {} / {}", self.document.id, page[0], page[1]);
        leaf.set(MARGIN, y, wide, SMALL, 0, "right", vec![right]);
    }

    /// Four columns a unit, one row a figure.
    pub(crate) fn sides_table(
        &self,
        [x, y]: [f64; 2],
        wide: f64,
        row: f64,
        names: [&str; 4],
        rows: Vec<(String, Sides<Length>)>,
    ) -> Table {
        let column = (wide * 0.09).min(16.6);
        let mut columns = vec![wide - column * 8.0 - 5.0];
        columns.extend([column; 8]);
        // What parts the units.
        if let Some(fifth) = columns.get_mut(5) {
            *fifth += 5.0;
        }
        let units = [self.unit(), other(self.unit())];
        let mut head = vec![String::new()];
        head.extend(names.iter().chain(&names).map(|name| (*name).to_owned()));
        let rows = rows
            .into_iter()
            .map(|(name, sides)| {
                let mut cells = vec![name];
                for unit in units {
                    cells.extend(sides.each().map(|(_, length)| number(length, unit)));
                }
                cells
            })
            .collect();
        let [one, two] = units.map(|unit| (unit_name(unit).to_owned(), 4));
        Table {
            x,
            y,
            columns,
            row,
            size: 7.6,
            start: vec![0],
            groups: vec![(String::new(), 1), one, two],
            head,
            rows,
        }
    }

    /// Two columns a unit, one row a size.
    pub(crate) fn sizes_table(
        &self,
        [x, y]: [f64; 2],
        wide: f64,
        row: f64,
        rows: Vec<(String, Size)>,
    ) -> Table {
        let column = (wide * 0.155).min(17.5);
        let mut columns = vec![wide - column * 4.0];
        columns.extend([column; 4]);
        let units = [self.unit(), other(self.unit())];
        let head = ["", "Width", "Height", "Width", "Height"].map(str::to_owned).to_vec();
        let rows = rows
            .into_iter()
            .map(|(name, size)| {
                let mut cells = vec![name];
                for unit in units {
                    cells.extend([number(size.width, unit), number(size.height, unit)]);
                }
                cells
            })
            .collect();
        let [one, two] = units.map(|unit| (unit_name(unit).to_owned(), 2));
        let groups = vec![(String::new(), 1), one, two];
        Table { x, y, columns, row, size: 7.6, start: vec![0], groups, head, rows }
    }

    /// What a window measures, side by side; offsets that are one for all sides only if `all`:
    /// else they stand with the boards.
    pub(crate) fn side_rows(
        &self,
        figures: &Figures,
        window: &Window,
        all: bool,
    ) -> Vec<(String, Sides<Length>)> {
        let mut rows = Vec::new();
        for (index, cut) in window.layers.iter().enumerate() {
            rows.push((format!("{}: borders", self.layer_name(index)), cut.borders));
        }
        for (index, cut) in window.layers.iter().enumerate().skip(1) {
            if all || even(cut.offset).is_none() {
                rows.push((format!("{}: offset", self.layer_name(index)), cut.offset));
                rows.push((format!("{}: flat showing", self.layer_name(index)), cut.flat));
            }
        }
        rows.push(("Reveal".to_owned(), window.reveal));
        rows.push(("Overlap on the sheet".to_owned(), window.overlap));
        let board = sightedge_core::geometry::Rect::at_origin(figures.outer);
        rows.push(("Sheet from the outer edge".to_owned(), window.sheet.within(board)));
        rows.push(("Image from the outer edge".to_owned(), window.image.within(board)));
        rows
    }

    /// What a window measures, width × height.
    pub(crate) fn size_rows(&self, figures: &Figures, window: &Window) -> Vec<(String, Size)> {
        let mut rows = vec![("Outer".to_owned(), figures.outer)];
        for (index, cut) in window.layers.iter().enumerate() {
            let name = self.layer_name(index);
            rows.push((format!("{name}: sight"), cut.sight.bounds.size));
            rows.push((format!("{name}: face"), cut.face.bounds.size));
        }
        rows.push(("Sheet".to_owned(), window.sheet.size));
        rows.push(("Image".to_owned(), window.image.size));
        rows.push(("Backing".to_owned(), self.backing(figures)));
        rows
    }

    /// The backing's size: the plan's, else that of the mat in these figures.
    fn backing(&self, figures: &Figures) -> Size {
        self.mat().backing.size.unwrap_or(figures.outer)
    }

    /// Boards, from the top one to the backing.
    pub(crate) fn materials(
        &self,
        window: &Window,
        [x, y]: [f64; 2],
        wide: f64,
        row: f64,
    ) -> Table {
        let units = [self.unit(), other(self.unit())];
        let mut columns = [0.105, 0.26, 0.115].map(|part| wide * part).to_vec();
        columns.extend([0.065; 8].map(|part| wide * part));
        let cells = |name: String, board: &sightedge_core::material::Board, cut: String| {
            let style = cell_style();
            let mut cells = vec![name, style.shortened(&board.name, wide * 0.26 - 3.0), cut];
            cells.extend(units.map(|unit| number(board.thickness, unit)));
            cells
        };
        let mut rows = Vec::new();
        for (index, layer) in self.mat().layers.iter().enumerate() {
            let mut row = cells(self.layer_name(index), &layer.board, cut_name(layer.bevel));
            let cut = window.layers.get(index).filter(|_| index > 0);
            for sides in [cut.map(|cut| cut.offset), cut.map(|cut| cut.flat)] {
                let one = sides.and_then(even);
                let many = if sides.is_some() { "below" } else { "" };
                row.extend(units.map(|unit| {
                    one.map_or_else(|| many.to_owned(), |length| number(length, unit))
                }));
            }
            let shown = layer.bevel.shown(layer.board.thickness);
            row.extend(units.map(|unit| number(shown, unit)));
            rows.push(row);
        }
        let mut backing = cells("Backing".to_owned(), &self.mat().backing.board, String::new());
        backing.extend(std::iter::repeat_n(String::new(), 6));
        rows.push(backing);
        let signs = units.map(Unit::sign).map(str::to_owned);
        let mut head = ["", "Board", "Cut"].map(str::to_owned).to_vec();
        for _ in 0..4 {
            head.extend(signs.clone());
        }
        let mut groups = vec![(String::new(), 3)];
        for name in ["Thickness", "Offset", "Flat shows", "Bevel shows"] {
            groups.push((name.to_owned(), 2));
        }
        Table { x, y, columns, row, size: 7.6, start: vec![0, 1, 2], groups, head, rows }
    }

    /// The checks that are still open, in lines no wider than `wide`, at most `most` of them.
    pub(crate) fn checks(&self, wide: f64, most: usize) -> Vec<String> {
        let findings = &self.derived.findings;
        if findings.is_empty() {
            return vec!["Every check is passed.".to_owned()];
        }
        let mut lines = Vec::new();
        for (index, finding) in findings.iter().enumerate() {
            let text = sightedge_core::length::typeset(&finding.message);
            let next = BODY.lines(&format!("{}: {text}", finding.severity.name()), wide);
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

/// The one length that all four sides have.
fn even(sides: Sides<Length>) -> Option<Length> {
    let Sides { top, right, bottom, left } = sides;
    (top == right && top == bottom && top == left).then_some(top)
}

/// How the cells of tables are set, to measure them.
pub(crate) fn cell_style() -> crate::words::Style {
    crate::words::Style { size: 7.6, ..BODY }
}

/// How a window is cut, in words.
pub(crate) fn cut_name(bevel: Bevel) -> String {
    let degrees = |tenths: u16| match tenths % 10 {
        0 => format!("{}°", tenths / 10),
        rest => format!("{}.{rest}°", tenths / 10),
    };
    match bevel {
        Bevel::Open(angle) => format!("bevel {}", degrees(angle.tenths())),
        Bevel::Straight => "straight, 90°".to_owned(),
        Bevel::Reverse(angle) => format!("reverse bevel {}", degrees(angle.tenths())),
    }
}

/// A place to write: a word and a line behind it.
pub(crate) fn blank_line(leaf: &mut Leaf, x: f64, y: f64, wide: f64, word: &str) {
    leaf.text(x, y, wide, SMALL, vec![word.to_owned()]);
    let at = SMALL.width(word) + 2.0;
    leaf.rule(x + at, y + SMALL.pitch() * 0.86, (wide - at).max(0.0));
}

/// The key sizes, large.
pub(crate) fn keys(plan: &Plan<'_>, window: &Window) -> Vec<(String, String, String)> {
    let unit = plan.unit();
    let row = |name: &str, size: Size| {
        (name.to_owned(), extent(size, unit), extent(size, other(unit)))
    };
    vec![
        row("Mat", plan.figures().outer),
        row("Window", window.sight.size),
        row("Sheet", window.sheet.size),
        row("Image", window.image.size),
    ]
}

/// How high so many lines of body text are.
pub(crate) fn body(lines: usize) -> f64 {
    BODY.pitch() * count(lines)
}
