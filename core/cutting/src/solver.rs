//! The whole route: a start, a bound, and rounds of search, columns and dives until they meet.

#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "levels of the relaxation become whole numbers of sheets here"
)]

use crate::answer::Answer;
use crate::bound::{self, Proof};
use crate::effort::Meter;
use crate::master::Master;
use crate::pool::{self, Pool};
use crate::prepare::{Instance, Placed};
use crate::proper;
use crate::rng::Rng;
use crate::search::{self, Bin, Search};
use crate::tidy;

/// Called with the patterns, the best answer, the best proof and the share of effort spent.
pub(crate) type News<'n> = dyn FnMut(&Pool, &Answer, Option<&Proof>, f64) + 'n;

/// More copies than this are not searched sheet by sheet.
const SEARCHED: u32 = 4_000;
/// Steps for a plan of the same cost without drop-outs.
const TIDYING: u64 = 30_000_000;
/// Columns beyond this are not added by search.
pub(crate) const MOST_PATTERNS: usize = 12_000;

pub(crate) struct Solver<'a, 'm> {
    pub(crate) inst: &'a Instance,
    pub(crate) pool: Pool,
    pub(crate) best: Answer,
    pub(crate) proof: Option<Proof>,
    pub(crate) search: Search<'a>,
    /// Where the local search stands, with what it left of the sheets, and its cost.
    current: Option<(Vec<Bin>, Vec<u32>)>,
    pub(crate) rng: Rng,
    pub(crate) meter: &'a mut Meter<'m>,
    /// Called after each better plan or bound.
    report: &'a mut News<'m>,
}

impl<'a, 'm> Solver<'a, 'm> {
    pub(crate) fn new(
        inst: &'a Instance,
        seed: u64,
        meter: &'a mut Meter<'m>,
        report: &'a mut News<'m>,
    ) -> Self {
        let missing: Vec<u32> = inst.kinds.iter().map(|k| k.copies).collect();
        Self {
            inst,
            pool: Pool::default(),
            best: Answer { cost: 0, missing, used: Vec::new() },
            proof: None,
            search: Search::new(inst, seed),
            current: None,
            rng: Rng::new(seed ^ 0x5167_4741),
            meter,
            report,
        }
    }

    fn lower(&self) -> i64 {
        self.proof.as_ref().map_or(0, |p| p.bound)
    }

    pub(crate) fn proved(&self) -> bool {
        self.best.short() == 0 && self.best.cost <= self.lower()
    }

    pub(crate) fn done(&self) -> bool {
        self.proved() || self.meter.over()
    }

    /// Keeps an answer that is better than the best.
    pub(crate) fn offer(&mut self, used: Vec<(usize, u32)>, missing: Vec<u32>) {
        let cost = used
            .iter()
            .map(|(p, n)| self.inst.sheets[self.pool.patterns[*p].sheet].cost * i64::from(*n))
            .sum();
        let answer = Answer { cost, missing, used };
        let first = self.best.used.is_empty();
        if first || (answer.short(), cost) < (self.best.short(), self.best.cost) {
            self.best = answer;
            self.report_progress();
        }
    }

    fn report_progress(&mut self) {
        (self.report)(&self.pool, &self.best, self.proof.as_ref(), self.meter.share());
    }

    fn offer_bins(&mut self, bins: &[(Bin, u32)], missing: Vec<u32>) {
        let mut used: Vec<(usize, u32)> = Vec::new();
        for (bin, times) in bins {
            if let Some((number, _)) = self.pool.add(self.inst, bin.sheet, bin.placed.clone()) {
                match used.iter_mut().find(|(p, _)| *p == number) {
                    Some((_, n)) => *n += times,
                    None => used.push((number, *times)),
                }
            }
        }
        self.offer(used, missing);
    }

    fn better_proof(&mut self, proof: Option<Proof>) {
        if let Some(proof) = proof
            && self.proof.as_ref().is_none_or(|p| proof.exact > p.exact)
        {
            let news = self.proof.as_ref().is_none_or(|p| proof.bound > p.bound);
            self.proof = Some(proof);
            if news {
                self.report_progress();
            }
        }
    }

    pub(crate) fn demand(&self) -> Vec<u32> {
        self.inst.kinds.iter().map(|k| k.copies).collect()
    }

    pub(crate) fn run(&mut self) {
        // A tenth is kept for what comes after cost.
        let limit = self.meter.left();
        self.meter.set_limit(limit - limit / 10);
        self.cost_first();
        self.meter.set_limit(limit);
        if self.best.short() > 0 || self.best.used.is_empty() {
            return;
        }
        self.leave_drop_outs();
        let (inst, rng) = (self.inst, &mut self.rng);
        let tidier = tidy::fewer_setups(inst, &self.pool, &self.best, rng, self.meter);
        if let Some(tidier) = tidier {
            self.best = tidier;
        }
        tidy::one_remnant(inst, &mut self.pool, &mut self.best, &mut self.search);
    }

