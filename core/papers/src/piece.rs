//! What papers that go with prints say, before they are set.

use sightedge_core::length::Length;

use crate::Grid;

/// What the studio's record says of a print, in words.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Piece {
    /// The number in the catalogue; the code on the label has it too.
    pub catalogue: String,
    /// Its title.
    pub title: String,
    /// Who made it.
    pub maker: String,
    /// The year or years.
    pub year: String,
    /// Medium and paper.
    pub medium: String,
    /// Height × width in both units, as catalogues have it.
    pub dimensions: String,
    /// Its number in the edition: 3/25.
    pub edition: String,
    /// What it costs, or was sold for.
    pub price: String,
    /// Whether it is sold.
    pub sold: bool,
    /// How to treat it.
    pub care: String,
    /// A digest of what the record says of it.
    pub digest: String,
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
