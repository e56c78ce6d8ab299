//! Tables of figures: as wide as what stands in them, in both units.

use sightedge_core::geometry::{Rect, Sides, Size};
use sightedge_core::layout::{Figures, Window};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Board;

use crate::frame::Plan;
use crate::page::{Table, count};
use crate::words::{BODY, Style, number, other, unit_name};

/// Sizes of text tried, from roomy to tight, in points.
const TEXT: [f64; 3] = [8.6, 8.3, 8.0];
/// Room at both sides of a cell together.
const INSET: f64 = 1.6;
/// No column is made wider than it needs by more.
const MOST_SPARE: f64 = 5.0;

/// What stands in a table, before it has a place.
#[derive(Clone, Debug)]
pub(crate) struct Cells {
    /// Columns whose text begins at their left edge.
    pub(crate) start: Vec<usize>,
    /// Heads of groups of columns, each with how many it spans.
    pub(crate) groups: Vec<(String, usize)>,
    pub(crate) head: Vec<String>,
    pub(crate) rows: Vec<Vec<String>>,
}

impl Cells {
    /// How wide each column must be with text of that size.
    fn widths(&self, size: f64) -> Vec<f64> {
        let style = Style { size, ..BODY };
        let mut widths: Vec<f64> =
            self.head.iter().map(|head| style.width(head) + INSET).collect();
        for row in &self.rows {
            for (width, cell) in widths.iter_mut().zip(row) {
                *width = width.max(style.width(cell) + INSET);
            }
        }
        let mut at = 0;
        for (name, span) in &self.groups {
            let group = at..(at + span).min(widths.len());
            let short = style.width(name) + INSET - widths[group.clone()].iter().sum::<f64>();
            if short > 0.0 {
                for width in &mut widths[group] {
                    *width += short / count(*span);
                }
            }
            at += span;
        }
        widths
    }

    /// How high it is with rows of that height.
    pub(crate) fn height(&self, row: f64) -> f64 {
        let heads = if self.groups.is_empty() { 1 } else { 2 };
        row * count(self.rows.len() + heads)
    }

    /// How wide it is with the smallest text.
    pub(crate) fn least_width(&self) -> f64 {
        self.widths(TEXT[TEXT.len() - 1]).iter().sum()
    }

    /// At a place, `wide` across: the largest text that fits, columns evenly wider where there
    /// is room.
    pub(crate) fn placed(self, [x, y]: [f64; 2], wide: f64, row: f64) -> Table {
        let least = TEXT[TEXT.len() - 1];
        let fits = |size: &f64| self.widths(*size).iter().sum::<f64>() <= wide;
        let size = TEXT.into_iter().find(fits).unwrap_or(least);
        let mut columns = self.widths(size);
        spread(&mut columns, wide);
        let Self { start, groups, head, rows } = self;
        Table { x, y, columns, row, size, start, groups, head, rows }
    }
}

/// Two tables side by side in `wide`, `gap` between them, with text of one size; where they find
/// no room so, one above the other with `head` between them.
pub(crate) fn beside(
    tables: [Cells; 2],
    [x, y]: [f64; 2],
    [wide, gap]: [f64; 2],
    row: f64,
    head: f64,
) -> [Table; 2] {
    if tables.each_ref().map(Cells::least_width).iter().sum::<f64>() + gap > wide {
        let [above, below] = tables;
        let next = y + above.height(row) + gap + head;
        return [above.placed([x, y], wide, row), below.placed([x, next], wide, row)];
    }
    let room = wide - gap;
    let needs =
        |size: f64| tables.each_ref().map(|table| table.widths(size).iter().sum::<f64>());
    let least = TEXT[TEXT.len() - 1];
    let size = TEXT.into_iter().find(|size| needs(*size).iter().sum::<f64>() <= room);
    let [one, two] = needs(size.unwrap_or(least));
    // What is left over is shared by columns, each alike.
    let shares = tables.each_ref().map(|table| count(table.head.len()));
    let spare = (room - one - two).max(0.0) / (shares[0] + shares[1]);
    let first = one + spare * shares[0];
    let [left, right] = tables;
    [left.placed([x, y], first, row), right.placed([x + first + gap, y], room - first, row)]
}

/// Makes columns `wide` together: each a little wider, the first takes the rest.
fn spread(columns: &mut [f64], wide: f64) {
    let spare = wide - columns.iter().sum::<f64>();
    let each = (spare / count(columns.len().max(1))).min(MOST_SPARE);
    for column in columns.iter_mut() {
        *column += each;
    }
    let rest = wide - columns.iter().sum::<f64>();
    if let Some(first) = columns.first_mut() {
        *first += rest;
    }
}

