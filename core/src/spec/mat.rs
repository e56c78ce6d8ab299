//! A mat: how its size is fixed, its layers from the top inwards, its openings.

use std::collections::BTreeMap;

use super::{Assembly, Bevel, LayerId, OpeningId, PrintRef, WorkId};
use crate::geometry::{Point, Sides, Size};
use crate::length::Length;
use crate::material::Board;

/// A mat of one to four layers with its openings and the backing behind it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mat {
    /// What is given of the outer size and the borders.
    pub board_by: BoardBy,
    /// From the top one inwards, one to [`Mat::MOST_LAYERS`].
    pub layers: Vec<Layer>,
    /// The windows.
    pub openings: Vec<Opening>,
    /// The board behind everything.
    pub backing: Backing,
    /// Whether the borders are held to the exhibition rule.
    pub exhibition: bool,
    /// What the person allows.
    pub limits: Limits,
    /// The maker's own words.
    pub notes: String,
    /// What is decided about hinges, paper, frame and wall.
    pub assembly: Assembly,
    /// Where windows were entered as cut: what was planned before.
    pub planned: Option<Box<Planned>>,
}

/// What was planned before the first window was entered as cut. A window that is cut again, and
/// the mat of another print, follow it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Planned {
    /// What was given of the outer size and the borders.
    pub board_by: BoardBy,
    /// The windows, none of them cut.
    pub openings: Vec<Opening>,
    /// The print that was at the bench, whose mat it then is.
    pub print: Option<PrintRef>,
}

/// What the person gives of the board; the rest follows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum BoardBy {
    /// The outer size is given; the borders of the innermost sight edge follow from where
    /// the window is placed.
    Outer {
        /// The board.
        size: Size,
        /// The window's place on it.
        placement: Placement,
    },
    /// The top layer's borders are given; the outer size follows.
    Borders(Sides<Length>),
}

/// Where the group of windows lies on a board of given size.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Placement {
    /// Opposite borders equal.
    Centred,
    /// The bottom border is the top one and this; sides equal.
    BottomExtra(Length),
    /// Bottom to top as these two; sides equal.
    BottomRatio(Weight),
    /// At the optical centre of the construction drawn in photography handouts.
    Optical,
    /// By hand: the left and the top border.
    Free {
        /// From the board's left edge to the innermost sight edge.
        left: Length,
        /// From the board's top edge to the innermost sight edge.
        top: Length,
    },
}

/// Bottom border to top border.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Weight {
    /// The bottom's part.
    pub bottom: u32,
    /// The top's part.
    pub top: u32,
}

/// A board with windows cut in it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Layer {
    /// Its id, never used again once the layer is gone.
    pub id: LayerId,
    /// What it is cut from, as it was when chosen.
    pub board: Board,
    /// How its windows are cut.
    pub bevel: Bevel,
}

/// One window through all layers.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Opening {
    /// Its id.
    pub id: OpeningId,
    /// What shows in it.
    pub work: WorkId,
    /// Its outline.
    pub shape: Shape,
    /// Its innermost sight edge's top left corner, within the group of windows.
    pub place: Point,
    /// What is given of it: the reveal, or a window in hand.
    pub window_by: WindowBy,
    /// For each layer below the top: how far its sight edge stands inside the one above.
    /// A layer without an entry has none.
    pub offsets: BTreeMap<LayerId, Sides<Length>>,
    /// The layers whose window is cut already, as measured. Empty where the mat was bought ready
    /// cut: [`WindowBy::InHand`] has its window then, and all layers are cut.
    pub cut: BTreeMap<LayerId, AsCut>,
}

/// The window of one layer as it was cut: measured on the board's face, at its sight edge.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct AsCut {
    /// The window.
    pub sight: Size,
    /// From the board's edges to it.
    pub borders: Sides<Length>,
}

/// The outline of a window.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Shape {
    /// Four straight sides.
    #[default]
    Rectangle,
}

/// What the person gives of a window; the rest follows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum WindowBy {
    /// Paper shown between image edge and sight edge; negative where the mat covers image.
    /// The window follows.
    Reveal(Sides<Length>),
    /// A window already cut: the reveal follows from where the sheet lies under it.
    InHand(InHand),
}

/// A window in hand and the sheet under it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct InHand {
    /// The innermost sight size as measured.
    pub sight: Size,
    /// How far the mat lies on the sheet at the left.
    pub overlap_left: Length,
    /// How far the mat lies on the sheet at the top.
    pub overlap_top: Length,
}

/// The board behind everything.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Backing {
    /// `None`: as large as the mat. It lies centred behind it.
    pub size: Option<Size>,
    /// What it is.
    pub board: Board,
}

/// What the person allows; `None` takes the usual figure.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Limits {
    /// The least border of the top layer for plain strength.
    pub least_border: Option<Length>,
    /// The most of the image that may be hidden on a side.
    pub hidden_image: Option<Length>,
}

/// What a layer is called, `index` from the top of `count`.
pub fn layer_name(index: usize, count: usize) -> String {
    match (index, count) {
        (0, _) => "Top mat".to_owned(),
        (_, 2) => "Undermat".to_owned(),
        (index, _) => format!("Undermat {index}"),
    }
}

impl Mat {
    /// What the layer `index` from the top is called.
    pub fn layer_name(&self, index: usize) -> String {
        layer_name(index, self.layers.len())
    }

    /// Whether every window of that layer is cut: its board is made.
    pub fn is_made(&self, layer: LayerId) -> bool {
        !self.openings.is_empty() && self.openings.iter().all(|opening| opening.is_cut(layer))
    }

    /// The same within a sentence: `the undermat`, and by its number `undermat 2`.
    pub fn the_layer(&self, index: usize) -> String {
        let name = self.layer_name(index).to_lowercase();
        let numbered = name.ends_with(|last: char| last.is_ascii_digit());
        if numbered { name } else { format!("the {name}") }
    }

    /// More layers are not cut.
    pub const MOST_LAYERS: usize = 4;
    /// The most mats that one plan holds.
    pub const MOST_IN_PLAN: usize = 24;

    /// The opening of that id.
    pub fn opening(&self, id: OpeningId) -> Option<&Opening> {
        self.openings.iter().find(|opening| opening.id == id)
    }

    /// The layer of that id.
    pub fn layer(&self, id: LayerId) -> Option<&Layer> {
        self.layers.iter().find(|layer| layer.id == id)
    }

    /// Whether nothing is left to cut, or a window was bought ready cut: then nothing is put on
    /// the ruler.
    pub fn in_hand(&self) -> bool {
        let all_cut = |opening: &Opening| {
            !self.layers.is_empty() && self.layers.iter().all(|layer| opening.is_cut(layer.id))
        };
        self.openings.iter().any(Opening::is_ready_cut)
            || (!self.openings.is_empty() && self.openings.iter().all(all_cut))
    }
}

impl Opening {
    /// Whether the window of that layer is cut already: it was measured, or bought ready cut.
    /// All that asks whether something is still to be cut asks here.
    pub fn is_cut(&self, layer: LayerId) -> bool {
        self.cut.contains_key(&layer) || self.is_ready_cut()
    }

    /// Whether it was bought ready cut, through all layers: it is in hand, and no layer of it was
    /// measured by itself. Once one is, those that are cut are the measured ones.
    pub fn is_ready_cut(&self) -> bool {
        matches!(self.window_by, WindowBy::InHand(_)) && self.cut.is_empty()
    }

    /// The offset of one layer from the layer above it; none for the top layer.
    pub fn offset(&self, layer: LayerId) -> Sides<Length> {
        self.offsets.get(&layer).copied().unwrap_or_default()
    }
}
