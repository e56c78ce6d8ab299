//! The cuts of a pattern in the order in which they are made, and what is left of the sheet.

use sightedge_cutting::{Cut, Fate, Part, Pattern, Plan, Problem, Stock, Supply};

/// One straight cut, edge to edge, in the problem's unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// Which way it runs.
    pub cut: Cut,
    /// From the edge where the part that is cut off begins: where the stop is set.
    pub stop: i64,
    /// Its ends on the sheet, from the lower left corner.
    pub from: (i64, i64),
    /// See `from`.
    pub to: (i64, i64),
    /// Depth in the tree, from 1: cuts of the first stage run through the whole sheet.
    pub stage: usize,
}

impl Step {
    /// How long it is.
    pub fn length(&self) -> i64 {
        (self.to.0 - self.from.0) + (self.to.1 - self.from.1)
    }
}

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

/// All cuts of one sheet: those of a part before those of what falls from it. The trims round
/// the sheet are not among them.
pub fn steps(pattern: &Pattern) -> Vec<Step> {
    let mut steps = Vec::new();
    below(&pattern.root, 1, &mut steps);
    steps
}

fn below(part: &Part, stage: usize, steps: &mut Vec<Step>) {
    let Fate::Cut { cut, parts } = &part.fate else { return };
    for (index, one) in parts.iter().enumerate() {
        // What lies behind the last part is no part of its own, unless it is waste.
        let (end, edge) = match cut {
            Cut::Upright => (one.x + one.width, part.x + part.width),
            Cut::Level => (one.y + one.height, part.y + part.height),
        };
        if index + 1 == parts.len() && end >= edge {
            continue;
        }
        let (stop, from, to) = match cut {
            Cut::Upright => (one.width, (end, part.y), (end, part.y + part.height)),
            Cut::Level => (one.height, (part.x, end), (part.x + part.width, end)),
        };
        steps.push(Step { cut: *cut, stop, from, to, stage });
    }
    for one in parts {
        below(one, stage + 1, steps);
    }
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

/// Whether a pattern is cut from what falls out of a window.
pub fn is_drop_out(problem: &Problem, pattern: &Pattern) -> bool {
    matches!(problem.stocks[pattern.stock].supply, Supply::Window { .. })
}

/// Which of the plan's sheets, or of its drop-outs, a pattern is, as in 'Sheet 2 of 4'.
pub fn title(problem: &Problem, plan: &Plan, number: usize) -> String {
    let patterns = &plan.patterns;
    let drop_outs = patterns.iter().filter(|p| is_drop_out(problem, p)).count();
    // Drop-outs come after the sheets.
    let whole = patterns.len() - drop_outs;
    match (number.checked_sub(whole), whole, drop_outs) {
        (Some(_), _, 1) => "The drop-out".to_owned(),
        (Some(at), _, all) => format!("Drop-out {} of {all}", at + 1),
        (None, 1, _) => "The sheet".to_owned(),
        (None, all, _) => format!("Sheet {} of {all}", number + 1),
    }
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
        let steps = steps(pattern);
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
        if !is_drop_out(problem, pattern) {
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
