//! Every number of a plan in a form to be written out: millimetres unrounded, and the text in
//! the plan's unit beside each.

use serde::Serialize;

use crate::geometry::{Rect, Sides, Size};
use crate::layout::{Blank, Cut, Figures, Layout, Window};
use crate::length::{Length, Unit};
use crate::spec::{Bevel, Document, Mat};

/// Every number of one variant.
#[derive(Clone, Debug, Serialize)]
pub struct Sheet {
    /// `in` or `mm`.
    pub unit: &'static str,
    /// One step of the maker's ruler.
    pub ruler_mm: f64,
    /// The same in words.
    pub ruler_text: String,
    /// Whether the window was already cut: the bench then has the exact figures.
    pub in_hand: bool,
    /// The exact set.
    #[serde(flatten)]
    pub exact: Set,
    /// The set on the maker's ruler.
    pub bench: Set,
}

/// One set of figures.
#[derive(Clone, Debug, Serialize)]
pub struct Set {
    /// The board.
    pub outer: Extent,
    /// The board behind everything.
    pub backing: Placed,
    /// Its windows.
    pub openings: Vec<Opening>,
}

/// One window; what names no layer is of the innermost.
#[derive(Clone, Debug, Serialize)]
#[expect(missing_docs, reason = "the words of the trade, as in layout::Window")]
pub struct Opening {
    pub id: u32,
    pub sight: Extent,
    pub borders: Four,
    pub reveal: Four,
    pub overlap: Four,
    pub sheet: Placed,
    pub image: Placed,
    pub layers: Vec<Layer>,
}

/// One layer of a window.
#[derive(Clone, Debug, Serialize)]
pub struct Layer {
    /// Its id.
    pub id: u32,
    /// What it is called.
    pub name: String,
    /// What it is cut from.
    pub board: String,
    /// The board's thickness.
    pub thickness_mm: f64,
    /// The same in words.
    pub thickness_text: String,
    /// `open`, `straight` or `reverse`.
    pub cut: &'static str,
    /// The cut's angle with the face.
    pub angle_deg: f64,
    /// The innermost edge seen.
    pub sight: Extent,
    /// The opening on the face.
    pub face: Extent,
    /// The opening on the back.
    pub back: Extent,
    /// Whether it is cut already: its figures are then as measured.
    pub measured: bool,
    /// From the board's edges to the sight edge.
    pub borders: Four,
    /// From the sight edge of the layer above.
    pub offset: Four,
    /// The least of its face that shows beside its window.
    pub flat_mm: f64,
    /// The same in words.
    pub flat_text: String,
    /// Of its face, what shows on each side.
    pub flat: Four,
    /// Of its cut, what shows.
    pub bevel_mm: f64,
    /// The same in words.
    pub bevel_text: String,
    /// What of the piece that falls out can be used.
    pub drop_out: Extent,
    /// What the layer is cut from.
    pub blank: Extent,
    /// Stops from the top mat's edge, as the maker sees the back.
    pub stops: Four,
    /// Stops from the blank's own edge, as the maker sees the back.
    pub stops_loose: Four,
}

/// A width and a height.
#[derive(Clone, Debug, Serialize)]
#[expect(missing_docs, reason = "the names say it: millimetres, and the text beside")]
pub struct Extent {
    pub width_mm: f64,
    pub width_text: String,
    pub height_mm: f64,
    pub height_text: String,
}

/// A length for each side.
#[derive(Clone, Debug, Serialize)]
#[expect(missing_docs, reason = "the names say it: millimetres, and the text beside")]
pub struct Four {
    pub top_mm: f64,
    pub top_text: String,
    pub right_mm: f64,
    pub right_text: String,
    pub bottom_mm: f64,
    pub bottom_text: String,
    pub left_mm: f64,
    pub left_text: String,
}

/// A size and its distances from the outer edge.
#[derive(Clone, Debug, Serialize)]
pub struct Placed {
    /// Its size.
    #[serde(flatten)]
    pub size: Extent,
    /// From the board's edges; negative where it stands out.
    #[serde(flatten)]
    pub from: Four,
}

