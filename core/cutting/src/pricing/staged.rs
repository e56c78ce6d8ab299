//! Two and three stages with trimming: nested knapsacks (Gilmore and Gomory 1965).
//!
//! A strip holds pieces side by side, each no higher than the strip; a section holds strips
//! on top of each other; three stages put sections side by side.

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
pub(super) struct Staged {
    /// Whether x and y have changed places: strips stand instead of lying.
    across: bool,
    three: bool,
    xs: Vec<i64>,
    ys: Vec<i64>,
    /// Ways in ascending height.
    ways: Vec<Way>,
    /// Strip heights, ascending, with the number of ways that fit in each.
    strips: Vec<(i64, usize)>,
    /// For each way, where each width leads when it is placed at its right end.
    less_way: Vec<Vec<u32>>,
    /// For each strip, where each height leads when it is placed at its top.
    less_strip: Vec<Vec<u32>>,
    /// Best strip by height, then width.
    strip: Vec<f32>,
    /// Best section by height, then width (two stages: full width alone).
    section: Vec<f32>,
    /// Best row of sections by width.
    row: Vec<f32>,
    work: u64,
}

/// Marks a place that does not exist.
const NOWHERE: u32 = u32::MAX;

fn less(points: &[i64], by: i64) -> Vec<u32> {
    points.iter().map(|p| grid::floor(points, p - by).map_or(NOWHERE, |at| at as u32)).collect()
}

impl Staged {
    pub(super) fn new(ways: &[Way], xs: &[i64], ys: &[i64], stages: u8, across: bool) -> Self {
        let (xs, ys) = if across { (ys, xs) } else { (xs, ys) };
        let mut ways = ways.to_vec();
        for way in &mut ways {
            if across {
                (way.w, way.h) = (way.h, way.w);
            }
        }
        ways.sort_by_key(|way| way.h);
        let mut strips: Vec<(i64, usize)> = Vec::new();
        for (index, way) in ways.iter().enumerate() {
            match strips.last_mut() {
                Some((h, fit)) if *h == way.h => *fit = index + 1,
                _ => strips.push((way.h, index + 1)),
            }
        }
        let three = stages > 2;
        let (nx, ny) = (xs.len(), ys.len());
        let wide = if three { nx } else { 1 };
        let work = ways.len() * nx * 2
            + ny * strips.len() * wide.div_ceil(3)
            + if three { nx * nx / 2 } else { 0 };
        Self {
            across,
            three,
            less_way: ways.iter().map(|way| less(xs, way.w)).collect(),
            less_strip: strips.iter().map(|(h, _)| less(ys, *h)).collect(),
            strip: vec![0.0; strips.len() * nx],
            section: vec![0.0; ny * wide],
            row: vec![0.0; nx],
            xs: xs.to_vec(),
            ys: ys.to_vec(),
            ways,
            strips,
            work: work as u64,
        }
    }

    pub(super) const fn work(&self) -> u64 {
        self.work
    }

    pub(super) fn price(&mut self, prices: &[f32]) -> f32 {
        let nx = self.xs.len();
        let mut from = 0;
        for (s, &(_, fit)) in self.strips.iter().enumerate() {
            let (done, rest) = self.strip.split_at_mut(s * nx);
            let best = &mut rest[..nx];
            if s == 0 {
                best.fill(0.0);
            } else {
                best.copy_from_slice(&done[(s - 1) * nx..]);
            }
            for (way, less) in self.ways[from..fit].iter().zip(&self.less_way[from..fit]) {
                let price = prices[way.kind];
                for x in 1..nx {
                    let mut value = if best[x - 1] > best[x] { best[x - 1] } else { best[x] };
                    if less[x] != NOWHERE {
                        let sum = best[less[x] as usize] + price;
                        value = if sum > value { sum } else { value };
                    }
                    best[x] = value;
                }
            }
            from = fit;
        }
        let wide = if self.three { nx } else { 1 };
        self.section[..wide].fill(0.0);
        for y in 1..self.ys.len() {
            let (done, rest) = self.section.split_at_mut(y * wide);
            let cells = &mut rest[..wide];
            cells.copy_from_slice(&done[(y - 1) * wide..]);
            for (s, less) in self.less_strip.iter().enumerate() {
                if less[y] == NOWHERE {
                    break;
                }
                let below = &done[less[y] as usize * wide..][..wide];
                let strip = &self.strip[(s + 1) * nx - wide..][..wide];
                for ((cell, b), s) in cells.iter_mut().zip(below).zip(strip) {
                    let sum = b + s;
                    *cell = if sum > *cell { sum } else { *cell };
                }
            }
        }
        let top = self.section.len() - wide;
        if !self.three {
            return self.section[top];
        }
        let section = &self.section[top..];
        self.row[0] = 0.0;
        for x in 1..nx {
            let mut value = self.row[x - 1];
            let mut rest = x;
            for (width, price) in self.xs[1..=x].iter().zip(&section[1..=x]) {
                while self.xs[rest] + width > self.xs[x] {
                    rest -= 1;
                }
                let sum = self.row[rest] + price;
                value = if sum > value { sum } else { value };
            }
            self.row[x] = value;
        }
        self.row[nx - 1]
    }

