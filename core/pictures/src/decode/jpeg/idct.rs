//! The inverse transform, whole or shrunk, of eight blocks at once.
//!
//! Shrinking takes the inverse transform of the lowest frequencies alone: the block as it would
//! be had the scene been sampled more coarsely.
#![allow(
    clippy::inline_always,
    reason = "vector code must be inlined where its instructions are enabled"
)]

use std::f32::consts::{FRAC_1_SQRT_2, SQRT_2};

use fearless_simd::prelude::*;
use fearless_simd::{Level, dispatch, f32x8, i32x8};

use super::blocks::LANES;

/// The factors that a transform of a given size wants its coefficients multiplied by.
#[derive(Debug)]
pub(super) struct Sizes {
    /// For each frequency along one side.
    pub(super) scale: [f32; 8],
}

impl Sizes {
    pub(super) fn of(side: usize) -> Self {
        // Orthonormal transforms of side n have a DC of n times the mean; these blocks have 8.
        let scale = match side {
            // Source: Arai, Agui, Nakajima (1988); each divided by the square root of 8.
            8 => [
                1.0,
                1.387_039_8,
                1.306_563,
                1.175_875_6,
                1.0,
                0.785_694_96,
                0.541_196_1,
                0.275_899_4,
            ]
            .map(|v: f32| v * 0.5 * FRAC_1_SQRT_2),
            4 => [0.5, FRAC_1_SQRT_2, 0.5, FRAC_1_SQRT_2, 0.0, 0.0, 0.0, 0.0]
                .map(|v: f32| v * FRAC_1_SQRT_2),
            2 => [FRAC_1_SQRT_2, FRAC_1_SQRT_2, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0]
                .map(|v: f32| v * 0.5),
            _ => [0.5 * FRAC_1_SQRT_2, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
        };
        Self { scale }
    }
}

/// Transforms one group of blocks of `side` into `out`: rows of `LANES * side` samples,
/// `stride` apart.
pub(super) fn group(
    level: Level,
    side: usize,
    numbers: &[f32],
    used: u64,
    out: &mut [u8],
    stride: usize,
) {
    if used <= 1 {
        return flat(side, numbers, out, stride);
    }
    match side {
        8 => dispatch!(level, simd => eight(simd, numbers, used, out, stride)),
        4 => dispatch!(level, simd => four(simd, numbers, out, stride)),
        2 => dispatch!(level, simd => two(simd, numbers, out, stride)),
        _ => flat(side, numbers, out, stride),
    }
}

/// Blocks of one value each.
fn flat(side: usize, numbers: &[f32], out: &mut [u8], stride: usize) {
    for (lane, &dc) in numbers.iter().take(LANES).enumerate() {
        let value = clamp(dc);
        for row in out.chunks_mut(stride).take(side) {
            if let Some(to) = row.get_mut(lane * side..(lane + 1) * side) {
                to.fill(value);
            }
        }
    }
}

#[allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped first"
)]
fn clamp(v: f32) -> u8 {
    (v + 128.5).clamp(0.0, 255.0) as u8
}

#[inline(always)]
fn store<S: Simd, const N: usize>(simd: S, row: &[f32x8<S>; N], to: &mut [u8]) {
    let (low, high) = (f32x8::splat(simd, 0.0), f32x8::splat(simd, 255.0));
    let half = f32x8::splat(simd, 128.5);
    for (x, &v) in row.iter().enumerate() {
        let v: i32x8<S> = (v + half).max(low).min(high).to_int();
        let mut codes = [0i32; 8];
        v.store_slice(&mut codes);
        for (lane, code) in codes.iter().enumerate() {
            to[lane * N + x] = code.to_le_bytes()[0];
        }
    }
}

#[inline(always)]
fn load<S: Simd>(simd: S, numbers: &[f32], slot: usize) -> f32x8<S> {
    f32x8::from_slice(simd, &numbers[slot * LANES..(slot + 1) * LANES])
}

/// Source: the floating-point transform after Arai, Agui and Nakajima (1988), five
/// multiplications.
#[inline(always)]
fn aan<S: Simd>(simd: S, v: [f32x8<S>; 8]) -> [f32x8<S>; 8] {
    let by = |c: f32| f32x8::splat(simd, c);
    let (t10, t11) = (v[0] + v[4], v[0] - v[4]);
    let t13 = v[2] + v[6];
    let t12 = (v[2] - v[6]) * by(SQRT_2) - t13;
    let (e0, e3, e1, e2) = (t10 + t13, t10 - t13, t11 + t12, t11 - t12);
    let (z13, z10) = (v[5] + v[3], v[5] - v[3]);
    let (z11, z12) = (v[1] + v[7], v[1] - v[7]);
    let o7 = z11 + z13;
    let t11 = (z11 - z13) * by(SQRT_2);
    let z5 = (z10 + z12) * by(1.847_759_1);
    let t10 = z12 * by(1.082_392_2) - z5;
    let t12 = z5 - z10 * by(2.613_126);
    let o6 = t12 - o7;
    let o5 = t11 - o6;
    let o4 = t10 + o5;
    [e0 + o7, e1 + o6, e2 + o5, e3 - o4, e3 + o4, e2 - o5, e1 - o6, e0 - o7]
}

