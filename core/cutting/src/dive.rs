//! Dives into the covering master: fix the surest, solve again, finish by local search.

#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "levels of the relaxation become whole numbers of sheets here"
)]

use crate::master::Master;
use crate::search::{self, Bin};
use crate::solver::{MOST_PATTERNS, Solver};

/// Fewer pieces than this are left to the local search.
const FEW: u32 = 60;

impl<'a> Solver<'a, '_> {
    /// Dives into the relaxation over all patterns seen: fix the surest, solve again.
    pub(crate) fn dives(&mut self, master: &mut Master<'a>, round: u32) {
        master.take_in(&self.pool);
        master.lp.primal();
        self.meter.spend(master.lp.take_steps());
        let budget = self.meter.left().min(150_000_000 + u64::from(round) * 50_000_000);
        let until = self.meter.spent() + budget;
        let mut first = true;
        while !self.done() && self.meter.spent() < until {
            let root = master.lp.save();
            self.dive(master, if first { 0.0 } else { 0.3 });
            first = false;
            let demand = self.demand();
            let left = search::all_sheets(self.inst);
            let rhs = master.rhs(&demand, &left);
            master.lp.set_rhs(&rhs);
            master.lp.restore(&root);
            if master.taken < self.pool.patterns.len() {
                master.take_in(&self.pool);
            }
            master.lp.primal();
            self.meter.spend(master.lp.take_steps());
            if self.best.short() == 0
                && master.lp.objective() > self.best.cost as f64 - 1.0 + 1e-6
            {
                // No combination of the patterns seen can be better.
                return;
            }
        }
    }

    fn dive(&mut self, master: &mut Master<'a>, noise: f64) {
        let mut remaining = self.demand();
        let mut left = search::all_sheets(self.inst);
        let mut used: Vec<(usize, u32)> = Vec::new();
        let mut fixed = 0_i64;
        while remaining.iter().any(|n| *n > 0) {
            if self.done() {
                return;
            }
            let goal = if self.best.short() == 0 { self.best.cost - 1 } else { i64::MAX / 4 };
            if fixed as f64 + master.lp.objective() > goal as f64 + 1e-6 {
                return;
            }
            if self.complete(&used, &remaining, &left, goal - fixed) {
                return;
            }
            let mut sure: Vec<(usize, u32)> = Vec::new();
            let mut likely: Option<(f64, usize)> = None;
            for (column, level) in master.lp.levels() {
                let Some(number) = master.pattern_of(column) else { continue };
                let whole = (level + 1e-6).floor();
                if whole >= 1.0 {
                    sure.push((number, whole as u32));
                } else if level > 1e-6 {
                    let key = level + noise * self.rng.unit();
                    if likely.is_none_or(|(best, _)| key > best) {
                        likely = Some((key, number));
                    }
                }
            }
            if sure.is_empty() {
                let Some((_, number)) = likely else { return };
                sure.push((number, 1));
            }
            let mut progress = false;
            for (number, times) in sure {
                let pattern = &self.pool.patterns[number];
                let useful = pattern
                    .counts
                    .iter()
                    .map(|(k, n)| remaining[*k].div_ceil(*n))
                    .max()
                    .unwrap_or(0);
                let times = times.min(useful).min(left[pattern.sheet]);
                if times == 0 {
                    continue;
                }
                progress = true;
                for (kind, n) in &pattern.counts {
                    remaining[*kind] = remaining[*kind].saturating_sub(n * times);
                }
                search::take(&mut left[pattern.sheet], times);
                fixed += self.inst.sheets[pattern.sheet].cost * i64::from(times);
                used.push((number, times));
            }
            if !progress {
                return;
            }
            let rhs = master.rhs(&remaining, &left);
            master.lp.set_rhs(&rhs);
            master.lp.dual();
            self.meter.spend(master.lp.take_steps());
        }
        self.offer(used, remaining);
    }

    /// Tries to cut what remains from sheets that cost at most `goal`, where little remains.
    fn complete(
        &mut self,
        used: &[(usize, u32)],
        remaining: &[u32],
        left: &[u32],
        goal: i64,
    ) -> bool {
        let pieces: u32 = remaining.iter().sum();
        if used.is_empty() || pieces > FEW {
            return false;
        }
        let mut rest = remaining.to_vec();
        let mut spare = left.to_vec();
        let bins = self.search.greedy(&mut rest, &mut spare, 2, self.meter);
        if rest.iter().any(|n| *n > 0) {
            return false;
        }
        let mut single: Vec<Bin> = Vec::new();
        for (bin, times) in bins {
            single.extend((0..times).map(|_| bin.clone()));
        }
        let cost =
            |bins: &[Bin]| -> i64 { bins.iter().map(|b| self.inst.sheets[b.sheet].cost).sum() };
        if cost(&single) > goal {
            let (inst, pool) = (self.inst, &mut self.pool);
            let mut seen = |bin: &Bin| {
                if pool.patterns.len() < MOST_PATTERNS {
                    pool.add(inst, bin.sheet, bin.placed.clone());
                }
            };
            self.search.improve(
                &mut single,
                &mut spare,
                goal,
                1_500_000,
                self.meter,
                &mut seen,
            );
        }
        if cost(&single) > goal {
            return false;
        }
        let mut all = used.to_vec();
        for bin in single {
            if let Some((number, _)) = self.pool.add(self.inst, bin.sheet, bin.placed) {
                match all.iter_mut().find(|(p, _)| *p == number) {
                    Some((_, n)) => *n += 1,
                    None => all.push((number, 1)),
                }
            }
        }
        self.offer(all, vec![0; self.inst.kinds.len()]);
        true
    }
}
