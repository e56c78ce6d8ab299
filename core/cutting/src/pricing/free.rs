//! Any number of stages: Gilmore and Gomory's (1966) recursion over raster points, in the
//! order of Beasley (1985): the best of a part is the best piece in it, or the best of two
//! parts that an edge-to-edge cut makes of it.

#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::float_cmp,
    reason = "positions are counted in u32; prices are whole numbers that f32 holds exactly"
)]

use super::Way;
use crate::grid;
use crate::prepare::Placed;
use crate::rng::Rng;

#[derive(Debug)]
pub(super) struct Free {
    xs: Vec<i64>,
    ys: Vec<i64>,
    /// For each width, the pairs of widths a cut can leave.
    cuts_x: Vec<Vec<(u32, u32)>>,
    cuts_y: Vec<Vec<(u32, u32)>>,
    /// For each width, the ways that first fit there: height index and way.
    starts: Vec<Vec<(u32, u32)>>,
    ways: Vec<Way>,
    /// Best value by width, then height.
    best: Vec<f32>,
    work: u64,
}

fn cuts(points: &[i64]) -> Vec<Vec<(u32, u32)>> {
    points
        .iter()
        .map(|&length| {
            let halves = points.iter().take_while(|a| **a * 2 <= length).enumerate();
            halves
                .filter_map(|(a, &at)| {
                    let b = grid::floor(points, length - at)?;
                    (b >= a).then_some((a as u32, b as u32))
                })
                .collect()
        })
        .collect()
}

impl Free {
    pub(super) fn new(ways: &[Way], xs: &[i64], ys: &[i64]) -> Self {
        let mut starts = vec![Vec::new(); xs.len()];
        for (index, way) in ways.iter().enumerate() {
            if let (Some(i), Some(j)) = (grid::ceil(xs, way.w), grid::ceil(ys, way.h)) {
                starts[i].push((j as u32, index as u32));
            }
        }
        let (cuts_x, cuts_y) = (cuts(xs), cuts(ys));
        let across: usize = cuts_x.iter().map(Vec::len).sum();
        let along: usize = cuts_y.iter().map(Vec::len).sum();
        let work = across * ys.len() / 3 + along * xs.len() + xs.len() * ys.len();
        Self {
            xs: xs.to_vec(),
            ys: ys.to_vec(),
            cuts_x,
            cuts_y,
            starts,
            ways: ways.to_vec(),
            best: vec![0.0; xs.len() * ys.len()],
            work: work as u64,
        }
    }

    pub(super) const fn work(&self) -> u64 {
        self.work
    }

    pub(super) fn price(&mut self, prices: &[f32]) -> f32 {
        let ny = self.ys.len();
        if ny == 0 {
            return 0.0;
        }
        for (i, cuts) in self.cuts_x.iter().enumerate() {
            let (done, rest) = self.best.split_at_mut(i * ny);
            let row = &mut rest[..ny];
            if i == 0 {
                row.fill(0.0);
            } else {
                row.copy_from_slice(&done[(i - 1) * ny..]);
            }
            for &(j, way) in &self.starts[i] {
                let price = prices[self.ways[way as usize].kind];
                let cell = &mut row[j as usize];
                *cell = if price > *cell { price } else { *cell };
            }
            for &(a, b) in cuts {
                let left = &done[a as usize * ny..][..ny];
                let right = &done[b as usize * ny..][..ny];
                for ((cell, l), r) in row.iter_mut().zip(left).zip(right) {
                    let sum = l + r;
                    *cell = if sum > *cell { sum } else { *cell };
                }
            }
            let mut below = 0.0_f32;
            for (j, cuts) in self.cuts_y.iter().enumerate() {
                let mut value = if row[j] > below { row[j] } else { below };
                for &(c, d) in cuts {
                    let sum = row[c as usize] + row[d as usize];
                    value = if sum > value { sum } else { value };
                }
                row[j] = value;
                below = value;
            }
        }
        self.best.last().copied().unwrap_or(0.0)
    }

