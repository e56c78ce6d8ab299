//! A revised simplex with a dense inverse for the covering master: few rows, many columns.
//!
//! Rows are demands (at least) and stocks in hand (at most). The primal method takes in new
//! columns, the dual one new right-hand sides. Nothing here proves anything: bounds are
//! computed from the duals in whole numbers afterwards.

#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    reason = "rows and columns are counted in u32; work is an estimate"
)]

const TINY: f64 = 1e-9;
/// Pivots smaller than this are avoided.
const PIVOT: f64 = 1e-7;
/// What a column that is not to be used costs, beside the dearest that every programme has.
const TOO_DEAR: f64 = 100.0;
/// Pivots between two fresh inverses.
const FRESH_EVERY: u32 = 150;

#[derive(Clone, Debug)]
pub(crate) struct Basis {
    head: Vec<u32>,
    inverse: Vec<f64>,
}

#[derive(Clone, Debug)]
pub(crate) struct Simplex {
    rows: usize,
    rhs: Vec<f64>,
    cost: Vec<f64>,
    start: Vec<u32>,
    row_of: Vec<u32>,
    value: Vec<f64>,
    basic: Vec<bool>,
    basis: Basis,
    level: Vec<f64>,
    dual: Vec<f64>,
    since_fresh: u32,
    steps: u64,
}

impl Simplex {
    /// `at_least` rows come first; `missing` is the cost of leaving a demand unmet.
    pub(crate) fn new(at_least: &[f64], at_most: &[f64], missing: &[f64]) -> Self {
        let rows = at_least.len() + at_most.len();
        let mut lp = Self {
            rows,
            rhs: at_least.iter().chain(at_most).copied().collect(),
            cost: Vec::new(),
            start: vec![0],
            row_of: Vec::new(),
            value: Vec::new(),
            basic: Vec::new(),
            basis: Basis { head: (0..rows as u32).collect(), inverse: vec![0.0; rows * rows] },
            level: Vec::new(),
            dual: Vec::new(),
            since_fresh: 0,
            steps: 0,
        };
        for row in 0..rows {
            lp.add(missing.get(row).copied().unwrap_or(0.0), [(row, 1.0)]);
            lp.basic[row] = true;
            lp.basis.inverse[row * rows + row] = 1.0;
        }
        for row in 0..at_least.len() {
            lp.add(0.0, [(row, -1.0)]);
        }
        lp.level_from_rhs();
        lp.dual_from_basis();
        lp
    }

    /// Columns that every programme starts with.
    pub(crate) const fn own_columns(at_least: usize, at_most: usize) -> usize {
        2 * at_least + at_most
    }

    pub(crate) fn add(
        &mut self,
        cost: f64,
        entries: impl IntoIterator<Item = (usize, f64)>,
    ) -> usize {
        for (row, value) in entries {
            self.row_of.push(row as u32);
            self.value.push(value);
        }
        self.start.push(self.row_of.len() as u32);
        self.cost.push(cost);
        self.basic.push(false);
        self.cost.len() - 1
    }

    /// Steps taken since last asked.
    pub(crate) fn take_steps(&mut self) -> u64 {
        std::mem::take(&mut self.steps)
    }

    pub(crate) fn duals(&self) -> &[f64] {
        &self.dual
    }

    pub(crate) fn objective(&self) -> f64 {
        self.basis.head.iter().zip(&self.level).map(|(j, x)| self.cost[*j as usize] * x).sum()
    }

    /// Basic columns and their levels.
    pub(crate) fn levels(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.basis.head.iter().zip(&self.level).map(|(j, x)| (*j as usize, *x))
    }

    pub(crate) fn reduced_cost(&self, column: usize) -> f64 {
        self.cost[column] - self.times(&self.dual, column)
    }

    /// Makes a column too dear to be used; its cost until now. The next [`Self::primal`] does
    /// without it.
    pub(crate) fn forbid(&mut self, column: usize) -> f64 {
        let dearest = self.cost[..self.rows].iter().copied().fold(1.0, f64::max);
        self.set_cost(column, dearest * TOO_DEAR)
    }

    /// Gives a forbidden column its cost again.
    pub(crate) fn allow(&mut self, column: usize, cost: f64) {
        self.set_cost(column, cost);
    }

    fn set_cost(&mut self, column: usize, cost: f64) -> f64 {
        let before = std::mem::replace(&mut self.cost[column], cost);
        if self.basic[column] {
            self.dual_from_basis();
        }
        before
    }

    pub(crate) fn save(&self) -> Basis {
        self.basis.clone()
    }

