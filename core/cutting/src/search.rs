//! Local search: empty a few sheets and fill them again, keep what is no worse.
//!
//! After Falkenauer (1996) the squares of the fillings are summed: full sheets beside a
//! nearly empty one beat evenly filled ones, and the emptiest can one day be left out.

#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "areas are compared as shares; a rounded last digit changes nothing that counts"
)]

use crate::effort::Meter;
use crate::fill::{Filler, Rule, Task};
use crate::prepare::{Instance, Placed};
use crate::rng::Rng;

/// One sheet, cut.
#[derive(Clone, Debug)]
pub(crate) struct Bin {
    pub(crate) sheet: usize,
    pub(crate) placed: Vec<Placed>,
    pub(crate) used: i64,
    /// The rule that filled it in the order of `placed`, where one did.
    pub(crate) rule: Option<Rule>,
}

impl Bin {
    fn share(&self, inst: &Instance) -> f64 {
        self.used as f64 / inst.sheets[self.sheet].area() as f64
    }
}

/// Marks a stock without limit in a list of what is left.
pub(crate) const NO_LIMIT: u32 = u32::MAX;

/// How many there are of each sheet.
pub(crate) fn all_sheets(inst: &Instance) -> Vec<u32> {
    inst.sheets.iter().map(|s| s.avail.map_or(NO_LIMIT, |n| n.min(NO_LIMIT - 1))).collect()
}

pub(crate) fn take(left: &mut u32, n: u32) {
    if *left != NO_LIMIT {
        *left -= n;
    }
}

pub(crate) fn put_back(left: &mut u32, n: u32) {
    if *left != NO_LIMIT {
        *left += n;
    }
}

#[derive(Debug)]
pub(crate) struct Search<'a> {
    inst: &'a Instance,
    filler: Filler,
    pub(crate) rng: Rng,
    keyed: Vec<(f64, usize)>,
}

impl<'a> Search<'a> {
    pub(crate) fn new(inst: &'a Instance, seed: u64) -> Self {
        let (filler, rng) = (Filler::default(), Rng::new(seed));
        Self { inst, filler, rng, keyed: Vec::new() }
    }

    /// Sorts kinds by one of several measures of size, largest first, more or less strictly.
    fn order(&mut self, kinds: &mut [usize], strict: bool) {
        let measure = self.rng.below(6);
        let noise = if strict { 0.0 } else { [0.0, 0.1, 0.3, 0.6, 1.0][self.rng.below(5)] };
        self.keyed.clear();
        for &kind in kinds.iter() {
            let k = &self.inst.kinds[kind];
            let (w, h) = (k.w as f64, k.h as f64);
            let size = match measure {
                0 | 1 => w * h,
                2 => w.max(h) * 1e3 + w.min(h),
                3 => w + h,
                4 => w * 1e3 + h,
                _ => h * 1e3 + w,
            };
            self.keyed.push((size * (1.0 + noise * (self.rng.unit() - 0.5)), kind));
        }
        self.keyed.sort_by(|a, b| b.0.total_cmp(&a.0));
        for (slot, (_, kind)) in kinds.iter_mut().zip(&self.keyed) {
            *slot = *kind;
        }
    }

    /// Kinds by what they sell for per area, more or less strictly.
    pub(crate) fn order_by_price(&mut self, kinds: &mut [usize], prices: &[f64]) {
        let noise = self.rng.unit() * 0.6;
        self.keyed.clear();
        for &kind in kinds.iter() {
            let k = &self.inst.kinds[kind];
            let dear = prices[kind] / (k.area() as f64).powf(0.3 + 0.7 * self.rng.unit());
            self.keyed.push((dear * (1.0 + noise * (self.rng.unit() - 0.5)), kind));
        }
        self.keyed.sort_by(|a, b| b.0.total_cmp(&a.0));
        for (slot, (_, kind)) in kinds.iter_mut().zip(&self.keyed) {
            *slot = *kind;
        }
    }

    pub(crate) fn shuffle_by_size(&mut self, kinds: &mut [usize]) {
        self.order(kinds, false);
    }

    pub(crate) fn fill(
        &mut self,
        sheet: usize,
        order: &[usize],
        remaining: &mut [u32],
        placed: &mut Vec<Placed>,
    ) -> i64 {
        self.fill_in(self.inst, sheet, order, remaining, placed)
    }

