//! What is to be cut, and out of what.

use std::fmt;

use serde::{Deserialize, Serialize};

/// How many stages of parallel edge-to-edge cuts a sheet may go through.
///
/// A stage is a set of parallel cuts; the next stage cuts the parts across. As in the
/// literature, one further cut may trim a part that holds a single piece to its size.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq, Serialize, Deserialize)]
pub enum Stages {
    /// Strips, then pieces.
    Two,
    /// Sections, strips, pieces: what one person does at a wall cutter.
    #[default]
    Three,
    /// As many as it takes.
    Any,
}

impl Stages {
    /// The greatest number of stages before trimming, or `None` where there is no limit.
    #[must_use]
    pub const fn limit(self) -> Option<u8> {
        match self {
            Self::Two => Some(2),
            Self::Three => Some(3),
            Self::Any => None,
        }
    }
}

/// How many sheets of a stock there are.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize, Deserialize)]
pub enum Supply {
    /// As many as are wanted.
    Unlimited,
    /// This many in hand.
    InHand(u32),
    /// The drop-outs of a piece's windows: `each` from every copy, there once it is cut.
    Window {
        /// Index of the piece in [`Problem::pieces`].
        piece: usize,
        /// Drop-outs of this size from one copy.
        each: u32,
    },
}

impl Supply {
    /// How many there are at most, given the planned copies of each piece; `None` without
    /// limit.
    pub(crate) fn most(self, planned: impl Fn(usize) -> u32) -> Option<u64> {
        match self {
            Self::Unlimited => None,
            Self::InHand(n) => Some(u64::from(n)),
            Self::Window { piece, each } => Some(u64::from(planned(piece)) * u64::from(each)),
        }
    }
}

/// What is cut away along each edge of a sheet before anything else, in length units.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq, Serialize, Deserialize)]
pub struct Trim {
    /// Off the left edge.
    pub left: i64,
    /// Off the right edge.
    pub right: i64,
    /// Off the bottom edge.
    pub bottom: i64,
    /// Off the top edge.
    pub top: i64,
}

impl Trim {
    /// The same on all four edges.
    #[must_use]
    pub const fn all(edge: i64) -> Self {
        Self { left: edge, right: edge, bottom: edge, top: edge }
    }
}

/// A kind of sheet.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize)]
pub struct Stock {
    /// How people call it; messages use it.
    pub name: String,
    /// Full width, trim included, in length units.
    pub width: i64,
    /// Full height, trim included, in length units.
    pub height: i64,
    /// What one sheet costs, in the caller's smallest unit of money; 0 for what is in hand.
    pub cost: i64,
    /// How many there are.
    pub supply: Supply,
    /// What is cut away along the edges first; the blade's width there is included.
    pub trim: Trim,
}

/// A kind of piece.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize)]
pub struct Piece {
    /// How people call it; messages use it.
    pub name: String,
    /// Width in length units.
    pub width: i64,
    /// Height in length units.
    pub height: i64,
    /// How many are wanted.
    pub copies: u32,
    /// Whether it may be turned by a quarter (no grain, no pattern).
    pub may_turn: bool,
}

/// One board colour's worth of cutting: lengths are whole numbers of any one unit.
#[derive(Clone, Debug, Default, Eq, PartialEq, Serialize, Deserialize)]
pub struct Problem {
    /// The sheets.
    pub stocks: Vec<Stock>,
    /// The pieces.
    pub pieces: Vec<Piece>,
    /// Limit of stages.
    pub stages: Stages,
    /// Width of board that each cut removes, in length units; 0 for a knife.
    pub kerf: i64,
    /// The narrowest part the cutter can hold, in length units: nothing that is kept or
    /// cut further may be narrower (waste may). 0 for no limit.
    pub least_strip: i64,
}

/// The most copies of all pieces together that are planned at once.
pub const MOST_COPIES: u64 = 1_000_000;
/// The longest side of a sheet or piece, in length units.
pub const LONGEST: i64 = 1_000_000_000;
/// The highest cost of one sheet.
pub const DEAREST: i64 = 1_000_000_000;