    fn cost_first(&mut self) {
        if self.inst.kinds.is_empty() || self.inst.sheets.is_empty() {
            return;
        }
        self.better_proof(bound::by_area(self.inst));
        self.start(1);
        if self.done() {
            return;
        }
        for _ in 0..3 {
            self.start(4);
            if self.done() {
                return;
            }
        }
        let copies: u32 = self.inst.kinds.iter().map(|k| k.copies).sum();
        let searched = copies <= SEARCHED;
        if searched {
            self.improve(self.meter.left().min(200_000_000) / 10);
        }
        if self.done() {
            return;
        }
        let mut master = Master::new(self.inst);
        let upper = if self.best.short() == 0 { self.best.cost } else { i64::MAX };
        // With hundreds of kinds the relaxation alone could take all there is: half is kept.
        let limit = self.meter.limit();
        self.meter.set_limit(limit - self.meter.left() / 2);
        master.generate(&mut self.pool, upper, &mut self.rng, self.meter);
        self.meter.set_limit(limit);
        self.better_proof(master.proof.clone());
        let mut round = 0_u32;
        while !self.done() {
            self.dives(&mut master, round);
            if self.done() {
                break;
            }
            self.branch(&mut master, 100_000_000, 0.3 * f64::from(round));
            if self.done() {
                break;
            }
            self.columns(&mut master);
            if self.done() {
                break;
            }
            if round == 0 {
                self.proper_bound();
                if self.done() {
                    break;
                }
            }
            if searched {
                self.improve((60_000_000 + u64::from(round) * 20_000_000) * self.crowding());
            }
            round += 1;
        }
    }

    /// A bound of patterns within the demand, where few pieces share a sheet.
    fn proper_bound(&mut self) {
        if self.best.short() > 0 {
            return;
        }
        let budget = self.meter.left() / 3;
        let (lower, upper) = (self.lower(), self.best.cost);
        let proof = proper::bound(self.inst, &self.pool, lower, upper, budget, self.meter);
        self.better_proof(proof);
    }

    /// How much more the local search is worth where many pieces share a sheet: there the
    /// relaxation says little, and its patterns seldom fit together.
    fn crowding(&self) -> u64 {
        let pieces: u64 = self.inst.kinds.iter().map(|k| u64::from(k.copies)).sum();
        let sheets: u64 = self.best.used.iter().map(|(_, n)| u64::from(*n)).sum();
        (pieces / sheets.max(1)).saturating_sub(4).clamp(1, 20)
    }

    /// Drop-outs that save nothing are only more set-ups: seeks a plan of the same cost without
    /// any.
    fn leave_drop_outs(&mut self) {
        let inst = self.inst;
        let window = |sheet: usize| inst.sheets[sheet].window;
        let pool = &self.pool;
        if self.meter.over()
            || !self.best.used.iter().any(|(p, _)| window(pool.patterns[*p].sheet))
            || inst.kinds.iter().map(|k| k.copies).sum::<u32>() > SEARCHED
        {
            return;
        }
        let (bins, mut left) = self.bins();
        let mut remaining = vec![0; inst.kinds.len()];
        let (drop_outs, mut bins): (Vec<Bin>, Vec<Bin>) =
            bins.into_iter().partition(|bin| window(bin.sheet));
        for placed in drop_outs.iter().flat_map(|bin| &bin.placed) {
            remaining[placed.kind] += 1;
        }
        for (left, sheet) in left.iter_mut().zip(&inst.sheets) {
            if sheet.window {
                *left = 0;
            }
        }
        let more = self.search.greedy(&mut remaining, &mut left, 2, self.meter);
        if remaining.iter().any(|n| *n > 0) {
            return;
        }
        for (bin, times) in more {
            bins.extend((0..times).map(|_| bin.clone()));
        }
        let steps = TIDYING.min(self.meter.left() / 2);
        let (goal, meter) = (self.best.cost, &mut *self.meter);
        self.search.improve(&mut bins, &mut left, goal, steps, meter, &mut |_| ());
        let cost: i64 = bins.iter().map(|b| inst.sheets[b.sheet].cost).sum();
        let mut used: Vec<(usize, u32)> = Vec::new();
        for bin in bins {
            if let Some((number, _)) = self.pool.add(inst, bin.sheet, bin.placed) {
                match used.iter_mut().find(|(p, _)| *p == number) {
                    Some((_, n)) => *n += 1,
                    None => used.push((number, 1)),
                }
            }
        }
        if cost <= self.best.cost && used.len() < self.best.used.len() {
            self.best = Answer { cost, missing: vec![0; inst.kinds.len()], used };
        }
    }

    fn start(&mut self, tries: usize) {
        let mut remaining = self.demand();
        let mut left = search::all_sheets(self.inst);
        let bins = self.search.greedy(&mut remaining, &mut left, tries, self.meter);
        self.offer_bins(&bins, remaining);
    }