    /// By a given rule or else by a random one; the area covered and the rule, where filling by
    /// it again would give the same.
    fn fill_by(
        &mut self,
        rule: Option<Rule>,
        sheet: usize,
        order: &[usize],
        remaining: &mut [u32],
        placed: &mut Vec<Placed>,
    ) -> (i64, Option<Rule>) {
        if rule.is_none() && self.rng.below(2) == 0 {
            return (self.fill(sheet, order, remaining, placed), None);
        }
        let rng = &mut self.rng;
        let rule = rule.unwrap_or_else(|| Rule::random(rng));
        let task = Task { sheet, order, rule };
        (self.filler.fill(self.inst, task, remaining, rng, placed), Some(rule))
    }

    /// Moves one to three kinds elsewhere in the order.
    fn disturb(&mut self, kinds: &mut Vec<usize>) {
        for _ in 0..=self.rng.below(3) {
            let kind = kinds.remove(self.rng.below(kinds.len()));
            kinds.insert(self.rng.below(kinds.len() + 1), kind);
        }
    }

    /// As [`Self::fill`], in a sheet of another instance with the same kinds.
    pub(crate) fn fill_in(
        &mut self,
        inst: &Instance,
        sheet: usize,
        order: &[usize],
        remaining: &mut [u32],
        placed: &mut Vec<Placed>,
    ) -> i64 {
        let rng = &mut self.rng;
        let task = Task { sheet, order, rule: Rule::random(rng) };
        if rng.below(2) == 0 {
            self.filler.fill_parts(inst, task, remaining, rng, placed)
        } else {
            self.filler.fill(inst, task, remaining, rng, placed)
        }
    }

    /// Sheet after sheet until nothing remains, each the best of `tries`; a good sheet is
    /// repeated as often as it can be. Pieces that found no place stay in `remaining`.
    pub(crate) fn greedy(
        &mut self,
        remaining: &mut [u32],
        left: &mut [u32],
        tries: usize,
        meter: &mut Meter<'_>,
    ) -> Vec<(Bin, u32)> {
        let mut bins = Vec::new();
        let mut kinds: Vec<usize> =
            (0..remaining.len()).filter(|k| remaining[*k] > 0).collect();
        while !kinds.is_empty() {
            let mut best: Option<(f64, Bin)> = None;
            let in_stock = left.iter().enumerate().filter(|(_, n)| **n > 0);
            for (sheet, _) in in_stock {
                for _ in 0..tries {
                    self.order(&mut kinds, tries == 1);
                    let mut placed = Vec::new();
                    let mut rest = remaining.to_vec();
                    let used = self.fill(sheet, &kinds, &mut rest, &mut placed);
                    if placed.is_empty() {
                        break;
                    }
                    let s = &self.inst.sheets[sheet];
                    // Free sheets come before paid ones, fuller before emptier.
                    let worth = if s.cost == 0 {
                        1e30 * (used as f64 / s.area() as f64)
                    } else {
                        used as f64 / s.cost as f64
                    };
                    if best.as_ref().is_none_or(|b| worth > b.0) {
                        best = Some((worth, Bin { sheet, placed, used, rule: None }));
                    }
                }
            }
            let Some((_, bin)) = best else { break };
            let counts = crate::pool::counts(&bin.placed);
            let times = counts.iter().map(|(k, n)| remaining[*k] / n).min().unwrap_or(1);
            let times = times.min(left[bin.sheet]).max(1);
            for (kind, n) in counts {
                remaining[kind] -= n * times;
            }
            take(&mut left[bin.sheet], times);
            bins.push((bin, times));
            kinds.retain(|k| remaining[*k] > 0);
            let steps = std::mem::take(&mut self.filler.steps);
            // The first plan is made whatever the effort.
            if meter.spend(steps * 4) && tries > 1 {
                break;
            }
        }
        bins
    }

