//! What is painted on a page, with what it means to a reader: shaped once, for paper and
//! screen. Points (1/72 in) from the upper left corner of the page.

use std::sync::Arc;

use vello_cpu::kurbo::{Affine, BezPath, Rect};

use crate::shape::Shaped;

/// One page.
#[derive(Clone, Debug)]
pub(crate) struct Page {
    /// Width and height.
    pub(crate) size: [f64; 2],
    /// In the order they are read and painted.
    pub(crate) parts: Vec<Part>,
}

/// Things that mean something together.
#[derive(Clone, Debug)]
pub(crate) enum Part {
    /// Nothing that would be read aloud.
    Ornament(Vec<Item>),
    /// A heading of that level, 1 for the page's own, and its words.
    Heading(u8, String, Vec<Item>),
    Paragraph(Vec<Item>),
    /// A drawing: what it shows, and where it lies.
    Figure(String, Rect, Vec<Item>),
    /// A table, row by row.
    Table(Vec<Vec<Cell>>),
}

/// A cell of a table.
#[derive(Clone, Debug)]
pub(crate) struct Cell {
    pub(crate) kind: CellKind,
    /// How many columns it takes.
    pub(crate) span: u32,
    /// Empty where nothing stands in it.
    pub(crate) items: Vec<Item>,
}

/// What a cell is to the others.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum CellKind {
    /// Says what stands below it.
    ColumnHead,
    /// Says what stands beside it.
    RowHead,
    Figure,
}

/// One thing to paint.
#[derive(Clone, Debug)]
pub(crate) enum Item {
    Text {
        text: Arc<Shaped>,
        /// From the text's own base line, in points, to the page.
        place: Affine,
        /// How large an em is.
        size: f64,
        ink: Ink,
    },
    Fill {
        path: BezPath,
        ink: Ink,
    },
    Line {
        path: BezPath,
        pen: Pen,
    },
    Picture {
        /// By what name it is kept.
        name: String,
        place: Rect,
        /// What of it is seen.
        clip: Rect,
    },
}

/// A colour in sRGB, and how much of what lies below it covers: 1 is all.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Ink {
    pub(crate) rgb: [u8; 3],
    pub(crate) cover: f32,
}

impl Ink {
    pub(crate) const fn grey(light: u8) -> Self {
        Self { rgb: [light; 3], cover: 1.0 }
    }
}

/// How a line is drawn: butt ends, mitred corners.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Pen {
    pub(crate) width: f64,
    pub(crate) ink: Ink,
    /// So long a dash, and so long a gap.
    pub(crate) dash: Option<[f64; 2]>,
}

/// The miter limit: how far a corner may reach, in widths of its line.
pub(crate) const MITRE: f32 = 4.0;

impl Part {
    /// What is painted, in order.
    pub(crate) fn items(&self) -> impl Iterator<Item = &Item> {
        let (items, rows): (&[Item], &[Vec<Cell>]) = match self {
            Self::Ornament(items)
            | Self::Heading(_, _, items)
            | Self::Paragraph(items)
            | Self::Figure(_, _, items) => (items, &[]),
            Self::Table(rows) => (&[], rows),
        };
        items.iter().chain(rows.iter().flatten().flat_map(|cell| &cell.items))
    }
}
