//! The bound of proper patterns: those that hold a piece at most as often as it is wanted.
//!
//! The pricing tables repeat a piece as often as it fits, which makes them quick and their
//! bound weak where few pieces share a sheet. Here sets of pieces are priced instead, by branch
//! and bound over the pieces in the order of price for area. A set can be cut if one of the
//! smallest boxes that hold it, built up from those of its parts, fits the sheet. All within a
//! budget: few pieces on a sheet, or no proof.

#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "duals become whole-number prices here, rounded down to the safe side"
)]

use std::collections::BTreeMap;
use std::rc::Rc;

use crate::bound::{self, Proof};
use crate::effort::Meter;
use crate::pool::Pool;
use crate::prepare::{Instance, Sheet};
use crate::simplex::Simplex;

/// Pieces a set can hold: bits of a `u128`.
const MOST_PIECES: u32 = 128;
/// Pieces on one sheet beyond which sets are too many.
const MOST_ON_A_SHEET: u32 = 11;
/// Sets whose boxes are remembered.
const MOST_SETS: usize = 400_000;
/// Price units for the dearest sheet.
const SCALE: f64 = 4_000_000.0;

/// Steps that two look-ups among many sets take.
const LOOK_UP: u64 = 200;

type Set = u128;

/// The smallest boxes of a set, none inside another: for each stage, last divided upright and
/// last divided level. Without a limit of stages one list stands for all.
type Boxes = Vec<[Vec<(i64, i64)>; 2]>;

/// Which sets can be cut from one sheet.
#[derive(Debug)]
struct Classes<'a> {
    inst: &'a Instance,
    sheet: &'a Sheet,
    /// The kind of each piece.
    kind_of: &'a [usize],
    known: BTreeMap<Set, Rc<Boxes>>,
    steps: u64,
}

fn keep(boxes: &mut Vec<(i64, i64)>, new: (i64, i64)) {
    if boxes.iter().any(|b| b.0 <= new.0 && b.1 <= new.1) {
        return;
    }
    boxes.retain(|b| !(new.0 <= b.0 && new.1 <= b.1));
    boxes.push(new);
}

fn impossible(boxes: &Boxes) -> bool {
    boxes.last().is_none_or(|[upright, level]| upright.is_empty() && level.is_empty())
}

impl Classes<'_> {
    /// Whether the set can be cut; its parts must have been queried before.
    fn can_be_cut(&mut self, set: Set) -> bool {
        !impossible(&self.boxes(set))
    }

    fn boxes(&mut self, set: Set) -> Rc<Boxes> {
        self.steps += LOOK_UP / 2;
        if let Some(known) = self.known.get(&set) {
            return Rc::clone(known);
        }
        let stages = usize::from(self.inst.stages.limit().unwrap_or(1));
        let free = self.inst.stages.limit().is_none();
        let boxes = Rc::new(if set.is_power_of_two() {
            self.single(set, stages)
        } else {
            self.joined(set, stages, free)
        });
        self.known.insert(set, Rc::clone(&boxes));
        boxes
    }

    fn single(&self, set: Set, stages: usize) -> Boxes {
        let kind = &self.inst.kinds[self.kind_of[set.trailing_zeros() as usize]];
        let mut boxes = Vec::new();
        for turned in [false, true] {
            let (w, h) = kind.size(turned);
            if (!turned || kind.turn) && w <= self.sheet.w && h <= self.sheet.h {
                keep(&mut boxes, (w, h));
            }
        }
        vec![[boxes.clone(), boxes]; stages]
    }

    fn joined(&mut self, set: Set, stages: usize, free: bool) -> Boxes {
        let mut found: Boxes = vec![[Vec::new(), Vec::new()]; stages];
        let first = set & set.wrapping_neg();
        let others = set ^ first;
        // Every part that holds the first piece, against the rest.
        let mut more = others;
        while more != 0 {
            more = (more - 1) & others;
            let (part, rest) = (self.boxes(first | more), self.boxes(others ^ more));
            self.steps += LOOK_UP;
            if impossible(&part) || impossible(&rest) {
                return vec![[Vec::new(), Vec::new()]; stages];
            }
            for stage in 0..stages {
                // A part of a row was divided the other way one stage before; in the first
                // stage it is a single piece.
                for way in 0..2 {
                    let part: &[(i64, i64)] = match stage.checked_sub(1) {
                        _ if free => &part[0][0],
                        Some(before) => &part[before][1 - way],
                        None if more == 0 => &part[0][way],
                        None => &[],
                    };
                    let rest = if free { &rest[0][0] } else { &rest[stage][way] };
                    self.steps += (part.len() * rest.len()) as u64;
                    for a in part {
                        for b in rest {
                            let sum = if way == 0 {
                                (a.0 + b.0, a.1.max(b.1))
                            } else {
                                (a.0.max(b.0), a.1 + b.1)
                            };
                            if sum.0 <= self.sheet.w && sum.1 <= self.sheet.h {
                                let way = if free { 0 } else { way };
                                keep(&mut found[stage][way], sum);
                            }
                        }
                    }
                }
            }
        }
        if !free {
            // What fewer stages do, more can.
            for stage in 1..stages {
                for way in 0..2 {
                    for from in [0, 1] {
                        for small in found[stage - 1][from].clone() {
                            keep(&mut found[stage][way], small);
                        }
                    }
                }
            }
        }
        found
    }
}

