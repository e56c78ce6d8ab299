//! What is left of a sheet, and what a plan comes to.

use sightedge_cutting::{
    Fate, Part, Pattern, Plan, Problem, Sequence, Source, Step, Stock, source,
};

/// A part that is left: from the lower left corner of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rest {
    /// From the left.
    pub x: i64,
    /// From below.
    pub y: i64,
    /// Its width.
    pub width: i64,
    /// Its height.
    pub height: i64,
}

/// What is left of one sheet, the largest first.
pub fn rests(pattern: &Pattern) -> Vec<Rest> {
    let mut rests = Vec::new();
    left(&pattern.root, &mut rests);
    rests.sort_by_key(|rest| std::cmp::Reverse(area(rest.width, rest.height)));
    rests
}

fn left(part: &Part, rests: &mut Vec<Rest>) {
    match &part.fate {
        Fate::Rest => {
            let Part { x, y, width, height, .. } = *part;
            rests.push(Rest { x, y, width, height });
        }
        Fate::Piece { .. } => {}
        Fate::Cut { parts, .. } => parts.iter().for_each(|part| left(part, rests)),
    }
}

const fn area(width: i64, height: i64) -> i128 {
    // Sides are at most 10^9.
    #[allow(clippy::as_conversions, reason = "From is not const; widening loses nothing")]
    (width as i128 * height as i128)
}

/// What a plan comes to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Totals {
    /// Straight cuts, the trims round bought sheets included.
    pub cuts: u64,
    /// All of them, end to end, in the problem's unit.
    pub cut_length: i128,
    /// Of the sheets' face, drop-outs not counted, the share that becomes no piece; 0 to 1.
    pub waste: f64,
}

/// Cuts and waste of a plan.
pub fn totals(problem: &Problem, plan: &Plan) -> Totals {
    let mut totals = Totals::default();
    let (mut sheets, mut pieces) = (0_i128, 0_i128);
    for pattern in &plan.patterns {
        let copies = u64::from(pattern.copies);
        let stock: &Stock = &problem.stocks[pattern.stock];
        let steps = Sequence::new(problem, pattern, 0).cuts;
        let trims = [
            (stock.trim.left, stock.height),
            (stock.trim.right, stock.height),
            (stock.trim.bottom, stock.width),
            (stock.trim.top, stock.width),
        ];
        let trims = trims.iter().filter(|(trim, _)| *trim > 0);
        let count = steps.len() + trims.clone().count();
        totals.cuts += copies * u64::try_from(count).unwrap_or(0);
        let lengths = steps.iter().map(Step::length).chain(trims.map(|(_, side)| *side));
        totals.cut_length += lengths.map(i128::from).sum::<i128>() * i128::from(copies);
        // A drop-out's face was counted with the sheet it came from.
        if source(problem, pattern) != Source::DropOut {
            sheets += area(stock.width, stock.height) * i128::from(copies);
        }
        let placed = pattern.placements.iter().map(|p| area(p.width, p.height));
        pieces += placed.sum::<i128>() * i128::from(copies);
    }
    if sheets > 0 {
        totals.waste = 1.0 - share(pieces, sheets);
    }
    totals
}

#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "a share for the eye")]
fn share(part: i128, whole: i128) -> f64 {
    part as f64 / whole as f64
}
