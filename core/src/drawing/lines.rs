//! Lines, texts and dimensions.

use crate::geometry::{Point, Rect, Side, Size};
use crate::length::{Length, typeset};

/// What a line stands for; each writer gives it a weight, a colour and dashes.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub enum Pen {
    /// The seen edge of a thing.
    Edge,
    /// The edge of a thing that lies under another; dashed.
    Hidden,
    /// The edge of a thing cut through by a section; heavy.
    Section,
    /// Dimension, extension and leader lines.
    Fine,
}

/// A line through points.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Line {
    /// Where it runs.
    pub points: Vec<Point>,
    /// Whether it goes back to the first point.
    pub closed: bool,
    /// What it stands for.
    pub pen: Pen,
}

/// What a text is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum TextRole {
    /// A measure.
    Figure,
    /// The name of a part.
    Label,
    /// What is written by hand, as large as it is written.
    Hand,
}

/// Which part of a text, along its line, lies at its point.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Align {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// Where a text lies across its line, seen from its point.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Baseline {
    /// Its baseline on the point.
    On,
    /// Centred on it.
    Beside,
}

/// A text at a fixed place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Text {
    /// What it says.
    pub text: String,
    /// What it is.
    pub role: TextRole,
    /// Its point.
    pub at: Point,
    /// How it lies along its line.
    pub align: Align,
    /// Where it lies across its line.
    pub baseline: Baseline,
    /// Whether it is turned to be read from the right: its line runs upwards.
    pub turned: bool,
    /// The height of its line, on the drawing's own scale.
    pub height: Length,
}

/// What a dimension measures.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Measure {
    /// The board across.
    OuterWidth,
    /// The board down.
    OuterHeight,
    /// The innermost sight edge across.
    WindowWidth,
    /// The innermost sight edge down.
    WindowHeight,
    /// The border of a layer, which is counted from the top.
    Border(usize, Side),
    /// How far the mat lies on the sheet.
    Overlap(Side),
    /// Paper showing between image edge and sight edge.
    Reveal(Side),
    /// From the sight edge of the layer above to an undermat's.
    Offset(Side),
    /// How deep a package is.
    PackageDepth,
    /// How deep a frame's rabbet is.
    RabbetDepth,
}

/// A dimension: everything of it at its place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Dimension {
    /// What it measures.
    pub measure: Measure,
    /// From tick to tick, and on to the figure where that stands outside.
    pub line: [Point; 2],
    /// Where ticks cross the line: the two ends of what is measured.
    pub ends: [Point; 2],
    /// Half the length of a tick, across and down; ticks run from lower left to upper right.
    pub tick: Length,
    /// From the thing to the line, where that stands outside the thing.
    pub extensions: Option<[[Point; 2]; 2]>,
    /// The length, with its unit.
    pub figure: Text,
}

impl Text {
    /// About the room it takes, with its fractions set: what no usual face exceeds.
    pub fn bounds(&self) -> Rect {
        // Tenths of the height of a line.
        let wide = |c: char| match c {
            ' ' | '.' | ',' | 'i' | 'l' | '\u{2044}' => 3,
            '⁰' | '¹' | '²' | '³' | '⁴'..='⁹' | '₀'..='₉' => 4,
            '½' | '¼' | '¾' | '⅛'..='⅞' | 'm' => 8,
            _ => 6,
        };
        let tenths: i128 = typeset(&self.text).chars().map(wide).sum();
        let long = self.height.scaled(tenths, 10);
        let half = |length: Length| length.halves().0;
        let start = match self.align {
            Align::Start => Length::ZERO,
            Align::Middle => half(long),
            Align::End => long,
        };
        let rise = match self.baseline {
            Baseline::On => self.height,
            Baseline::Beside => half(self.height),
        };
        if self.turned {
            let at = Point::new(self.at.x - rise, self.at.y + start - long);
            Rect::new(at, Size::new(self.height, long))
        } else {
            let at = Point::new(self.at.x - start, self.at.y - rise);
            Rect::new(at, Size::new(long, self.height))
        }
    }
}

impl Dimension {
    /// Every stroke of it.
    pub fn strokes(&self) -> impl Iterator<Item = [Point; 2]> + '_ {
        let tick = self.tick;
        let ticks = self.ends.map(|end| {
            [Point::new(end.x - tick, end.y + tick), Point::new(end.x + tick, end.y - tick)]
        });
        std::iter::once(self.line).chain(self.extensions.into_iter().flatten()).chain(ticks)
    }
}
