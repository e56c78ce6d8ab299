//! What the plan of cutting says, before it is set.

use sightedge_core::date::Date;

use crate::Paper;

/// A plan of cutting, in words and millimetres.
#[derive(Clone, Debug)]
pub struct CuttingPlan {
    /// What the show is called.
    pub title: String,
    /// The day written on it.
    pub date: Date,
    /// What is printed on.
    pub paper: Paper,
    /// Sheet by sheet, in the order of cutting.
    pub sheets: Vec<CutSheet>,
    /// What it all comes to: a name, an amount, a cost (or nothing).
    pub totals: Vec<[String; 3]>,
}

/// One way to cut a sheet.
#[derive(Clone, Debug, Default)]
pub struct CutSheet {
    /// The board, and which sheet of how many.
    pub name: String,
    /// Its size, and how many are cut so.
    pub about: String,
    /// Width and height, in millimetres.
    pub size: [f64; 2],
    /// From the lower left corner: left, bottom, width, height; what is written there.
    pub pieces: Vec<([f64; 4], Vec<String>)>,
    /// Windows in the pieces: left, bottom, width, height.
    pub windows: Vec<[f64; 4]>,
    /// What is left, as the pieces.
    pub rests: Vec<([f64; 4], Vec<String>)>,
    /// From one end to the other, from the lower left corner: x, y, x, y.
    pub cuts: Vec<[f64; 4]>,
    /// What is done before the first cut, where there is anything to do.
    pub first: Option<String>,
    /// For each cut what goes into the cutter, and what falls.
    pub lines: Vec<CutLine>,
}

/// A cut in words.
#[derive(Clone, Debug, Default)]
pub struct CutLine {
    /// The piece that is cut, its name and size.
    pub piece: String,
    /// Which edge of that piece lies against the stop.
    pub edge: &'static str,
    /// Where the stop is set.
    pub stop: String,
    /// What falls, each with name and size.
    pub falls: Vec<String>,
}