/// Why a piece or a stock could not be planned. The rest is planned all the same.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum Complaint {
    /// A piece with a side that is zero, negative or beyond [`LONGEST`].
    PieceSize {
        /// Its name.
        piece: String,
        /// Its width.
        width: i64,
        /// Its height.
        height: i64,
    },
    /// A piece that fits no sheet.
    PieceTooLarge {
        /// Its name.
        piece: String,
        /// Its width.
        width: i64,
        /// Its height.
        height: i64,
        /// Whether turning it would help.
        fits_turned: bool,
        /// Usable width and height of the largest sheet, where there is one.
        largest: Option<(i64, i64)>,
    },
    /// A piece narrower than the cutter can hold.
    PieceTooNarrow {
        /// Its name.
        piece: String,
        /// Its shorter side.
        side: i64,
        /// What the cutter can hold.
        least: i64,
    },
    /// More copies than can be planned at once.
    TooMany {
        /// Its name.
        piece: String,
        /// The copies asked for.
        copies: u64,
    },
    /// Pieces, and nothing to cut them from.
    NoStock {
        /// The piece's name.
        piece: String,
    },
    /// The sheets in hand do not suffice.
    StockUsedUp {
        /// The piece's name.
        piece: String,
        /// Copies that found no place.
        copies: u32,
    },
    /// A stock whose sizes, trim or cost make no sense; it was left out.
    BadStock {
        /// Its name.
        stock: String,
        /// What was found.
        found: BadStock,
        /// What to do.
        remedy: &'static str,
    },
    /// A kerf or least strip below zero; it was taken as 0.
    Negative {
        /// Which number.
        what: &'static str,
        /// What was found.
        found: i64,
    },
}

impl Complaint {
    /// In words, each length written by `length`, which is given the problem's own unit.
    #[must_use]
    pub fn describe(&self, length: &dyn Fn(i64) -> String) -> String {
        let size = |width: &i64, height: &i64| [length(*width), length(*height)].join(" x ");
        match self {
            Self::PieceSize { piece, width, height } => format!(
                "{piece} is {}: both sides must be above 0 and no longer than {}. \
                 Correct its size; it was left out",
                size(width, height),
                length(LONGEST)
            ),
            Self::PieceTooLarge { piece, width, height, fits_turned, largest } => {
                let leaves = largest.map_or_else(String::new, |(w, h)| {
                    format!("; the largest leaves {} after trim", size(&w, &h))
                });
                let remedy = if *fits_turned {
                    "Let it be turned, or add a larger sheet"
                } else {
                    "Add a larger sheet or make the piece smaller"
                };
                let size = size(width, height);
                format!(
                    "{piece} is {size} and fits no sheet{leaves}. {remedy}; it was left out"
                )
            }
            Self::PieceTooNarrow { piece, side, least } => format!(
                "{piece} is {} wide where the cutter holds no less than {}. \
                 Cut it by hand or lower the narrowest strip; it was left out",
                length(*side),
                length(*least)
            ),
            Self::TooMany { piece, copies } => format!(
                "{piece} asks for {copies} copies{}: at most {MOST_COPIES} pieces are planned at \
                 once. Lower the count or split the job; it was left out",
                // Larger counts are not read.
                if *copies >= u64::from(u32::MAX) { " or more" } else { "" }
            ),
            Self::NoStock { piece } => format!(
                "there is no sheet to cut {piece} from. Add a stock of its board; it was left out"
            ),
            Self::StockUsedUp { piece, copies } => format!(
                "the sheets in hand ran out before {copies} of {piece} could be cut. \
                 Add sheets, or make fewer"
            ),
            Self::BadStock { stock, found, remedy } => {
                format!("stock {stock} {}. {remedy}; it was left out", found.describe(length))
            }
            Self::Negative { what, found } => format!(
                "the {what} is {}: it must be 0 or more. It was taken as 0",
                length(*found)
            ),
        }
    }
}

impl fmt::Display for Complaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.describe(&|length| length.to_string()))
    }
}

/// What is wrong with a stock.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum BadStock {
    /// A side that is zero, negative or beyond [`LONGEST`]: width and height.
    Size(i64, i64),
    /// Trims (left, right, bottom, top) that are negative, or leave nothing of so wide and
    /// high a sheet.
    Trim([i64; 4], i64, i64),
    /// A cost below 0 or above [`DEAREST`].
    Cost(i64),
    /// A drop-out, so wide and high, that its piece cannot hold.
    Window(i64, i64),
}

impl BadStock {
    fn describe(&self, length: &dyn Fn(i64) -> String) -> String {
        match self {
            Self::Size(w, h) => format!("is {} x {}", length(*w), length(*h)),
            Self::Trim(edges, w, h) => format!(
                "has trims of [{}] on {} x {}",
                edges.map(length).join(", "),
                length(*w),
                length(*h)
            ),
            Self::Cost(cost) => format!("costs {cost}"),
            Self::Window(w, h) => {
                format!("is {} x {}, which its piece cannot hold", length(*w), length(*h))
            }
        }
    }
}

impl std::error::Error for Complaint {}
