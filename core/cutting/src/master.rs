//! The covering master over every pattern seen, and how its columns are generated.
//!
//! Gilmore and Gomory's (1961, 1963, 1965) column generation, with duals smoothed after
//! Wentges (1997) and Pessoa et al. (2018).

#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "duals become whole-number prices here, rounded down to the safe side"
)]

use crate::bound::{self, Proof};
use crate::effort::Meter;
use crate::pool::Pool;
use crate::prepare::Instance;
use crate::pricing::{EXACT, Pricer};
use crate::rng::Rng;
use crate::simplex::Simplex;

#[derive(Debug)]
pub(crate) struct Master<'a> {
    inst: &'a Instance,
    pub(crate) lp: Simplex,
    /// Columns before the first pattern's.
    own: usize,
    /// Patterns taken in so far; column `own + i` is pattern `i`.
    pub(crate) taken: usize,
    /// For each limited sheet its row.
    rows: Vec<Option<usize>>,
    pricers: Vec<Pricer>,
    /// Price units for one grain.
    scale: f64,
    pub(crate) proof: Option<Proof>,
    /// Duals at which the best bound was found.
    centre: Vec<f64>,
    /// No column is missing that could lower the relaxation's (rounded) value.
    pub(crate) complete: bool,
}

/// Cost of leaving one piece out, beside that of the dearest sheet.
const MISSING: i64 = 20;

impl<'a> Master<'a> {
    pub(crate) fn new(inst: &'a Instance) -> Self {
        let pricers = (0..inst.sheets.len()).map(|s| Pricer::new(inst, s)).collect();
        Self { pricers, ..Self::without_pricing(inst) }
    }

    /// Over the patterns of `pool` alone.
    pub(crate) fn over(inst: &'a Instance, pool: &Pool) -> Self {
        let mut master = Self::without_pricing(inst);
        master.take_in(pool);
        master
    }

    fn without_pricing(inst: &'a Instance) -> Self {
        let dearest = inst.sheets.iter().map(|s| s.cost).max().unwrap_or(1).max(1);
        let kinds = inst.kinds.len();
        let mut rows = Vec::new();
        let mut at_most = Vec::new();
        for sheet in &inst.sheets {
            rows.push(sheet.avail.map(|n| {
                at_most.push(f64::from(n));
                kinds + at_most.len() - 1
            }));
        }
        let at_least: Vec<f64> = inst.kinds.iter().map(|k| f64::from(k.copies)).collect();
        let missing = vec![(dearest * MISSING) as f64; kinds];
        Self {
            inst,
            lp: Simplex::new(&at_least, &at_most, &missing),
            own: Simplex::own_columns(kinds, at_most.len()),
            taken: 0,
            rows,
            pricers: Vec::new(),
            scale: f64::from(EXACT) / 4.0 / dearest as f64,
            proof: None,
            centre: Vec::new(),
            complete: false,
        }
    }

    /// Steps of one exact pricing of every sheet.
    pub(crate) fn pricing_work(&self) -> u64 {
        self.pricers.iter().map(Pricer::work).sum()
    }

    pub(crate) const fn pattern_of(&self, column: usize) -> Option<usize> {
        column.checked_sub(self.own)
    }

    pub(crate) const fn column_of(&self, pattern: usize) -> usize {
        pattern + self.own
    }

    /// Right-hand side for what remains.
    pub(crate) fn rhs(&self, remaining: &[u32], left: &[u32]) -> Vec<f64> {
        let limited = self.rows.iter().zip(left).filter(|(row, _)| row.is_some());
        remaining.iter().chain(limited.map(|(_, n)| n)).map(|n| f64::from(*n)).collect()
    }

    /// Takes in the patterns that are new since last time.
    pub(crate) fn take_in(&mut self, pool: &Pool) {
        for pattern in &pool.patterns[self.taken..] {
            let cost = self.inst.sheets[pattern.sheet].cost as f64;
            let pieces = pattern.counts.iter().map(|(k, n)| (*k, f64::from(*n)));
            self.lp.add(cost, pieces.chain(self.rows[pattern.sheet].map(|row| (row, 1.0))));
        }
        self.taken = pool.patterns.len();
    }

    /// Duals of the pieces.
    pub(crate) fn duals(&self) -> &[f64] {
        &self.lp.duals()[..self.inst.kinds.len()]
    }

    pub(crate) fn whole_prices(&self, duals: &[f64]) -> Vec<f32> {
        duals.iter().map(|d| (d.max(0.0) * self.scale + 1e-6).floor().min(1e7) as f32).collect()
    }

