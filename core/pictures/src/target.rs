//! What pixels are wanted of a picture, and the pixels.

use serde::{Deserialize, Serialize};

use crate::{Finding, Size};

/// A part of a picture, in pixels as shown, from its top left corner.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Region {
    /// Distance from the left edge.
    pub left: f64,
    /// Distance from the top edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// The pixels wanted, as shown.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Target {
    /// In proportion, the longer side at most this many pixels.
    Longest(u32),
    /// Exactly this size, whatever the proportion.
    Exact(Size),
    /// A part of the picture at exactly this size.
    Part(Region, Size),
}

/// Pixels ready to be shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Preview {
    /// Their size, after orientation.
    pub size: Size,
    /// sRGB, 8 bits a sample, red, green, blue, opacity (not multiplied in), row by row.
    #[serde(skip)]
    pub rgba: Vec<u8>,
    /// The whole picture's size, after orientation.
    pub picture: Size,
    /// What the person should know.
    pub findings: Vec<Finding>,
}
