//! What papers that go with prints say, before they are set.

use std::path::PathBuf;

use serde::{Deserialize, Serialize};
use sightedge_core::date::Date;
use sightedge_core::length::Length;

use crate::{Archive, Grid, Paper};

/// Whose papers they are: the head of every page that leaves the house.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct House {
    /// The artist's or the studio's name.
    pub name: String,
    /// Street and town, a line each.
    pub address: String,
    /// Telephone, mail, page.
    pub contact: String,
    /// A picture.
    pub logo: Option<PathBuf>,
}

impl House {
    /// Name and contact in a line; empty where neither is known.
    pub fn line(&self) -> String {
        let parts = [self.name.trim(), self.contact.trim()];
        let known: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        known.join(", ")
    }
}

/// What the studio's record says of a print, in words; what is not known is empty.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Piece {
    /// The number in the catalogue; the code on the label has it too.
    pub catalogue: String,
    /// Its title.
    pub title: String,
    /// Whose work it is.
    pub artist: String,
    /// The year or years.
    pub year: String,
    /// The year of the picture.
    pub taken: String,
    /// The year of the print.
    pub printed: String,
    /// Medium and paper.
    pub medium: String,
    /// The medium alone.
    pub process: String,
    /// The paper alone.
    pub support: String,
    /// Of the image, height × width in both units, as catalogues have it.
    pub dimensions: String,
    /// Of the paper, the same.
    pub sheet: String,
    /// Its number in the edition: 3/25.
    pub edition: String,
    /// How many numbered prints there are.
    pub size: String,
    /// How many of each kind of proof stand beside them.
    pub proofs: String,
    /// The other editions of the work.
    pub others: String,
    /// What it costs, or was sold for.
    pub price: String,
    /// Whether it is sold.
    pub sold: bool,
    /// How to treat it.
    pub care: String,
    /// A digest of what the record says of it.
    pub digest: String,
    /// The picture's file.
    pub picture: Option<PathBuf>,
}

/// Prints, and how their papers are made.
#[derive(Clone, Copy, Debug)]
pub struct StudioOrder<'a> {
    /// The prints.
    pub pieces: &'a [Piece],
    /// What it is printed on.
    pub paper: Paper,
    /// The day written on it.
    pub date: Date,
    /// Which rules the PDF keeps.
    pub archive: Archive,
    /// Whose papers they are.
    pub house: &'a House,
}

/// A paper that goes with prints.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum StudioPaper {
    /// For the backing, on sheets of labels.
    Labels(Grid),
    /// For the backing, each on a page of its own size: width and height.
    Single([Length; 2]),
    /// A certificate that a print is what the record says it is.
    Certificate,
    /// Beside the pictures of a show.
    Wall,
    /// The prices of a show.
    Prices(String),
    /// What is left with a gallery, to be signed by both.
    Consignment {
        /// Where it is left.
        place: String,
        /// How many there are and what they come to, a line each.
        sums: Vec<String>,
    },
}

impl StudioPaper {
    /// In words.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Labels(_) | Self::Single(_) => "Labels",
            Self::Certificate => "Certificate of authenticity",
            Self::Wall => "Wall labels",
            Self::Prices(_) => "Prices",
            Self::Consignment { .. } => "Consignment",
        }
    }
}
