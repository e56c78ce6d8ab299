//! The result: patterns with their cuts, the bound and its proof.

use serde::{Deserialize, Serialize};

use crate::problem::Complaint;

/// Which way a cut runs.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize, Deserialize)]
pub enum Cut {
    /// Upright: the parts lie side by side, from left to right.
    Upright,
    /// Level: the parts lie on top of each other, from the bottom up.
    Level,
}

/// A part of a sheet: lower left corner from the sheet's own, in length units.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// From the sheet's left edge.
    pub x: i64,
    /// From the sheet's bottom edge.
    pub y: i64,
    /// Width.
    pub width: i64,
    /// Height.
    pub height: i64,
    /// What becomes of it.
    pub fate: Fate,
}

/// What becomes of a part.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize)]
pub enum Fate {
    /// It is a piece of the problem, by its index.
    Piece {
        /// Index in [`crate::Problem::pieces`].
        piece: usize,
        /// Whether it lies turned by a quarter.
        turned: bool,
    },
    /// Nothing is cut from it: waste, or a remnant worth keeping.
    Rest,
    /// It is cut edge to edge into parts, kerf between them.
    Cut {
        /// Which way the cuts run.
        cut: Cut,
        /// The parts in order.
        parts: Vec<Part>,
    },
}

/// A piece on a sheet, lower left corner from the sheet's own, in length units.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize, Deserialize)]
pub struct Placement {
    /// Index in [`crate::Problem::pieces`].
    pub piece: usize,
    /// From the sheet's left edge.
    pub x: i64,
    /// From the sheet's bottom edge.
    pub y: i64,
    /// Width as it lies.
    pub width: i64,
    /// Height as it lies.
    pub height: i64,
    /// Whether it lies turned by a quarter.
    pub turned: bool,
}

/// One way to cut a sheet, used for one or more sheets.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize)]
pub struct Pattern {
    /// Index in [`crate::Problem::stocks`].
    pub stock: usize,
    /// Sheets cut this way.
    pub copies: u32,
    /// Number of the set-up: patterns that share one are cut with the same stops.
    pub setup: usize,
    /// The usable part of the sheet and its cuts.
    pub root: Part,
    /// All pieces on one sheet.
    pub placements: Vec<Placement>,
}

/// How far from the best possible the plan can be at most.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bound {
    /// No plan of the pieces costs less, by area alone.
    pub area: i64,
    /// No plan of the pieces costs less: the better of area and patterns.
    pub cost: i64,
    /// The same before it was rounded up to a whole number of the sheets' common measure.
    pub exact: f64,
    /// (cost - bound) / bound; 0 where proved.
    pub gap: f64,
    /// Whether the plan costs as little as the bound and leaves nothing out.
    pub proved: bool,
}

/// The proof of the bound in whole numbers.
///
/// Claim: no pattern of stock *s* within the stages sells for more than
/// `cost(s) * numerator / denominator + rents[s]` when its pieces sell at `prices`
/// ([`within_demand`](Self::within_demand): no pattern that holds each piece at most as often
/// as it is wanted, which is all a plan needs). Then every plan costs at least
/// (all pieces' prices - rents of all limited sheets) * denominator / numerator.
#[derive(Clone, Debug, Default, Eq, PartialEq, Serialize, Deserialize)]
pub struct Certificate {
    /// For each piece of the problem (0 for those left out).
    pub prices: Vec<i64>,
    /// For each stock of the problem (0 for those without limit).
    pub rents: Vec<i64>,
    /// Price units in `denominator` units of cost.
    pub numerator: i64,
    /// Units of cost in `numerator` price units.
    pub denominator: i64,
    /// Whether the claim is only about patterns that hold no piece oftener than it is wanted;
    /// else about all patterns.
    pub within_demand: bool,
}

/// A plan for one problem.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Plan {
    /// In an order in which every drop-out falls before it is cut.
    pub patterns: Vec<Pattern>,
    /// Cost of all sheets.
    pub cost: i64,
    /// Sheets cut, drop-outs included.
    pub sheets: u64,
    /// Different set-ups.
    pub setups: usize,
    /// Copies of each piece that are in no pattern.
    pub missing: Vec<u32>,
    /// What no plan can beat.
    pub bound: Bound,
    /// Its proof, where there is one.
    pub certificate: Certificate,
    /// What could not be planned and what to do about it; not saved with a plan.
    #[serde(skip)]
    pub complaints: Vec<Complaint>,
}