#[inline(always)]
fn eight<S: Simd>(simd: S, numbers: &[f32], used: u64, out: &mut [u8], stride: usize) {
    let numbers = &numbers[..64 * LANES];
    let zero = f32x8::splat(simd, 0.0);
    let mut columns = [[zero; 8]; 8];
    for (x, column) in columns.iter_mut().enumerate() {
        let mine = used >> x & 0x0101_0101_0101_0101;
        if mine == 0 {
            continue;
        }
        if mine == 1 {
            *column = [load(simd, numbers, x); 8];
            continue;
        }
        let mut v = [zero; 8];
        for (y, v) in v.iter_mut().enumerate() {
            *v = load(simd, numbers, y * 8 + x);
        }
        *column = aan(simd, v);
    }
    for (y, to) in out.chunks_mut(stride).take(8).enumerate() {
        let mut v = [zero; 8];
        for (v, column) in v.iter_mut().zip(&columns) {
            *v = column[y];
        }
        store(simd, &aan(simd, v), &mut to[..8 * LANES]);
    }
}

#[inline(always)]
fn four_points<S: Simd>(simd: S, v: [f32x8<S>; 4]) -> [f32x8<S>; 4] {
    // Cosines of one and three eighths of a half turn.
    let (c1, c3) = (f32x8::splat(simd, 0.923_879_5), f32x8::splat(simd, 0.382_683_43));
    let (e0, e1) = (v[0] + v[2], v[0] - v[2]);
    let (o0, o1) = (v[1] * c1 + v[3] * c3, v[1] * c3 - v[3] * c1);
    [e0 + o0, e1 + o1, e1 - o1, e0 - o0]
}

#[inline(always)]
fn four<S: Simd>(simd: S, numbers: &[f32], out: &mut [u8], stride: usize) {
    let numbers = &numbers[..16 * LANES];
    let zero = f32x8::splat(simd, 0.0);
    let mut columns = [[zero; 4]; 4];
    for (x, column) in columns.iter_mut().enumerate() {
        let mut v = [zero; 4];
        for (y, v) in v.iter_mut().enumerate() {
            *v = load(simd, numbers, y * 4 + x);
        }
        *column = four_points(simd, v);
    }
    for (y, to) in out.chunks_mut(stride).take(4).enumerate() {
        let mut v = [zero; 4];
        for (v, column) in v.iter_mut().zip(&columns) {
            *v = column[y];
        }
        store(simd, &four_points(simd, v), &mut to[..4 * LANES]);
    }
}

#[inline(always)]
fn two<S: Simd>(simd: S, numbers: &[f32], out: &mut [u8], stride: usize) {
    let numbers = &numbers[..4 * LANES];
    let [a, b, c, d] = [0, 1, 2, 3].map(|slot| load(simd, numbers, slot));
    let rows = [[a + b + c + d, a - b + c - d], [a + b - c - d, a - b - c + d]];
    for (to, row) in out.chunks_mut(stride).zip(&rows) {
        store(simd, row, &mut to[..2 * LANES]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The transform as defined, of the lowest `side` frequencies.
    /// Source: ITU-T T.81 A.3.3.
    #[allow(
        clippy::as_conversions,
        clippy::cast_precision_loss,
        reason = "small whole numbers"
    )]
    fn defined(block: &[f32], side: usize, x: usize, y: usize) -> f64 {
        let n = side as f64;
        let basis = |k: usize, i: usize| {
            let norm = if k == 0 { (1.0 / n).sqrt() } else { (2.0 / n).sqrt() };
            norm * ((2 * i + 1) as f64 * k as f64 * std::f64::consts::PI / (2.0 * n)).cos()
        };
        let mut sum = 0.0;
        for v in 0..side {
            for u in 0..side {
                sum += f64::from(block[v * side + u]) * basis(u, x) * basis(v, y);
            }
        }
        sum * n / 8.0
    }

    #[test]
    fn all_sizes_agree_with_the_definition() {
        for side in [8, 4, 2, 1] {
            let mut state = 7u32;
            let mut next = || {
                state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                f32::from(state.to_be_bytes()[0]) - 128.0
            };
            let blocks: Vec<Vec<f32>> =
                (0..LANES).map(|_| (0..side * side).map(|_| next()).collect()).collect();
            let sizes = Sizes::of(side);
            let mut numbers = vec![0.0; side * side * LANES];
            for (lane, block) in blocks.iter().enumerate() {
                for (slot, v) in block.iter().enumerate() {
                    let scale = sizes.scale[slot % side] * sizes.scale[slot / side];
                    numbers[slot * LANES + lane] = v * scale;
                }
            }
            let stride = side * LANES;
            let mut out = vec![0; stride * side];
            group(Level::new(), side, &numbers, u64::MAX, &mut out, stride);
            for (lane, block) in blocks.iter().enumerate() {
                for y in 0..side {
                    for x in 0..side {
                        let wanted = (defined(block, side, x, y) + 128.0).clamp(0.0, 255.0);
                        let got = f64::from(out[y * stride + lane * side + x]);
                        assert!(
                            (got - wanted).abs() <= 0.51,
                            "side {side}, block {lane}, ({x}, {y}): {got}, not {wanted}"
                        );
                    }
                }
            }
        }
    }
}