    pub(crate) fn restore(&mut self, basis: &Basis) {
        for j in &self.basis.head {
            self.basic[*j as usize] = false;
        }
        self.basis = basis.clone();
        for j in &self.basis.head {
            self.basic[*j as usize] = true;
        }
        self.level_from_rhs();
        self.dual_from_basis();
    }

    pub(crate) fn set_rhs(&mut self, rhs: &[f64]) {
        self.rhs.copy_from_slice(rhs);
        self.level_from_rhs();
    }

    fn times(&self, vector: &[f64], column: usize) -> f64 {
        let (from, to) = (self.start[column] as usize, self.start[column + 1] as usize);
        self.row_of[from..to]
            .iter()
            .zip(&self.value[from..to])
            .map(|(r, v)| vector[*r as usize] * v)
            .sum()
    }

    fn level_from_rhs(&mut self) {
        let n = self.rows;
        self.level = (0..n)
            .map(|i| {
                self.basis.inverse[i * n..][..n].iter().zip(&self.rhs).map(|(a, b)| a * b).sum()
            })
            .collect();
        self.steps += (n * n) as u64;
    }

    fn dual_from_basis(&mut self) {
        let n = self.rows;
        self.dual = vec![0.0; n];
        for i in 0..n {
            let cost = self.cost[self.basis.head[i] as usize];
            if cost.abs() > 0.0 {
                for (d, a) in self.dual.iter_mut().zip(&self.basis.inverse[i * n..][..n]) {
                    *d += cost * a;
                }
            }
        }
        self.steps += (n * n) as u64;
    }

    /// The inverse times a column.
    fn direction(&self, column: usize) -> Vec<f64> {
        let n = self.rows;
        let (from, to) = (self.start[column] as usize, self.start[column + 1] as usize);
        let mut direction = vec![0.0; n];
        for (i, d) in direction.iter_mut().enumerate() {
            let row = &self.basis.inverse[i * n..][..n];
            *d = self.row_of[from..to]
                .iter()
                .zip(&self.value[from..to])
                .map(|(r, v)| row[*r as usize] * v)
                .sum();
        }
        direction
    }

    fn pivot(&mut self, leave: usize, enter: usize, direction: &[f64]) {
        let n = self.rows;
        let scale = 1.0 / direction[leave];
        let (before, rest) = self.basis.inverse.split_at_mut(leave * n);
        let (row, after) = rest.split_at_mut(n);
        for a in row.iter_mut() {
            *a *= scale;
        }
        let others = before.chunks_exact_mut(n).chain(after.chunks_exact_mut(n));
        let factors = direction[..leave].iter().chain(&direction[leave + 1..]);
        for (other, factor) in others.zip(factors) {
            if factor.abs() > 1e-12 {
                for (o, a) in other.iter_mut().zip(row.iter()) {
                    *o -= factor * a;
                }
            }
        }
        let step = self.level[leave] * scale;
        for (x, d) in self.level.iter_mut().zip(direction) {
            *x -= step * d;
        }
        self.level[leave] = step;
        let reduced = self.reduced_cost(enter);
        for (d, a) in self.dual.iter_mut().zip(row_of(&self.basis.inverse, leave, n)) {
            *d += reduced * a;
        }
        self.basic[self.basis.head[leave] as usize] = false;
        self.basic[enter] = true;
        self.basis.head[leave] = enter as u32;
        self.since_fresh += 1;
        self.steps += (n * n / 4) as u64;
        if self.since_fresh >= FRESH_EVERY {
            self.refresh();
        }
    }

    /// Computes the inverse anew by elimination with row exchanges.
    fn refresh(&mut self) {
        let n = self.rows;
        self.since_fresh = 0;
        self.steps += (n * n * n / 4) as u64;
        let mut matrix = vec![0.0; n * n];
        for (i, j) in self.basis.head.iter().enumerate() {
            let j = *j as usize;
            for e in self.start[j] as usize..self.start[j + 1] as usize {
                matrix[self.row_of[e] as usize * n + i] = self.value[e];
            }
        }
        let mut inverse = vec![0.0; n * n];
        for i in 0..n {
            inverse[i * n + i] = 1.0;
        }
        for i in 0..n {
            let size = |r: &usize| matrix[r * n + i].abs();
            let Some(best) = (i..n).max_by(|a, b| size(a).total_cmp(&size(b))) else { return };
            if matrix[best * n + i].abs() < 1e-10 {
                return;
            }
            if best != i {
                for k in 0..n {
                    matrix.swap(best * n + k, i * n + k);
                    inverse.swap(best * n + k, i * n + k);
                }
            }
            let scale = 1.0 / matrix[i * n + i];
            for k in 0..n {
                matrix[i * n + k] *= scale;
                inverse[i * n + k] *= scale;
            }
            let pivot_m = matrix[i * n..][..n].to_vec();
            let pivot_i = inverse[i * n..][..n].to_vec();
            for r in 0..n {
                let factor = matrix[r * n + i];
                if r == i || factor.abs() < 1e-14 {
                    continue;
                }
                for (m, p) in matrix[r * n + i..(r + 1) * n].iter_mut().zip(&pivot_m[i..]) {
                    *m -= factor * p;
                }
                for (m, p) in inverse[r * n..][..n].iter_mut().zip(&pivot_i) {
                    *m -= factor * p;
                }
            }
        }
        self.basis.inverse = inverse;
        self.level_from_rhs();
        self.dual_from_basis();
    }

