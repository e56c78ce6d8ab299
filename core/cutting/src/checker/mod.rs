//! Judges a plan from its drawing alone: nothing here knows how the plan was made.

mod pricing;
mod within;

use std::fmt;

use crate::plan::{Cut, Fate, Part, Pattern, Placement, Plan};
use crate::problem::{Problem, Stock, Supply};

pub use pricing::proven_bound;

/// What is wrong with a plan.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Fault {
    /// Index of the pattern, where it concerns one.
    pub pattern: Option<usize>,
    /// What was found and what was wanted.
    pub what: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.pattern {
            Some(pattern) => write!(f, "pattern {}: {}", pattern + 1, self.what),
            None => f.write_str(&self.what),
        }
    }
}

/// Checks all but the bound's proof (see [`proven_bound`]): every piece as often as wanted or
/// counted as missing, nothing overlapping, everything inside the sheet less trim, only
/// edge-to-edge cuts within the stages, kerf between parts, turned only where allowed, no
/// more sheets than there are, drop-outs only after their window, sums right.
///
/// # Errors
/// All faults found.
pub fn check(problem: &Problem, plan: &Plan) -> Result<(), Vec<Fault>> {
    let mut faults = Vec::new();
    for (index, pattern) in plan.patterns.iter().enumerate() {
        let mut whats = Vec::new();
        check_pattern(problem, pattern, &mut whats);
        faults.extend(whats.into_iter().map(|what| Fault { pattern: Some(index), what }));
    }
    let mut whats = Vec::new();
    if faults.is_empty() {
        check_counts(problem, plan, &mut whats);
        check_order(problem, plan, &mut whats);
        check_sums(problem, plan, &mut whats);
    }
    faults.extend(whats.into_iter().map(|what| Fault { pattern: None, what }));
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

fn check_pattern(problem: &Problem, pattern: &Pattern, faults: &mut Vec<String>) {
    let Some(stock) = problem.stocks.get(pattern.stock) else {
        faults.push(format!("stock {} does not exist", pattern.stock));
        return;
    };
    if pattern.copies == 0 {
        faults.push("it is cut from no sheet".to_owned());
    }
    let Stock { width, height, trim, .. } = stock;
    let usable = (
        trim.left,
        trim.bottom,
        width - trim.left - trim.right,
        height - trim.bottom - trim.top,
    );
    let root = &pattern.root;
    if (root.x, root.y, root.width, root.height) != usable {
        faults.push(format!("its root is not the usable part {usable:?}"));
    }
    let mut walk = Walk { problem, found: Vec::new(), faults };
    walk.part(root, 0, None);
    let mut found = walk.found;
    let mut listed = pattern.placements.clone();
    let key = |p: &Placement| (p.x, p.y, p.piece);
    found.sort_by_key(key);
    listed.sort_by_key(key);
    if found != listed {
        faults.push("its placements are not the pieces of its cuts".to_owned());
    }
    check_places(problem, &listed, usable, faults);
}

/// Overlaps and edges, from the list of placements alone.
fn check_places(
    problem: &Problem,
    places: &[Placement],
    (left, bottom, width, height): (i64, i64, i64, i64),
    faults: &mut Vec<String>,
) {
    let kerf = problem.kerf.max(0);
    for (index, a) in places.iter().enumerate() {
        if a.x < left
            || a.y < bottom
            || a.x + a.width > left + width
            || a.y + a.height > bottom + height
        {
            faults.push(format!("{a:?} leaves the usable part"));
        }
        for b in &places[index + 1..] {
            let beside = a.x + a.width + kerf <= b.x || b.x + b.width + kerf <= a.x;
            let above = a.y + a.height + kerf <= b.y || b.y + b.height + kerf <= a.y;
            if !beside && !above {
                faults.push(format!("{a:?} and {b:?} overlap or leave no kerf"));
            }
        }
    }
}

struct Walk<'a> {
    problem: &'a Problem,
    found: Vec<Placement>,
    faults: &'a mut Vec<String>,
}

