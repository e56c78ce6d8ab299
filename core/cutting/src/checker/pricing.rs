//! Prices every stock again, in whole numbers, the plainest way.

use std::collections::BTreeSet;

use super::within::{self, Copy};
use crate::plan::{Certificate, Plan};
use crate::problem::{Problem, Stock, Supply};

/// What a piece takes up, kerf included, and what it sells for.
#[derive(Clone, Copy)]
struct Offer {
    w: i64,
    h: i64,
    price: i64,
}

/// More copies than this are not priced in sets.
const MOST_COPIES_PRICED: usize = 1_000;
/// More cells times positions than this are not priced.
const MOST_STEPS: usize = 6_000_000_000;

/// The bound on cost that the plan's certificate proves (rounded up to what some sheets cost
/// together), after pricing every stock anew.
///
/// It holds for every plan of the same pieces: one of which no copy is in the plan was left
/// out as impossible, sells for nothing and has no windows.
///
/// # Errors
/// What the certificate claims wrongly, or that the problem is too large to price here.
pub fn proven_bound(problem: &Problem, plan: &Plan) -> Result<i64, String> {
    let Certificate { prices, rents, numerator, denominator, within_demand } =
        &plan.certificate;
    let (numerator, denominator) = (*numerator, *denominator);
    if prices.len() != problem.pieces.len() || rents.len() != problem.stocks.len() {
        return Err("the lists of prices and rents have the wrong lengths".to_owned());
    }
    if numerator <= 0 || denominator <= 0 || prices.iter().chain(rents).any(|n| *n < 0) {
        return Err("a price, rent or scale is negative".to_owned());
    }
    let kerf = problem.kerf.max(0);
    let mut total: i128 = 0;
    let mut offers: Vec<Offer> = Vec::new();
    let mut copies: Vec<Copy> = Vec::new();
    for (index, (piece, price)) in problem.pieces.iter().zip(prices).enumerate() {
        if *price == 0 {
            continue;
        }
        total += i128::from(piece.copies) * i128::from(*price);
        let (w, h, price) = (piece.width + kerf, piece.height + kerf, *price);
        offers.push(Offer { w, h, price });
        if piece.may_turn {
            offers.push(Offer { w: h, h: w, price });
        }
        if *within_demand {
            let copy = Copy { piece: index, w, h, turn: piece.may_turn, price };
            copies
                .extend(std::iter::repeat_n(copy, usize::try_from(piece.copies).unwrap_or(0)));
        }
    }
    if copies.len() > MOST_COPIES_PRICED {
        return Err("there are too many pieces to price sets of them here".to_owned());
    }
    let mut grain = 0;
    let mut costs = BTreeSet::new();
    for (index, (stock, rent)) in problem.stocks.iter().zip(rents).enumerate() {
        let available = supply(problem, stock, &plan.missing);
        if available == Some(0) {
            continue;
        }
        let width = stock.width - stock.trim.left - stock.trim.right + kerf;
        let height = stock.height - stock.trim.bottom - stock.trim.top + kerf;
        let fits = |o: &&Offer| o.w <= width && o.h <= height;
        let here: Vec<Offer> = offers.iter().filter(fits).copied().collect();
        if here.is_empty() {
            continue;
        }
        grain = gcd(stock.cost, grain);
        if stock.cost > 0 {
            costs.insert(stock.cost);
        }
        match available {
            None if *rent != 0 => {
                return Err(format!("stock {index} has no limit and yet a rent"));
            }
            None => {}
            Some(available) => total -= i128::from(available) * i128::from(*rent),
        }
        let den = i128::from(denominator);
        let may = i128::from(stock.cost) * i128::from(numerator) + i128::from(*rent) * den;
        if *within_demand {
            let more = within::sells_for_more(
                problem,
                copies.clone(),
                (width, height),
                may.div_euclid(den),
            );
            match more {
                Some(false) => {}
                Some(true) => return Err(format!("a pattern of stock {index} sells for more")),
                None => return Err(format!("stock {index} has too many sets to price here")),
            }
            continue;
        }
        let sells = most(problem, &here, width, height)
            .ok_or_else(|| format!("stock {index} has too many positions to price here"))?;
        if i128::from(sells) * den > may {
            return Err(format!("a pattern of stock {index} sells for {sells}"));
        }
    }
    let grain = i128::from(grain.max(1));
    let worth = total.max(0) * i128::from(denominator);
    let unit = i128::from(numerator) * grain;
    let bound = (worth + unit - 1) / unit * grain;
    let bound =
        i64::try_from(bound).map_err(|_| "the bound is too large to be true".to_owned())?;
    Ok(next_sum(&costs, i64::try_from(grain).unwrap_or(1), bound))
}

