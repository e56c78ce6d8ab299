//! Branch and bound over the patterns seen: is there a combination that costs less?
//!
//! Only patterns whose reduced cost fits between the relaxation and the cost that is sought
//! can be in such a plan; where the relaxation is close below, few are left. Of these one
//! after another is given its final number of sheets, the numbers beside its level in the
//! relaxation first. The relaxation's value is convex in that number: where one number is too
//! dear, all beyond it are.

#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "levels of the relaxation become whole numbers of sheets here"
)]

use crate::effort::Meter;
use crate::master::Master;
use crate::pool::Pool;
use crate::prepare::Instance;
use crate::rng::Rng;
use crate::search;
use crate::simplex::Basis;
use crate::solver::Solver;

/// More patterns than this are too many to combine.
const MOST: usize = 3_000;

/// Levels closer than this to a whole number count as whole.
const WHOLE: f64 = 1e-6;

impl<'a> Solver<'a, '_> {
    /// Seeks a combination of the patterns seen that costs less than the best plan, for at
    /// most `budget` steps.
    pub(crate) fn branch(&mut self, master: &mut Master<'a>, budget: u64, noise: f64) {
        if self.best.short() > 0 {
            return;
        }
        master.take_in(&self.pool);
        master.lp.primal();
        self.meter.spend(master.lp.take_steps());
        let goal = (self.best.cost - 1) as f64 + WHOLE;
        let slack = goal - master.lp.objective();
        if slack < 0.0 {
            return;
        }
        let fits = |p: &usize| master.lp.reduced_cost(master.column_of(*p)) <= slack;
        let numbers: Vec<usize> = (0..self.pool.patterns.len()).filter(fits).collect();
        if numbers.len() > MOST {
            return;
        }
        let mut few = Pool::default();
        for number in &numbers {
            let pattern = &self.pool.patterns[*number];
            few.add_as_is(pattern.sheet, pattern.placed.clone());
        }
        let mut tree = Tree {
            inst: self.inst,
            master: Master::over(self.inst, &few),
            few: &few,
            remaining: self.demand().into_iter().map(i64::from).collect(),
            left: search::all_sheets(self.inst),
            used: Vec::new(),
            fixed: 0,
            goal,
            noise,
            rng: &mut self.rng,
            until: self.meter.spent() + budget.min(self.meter.left()),
            meter: self.meter,
        };
        tree.master.lp.primal();
        if tree.go() == Some(true) {
            let used = tree.used.iter().map(|(p, n)| (numbers[*p], *n)).collect();
            self.offer(used, vec![0; self.inst.kinds.len()]);
        }
    }
}

struct Tree<'t, 'a, 'm> {
    inst: &'a Instance,
    master: Master<'a>,
    few: &'t Pool,
    /// Below 0 where more is cut than is wanted.
    remaining: Vec<i64>,
    left: Vec<u32>,
    /// Patterns with their final numbers of sheets.
    used: Vec<(usize, u32)>,
    fixed: i64,
    goal: f64,
    noise: f64,
    rng: &'t mut Rng,
    until: u64,
    meter: &'t mut Meter<'m>,
}