    /// The best answer, sheet by sheet, without what is beyond the demand.
    fn bins(&self) -> (Vec<Bin>, Vec<u32>) {
        let mut remaining = self.demand();
        let mut left = search::all_sheets(self.inst);
        let mut bins = Vec::new();
        for &(number, times) in &self.best.used {
            let pattern = &self.pool.patterns[number];
            for _ in 0..times {
                let mut placed = pattern.placed.clone();
                pool::limit(&mut placed, &remaining);
                search::take(&mut left[pattern.sheet], 1);
                let mut used = 0;
                for p in &placed {
                    remaining[p.kind] -= 1;
                    used += self.inst.kinds[p.kind].area();
                }
                bins.push(Bin { sheet: pattern.sheet, placed, used, rule: None });
            }
        }
        (bins, left)
    }

    fn improve(&mut self, steps: u64) {
        if self.best.short() > 0 {
            return;
        }
        let cost =
            |bins: &[Bin]| -> i64 { bins.iter().map(|b| self.inst.sheets[b.sheet].cost).sum() };
        let current = self.current.take().filter(|(bins, _)| cost(bins) <= self.best.cost);
        let (mut bins, mut left) = current.unwrap_or_else(|| self.bins());
        let (inst, pool) = (self.inst, &mut self.pool);
        let mut seen = |bin: &Bin| {
            if pool.patterns.len() < MOST_PATTERNS {
                pool.add(inst, bin.sheet, bin.placed.clone());
            }
        };
        let goal = self.proof.as_ref().map_or(0, |p| p.bound);
        self.search.improve(&mut bins, &mut left, goal, steps, self.meter, &mut seen);
        let single: Vec<(Bin, u32)> = bins.iter().map(|b| (b.clone(), 1)).collect();
        self.current = Some((bins, left));
        self.offer_bins(&single, vec![0; inst.kinds.len()]);
    }

    /// More columns: whole plans made by pricing what remains at perturbed duals.
    fn columns(&mut self, master: &mut Master<'a>) {
        let budget = self.meter.left().min(150_000_000);
        let until = self.meter.spent() + budget;
        master.take_in(&self.pool);
        master.lp.primal();
        self.meter.spend(master.lp.take_steps());
        let duals = master.duals().to_vec();
        while self.meter.spent() < until && !self.done() {
            let mut remaining = self.demand();
            let mut left = search::all_sheets(self.inst);
            let mut used: Vec<(usize, u32)> = Vec::new();
            let noise = self.rng.unit() * 0.5;
            while remaining.iter().any(|n| *n > 0) && self.meter.spent() < until {
                let prices: Vec<f64> = duals
                    .iter()
                    .zip(&remaining)
                    .map(|(d, n)| {
                        let price = (d + 1e-4) * (1.0 + noise * (self.rng.unit() - 0.5));
                        if *n > 0 { price } else { 0.0 }
                    })
                    .collect();
                let Some(number) = self.best_for(master, &prices, &remaining, &left) else {
                    break;
                };
                let pattern = &self.pool.patterns[number];
                let times = pattern
                    .counts
                    .iter()
                    .map(|(k, n)| remaining[*k] / n)
                    .min()
                    .unwrap_or(1)
                    .min(left[pattern.sheet])
                    .max(1);
                for (kind, n) in &pattern.counts {
                    remaining[*kind] = remaining[*kind].saturating_sub(n * times);
                }
                search::take(&mut left[pattern.sheet], times);
                used.push((number, times));
            }
            if remaining.iter().all(|n| *n == 0) {
                self.offer(used, remaining);
            }
        }
    }

    /// The pattern worth most beside its sheet's cost of those that only use what remains:
    /// priced ones, cut down to what remains and filled up, and quickly filled ones.
    fn best_for(
        &mut self,
        master: &mut Master<'a>,
        prices: &[f64],
        remaining: &[u32],
        left: &[u32],
    ) -> Option<usize> {
        let quick = master.pricing_work() > 5_000_000 && self.rng.below(4) > 0;
        let numbers =
            master.more_columns(prices, quick, &mut self.pool, &mut self.rng, self.meter);
        let mut candidates: Vec<(usize, Vec<Placed>)> = Vec::new();
        for (sheet, number) in numbers {
            let mut placed = self.pool.patterns[number].placed.clone();
            pool::limit(&mut placed, remaining);
            candidates.push((sheet, placed));
        }
        let mut kinds: Vec<usize> =
            (0..remaining.len()).filter(|k| remaining[*k] > 0).collect();
        for sheet in 0..left.len() {
            for _ in 0..20 {
                self.search.order_by_price(&mut kinds, prices);
                let (mut placed, mut rest) = (Vec::new(), remaining.to_vec());
                self.search.fill(sheet, &kinds, &mut rest, &mut placed);
                candidates.push((sheet, placed));
            }
        }
        self.meter.spend(20 * (remaining.len() as u64) * 40);
        let worth = |(sheet, placed): &(usize, Vec<Placed>)| {
            let sum: f64 = placed.iter().map(|p| prices[p.kind]).sum();
            sum / (self.inst.sheets[*sheet].cost as f64).max(1e-3)
        };
        let (sheet, placed) = candidates
            .into_iter()
            .filter(|(sheet, placed)| left[*sheet] > 0 && !placed.is_empty())
            .max_by(|a, b| worth(a).total_cmp(&worth(b)))?;
        self.pool.add(self.inst, sheet, placed).map(|(number, _)| number)
    }
}