    /// One of the best patterns; which one is left to `rng`.
    pub(super) fn pattern(&self, prices: &[f32], rng: &mut Rng) -> Vec<Placed> {
        let mut placed = Vec::new();
        let mut x = self.xs.len() - 1;
        if self.three {
            let wide = self.xs.len();
            let section = &self.section[self.section.len() - wide..];
            let mut left = 0;
            while self.row[x] > 0.0 {
                if self.row[x - 1] == self.row[x] {
                    x -= 1;
                    continue;
                }
                let turn = rng.below(x);
                let found = (0..x).map(|s| (s + turn) % x + 1).find_map(|s| {
                    let rest = grid::floor(&self.xs, self.xs[x] - self.xs[s])?;
                    (rest < x && self.row[rest] + section[s] == self.row[x])
                        .then_some((s, rest))
                });
                let Some((s, rest)) = found else { break };
                self.section_pattern(s, left, prices, rng, &mut placed);
                left += self.xs[s];
                x = rest;
            }
        } else {
            self.section_pattern(x, 0, prices, rng, &mut placed);
        }
        if self.across {
            for p in &mut placed {
                (p.x, p.y) = (p.y, p.x);
            }
        }
        placed
    }

    fn section_pattern(
        &self,
        x: usize,
        left: i64,
        prices: &[f32],
        rng: &mut Rng,
        placed: &mut Vec<Placed>,
    ) {
        let (nx, wide) = (self.xs.len(), if self.three { self.xs.len() } else { 1 });
        let column = if self.three { x } else { 0 };
        let at = |y: usize| self.section[y * wide + column];
        let (mut y, mut bottom) = (self.ys.len() - 1, 0);
        while at(y) > 0.0 {
            if at(y - 1) == at(y) {
                y -= 1;
                continue;
            }
            let count = self.strips.len();
            let turn = rng.below(count);
            let found = (0..count).map(|s| (s + turn) % count).find(|&s| {
                let below = self.less_strip[s][y];
                below != NOWHERE && at(below as usize) + self.strip[s * nx + x] == at(y)
            });
            let Some(mut s) = found else { break };
            let below = self.less_strip[s][y] as usize;
            // The lowest strip that sells for as much.
            while s > 0 && self.strip[(s - 1) * nx + x] == self.strip[s * nx + x] {
                s -= 1;
            }
            self.strip_pattern(s, x, (left, bottom), prices, rng, placed);
            bottom += self.strips[s].0;
            y = below;
        }
    }

    fn strip_pattern(
        &self,
        s: usize,
        mut x: usize,
        (mut left, bottom): (i64, i64),
        prices: &[f32],
        rng: &mut Rng,
        placed: &mut Vec<Placed>,
    ) {
        let best = &self.strip[s * self.xs.len()..][..self.xs.len()];
        while best[x] > 0.0 {
            if best[x - 1] == best[x] {
                x -= 1;
                continue;
            }
            let count = self.strips[s].1;
            let turn = rng.below(count);
            let found = (0..count).map(|w| (w + turn) % count).find(|&w| {
                let rest = self.less_way[w][x];
                let price = prices[self.ways[w].kind];
                rest != NOWHERE && price > 0.0 && best[rest as usize] + price == best[x]
            });
            let Some(w) = found else { break };
            let way = &self.ways[w];
            placed.push(Placed { kind: way.kind, turned: way.turned, x: left, y: bottom });
            left += way.w;
            x = self.less_way[w][x] as usize;
        }
    }
}