impl Tree<'_, '_, '_> {
    /// From an optimal relaxation of what remains. `Some(true)`: a plan was found and is in
    /// `used`; `None`: the budget is gone.
    fn go(&mut self) -> Option<bool> {
        self.meter.spend(self.master.lp.take_steps());
        if self.meter.over() || self.meter.spent() > self.until {
            return None;
        }
        if self.too_dear() {
            return Some(false);
        }
        let Some((pattern, level)) = self.undecided() else {
            let before = self.used.len();
            let whole = self.take_whole();
            while !whole && self.used.len() > before {
                let Some(&(pattern, number)) = self.used.last() else { break };
                self.undo(pattern, number);
            }
            return Some(whole);
        };
        let column = self.master.column_of(pattern);
        let before = self.master.lp.save();
        let cost = self.master.lp.forbid(column);
        self.master.lp.primal();
        let without = self.master.lp.save();
        let most = self.left[self.few.patterns[pattern].sheet];
        let floor = level.floor().max(0.0) as u32;
        let (mut low, mut high) = (Some(floor), (floor < most).then_some(floor + 1));
        let mut upwards = level - level.floor() > 0.3;
        let mut answer = Some(false);
        while answer == Some(false) {
            upwards = (upwards && high.is_some()) || low.is_none();
            let Some(number) = (if upwards { high } else { low }) else { break };
            self.decide(pattern, number, &without);
            let hopeless = self.too_dear();
            if !hopeless {
                answer = self.go();
            }
            if answer != Some(true) {
                self.undo(pattern, number);
            }
            // Beyond a number that is too dear all are.
            if upwards {
                high = (!hopeless && number < most).then_some(number + 1);
            } else {
                low = if hopeless { None } else { number.checked_sub(1) };
            }
            upwards = !upwards;
        }
        self.master.lp.allow(column, cost);
        if answer == Some(false) {
            let rhs = self.rhs();
            self.master.lp.set_rhs(&rhs);
            self.master.lp.restore(&before);
        }
        answer
    }

    fn too_dear(&self) -> bool {
        self.fixed as f64 + self.master.lp.objective() > self.goal
    }

    /// The pattern to decide next with its level: the surest of those that are not whole.
    fn undecided(&mut self) -> Option<(usize, f64)> {
        let mut best: Option<(f64, usize, f64)> = None;
        for (column, level) in self.master.lp.levels() {
            let Some(pattern) = self.master.pattern_of(column) else { continue };
            let part = level - (level + WHOLE).floor();
            if part > WHOLE {
                let key = part + self.noise * self.rng.unit();
                if best.is_none_or(|(b, _, _)| key > b) {
                    best = Some((key, pattern, level));
                }
            }
        }
        best.map(|(_, pattern, level)| (pattern, level))
    }

    /// All levels are whole: so many sheets of each pattern.
    fn take_whole(&mut self) -> bool {
        let levels: Vec<(usize, f64)> = self.master.lp.levels().collect();
        for (column, level) in levels {
            if let Some(pattern) = self.master.pattern_of(column)
                && level > 0.5
            {
                self.take(pattern, level.round() as u32);
            }
        }
        self.remaining.iter().all(|n| *n <= 0)
    }

    fn rhs(&self) -> Vec<f64> {
        let remaining: Vec<u32> =
            self.remaining.iter().map(|n| u32::try_from(*n).unwrap_or(0)).collect();
        self.master.rhs(&remaining, &self.left)
    }

    fn take(&mut self, pattern: usize, number: u32) {
        let found = &self.few.patterns[pattern];
        for (kind, n) in &found.counts {
            self.remaining[*kind] -= i64::from(*n) * i64::from(number);
        }
        search::take(&mut self.left[found.sheet], number);
        self.fixed += self.inst.sheets[found.sheet].cost * i64::from(number);
        self.used.push((pattern, number));
    }

    fn undo(&mut self, pattern: usize, number: u32) {
        let found = &self.few.patterns[pattern];
        for (kind, n) in &found.counts {
            self.remaining[*kind] += i64::from(*n) * i64::from(number);
        }
        search::put_back(&mut self.left[found.sheet], number);
        self.fixed -= self.inst.sheets[found.sheet].cost * i64::from(number);
        self.used.pop();
    }

    /// Settles on `number` sheets of a pattern that is now forbidden, and relaxes the rest.
    fn decide(&mut self, pattern: usize, number: u32, without: &Basis) {
        self.take(pattern, number);
        let rhs = self.rhs();
        self.master.lp.set_rhs(&rhs);
        self.master.lp.restore(without);
        self.master.lp.dual();
        self.meter.spend(self.master.lp.take_steps());
    }
}