/// Four columns a unit, one row a figure.
pub(crate) fn sides(unit: Unit, names: [&str; 4], rows: Vec<(String, Sides<Length>)>) -> Cells {
    let units = [unit, other(unit)];
    let mut head = vec![String::new()];
    head.extend(names.iter().chain(&names).map(|name| (*name).to_owned()));
    let cells = |(name, sides): (String, Sides<Length>)| {
        let mut cells = vec![name];
        for unit in units {
            cells.extend(sides.each().map(|(_, length)| number(length, unit)));
        }
        cells
    };
    let [one, two] = units.map(|unit| (unit_name(unit).to_owned(), 4));
    let groups = vec![(String::new(), 1), one, two];
    Cells { start: vec![0], groups, head, rows: rows.into_iter().map(cells).collect() }
}

/// A column a unit, one row a size, width × height.
pub(crate) fn sizes(unit: Unit, rows: Vec<(String, Size)>) -> Cells {
    let units = [unit, other(unit)];
    let mut head = vec![String::new()];
    head.extend(units.map(|unit| unit_name(unit).to_owned()));
    let cells = |(name, size): (String, Size)| {
        let mut cells = vec![name];
        cells.extend(units.map(|unit| size.sides_text(|side| number(side, unit))));
        cells
    };
    Cells {
        start: vec![0],
        groups: Vec::new(),
        head,
        rows: rows.into_iter().map(cells).collect(),
    }
}

impl Plan<'_> {
    /// What a window measures on its four sides; offsets that are one for all sides only if
    /// `all`: else they stand with the boards.
    pub(crate) fn side_rows(
        &self,
        figures: &Figures,
        window: &Window,
        all: bool,
    ) -> Vec<(String, Sides<Length>)> {
        let mut rows = Vec::new();
        for (index, cut) in window.layers.iter().enumerate() {
            rows.push((format!("{} borders", self.layer_name(index)), cut.borders));
        }
        for (index, cut) in window.layers.iter().enumerate() {
            let name = self.layer_name(index);
            if index == 0 {
                rows.push((format!("{name} flat"), cut.flat));
            } else if all || even(cut.offset).is_none() {
                rows.push((format!("{name} offset"), cut.offset));
                rows.push((format!("{name} flat"), cut.flat));
            }
        }
        rows.push(("Reveal".to_owned(), window.reveal));
        rows.push(("Overlap".to_owned(), window.overlap));
        let board = Rect::at_origin(figures.outer);
        rows.push(("Sheet from edge".to_owned(), window.sheet.within(board)));
        rows.push(("Image from edge".to_owned(), window.image.within(board)));
        if figures.backing != board {
            rows.push(("Backing from edge".to_owned(), figures.backing.within(board)));
        }
        rows
    }

    /// What a window measures, width × height.
    pub(crate) fn size_rows(&self, figures: &Figures, window: &Window) -> Vec<(String, Size)> {
        let mut rows = vec![("Outer".to_owned(), figures.outer)];
        for (index, cut) in window.layers.iter().enumerate() {
            let name = self.layer_name(index);
            rows.push((format!("{name} sight"), cut.sight.bounds.size));
            rows.push((format!("{name} face"), cut.face.bounds.size));
            // Elsewhere the sight edge lies on the back.
            if cut.back.bounds != cut.sight.bounds {
                rows.push((format!("{name} back"), cut.back.bounds.size));
            }
        }
        rows.push(("Sheet".to_owned(), window.sheet.size));
        rows.push(("Image".to_owned(), window.image.size));
        rows.push(("Backing".to_owned(), figures.backing.size));
        rows
    }

    /// Boards, from the top one to the backing; a board's name takes no more than `most`.
    pub(crate) fn materials(&self, window: &Window, most: f64) -> Cells {
        let units = [self.unit(), other(self.unit())];
        let style = Style { size: TEXT[0], ..BODY };
        let cells = |name: String, board: &Board, cut: String| {
            let mut cells = vec![name, style.shortened(&board.name, most), cut];
            cells.extend(units.map(|unit| number(board.thickness, unit)));
            cells
        };
        let mut rows = Vec::new();
        for (index, layer) in self.mat().layers.iter().enumerate() {
            let done = window.layers.get(index).is_some_and(|cut| cut.done);
            let how = if done { ", cut, as measured" } else { "" };
            let how = format!("{}{how}", layer.bevel.name());
            let mut row = cells(self.layer_name(index), &layer.board, how);
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
        Cells { start: vec![0, 1, 2], groups, head, rows }
    }
}

/// The one length that all four sides have.
fn even(sides: Sides<Length>) -> Option<Length> {
    let Sides { top, right, bottom, left } = sides;
    (top == right && top == bottom && top == left).then_some(top)
}