impl Walk<'_> {
    /// `stage` is that of the cut the part came from.
    fn part(&mut self, part: &Part, stage: u8, from: Option<Cut>) {
        let least = self.problem.least_strip.max(0);
        if part.width <= 0 || part.height <= 0 {
            self.faults.push(format!("a part measures {} x {}", part.width, part.height));
        }
        let kept = !matches!(part.fate, Fate::Rest);
        if kept && part.width.min(part.height) < least {
            self.faults.push("a part is narrower than the cutter can hold".to_owned());
        }
        match &part.fate {
            Fate::Rest => {}
            Fate::Piece { piece, turned } => self.piece(part, *piece, *turned),
            Fate::Cut { cut, parts } => self.cut(part, *cut, parts, stage, from),
        }
    }

    fn piece(&mut self, part: &Part, piece: usize, turned: bool) {
        let Some(wanted) = self.problem.pieces.get(piece) else {
            self.faults.push(format!("piece {piece} does not exist"));
            return;
        };
        let (mut width, mut height) = (wanted.width, wanted.height);
        if turned {
            (width, height) = (height, width);
        }
        if turned && !wanted.may_turn {
            self.faults.push(format!("{} is turned and may not be", wanted.name));
        }
        if (part.width, part.height) != (width, height) {
            let found = (part.width, part.height);
            self.faults.push(format!("{} is cut to {found:?}", wanted.name));
        }
        let (x, y, width, height) = (part.x, part.y, part.width, part.height);
        self.found.push(Placement { piece, x, y, width, height, turned });
    }

    fn cut(&mut self, whole: &Part, cut: Cut, parts: &[Part], stage: u8, from: Option<Cut>) {
        let stage = if from == Some(cut) { stage } else { stage + 1 };
        let kerf = self.problem.kerf.max(0);
        // Along the cut's normal: where the next part starts and where the whole ends.
        let (mut at, end) = match cut {
            Cut::Upright => (whole.x, whole.x + whole.width),
            Cut::Level => (whole.y, whole.y + whole.height),
        };
        for (index, part) in parts.iter().enumerate() {
            let (start, length, across) = match cut {
                Cut::Upright => {
                    let across = (part.y, part.height) == (whole.y, whole.height);
                    (part.x, part.width, across)
                }
                Cut::Level => {
                    let across = (part.x, part.width) == (whole.x, whole.width);
                    (part.y, part.height, across)
                }
            };
            if !across {
                self.faults.push("a cut does not run from edge to edge".to_owned());
            }
            if start != at {
                self.faults.push(format!("a part starts at {start}, the last cut was at {at}"));
            }
            at = start + length + if index + 1 < parts.len() { kerf } else { 0 };
        }
        // After the last part nothing is left, or less than the kerf of a cut beside it.
        if at > end || end - at > kerf {
            self.faults.push(format!("the parts of a cut end at {at}, the whole at {end}"));
        }
        if let Some(limit) = self.problem.stages.limit()
            && stage > limit
        {
            let kept = parts.iter().filter(|p| !matches!(p.fate, Fate::Rest)).count();
            let whole = parts.iter().all(|p| !matches!(p.fate, Fate::Cut { .. }));
            if stage > limit + 1 || kept > 1 || !whole {
                self.faults
                    .push(format!("a cut of round {stage}, where {limit} rounds are allowed"));
            }
        }
        for part in parts {
            self.part(part, stage, Some(cut));
        }
    }
}

fn check_counts(problem: &Problem, plan: &Plan, faults: &mut Vec<String>) {
    let mut cut = vec![0_u64; problem.pieces.len()];
    for pattern in &plan.patterns {
        for placement in &pattern.placements {
            cut[placement.piece] += u64::from(pattern.copies);
        }
    }
    if plan.missing.len() != problem.pieces.len() {
        faults.push("the list of missing pieces has the wrong length".to_owned());
        return;
    }
    for ((piece, cut), missing) in problem.pieces.iter().zip(cut).zip(&plan.missing) {
        if cut + u64::from(*missing) != u64::from(piece.copies) {
            let (name, copies) = (&piece.name, piece.copies);
            faults.push(format!(
                "{name}: {cut} cut and {missing} missing, but {copies} asked for"
            ));
        }
    }
}

/// No more sheets than there are, no drop-out before its piece.
fn check_order(problem: &Problem, plan: &Plan, faults: &mut Vec<String>) {
    let mut cut = vec![0_u64; problem.pieces.len()];
    let mut used = vec![0_u64; problem.stocks.len()];
    for pattern in &plan.patterns {
        used[pattern.stock] += u64::from(pattern.copies);
        let stock = &problem.stocks[pattern.stock];
        let available = match stock.supply {
            Supply::Unlimited => u64::MAX,
            Supply::InHand(n) => u64::from(n),
            Supply::Window { piece, each } => {
                cut.get(piece).copied().unwrap_or(0) * u64::from(each)
            }
        };
        if used[pattern.stock] > available {
            faults.push(format!(
                "{} of {} used, {available} there",
                used[pattern.stock], stock.name
            ));
        }
        for placement in &pattern.placements {
            cut[placement.piece] += u64::from(pattern.copies);
        }
    }
}

fn check_sums(problem: &Problem, plan: &Plan, faults: &mut Vec<String>) {
    let copies = |p: &Pattern| i64::from(p.copies);
    let cost: i64 =
        plan.patterns.iter().map(|p| problem.stocks[p.stock].cost * copies(p)).sum();
    if cost != plan.cost {
        faults.push(format!("it costs {cost}, not {}", plan.cost));
    }
    if plan.sheets != plan.patterns.iter().map(|p| u64::from(p.copies)).sum::<u64>() {
        faults.push(format!("it does not use {} sheets", plan.sheets));
    }
    let mut setups: Vec<usize> = plan.patterns.iter().map(|p| p.setup).collect();
    setups.sort_unstable();
    setups.dedup();
    if setups.len() != plan.setups {
        faults.push(format!("{} set-ups, not {}", setups.len(), plan.setups));
    }
    let bound = &plan.bound;
    if plan.missing.iter().all(|n| *n == 0) && bound.cost > plan.cost {
        faults.push(format!("bound {} above cost {}", bound.cost, plan.cost));
    }
    let complained =
        plan.missing.iter().zip(&problem.pieces).all(|(n, p)| *n == 0 || *n == p.copies);
    if bound.proved && (bound.cost != plan.cost || !complained) {
        faults.push(format!("called proved at {} with a bound of {}", plan.cost, bound.cost));
    }
}
