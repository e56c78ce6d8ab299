//! One description of what is painted, for screen and paper alike.
//!
//! A [`Drawing`] is a list of items at fixed places, in exact lengths, from the lowest to the
//! topmost. Writers (pixels, the window, PDF, SVG) paint them in that order and decide
//! nothing but how their medium makes a line or a letter. A mat is painted as it is built:
//! sheet, then board upon board, each with its windows; so whatever lies under a board may run
//! on beneath it, and edges meet without a seam.
//!
//! Floats stand only for what is no length: colours and strengths of shade.

mod lines;
mod moulding;
mod moved;
mod rest;
mod tone;

pub use lines::{Align, Baseline, Dimension, Line, Measure, Pen, Text, TextRole};
pub use moulding::{Moulding, Stop, mitred};
pub use rest::rest;
pub use tone::{Tone, linear_from_srgb, srgb_from_linear};

use crate::geometry::{Path, Point, Rect, Sides, Size};
use crate::length::Length;
use crate::spec::WorkId;

/// What is painted, and where.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Drawing {
    /// All that is seen, with the room round it.
    pub bounds: Rect,
    /// What everything lies on; `None` leaves what is there already.
    pub ground: Option<Tone>,
    /// From the lowest to the topmost.
    pub items: Vec<Item>,
}

/// One thing painted.
#[derive(Clone, PartialEq, Debug)]
pub enum Item {
    /// An area of one colour.
    Fill(Fill),
    /// A picture.
    Picture(Picture),
    /// A board with windows cut in it.
    Board(Board),
    /// A frame's moulding.
    Moulding(Box<Moulding>),
    /// Less light inside an edge.
    Shade(Shade),
    /// Less light round a thing that stands above its ground.
    Shadow(Shadow),
    /// An area with a meaning, tinted as the writer sees fit.
    Zone(Zone),
    /// A line.
    Line(Line),
    /// A text.
    Text(Text),
    /// A dimension with its lines and its figure.
    Dimension(Box<Dimension>),
}

/// An area of one colour.
#[derive(Clone, PartialEq, Debug)]
pub struct Fill {
    /// Its outline.
    pub path: Path,
    /// Its colour.
    pub tone: Tone,
}

/// A picture, spread over its image area.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Picture {
    /// Whose picture.
    pub work: WorkId,
    /// Where all of it lies.
    pub image: Rect,
    /// What of it is on the paper.
    pub clip: Rect,
}

/// A board with windows cut in it.
#[derive(Clone, PartialEq, Debug)]
pub struct Board {
    /// Its outer edge.
    pub outline: Path,
    /// The colour of its face.
    pub tone: Tone,
    /// Its windows, none of which meets another.
    pub windows: Vec<Cutout>,
}

/// A window cut in a board.
#[derive(Clone, PartialEq, Debug)]
pub struct Cutout {
    /// Where the board's face ends.
    pub face: Path,
    /// Where one looks through.
    pub sight: Path,
    /// What of the cut is seen between both; none where the cut is hidden.
    pub bevels: Vec<BevelFace>,
}

/// One side of a bevel, mitred where it meets the next.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct BevelFace {
    /// Along the face, then back along the sight edge.
    pub corners: [Point; 4],
    /// Its colour in the light it gets.
    pub tone: Tone,
}

/// How light comes back with the distance from an edge.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Band {
    /// Where there is full light again.
    pub reach: Length,
    /// The share of light lost at the edge itself, 0 to 1.
    pub strength: f32,
    /// How soon it comes back: 1 evenly, more the sooner.
    pub falloff: f32,
}

/// Less light inside an edge, as under the edge of a window. What lies there is multiplied,
/// in linear light, by the [`Band::light`] of all four sides.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Shade {
    /// The edge that casts it, from which distances run inwards.
    pub edge: Rect,
    /// For each side.
    pub bands: Sides<Band>,
}

/// Less light round a thing that stands above its ground. The ground is multiplied, in linear
/// light, by `1 - strength × across × down`, each the [`Band::dark`] of the distance from
/// `of` in that direction, 1 within it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Shadow {
    /// The thing, moved away from the light.
    pub of: Rect,
    /// On all sides.
    pub band: Band,
}

/// An area with a meaning.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Zone {
    /// Its outline.
    pub path: Path,
    /// What it means.
    pub kind: ZoneKind,
}

/// What an area means.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ZoneKind {
    /// The mat lies on the sheet here.
    Overlap,
    /// The mat covers the image here.
    HiddenImage,
}

impl Band {
    /// How dark it still is `distance_mm` from the edge: 1 at the edge and behind it, 0 from
    /// the end of the reach on.
    pub fn dark(&self, distance_mm: f64) -> f32 {
        let reach = self.reach.to_mm();
        if distance_mm >= reach {
            return 0.0;
        }
        let left = 1.0 - (distance_mm / reach).max(0.0);
        f32_from(left).powf(self.falloff)
    }

    /// The share of light left `distance_mm` from the edge.
    pub fn light(&self, distance_mm: f64) -> f32 {
        1.0 - self.strength * self.dark(distance_mm)
    }
}

#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "a share of 1")]
fn f32_from(share: f64) -> f32 {
    share as f32
}

impl Drawing {
    /// `other` painted on top of this one; the bounds hold both.
    #[must_use]
    pub fn under(mut self, other: Self) -> Self {
        self.bounds = around(self.bounds, other.bounds);
        self.items.extend(other.items);
        self
    }
}

/// The smallest rectangle round both.
pub fn around(a: Rect, b: Rect) -> Rect {
    let at = Point::new(a.left().min(b.left()), a.top().min(b.top()));
    let (right, bottom) = (a.right().max(b.right()), a.bottom().max(b.bottom()));
    Rect::new(at, Size::new(right - at.x, bottom - at.y))
}

impl Fill {
    /// A rectangle of one colour.
    pub fn rect(rect: Rect, tone: Tone) -> Item {
        Item::Fill(Self { path: rect.path(), tone })
    }
}
