//! From the solver's answer to the plan a person reads: which piece is where, in which order.

use crate::answer::Answer;
use crate::bound::Proof;
use crate::plan::{Bound, Certificate, Cut, Fate, Part, Pattern, Placement, Plan};
use crate::pool::Pool;
use crate::prepare::Instance;
use crate::problem::{Complaint, Problem, Supply};
use crate::tree::{self, Node, NodeFate};

/// The pieces in one place of a pattern, sheet after sheet: piece (or nothing) and how often.
type Run = Vec<(Option<usize>, u32)>;

pub(crate) fn plan(
    problem: &Problem,
    inst: &Instance,
    pool: &Pool,
    answer: &Answer,
    proofs: (Option<&Proof>, Option<&Proof>),
    complaints: &[Complaint],
) -> Plan {
    let mut used = answer.used.clone();
    // Sheets before drop-outs, and these from the largest down: a drop-out is smaller than
    // the piece it falls out of, so whatever it falls out of comes before it.
    used.sort_by_key(|(number, times)| {
        let sheet = &inst.sheets[pool.patterns[*number].sheet];
        let stock = &problem.stocks[sheet.stock];
        let window = matches!(stock.supply, Supply::Window { .. });
        let area = if window { stock.width * stock.height } else { 0 };
        (window, -area, sheet.stock, u32::MAX - times, *number)
    });
    let mut owners: Vec<Vec<(usize, u32)>> =
        inst.kinds.iter().map(|k| k.members.clone()).collect();
    let mut patterns = Vec::new();
    let mut setups = 0;
    for (number, times) in used {
        let pattern = &pool.patterns[number];
        let Some(tree) = tree::build(inst, pattern.sheet, &pattern.placed) else { continue };
        let mut places = Vec::new();
        kinds_in(&tree, &mut places);
        let runs: Vec<Run> =
            places.iter().map(|kind| hand_out(&mut owners[*kind], times)).collect();
        for (copies, owners) in split(&runs, times) {
            patterns.push(drawn(problem, inst, pattern.sheet, &tree, copies, &owners, setups));
        }
        setups += 1;
    }
    let missing = only_what_is_there(problem, &mut patterns);
    let cost: i64 =
        patterns.iter().map(|p| problem.stocks[p.stock].cost * i64::from(p.copies)).sum();
    let mut complaints = complaints.to_vec();
    for kind in &inst.kinds {
        for &(piece, _) in &kind.members {
            if missing[piece] > 0 {
                let name = problem.pieces[piece].name.clone();
                complaints.push(Complaint::StockUsedUp { piece: name, copies: missing[piece] });
            }
        }
    }
    let (area, best) = proofs;
    let complete = missing.iter().zip(&problem.pieces).all(|(n, p)| *n == 0 || *n == p.copies)
        && answer.missing.iter().all(|n| *n == 0);
    Plan {
        sheets: patterns.iter().map(|p| u64::from(p.copies)).sum(),
        bound: bound(inst, cost, area, best, complete),
        certificate: best.map_or_else(Certificate::default, |p| certificate(problem, inst, p)),
        cost,
        setups: distinct_setups(&patterns),
        missing,
        complaints,
        patterns,
    }
}

fn distinct_setups(patterns: &[Pattern]) -> usize {
    let mut setups: Vec<usize> = patterns.iter().map(|p| p.setup).collect();
    setups.sort_unstable();
    setups.dedup();
    setups.len()
}

/// Drops drop-outs of pieces that found no place themselves, in the order of cutting; returns
/// the copies of each piece that are in no pattern.
fn only_what_is_there(problem: &Problem, patterns: &mut Vec<Pattern>) -> Vec<u32> {
    let mut missing: Vec<u32> = problem.pieces.iter().map(|p| p.copies).collect();
    let mut used = vec![0_u32; problem.stocks.len()];
    for pattern in patterns.iter_mut() {
        if let Supply::Window { piece, each } = problem.stocks[pattern.stock].supply {
            let planned = (problem.pieces[piece].copies - missing[piece]).saturating_mul(each);
            pattern.copies = pattern.copies.min(planned - used[pattern.stock]);
        }
        used[pattern.stock] += pattern.copies;
        for placement in &pattern.placements {
            missing[placement.piece] -= pattern.copies;
        }
    }
    patterns.retain(|p| p.copies > 0);
    missing
}

fn kinds_in(node: &Node, kinds: &mut Vec<usize>) {
    match &node.fate {
        NodeFate::Piece { kind } => kinds.push(*kind),
        NodeFate::Rest => {}
        NodeFate::Cut { parts, .. } => parts.iter().for_each(|p| kinds_in(p, kinds)),
    }
}

/// Which piece gets one place on each of `times` sheets: the same one throughout where possible.
fn hand_out(owners: &mut Vec<(usize, u32)>, times: u32) -> Run {
    let mut run = Run::new();
    let mut open = times;
    while open > 0 {
        let whole = owners.iter().position(|(_, n)| *n >= open);
        let Some(at) = whole.or_else(|| (!owners.is_empty()).then_some(0)) else {
            run.push((None, open));
            break;
        };
        let (piece, n) = &mut owners[at];
        let taken = open.min(*n);
        run.push((Some(*piece), taken));
        *n -= taken;
        open -= taken;
        if *n == 0 {
            owners.remove(at);
        }
    }
    run
}

