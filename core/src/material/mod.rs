//! What things are made of, and the sizes they come in: tables with the origin of each
//! figure, kept as data in `assets/tables`.

mod assembly;
mod error;
mod own;
mod rows;
mod step;
mod tables;

pub(crate) use assembly::keyed;
pub use assembly::{
    Bag, Fibre, Filler, Frame, Glazing, Humidity, Paper, Process, Profile, Rate, Surface,
    Tissue,
};
pub use error::TableError;
pub use own::{Cells, Field, Form, Kind, OwnTables, cells};
pub use step::StepRow;
pub use tables::{BoardFacts, SizeRow, Tables};

use crate::length::Length;

/// A board as it was when it was chosen. A plan keeps this, so that a later change of the
/// table does not change a mat that was already cut.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Board {
    /// Its entry in the person's table; empty for a board made up on the spot.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The colour of its face.
    pub colour: Colour,
    /// How thick it is.
    pub thickness: Length,
    /// What it is made of.
    pub grade: Grade,
    /// Whether a piece of it may be cut turned by a quarter: no, where a pattern or a grain
    /// shows. The pattern then runs along the height of its sheets.
    pub turns: bool,
    /// Grams per square metre, where known.
    pub mass_gsm: Option<u32>,
}

/// A colour in sRGB (IEC 61966-2-1), as a person types it: `#f4f1ea`.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub struct Colour {
    /// Red, 0 to 255.
    pub red: u8,
    /// Green, 0 to 255.
    pub green: u8,
    /// Blue, 0 to 255.
    pub blue: u8,
}

/// What a board is made of, as far as it matters to the picture.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Grade {
    /// Cotton, buffered.
    CottonBuffered,
    /// Cotton, unbuffered.
    CottonUnbuffered,
    /// Purified wood pulp, buffered.
    PurifiedPulp,
    /// Wood pulp with lignin left in it.
    Lignin,
    /// Not known.
    #[default]
    Unknown,
}

impl Grade {
    /// Every grade, best known first.
    pub const ALL: [Self; 5] = [
        Self::CottonBuffered,
        Self::CottonUnbuffered,
        Self::PurifiedPulp,
        Self::Lignin,
        Self::Unknown,
    ];

    /// In the trade's words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::CottonBuffered => "cotton, buffered",
            Self::CottonUnbuffered => "cotton, unbuffered",
            Self::PurifiedPulp => "purified wood pulp, buffered",
            Self::Lignin => "wood pulp with lignin",
            Self::Unknown => "not known",
        }
    }

    /// How it is written in tables and plans.
    pub const fn key(self) -> &'static str {
        match self {
            Self::CottonBuffered => "cotton-buffered",
            Self::CottonUnbuffered => "cotton-unbuffered",
            Self::PurifiedPulp => "purified-pulp",
            Self::Lignin => "lignin",
            Self::Unknown => "unknown",
        }
    }

    /// From its key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|grade| grade.key() == key)
    }
}

impl Colour {
    /// A colour from its three parts.
    pub const fn new(red: u8, green: u8, blue: u8) -> Self {
        Self { red, green, blue }
    }

    /// Reads `#f4f1ea`, `f4f1ea` or `#fea`.
    pub fn from_hex(text: &str) -> Option<Self> {
        let digits: Option<Vec<u8>> = text
            .trim()
            .trim_start_matches('#')
            .chars()
            .map(|c| c.to_digit(16).and_then(|d| u8::try_from(d).ok()))
            .collect();
        match digits?.as_slice() {
            [r, g, b] => Some(Self::new(r * 17, g * 17, b * 17)),
            [r1, r0, g1, g0, b1, b0] => {
                Some(Self::new(r1 * 16 + r0, g1 * 16 + g0, b1 * 16 + b0))
            }
            _ => None,
        }
    }

    /// As `#f4f1ea`.
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}