    /// Prices every sheet; new patterns worth more than their sheet at `duals` (those of the
    /// whole programme) join the pool. Returns whether any did.
    fn price(
        &mut self,
        at: &[f64],
        quick: bool,
        pool: &mut Pool,
        rng: &mut Rng,
        meter: &mut Meter<'_>,
    ) -> bool {
        let whole = self.whole_prices(at);
        let duals = self.lp.duals().to_vec();
        let mut most = Vec::new();
        let mut found = false;
        for sheet in 0..self.pricers.len() {
            let pricer = &mut self.pricers[sheet];
            meter.spend(if quick { pricer.quick_work().unwrap_or(0) } else { pricer.work() });
            let (sells, patterns) = pricer.price(&whole, quick, rng, 3);
            most.push(sells);
            let rent = self.rows[sheet].map_or(0.0, |row| duals[row]);
            let price = self.inst.sheets[sheet].cost as f64 - rent;
            if pricer.rounded {
                continue;
            }
            for placed in patterns {
                // As priced, for the bound; and held to the demand, for plans.
                let as_is = pool.add_as_is(sheet, placed.clone());
                pool.add(self.inst, sheet, placed);
                let Some((number, new)) = as_is else { continue };
                let counts = &pool.patterns[number].counts;
                let worth: f64 = counts.iter().map(|(k, n)| duals[*k] * f64::from(*n)).sum();
                found |= new && worth > price + 1e-7;
            }
        }
        if !quick && most.iter().all(|v| *v < EXACT) {
            let counted =
                |values: &[f32]| values.iter().map(|v| *v as i64).collect::<Vec<i64>>();
            let (prices, most) = (counted(&whole), counted(&most));
            if let Some(proof) = bound::prove(self.inst, &prices, &most)
                && self.proof.as_ref().is_none_or(|best| proof.exact > best.exact)
            {
                self.centre = at.to_vec();
                self.proof = Some(proof);
            }
        }
        found
    }

    /// The best rounded bound so far, in grains.
    pub(crate) fn lower(&self) -> i64 {
        self.proof.as_ref().map_or(0, |p| p.bound)
    }

    /// Generates columns until the relaxation is solved, as far as rounding needs it, or the
    /// bound reaches `upper`.
    pub(crate) fn generate(
        &mut self,
        pool: &mut Pool,
        upper: i64,
        rng: &mut Rng,
        meter: &mut Meter<'_>,
    ) {
        let mut quick =
            self.pricers.iter().all(|p| p.quick_work().is_some_and(|q| q * 4 < p.work()));
        let mut smooth = 0.5;
        self.complete = false;
        loop {
            self.take_in(pool);
            self.lp.primal();
            let steps = self.lp.take_steps();
            if meter.spend(steps) {
                return;
            }
            if self.lower() >= upper || self.lp.objective() <= self.lower() as f64 + 1e-6 {
                break;
            }
            let duals = self.duals().to_vec();
            if quick {
                quick = self.price(&duals, true, pool, rng, meter);
                continue;
            }
            let at: Vec<f64> = if self.centre.is_empty() || smooth <= 0.0 {
                duals
            } else {
                let mixed = duals.iter().zip(&self.centre);
                mixed.map(|(d, c)| (1.0 - smooth) * d + smooth * c).collect()
            };
            let found = self.price(&at, false, pool, rng, meter);
            if found {
                smooth = 0.5;
            } else if smooth > 0.0 && !self.centre.is_empty() {
                smooth = 0.0;
            } else {
                break;
            }
            if meter.over() {
                return;
            }
        }
        self.complete = true;
    }

    /// Patterns for prices that are a little off, or for what remains alone.
    pub(crate) fn more_columns(
        &mut self,
        at: &[f64],
        quick: bool,
        pool: &mut Pool,
        rng: &mut Rng,
        meter: &mut Meter<'_>,
    ) -> Vec<(usize, usize)> {
        let whole = self.whole_prices(at);
        let mut numbers = Vec::new();
        for sheet in 0..self.pricers.len() {
            let pricer = &mut self.pricers[sheet];
            let quick = quick && pricer.quick_work().is_some();
            if pricer.rounded {
                continue;
            }
            meter.spend(if quick { pricer.quick_work().unwrap_or(0) } else { pricer.work() });
            for placed in pricer.price(&whole, quick, rng, 2).1 {
                if let Some((number, _)) = pool.add(self.inst, sheet, placed) {
                    numbers.push((sheet, number));
                }
            }
        }
        numbers
    }
}