/// Sheets on which every place holds the same piece, with those pieces.
fn split(runs: &[Run], times: u32) -> Vec<(u32, Vec<Option<usize>>)> {
    let mut ends: Vec<u32> = vec![times];
    for run in runs {
        let mut end = 0;
        for (_, n) in run {
            end += n;
            ends.push(end);
        }
    }
    ends.sort_unstable();
    ends.dedup();
    let mut from = 0;
    let mut groups = Vec::new();
    for end in ends {
        let owner = |run: &Run| {
            let mut at = 0;
            run.iter().find_map(|(piece, n)| {
                at += n;
                (from < at).then_some(*piece)
            })
        };
        let owners = runs.iter().map(|run| owner(run).flatten()).collect();
        groups.push((end - from, owners));
        from = end;
    }
    groups
}

struct Drawing<'a> {
    problem: &'a Problem,
    kerf: i64,
    owners: std::slice::Iter<'a, Option<usize>>,
    placements: Vec<Placement>,
}

fn drawn(
    problem: &Problem,
    inst: &Instance,
    sheet: usize,
    tree: &Node,
    copies: u32,
    owners: &[Option<usize>],
    setup: usize,
) -> Pattern {
    let stock = inst.sheets[sheet].stock;
    let trim = problem.stocks[stock].trim;
    let kerf = problem.kerf.max(0);
    let mut drawing = Drawing { problem, kerf, owners: owners.iter(), placements: Vec::new() };
    let root = drawing.part(tree, trim.left, trim.bottom);
    Pattern { stock, copies, setup, root, placements: drawing.placements }
}

impl Drawing<'_> {
    fn part(&mut self, node: &Node, x: i64, y: i64) -> Part {
        let (width, height) = (node.w - self.kerf, node.h - self.kerf);
        let fate = match &node.fate {
            NodeFate::Rest => Fate::Rest,
            NodeFate::Piece { .. } => match self.owners.next() {
                Some(&Some(piece)) => {
                    // A kind may hold pieces that differ by a quarter turn.
                    let p = &self.problem.pieces[piece];
                    let turned = (p.width, p.height) != (width, height);
                    self.placements.push(Placement { piece, x, y, width, height, turned });
                    Fate::Piece { piece, turned }
                }
                _ => Fate::Rest,
            },
            NodeFate::Cut { cut, parts } => {
                let (mut at_x, mut at_y) = (x, y);
                let mut drawn: Vec<Part> = Vec::with_capacity(parts.len());
                for part in parts {
                    // A rest no wider than the kerf is lost to it.
                    if part.w > self.kerf && part.h > self.kerf {
                        let part = self.part(part, at_x, at_y);
                        match drawn.last_mut() {
                            // What is left stays in one part.
                            Some(last)
                                if last.fate == Fate::Rest && part.fate == Fate::Rest =>
                            {
                                last.width = part.x + part.width - last.x;
                                last.height = part.y + part.height - last.y;
                            }
                            _ => drawn.push(part),
                        }
                    }
                    match cut {
                        Cut::Upright => at_x += part.w,
                        Cut::Level => at_y += part.h,
                    }
                }
                if drawn.iter().all(|p| p.fate == Fate::Rest) {
                    return Part { x, y, width, height, fate: Fate::Rest };
                }
                Fate::Cut { cut: *cut, parts: drawn }
            }
        };
        Part { x, y, width, height, fate }
    }
}

#[allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "the gap is a share for display"
)]
fn bound(
    inst: &Instance,
    cost: i64,
    area: Option<&Proof>,
    best: Option<&Proof>,
    complete: bool,
) -> Bound {
    let whole = |p: &Proof| p.bound * inst.grain;
    let lower = best.map_or(0, whole);
    let gap = if lower > 0 { (cost - lower).max(0) as f64 / lower as f64 } else { 0.0 };
    Bound {
        area: area.map_or(0, whole),
        cost: lower,
        exact: best.map_or(0.0, |p| p.exact) * inst.grain as f64,
        gap,
        proved: complete && cost <= lower,
    }
}

fn certificate(problem: &Problem, inst: &Instance, proof: &Proof) -> Certificate {
    let mut prices = vec![0; problem.pieces.len()];
    for (kind, price) in inst.kinds.iter().zip(&proof.prices) {
        for (piece, _) in &kind.members {
            prices[*piece] = *price;
        }
    }
    let mut rents = vec![0; problem.stocks.len()];
    for (sheet, rent) in inst.sheets.iter().zip(&proof.rents) {
        rents[sheet.stock] = *rent;
    }
    Certificate {
        prices,
        rents,
        numerator: proof.num,
        denominator: proof.den.saturating_mul(inst.grain),
        within_demand: proof.proper,
    }
}
