//! A plan as plain data for other programs: what `serde` writes as JSON.

mod certificate;
mod sequence;

use serde::Serialize;

use crate::counts::{Counts, source, which};
use crate::plan::{Cut, Fate, Part, Plan};
use crate::problem::{Complaint, Problem};
use crate::sequence::Sequence;

pub use certificate::{CertificateReport, PriceReport, RentReport};
pub use sequence::{NamedReport, SequenceReport, StepReport, TrimReport};

/// A length: whole where the problem's unit is kept, else in the unit asked for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Length {
    /// In the problem's own unit.
    Whole(i64),
    /// In another unit.
    Scaled(f64),
}

/// What a plan comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report {
    /// Sheets cut, drop-outs included.
    pub sheets: u64,
    /// How many of these are to buy.
    pub sheets_bought: u64,
    /// How many are in hand, offcuts of earlier jobs included.
    pub sheets_in_hand: u64,
    /// How many are drop-outs.
    pub drop_outs: u64,
    /// Cost of all sheets.
    pub cost: i64,
    /// No plan of the planned pieces costs less.
    pub lower_bound: i64,
    /// Whether the plan is as cheap as the bound.
    pub proved: bool,
    /// How long it took, as the caller measured it.
    pub seconds: f64,
    /// Different set-ups.
    pub setups: usize,
    /// One entry for each way a sheet is cut, in the order of cutting.
    pub patterns: Vec<PatternReport>,
    /// Every piece on every pattern.
    pub placements: Vec<PlacementReport>,
    /// Pieces that are in no pattern.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub missing: Vec<MissingReport>,
    /// What could not be planned and what to do about it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub complaints: Vec<String>,
}

/// A rectangle's measures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SizeReport {
    /// Along the sheet's bottom edge.
    pub width: Length,
    /// Along the sheet's left edge.
    pub height: Length,
}

/// One way to cut a sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PatternReport {
    /// From 1, in the order of cutting.
    pub number: usize,
    /// Sheets cut this way.
    pub copies: u32,
    /// The stock's name.
    pub name: String,
    /// `bought`, `in hand` or `drop-out`.
    pub source: &'static str,
    /// Which sheets of that source these are, as in `sheets 2 to 4, alike`.
    pub which: String,
    /// Number of the set-up, from 1: patterns that share one differ only in what is kept.
    pub setup: usize,
    /// The full sheet, trim included.
    pub stock: SizeReport,
    /// The usable part of the sheet and the edge-to-edge cuts through it.
    pub cuts: PartReport,
    /// The same cut by cut.
    pub sequence: SequenceReport,
}

/// A part and what becomes of it: cut on, a piece, or (neither) a rest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PartReport {
    /// From the sheet's left edge.
    pub x: Length,
    /// From the sheet's bottom edge.
    pub y: Length,
    /// Width.
    pub width: Length,
    /// Height.
    pub height: Length,
    /// `vertical` (parts side by side) or `horizontal` (parts on top of each other).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<&'static str>,
    /// The parts in order, from the left or the bottom.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<PartReport>,
    /// Index of the piece, from 0.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub piece: Option<usize>,
}

/// One piece on one pattern.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlacementReport {
    /// Number of the pattern.
    pub sheet: usize,
    /// Sheets with this piece in this place: as many as the pattern has.
    pub copies: u32,
    /// From the sheet's left edge.
    pub x: Length,
    /// From the sheet's bottom edge.
    pub y: Length,
    /// Width as it lies.
    pub width: Length,
    /// Height as it lies.
    pub height: Length,
    /// Whether it lies turned by a quarter.
    pub turned: bool,
    /// Index of the piece, from 0.
    pub piece: usize,
    /// The piece's name.
    pub name: String,
}

/// A piece that is not, or not often enough, in the plan.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct MissingReport {
    /// Index of the piece, from 0.
    pub piece: usize,
    /// The piece's name.
    pub name: String,
    /// How many are missing.
    pub copies: u32,
}