    /// One of the best patterns; which one is left to `rng`.
    pub(super) fn pattern(&self, prices: &[f32], rng: &mut Rng) -> Vec<Placed> {
        let ny = self.ys.len();
        let mut placed = Vec::new();
        let (Some(i), Some(j)) = (self.xs.len().checked_sub(1), ny.checked_sub(1)) else {
            return placed;
        };
        let at = |i: usize, j: usize| self.best[i * ny + j];
        let mut open = vec![(i, j, 0, 0)];
        'parts: while let Some((mut i, mut j, x, y)) = open.pop() {
            let value = at(i, j);
            if value <= 0.0 {
                continue;
            }
            while i > 0 && at(i - 1, j) == value {
                i -= 1;
            }
            while j > 0 && at(i, j - 1) == value {
                j -= 1;
            }
            let whole = |&(start, way): &(u32, u32)| {
                start as usize <= j && prices[self.ways[way as usize].kind] == value
            };
            if let Some(&(_, way)) = self.starts[i].iter().find(|s| whole(s)) {
                let Way { kind, turned, .. } = self.ways[way as usize];
                placed.push(Placed { kind, turned, x, y });
                continue;
            }
            let across_first = rng.next() & 1 == 0;
            for across in [across_first, !across_first] {
                let cuts = if across { &self.cuts_x[i] } else { &self.cuts_y[j] };
                if cuts.is_empty() {
                    continue;
                }
                let turn = rng.below(cuts.len());
                for &(a, b) in cuts[turn..].iter().chain(&cuts[..turn]) {
                    let (a, b) = (a as usize, b as usize);
                    if across && at(a, j) + at(b, j) == value {
                        open.extend([(a, j, x, y), (b, j, x + self.xs[a], y)]);
                        continue 'parts;
                    }
                    if !across && at(i, a) + at(i, b) == value {
                        open.extend([(i, a, x, y), (i, b, x, y + self.ys[a])]);
                        continue 'parts;
                    }
                }
            }
        }
        placed
    }
}

#[cfg(test)]
#[allow(
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    reason = "sides and prices of a test are small"
)]
mod tests {
    use super::*;

    /// Whatever the recursion promises, its pattern brings: the prices of the pieces placed add up
    /// to it, within the sheet and without two of them on one place.
    #[test]
    fn a_pattern_is_worth_what_was_promised() {
        let mut rng = Rng::new(7);
        for _ in 0..200 {
            let side = |rng: &mut Rng, most: usize| 1 + rng.below(most) as i64;
            let (width, height) = (8 + side(&mut rng, 9), 8 + side(&mut rng, 9));
            let kinds = 2 + rng.below(4);
            let ways: Vec<Way> = (0..kinds)
                .map(|kind| Way {
                    kind,
                    turned: false,
                    w: side(&mut rng, 7),
                    h: side(&mut rng, 7),
                })
                .collect();
            // Dearer than by area alone, so that no two ways are worth the same.
            let prices: Vec<f32> = ways
                .iter()
                .map(|way| (way.w * way.h * 16) as f32 + rng.below(15) as f32)
                .collect();
            let (xs, ys): (Vec<i64>, Vec<i64>) =
                ((1..=width).collect(), (1..=height).collect());
            let mut free = Free::new(&ways, &xs, &ys);
            let promised = free.price(&prices);
            let placed = free.pattern(&prices, &mut rng);
            let worth: f32 = placed.iter().map(|one| prices[one.kind]).sum();
            assert_eq!(worth, promised, "{ways:?} on {width} x {height}: {placed:?}");
            let ends = |one: &Placed| (one.x + ways[one.kind].w, one.y + ways[one.kind].h);
            for (at, one) in placed.iter().enumerate() {
                let (right, bottom) = ends(one);
                assert!(one.x >= 0 && one.y >= 0 && right <= width && bottom <= height);
                for other in &placed[at + 1..] {
                    let (r, b) = ends(other);
                    let apart =
                        right <= other.x || r <= one.x || bottom <= other.y || b <= one.y;
                    assert!(apart, "{one:?} and {other:?} on one place");
                }
            }
        }
    }
}
