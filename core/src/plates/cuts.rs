//! What is cut, board by board, for a machine that cuts or marks: one drawing a board, in the
//! coordinates of the mat, so that all of them lie upon each other as they will be built.

use super::mirrored;
use crate::drawing::{Drawing, Item, Line, Pen, around};
use crate::geometry::{Path, Point, Rect, Seen};
use crate::layout::Layout;
use crate::length::{Length, Unit};
use crate::spec::Mat;

/// Which edge of a bevel a machine follows; that depends on its head.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum CutAt {
    /// The sight edge, on the back of the board: for heads that tilt about the tip.
    #[default]
    Sight,
    /// The opening on the face.
    Face,
}

/// One board of a mat.
#[derive(Clone, PartialEq, Debug)]
pub struct Part {
    /// What it is: `Top mat`, `Undermat`, `Undermat 2`, `Backing`.
    pub name: String,
    /// What its board is called.
    pub board: String,
    /// Its lines, all closed: [`Pen::Section`] is cut, [`Pen::Fine`] is scored or drawn in
    /// pencil, [`Pen::Hidden`] is for reference only.
    pub drawing: Drawing,
}

/// Every board of a mat, the topmost first and the backing last. The figures are the bench's.
/// A board whose size is nonsense is left out, and so is one that is cut already.
pub fn cuts(mat: &Mat, layout: &Layout, unit: Unit, at: CutAt, seen: Seen) -> Vec<Part> {
    let figures = &layout.bench;
    let board = Rect::at_origin(figures.outer);
    let blanks = figures.blanks(unit);
    let blank = |id| blanks.iter().find(|blank| blank.layer == id).map(|blank| blank.rect);
    let mut parts = Vec::with_capacity(mat.layers.len() + 1);
    for (index, layer) in mat.layers.iter().enumerate() {
        let Some(outline) = blank(layer.id).filter(|_| !mat.is_made(layer.id)) else {
            continue;
        };
        let mut lines = vec![(outline, Pen::Section)];
        for window in &figures.openings {
            if let Some(cut) = window.layers.get(index) {
                let edge = match at {
                    CutAt::Sight => &cut.sight,
                    CutAt::Face => &cut.face,
                };
                lines.push((edge.bounds, Pen::Section));
            }
            // Where the window above it ends, which is seen once both lie together.
            if let Some(above) = index.checked_sub(1).and_then(|over| window.layers.get(over)) {
                lines.push((above.sight.bounds, Pen::Hidden));
            }
        }
        // Where the next blank is stuck to the back of this one.
        let below = mat.layers.get(index + 1).and_then(|below| blank(below.id));
        lines.extend(below.map(|below| (below, Pen::Fine)));
        let (name, of) = (super::layer_name(index, mat.layers.len()), &layer.board.name);
        parts.extend(part(name, of, board, &lines, seen));
    }
    let mut lines = vec![(figures.backing, Pen::Section)];
    for window in &figures.openings {
        lines.extend([(window.sheet, Pen::Fine), (window.sight, Pen::Hidden)]);
    }
    parts.extend(part("Backing".to_owned(), &mat.backing.board.name, board, &lines, seen));
    parts
}

fn part(
    name: String,
    of: &str,
    board: Rect,
    lines: &[(Rect, Pen)],
    seen: Seen,
) -> Option<Part> {
    let outline =
        lines.first().map(|(rect, _)| *rect).filter(|rect| rect.size.is_positive())?;
    let items = lines
        .iter()
        .filter(|(rect, _)| rect.size.is_positive())
        .map(|(rect, pen)| {
            let Path { points } = match seen {
                Seen::Front => rect.path(),
                Seen::Back => mirrored(*rect, board.size.width).path(),
            };
            Item::Line(Line { points, closed: true, pen: *pen })
        })
        .collect();
    let outline = match seen {
        Seen::Front => outline,
        Seen::Back => mirrored(outline, board.size.width),
    };
    let drawing = Drawing { bounds: around(board, outline), ground: None, items };
    Some(Part { name, board: of.to_owned(), drawing })
}

/// The closed lines of a drawing, with their pens.
pub fn closed_lines(drawing: &Drawing) -> impl Iterator<Item = (&[Point], Pen)> {
    drawing.items.iter().filter_map(|item| match item {
        Item::Line(Line { points, closed: true, pen }) => Some((points.as_slice(), *pen)),
        _ => None,
    })
}

/// How far a cut runs on past each corner of the sight edge, so that the corner of the face
/// is cut through: as far as the bevel runs across the board. A reverse bevel is cut from the
/// face, where running on would show: none. Derived; each cutter adds its own correction,
/// found by a test cut.
pub fn over_cut(layer: &crate::spec::Layer) -> Length {
    layer.bevel.shown(layer.board.thickness)
}