struct Writer<'a> {
    problem: &'a Problem,
    scale: Option<f64>,
}

impl Writer<'_> {
    #[allow(
        clippy::as_conversions,
        clippy::cast_precision_loss,
        reason = "lengths in other units are for reading; the plan keeps the whole numbers"
    )]
    fn length(&self, length: i64) -> Length {
        self.scale.map_or(Length::Whole(length), |scale| Length::Scaled(length as f64 * scale))
    }

    #[allow(
        clippy::as_conversions,
        clippy::cast_precision_loss,
        reason = "lengths in other units are for reading"
    )]
    fn complaint(&self, complaint: &Complaint) -> String {
        complaint.describe(&|length| match self.scale {
            None => length.to_string(),
            Some(scale) => format!("{:.2}", length as f64 * scale),
        })
    }

    fn part(&self, part: &Part) -> PartReport {
        let (cut, parts, piece) = match &part.fate {
            Fate::Rest => (None, Vec::new(), None),
            Fate::Piece { piece, .. } => (None, Vec::new(), Some(*piece)),
            Fate::Cut { cut, parts } => {
                let word = match cut {
                    Cut::Upright => "vertical",
                    Cut::Level => "horizontal",
                };
                (Some(word), parts.iter().map(|p| self.part(p)).collect(), None)
            }
        };
        let [x, y, width, height] =
            [part.x, part.y, part.width, part.height].map(|l| self.length(l));
        PartReport { x, y, width, height, cut, parts, piece }
    }
}

impl Report {
    /// `scale` turns the problem's unit into the unit of the report; without one, lengths
    /// stay whole. `seconds` is what the caller's clock says.
    #[must_use]
    pub fn new(problem: &Problem, plan: &Plan, seconds: f64, scale: Option<f64>) -> Self {
        Self::lettered(problem, plan, seconds, scale, 0)
    }

    /// The same for one plan of several: `first` is the number of its first sheet among all of them,
    /// from 0, by which sheets are named.
    #[must_use]
    pub fn lettered(
        problem: &Problem,
        plan: &Plan,
        seconds: f64,
        scale: Option<f64>,
        first: usize,
    ) -> Self {
        let writer = Writer { problem, scale };
        let length = |l| writer.length(l);
        let mut patterns = Vec::new();
        let mut placements = Vec::new();
        for (at, pattern) in plan.patterns.iter().enumerate() {
            let number = at + 1;
            let stock = &problem.stocks[pattern.stock];
            patterns.push(PatternReport {
                number,
                copies: pattern.copies,
                name: stock.name.clone(),
                source: source(problem, pattern).word(),
                which: which(problem, plan, at),
                setup: pattern.setup + 1,
                stock: SizeReport { width: length(stock.width), height: length(stock.height) },
                cuts: writer.part(&pattern.root),
                sequence: writer.sequence(&Sequence::new(problem, pattern, first + at)),
            });
            placements.extend(pattern.placements.iter().map(|p| PlacementReport {
                sheet: number,
                copies: pattern.copies,
                x: length(p.x),
                y: length(p.y),
                width: length(p.width),
                height: length(p.height),
                turned: p.turned,
                piece: p.piece,
                name: writer.problem.pieces[p.piece].name.clone(),
            }));
        }
        let counts = Counts::of(problem, plan);
        let missing = plan.missing.iter().enumerate().filter(|(_, n)| **n > 0);
        Self {
            sheets: plan.sheets,
            sheets_bought: counts.bought,
            sheets_in_hand: counts.in_hand,
            drop_outs: counts.drop_outs,
            cost: plan.cost,
            lower_bound: plan.bound.cost,
            proved: plan.bound.proved,
            seconds,
            setups: plan.setups,
            patterns,
            placements,
            missing: missing
                .map(|(piece, copies)| {
                    let name = problem.pieces[piece].name.clone();
                    MissingReport { piece, name, copies: *copies }
                })
                .collect(),
            complaints: plan.complaints.iter().map(|c| writer.complaint(c)).collect(),
        }
    }
}