/// The least that some sheets cost together and that is no less than `bound`.
fn next_sum(costs: &BTreeSet<i64>, grain: i64, bound: i64) -> i64 {
    let Some(least) = costs.first() else { return bound };
    if bound <= 0 || (bound + least) / grain > 400_000 {
        return bound;
    }
    // From each sum on to those with one sheet more, in ascending order.
    let mut open = BTreeSet::from([0]);
    while let Some(sum) = open.pop_first() {
        if sum >= bound {
            return sum;
        }
        open.extend(costs.iter().map(|cost| sum + cost));
    }
    bound
}

/// How many there are at most; `None` without limit.
fn supply(problem: &Problem, stock: &Stock, missing: &[u32]) -> Option<u64> {
    match stock.supply {
        Supply::Unlimited => None,
        Supply::InHand(n) => Some(u64::from(n)),
        Supply::Window { piece, each } => {
            let copies = problem.pieces.get(piece).map_or(0, |p| p.copies);
            let copies = if missing.get(piece) == Some(&copies) { 0 } else { copies };
            Some(u64::from(copies) * u64::from(each))
        }
    }
}

const fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// The most that pieces cut from `width` x `height` can sell for; `None` where that would
/// take too long.
fn most(problem: &Problem, offers: &[Offer], width: i64, height: i64) -> Option<i64> {
    let xs = sums(offers.iter().map(|o| o.w), width)?;
    let ys = sums(offers.iter().map(|o| o.h), height)?;
    let steps = xs.len().checked_mul(ys.len())?.checked_mul(xs.len() + ys.len())?;
    if steps > MOST_STEPS {
        return None;
    }
    let table = Table { xs, ys };
    let single = table.single(offers);
    Some(match problem.stages.limit() {
        None => table.any(single),
        Some(stages) => {
            let (mut upright, mut level) = (single.clone(), single);
            for _ in 0..stages {
                (upright, level) = (table.row(&level), table.column(&upright));
            }
            let last = |table: Vec<i64>| table.last().copied().unwrap_or(0);
            last(upright).max(last(level))
        }
    })
}

/// All sums of `sides` up to `length`.
fn sums(sides: impl Iterator<Item = i64>, length: i64) -> Option<Vec<i64>> {
    let sides: BTreeSet<i64> = sides.collect();
    let mut sums = BTreeSet::from([0]);
    let mut open = vec![0];
    while let Some(at) = open.pop() {
        for sum in sides.iter().map(|side| at + side) {
            if sum <= length && sums.insert(sum) {
                open.push(sum);
            }
        }
        if sums.len() > 20_000 {
            return None;
        }
    }
    Some(sums.into_iter().collect())
}

/// Values by x, then y.
struct Table {
    xs: Vec<i64>,
    ys: Vec<i64>,
}

impl Table {
    fn below(points: &[i64], length: i64) -> usize {
        points.partition_point(|p| *p <= length) - 1
    }

    /// The best single piece in each part.
    fn single(&self, offers: &[Offer]) -> Vec<i64> {
        let mut values = Vec::with_capacity(self.xs.len() * self.ys.len());
        for x in &self.xs {
            for y in &self.ys {
                let here = offers.iter().filter(|o| o.w <= *x && o.h <= *y);
                values.push(here.map(|o| o.price).max().unwrap_or(0));
            }
        }
        values
    }

    /// Parts side by side, each worth what `parts` says.
    fn row(&self, parts: &[i64]) -> Vec<i64> {
        let ny = self.ys.len();
        let mut values = parts.to_vec();
        for i in 1..self.xs.len() {
            for s in 1..i {
                let rest = Self::below(&self.xs, self.xs[i] - self.xs[s]);
                for j in 0..ny {
                    let sum = parts[s * ny + j] + values[rest * ny + j];
                    values[i * ny + j] = values[i * ny + j].max(sum);
                }
            }
        }
        values
    }

    /// Parts on top of each other, each worth what `parts` says.
    fn column(&self, parts: &[i64]) -> Vec<i64> {
        let ny = self.ys.len();
        let mut values = parts.to_vec();
        for j in 1..ny {
            for s in 1..j {
                let rest = Self::below(&self.ys, self.ys[j] - self.ys[s]);
                for i in 0..self.xs.len() {
                    let sum = parts[i * ny + s] + values[i * ny + rest];
                    values[i * ny + j] = values[i * ny + j].max(sum);
                }
            }
        }
        values
    }

    fn any(&self, mut values: Vec<i64>) -> i64 {
        let ny = self.ys.len();
        for i in 0..self.xs.len() {
            for j in 0..ny {
                let mut best = values[i * ny + j];
                for s in 1..i {
                    let rest = Self::below(&self.xs, self.xs[i] - self.xs[s]);
                    if rest > s {
                        continue;
                    }
                    best = best.max(values[s * ny + j] + values[rest * ny + j]);
                }
                for s in 1..j {
                    let rest = Self::below(&self.ys, self.ys[j] - self.ys[s]);
                    if rest > s {
                        continue;
                    }
                    best = best.max(values[i * ny + s] + values[i * ny + rest]);
                }
                values[i * ny + j] = best;
            }
        }
        values.last().copied().unwrap_or(0)
    }
}