/// Branch and bound over the sets of one sheet.
struct Branch<'a, 'c> {
    classes: &'c mut Classes<'a>,
    /// Pieces worth something, dearest for their area first: bit, price, area.
    offers: Vec<(u32, i64, i64)>,
    best: i64,
    /// Sets worth more than this are wanted as columns.
    enough: i64,
    columns: Vec<(i64, Set)>,
    limit: u64,
}

impl Branch<'_, '_> {
    /// The most that could still be sold from `area`, from offer `at` on.
    fn hope(&self, at: usize, mut area: i64) -> i64 {
        let mut sum = 0;
        for &(_, price, piece) in &self.offers[at..] {
            if piece <= area {
                area -= piece;
                sum += price;
            } else {
                let part = i128::from(price) * i128::from(area) / i128::from(piece.max(1));
                return sum + part as i64 + 1;
            }
        }
        sum
    }

    /// `None` when the budget is gone.
    fn go(&mut self, at: usize, set: Set, worth: i64, area: i64) -> Option<()> {
        if worth > self.enough {
            self.columns.push((worth, set));
            if self.columns.len() > 400 {
                self.columns.sort_unstable_by_key(|c| -c.0);
                self.columns.truncate(60);
            }
        }
        self.best = self.best.max(worth);
        self.classes.steps += 20;
        if self.classes.steps > self.limit || self.classes.known.len() > MOST_SETS {
            return None;
        }
        let mut at = at;
        while at < self.offers.len() {
            if worth + self.hope(at, area) <= self.best {
                return Some(());
            }
            let (bit, price, piece) = self.offers[at];
            at += 1;
            if piece > area {
                continue;
            }
            let more = set | (1 << bit);
            if more.count_ones() > MOST_ON_A_SHEET {
                return None;
            }
            if !self.classes.can_be_cut(more) {
                continue;
            }
            self.go(at, more, worth + price, area - piece)?;
            // Without this piece its equals are left out, too.
            let kind = self.classes.kind_of[bit as usize];
            while at < self.offers.len()
                && self.classes.kind_of[self.offers[at].0 as usize] == kind
            {
                at += 1;
            }
        }
        Some(())
    }
}

