//! From what a person decided to where everything lies: pure, total, never failing.
//!
//! There are two sets of figures. The **exact** one follows the plan to the unit. The one for
//! the **bench** is on the maker's ruler: it adds up, equal borders stay equal, the overlap is
//! never less than asked. What is cut already lies in both where it was measured. Nonsense (a
//! undermat wider than the window, a sheet off the board) is laid out as it is; the rules say what is
//! wrong with it.

mod as_cut;
mod bench;
mod blank;
mod place;

use crate::geometry::{Path, Rect, Sides, Size};
use crate::length::Length;
use crate::spec::{
    BoardBy, Document, LayerId, Mat, OpeningId, Placement, Shape, WindowBy, Work, WorkId,
};

pub use blank::Blank;
use place::Placed;
pub use place::optical_top;

/// Where everything of one variant lies.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Layout {
    /// The exact figures.
    pub exact: Figures,
    /// The figures on the maker's ruler.
    pub bench: Figures,
    /// Whether the window was already cut: the bench then has the exact figures.
    pub in_hand: bool,
}

/// One set of figures: borders and windows sum to the outer size.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Figures {
    /// The board.
    pub outer: Size,
    /// What lies behind it, seen from the front: as large as the board, unless the plan says
    /// otherwise.
    pub backing: Rect,
    /// Its windows, in the plan's order.
    pub openings: Vec<Window>,
}

/// One window through all layers. Figures without a layer are of the innermost.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Window {
    /// The opening's id.
    pub id: OpeningId,
    /// What shows in it.
    pub work: WorkId,
    /// The innermost sight edge.
    pub sight: Rect,
    /// From the board's edges to the sight edge.
    pub borders: Sides<Length>,
    /// Paper shown between image edge and sight edge.
    pub reveal: Sides<Length>,
    /// How far the mat lies on the sheet.
    pub overlap: Sides<Length>,
    /// Where the sheet lies.
    pub sheet: Rect,
    /// Where the image lies.
    pub image: Rect,
    /// From the top layer inwards.
    pub layers: Vec<Cut>,
}

/// The window of one layer.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Cut {
    /// The layer's id.
    pub layer: LayerId,
    /// The innermost edge that is seen.
    pub sight: Outline,
    /// The opening on the board's face.
    pub face: Outline,
    /// The opening on the board's back.
    pub back: Outline,
    /// From the board's edges to this layer's sight edge.
    pub borders: Sides<Length>,
    /// From the sight edge of the layer above; nothing for the top layer.
    pub offset: Sides<Length>,
    /// Of this layer's face, what shows beside its window.
    pub flat: Sides<Length>,
    /// Of its cut, what shows.
    pub bevel: Length,
    /// What of the piece that falls out can be used.
    pub drop_out: Size,
    /// Whether it is cut already: its figures are then as measured.
    pub done: bool,
}

/// A closed outline and the rectangle round it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Outline {
    /// The smallest upright rectangle round it.
    pub bounds: Rect,
    /// Its corners.
    pub path: Path,
}

impl Shape {
    /// The outline of this shape in `bounds`.
    pub fn outline(self, bounds: Rect) -> Outline {
        match self {
            Self::Rectangle => Outline { bounds, path: bounds.path() },
        }
    }
}

impl Figures {
    /// The window of that opening.
    pub fn opening(&self, id: OpeningId) -> Option<&Window> {
        self.openings.iter().find(|window| window.id == id)
    }

    /// The rectangle round all innermost sight edges.
    pub fn group(&self) -> Rect {
        place::around(self.openings.iter().map(|window| window.sight))
    }
}

impl Window {
    /// The cut of the top layer; `None` only in a mat without layers.
    pub fn top(&self) -> Option<&Cut> {
        self.layers.first()
    }
}

/// Lays out one variant of `document`.
pub fn layout(document: &Document, mat: &Mat) -> Layout {
    let planned = place::place(document, mat);
    let in_hand = mat.in_hand();
    let exact = as_cut::as_measured(planned.clone(), &planned, mat, None).figures(mat);
    let bench = if in_hand {
        exact.clone()
    } else {
        let step = document.ruler.step();
        let ruled = bench::on_the_ruler(&planned, mat, step);
        as_cut::as_measured(ruled, &planned, mat, Some(step)).figures(mat)
    };
    Layout { exact, bench, in_hand }
}

/// The backing behind a board of that size: in its middle.
fn backing(mat: &Mat, outer: Size) -> Rect {
    let size = mat.backing.size.unwrap_or(outer);
    let proud = Size::new(size.width - outer.width, size.height - outer.height);
    let (left, right) = proud.width.halves();
    let (top, bottom) = proud.height.halves();
    Rect::at_origin(outer).outset(Sides::new(top, right, bottom, left))
}

impl Placed {
    /// Every figure that follows from where sight edges and sheets lie.
    fn figures(&self, mat: &Mat) -> Figures {
        let Mat {
            layers,
            openings,
            board_by: _,
            backing: _,
            exhibition: _,
            limits: _,
            notes: _,
            // What lies behind moves no edge of the mat.
            assembly: _,
            // What is planned again once nothing is cut any more.
            planned: _,
        } = mat;
        let board = Rect::at_origin(self.outer);
        let window = |(opening, at): (&crate::spec::Opening, &place::Spot)| {
            let mut sight = at.sight;
            let mut cuts = Vec::with_capacity(layers.len());
            for (index, layer) in layers.iter().enumerate().rev() {
                let offset = at.offsets.get(index).copied().unwrap_or_default();
                let thickness = layer.board.thickness;
                let (run, bevel) = (layer.bevel.run(thickness), layer.bevel.shown(thickness));
                let face = sight.outset(Sides::all(bevel));
                let back = sight.outset(Sides::all(run - bevel));
                let borders = sight.within(board);
                let above = if index == 0 { borders } else { offset };
                cuts.push(Cut {
                    layer: layer.id,
                    sight: opening.shape.outline(sight),
                    face: opening.shape.outline(face),
                    back: opening.shape.outline(back),
                    borders,
                    offset,
                    flat: above.map(|side| side - bevel),
                    bevel,
                    drop_out: sight.size,
                    done: mat.is_cut(opening, index),
                });
                sight = sight.outset(offset);
            }
            cuts.reverse();
            Window {
                id: opening.id,
                work: opening.work,
                sight: at.sight,
                borders: at.sight.within(board),
                reveal: at.image.within(at.sight),
                overlap: at.sight.within(at.sheet),
                sheet: at.sheet,
                image: at.image,
                layers: cuts,
            }
        };
        let openings = openings.iter().zip(&self.spots).map(window).collect();
        Figures { outer: self.outer, backing: backing(mat, self.outer), openings }
    }
}

#[cfg(test)]
mod tests;