    /// Improves `bins` until their cost is at most `goal` or `steps` are spent. `left` is
    /// what remains of each sheet. Bins that changed go to `seen`.
    pub(crate) fn improve(
        &mut self,
        bins: &mut Vec<Bin>,
        left: &mut [u32],
        goal: i64,
        steps: u64,
        meter: &mut Meter<'_>,
        seen: &mut dyn FnMut(&Bin),
    ) {
        let inst = self.inst;
        let mut cost: i64 = bins.iter().map(|b| inst.sheets[b.sheet].cost).sum();
        let mut remaining = vec![0_u32; inst.kinds.len()];
        let mut kinds: Vec<usize> = Vec::new();
        let mut chosen: Vec<usize> = Vec::new();
        let mut spent = 0;
        let mixed = inst.sheets.len() > 1;
        while cost > goal && spent < steps && !bins.is_empty() {
            self.choose(bins, &mut chosen);
            // Mostly the order in which the bins were filled is only changed a little.
            let keep = self.rng.below(3) > 0;
            if keep {
                chosen.sort_by(|a, b| bins[*b].share(inst).total_cmp(&bins[*a].share(inst)));
            }
            for &kind in &kinds {
                remaining[kind] = 0;
            }
            kinds.clear();
            let (mut old_cost, mut old_score) = (0, 0.0);
            for &at in &chosen {
                let bin = &bins[at];
                for p in &bin.placed {
                    if remaining[p.kind] == 0 {
                        kinds.push(p.kind);
                    }
                    remaining[p.kind] += 1;
                }
                old_cost += inst.sheets[bin.sheet].cost;
                old_score += bin.share(inst).powi(2);
            }
            if keep {
                self.disturb(&mut kinds);
            } else {
                self.order(&mut kinds, false);
            }
            let mut new: Vec<Bin> = Vec::with_capacity(chosen.len());
            let (mut new_cost, mut new_score) = (0, 0.0);
            let mut pieces: usize = chosen.iter().map(|at| bins[*at].placed.len()).sum();
            let shuffle = if keep { 0 } else { self.rng.below(chosen.len()) };
            for slot in 0..chosen.len() {
                let &Bin { sheet: own, rule, .. } =
                    &bins[chosen[(slot + shuffle) % chosen.len()]];
                let sheet = if mixed && self.rng.below(3) == 0 {
                    let other = self.rng.below(inst.sheets.len());
                    // Enough are left even if every sheet so far was of this kind.
                    let spare = left[other] as usize > chosen.len();
                    if spare { other } else { own }
                } else {
                    own
                };
                let mut placed = Vec::new();
                let rule = rule.filter(|_| keep && self.rng.below(8) > 0);
                let (used, rule) =
                    self.fill_by(rule, sheet, &kinds, &mut remaining, &mut placed);
                if placed.is_empty() {
                    continue;
                }
                pieces -= placed.len();
                new_cost += inst.sheets[sheet].cost;
                let bin = Bin { sheet, placed, used, rule };
                new_score += bin.share(inst).powi(2);
                new.push(bin);
                if pieces == 0 || new_cost > old_cost {
                    break;
                }
            }
            let work = std::mem::take(&mut self.filler.steps) * 4 + 400;
            spent += work;
            if meter.spend(work) {
                break;
            }
            let slack = if self.rng.below(16) == 0 { 0.02 } else { 1e-9 };
            let better =
                new_cost < old_cost || (new_cost == old_cost && new_score + slack >= old_score);
            if pieces > 0 || !better {
                continue;
            }
            if Self::same_sheets(&new, &chosen, bins, left) {
                cost += new_cost - old_cost;
                for bin in &new {
                    seen(bin);
                }
                chosen.sort_unstable_by(|a, b| b.cmp(a));
                for &at in &chosen {
                    bins.swap_remove(at);
                }
                bins.append(&mut new);
            }
        }
    }

    /// Swaps the chosen bins' sheets for the new ones' where what is left allows it.
    fn same_sheets(new: &[Bin], chosen: &[usize], bins: &[Bin], left: &mut [u32]) -> bool {
        for &at in chosen {
            put_back(&mut left[bins[at].sheet], 1);
        }
        let mut taken = 0;
        for bin in new {
            if left[bin.sheet] == 0 {
                break;
            }
            take(&mut left[bin.sheet], 1);
            taken += 1;
        }
        if taken == new.len() {
            return true;
        }
        for bin in &new[..taken] {
            put_back(&mut left[bin.sheet], 1);
        }
        for &at in chosen {
            take(&mut left[bins[at].sheet], 1);
        }
        false
    }

    /// One to four bins, often with the emptiest among them.
    fn choose(&mut self, bins: &[Bin], chosen: &mut Vec<usize>) {
        chosen.clear();
        let most = [1, 2, 2, 2, 2, 3, 3, 3, 4, 4][self.rng.below(10)].min(bins.len());
        if self.rng.below(2) == 0 {
            let share = |b: &Bin| b.share(self.inst);
            let emptiest =
                (0..bins.len()).min_by(|a, b| share(&bins[*a]).total_cmp(&share(&bins[*b])));
            chosen.extend(emptiest);
        }
        while chosen.len() < most {
            let at = self.rng.below(bins.len());
            if !chosen.contains(&at) {
                chosen.push(at);
            }
        }
    }
}