/// A bound above `lower` grains by prices that no proper pattern outsells, if there is one
/// and `budget` steps find it. `pool` holds what was seen so far.
pub(crate) fn bound(
    inst: &Instance,
    pool: &Pool,
    lower: i64,
    upper: i64,
    budget: u64,
    meter: &mut Meter<'_>,
) -> Option<Proof> {
    let pieces: u32 = inst.kinds.iter().map(|k| k.copies).sum();
    if pieces > MOST_PIECES || inst.sheets.iter().any(|s| s.avail.is_some() || s.cost == 0) {
        return None;
    }
    let kind_of: Vec<usize> = inst
        .kinds
        .iter()
        .enumerate()
        .flat_map(|(kind, k)| std::iter::repeat_n(kind, k.copies as usize))
        .collect();
    let dearest = inst.sheets.iter().map(|s| s.cost).max()?;
    let demand: Vec<f64> = inst.kinds.iter().map(|k| f64::from(k.copies)).collect();
    let missing = vec![(dearest * 20) as f64; demand.len()];
    let mut lp = Simplex::new(&demand, &[], &missing);
    for pattern in &pool.patterns {
        let proper = pattern.counts.iter().all(|(k, n)| *n <= inst.kinds[*k].copies);
        if proper {
            let counts = pattern.counts.iter().map(|(k, n)| (*k, f64::from(*n)));
            lp.add(inst.sheets[pattern.sheet].cost as f64, counts);
        }
    }
    let mut classes: Vec<Classes<'_>> = inst
        .sheets
        .iter()
        .map(|sheet| Classes {
            inst,
            sheet,
            kind_of: &kind_of,
            known: BTreeMap::new(),
            steps: 0,
        })
        .collect();
    let mut proof: Option<Proof> = None;
    let mut spent = 0;
    loop {
        lp.primal();
        let steps = lp.take_steps();
        spent += steps;
        let known = proof.as_ref().map_or(lower, |p| p.bound.max(lower));
        if meter.spend(steps) || known >= upper || lp.objective() <= known as f64 + 1e-6 {
            return proof.filter(|p| p.bound > lower);
        }
        let scale = SCALE / dearest as f64;
        let prices: Vec<i64> = lp.duals()[..demand.len()]
            .iter()
            .map(|d| (d.max(0.0) * scale + 1e-6).floor() as i64)
            .collect();
        let mut most = Vec::new();
        let mut found = false;
        for (sheet, classes) in inst.sheets.iter().zip(&mut classes) {
            let mut offers: Vec<(u32, i64, i64)> = (0_u32..)
                .zip(&kind_of)
                .map(|(bit, kind)| (bit, prices[*kind], inst.kinds[*kind].area()))
                .filter(|offer| offer.1 > 0)
                .collect();
            let dear = |a: &(u32, i64, i64)| i128::from(a.1);
            offers.sort_by(|a, b| {
                (dear(b) * i128::from(a.2))
                    .cmp(&(dear(a) * i128::from(b.2)))
                    .then(kind_of[a.0 as usize].cmp(&kind_of[b.0 as usize]))
            });
            let enough = (sheet.cost as f64 * scale) as i64 + 4;
            let before = classes.steps;
            let limit = before + budget.saturating_sub(spent);
            let (best, columns) = (0, Vec::new());
            let mut branch = Branch { classes, offers, best, enough, columns, limit };
            let done = branch.go(0, 0, 0, sheet.area());
            let (sells, columns) = (branch.best, branch.columns);
            let steps = classes.steps - before;
            spent += steps;
            if meter.spend(steps) || done.is_none() {
                return proof.filter(|p| p.bound > lower);
            }
            most.push(sells);
            for (_, set) in columns {
                let mut counts: BTreeMap<usize, f64> = BTreeMap::new();
                for bit in (0..pieces).filter(|bit| set >> bit & 1 == 1) {
                    *counts.entry(kind_of[bit as usize]).or_default() += 1.0;
                }
                lp.add(sheet.cost as f64, counts);
                found = true;
            }
        }
        if let Some(mut new) = bound::prove(inst, &prices, &most) {
            new.proper = true;
            if proof.as_ref().is_none_or(|old| new.exact > old.exact) {
                proof = Some(new);
            }
        }
        if !found {
            return proof.filter(|p| p.bound > lower);
        }
    }
}