/// Writes out the figures of `mat`, laid out as `layout`.
pub fn sheet(document: &Document, mat: &Mat, layout: &Layout) -> Sheet {
    let unit = document.unit;
    let write = Writer { unit, mat };
    let step = document.ruler.step();
    Sheet {
        unit: unit.sign(),
        ruler_mm: step.to_mm(),
        ruler_text: step.text(document.ruler.unit()),
        in_hand: layout.in_hand,
        exact: write.set(&layout.exact),
        bench: write.set(&layout.bench),
    }
}

struct Writer<'a> {
    unit: Unit,
    mat: &'a Mat,
}

impl Writer<'_> {
    fn text(&self, length: Length) -> String {
        length.text(self.unit)
    }

    fn extent(&self, size: Size) -> Extent {
        Extent {
            width_mm: size.width.to_mm(),
            width_text: self.text(size.width),
            height_mm: size.height.to_mm(),
            height_text: self.text(size.height),
        }
    }

    fn four(&self, sides: Sides<Length>) -> Four {
        Four {
            top_mm: sides.top.to_mm(),
            top_text: self.text(sides.top),
            right_mm: sides.right.to_mm(),
            right_text: self.text(sides.right),
            bottom_mm: sides.bottom.to_mm(),
            bottom_text: self.text(sides.bottom),
            left_mm: sides.left.to_mm(),
            left_text: self.text(sides.left),
        }
    }

    fn placed(&self, rect: Rect, board: Rect) -> Placed {
        Placed { size: self.extent(rect.size), from: self.four(rect.within(board)) }
    }

    fn set(&self, figures: &Figures) -> Set {
        let board = Rect::at_origin(figures.outer);
        let blanks = figures.blanks(self.unit);
        let opening = |window: &Window| Opening {
            id: window.id.0,
            sight: self.extent(window.sight.size),
            borders: self.four(window.borders),
            reveal: self.four(window.reveal),
            overlap: self.four(window.overlap),
            sheet: self.placed(window.sheet, board),
            image: self.placed(window.image, board),
            layers: window
                .layers
                .iter()
                .zip(blanks.iter().filter(|blank| blank.opening == window.id))
                .map(|(cut, blank)| self.layer(cut, blank))
                .collect(),
        };
        Set {
            outer: self.extent(figures.outer),
            backing: self.placed(figures.backing, board),
            openings: figures.openings.iter().map(opening).collect(),
        }
    }

    fn layer(&self, cut: &Cut, blank: &Blank) -> Layer {
        let layer = self.mat.layer(cut.layer);
        let thickness = layer.map_or(Length::ZERO, |layer| layer.board.thickness);
        let (kind, tenths) = match layer.map(|layer| layer.bevel).unwrap_or_default() {
            Bevel::Open(angle) => ("open", angle.tenths()),
            Bevel::Straight => ("straight", 900),
            Bevel::Reverse(angle) => ("reverse", angle.tenths()),
        };
        let flat = cut.flat.least();
        Layer {
            id: cut.layer.0,
            name: self
                .mat
                .layers
                .iter()
                .position(|one| one.id == cut.layer)
                .map(|index| self.mat.layer_name(index))
                .unwrap_or_default(),
            board: layer.map(|layer| layer.board.name.clone()).unwrap_or_default(),
            thickness_mm: thickness.to_mm(),
            thickness_text: self.text(thickness),
            cut: kind,
            angle_deg: f64::from(tenths) / 10.0,
            sight: self.extent(cut.sight.bounds.size),
            face: self.extent(cut.face.bounds.size),
            back: self.extent(cut.back.bounds.size),
            measured: cut.done,
            borders: self.four(cut.borders),
            offset: self.four(cut.offset),
            flat_mm: flat.to_mm(),
            flat_text: self.text(flat),
            flat: self.four(cut.flat),
            bevel_mm: cut.bevel.to_mm(),
            bevel_text: self.text(cut.bevel),
            drop_out: self.extent(cut.drop_out),
            blank: self.extent(blank.rect.size),
            stops: self.four(blank.stuck),
            stops_loose: self.four(blank.loose),
        }
    }
}