    /// Takes in columns until none lowers the cost.
    pub(crate) fn primal(&mut self) {
        for _ in 0..20_000 {
            let mut enter = None;
            let mut least = -TINY;
            for j in 0..self.cost.len() {
                if !self.basic[j] {
                    let reduced = self.reduced_cost(j);
                    if reduced < least {
                        least = reduced;
                        enter = Some(j);
                    }
                }
            }
            self.steps += (self.value.len() + self.cost.len()) as u64;
            let Some(enter) = enter else { return };
            let direction = self.direction(enter);
            let mut leave: Option<(usize, f64)> = None;
            for (i, (x, d)) in self.level.iter().zip(&direction).enumerate() {
                if *d > PIVOT {
                    let ratio = x.max(0.0) / d;
                    let better = leave.is_none_or(|(l, best)| {
                        ratio < best - TINY || (ratio < best + TINY && *d > direction[l])
                    });
                    if better {
                        leave = Some((i, ratio));
                    }
                }
            }
            let Some((leave, _)) = leave else { return };
            self.pivot(leave, enter, &direction);
        }
    }

    /// After a change of the right-hand side: back to levels of 0 or more.
    pub(crate) fn dual(&mut self) {
        let n = self.rows;
        for _ in 0..5_000 {
            let lowest = self.level.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1));
            let Some((leave, &x)) = lowest else { return };
            if x > -TINY {
                return;
            }
            let row = row_of(&self.basis.inverse, leave, n).to_vec();
            let mut enter: Option<(usize, f64, f64)> = None;
            for j in 0..self.cost.len() {
                if self.basic[j] {
                    continue;
                }
                let alpha = self.times(&row, j);
                if alpha < -PIVOT {
                    let ratio = self.reduced_cost(j).max(0.0) / -alpha;
                    let better = enter.is_none_or(|(_, best, a)| {
                        ratio < best - TINY || (ratio < best + TINY && alpha < a)
                    });
                    if better {
                        enter = Some((j, ratio, alpha));
                    }
                }
            }
            self.steps += (2 * self.value.len() + self.cost.len()) as u64;
            let Some((enter, _, _)) = enter else { return };
            let direction = self.direction(enter);
            if direction[leave].abs() < PIVOT / 10.0 {
                self.refresh();
                return;
            }
            self.pivot(leave, enter, &direction);
        }
    }
}

fn row_of(inverse: &[f64], row: usize, n: usize) -> &[f64] {
    &inverse[row * n..][..n]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: Gilmore and Gomory's (1961) setting, small enough to do by hand: rolls of 10,
    /// demands 4 of 3, 4 of 4 and 2 of 5; patterns 3+3+4, 5+5, 4+4, 3+3+3.
    #[test]
    fn primal_then_dual() {
        let mut lp = Simplex::new(&[4.0, 4.0, 2.0], &[], &[20.0; 3]);
        for pattern in [&[(0, 2.0), (1, 1.0)][..], &[(2, 2.0)], &[(1, 2.0)], &[(0, 3.0)]] {
            lp.add(1.0, pattern.iter().copied());
        }
        lp.primal();
        // 2 x (3+3+4), 1 x (5+5), 1 x (4+4).
        assert!((lp.objective() - 4.0).abs() < 1e-9, "{}", lp.objective());
        let worth: f64 = lp.duals().iter().zip([4.0, 4.0, 2.0]).map(|(d, n)| d * n).sum();
        assert!((worth - 4.0).abs() < 1e-9, "duals are worth {worth}");
        lp.set_rhs(&[0.0, 3.0, 4.0]);
        lp.dual();
        assert!((lp.objective() - 3.5).abs() < 1e-9, "{}", lp.objective());
    }
}
