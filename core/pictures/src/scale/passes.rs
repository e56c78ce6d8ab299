//! The two inner loops of the reduction, on whatever vector width the machine has.
#![allow(
    clippy::inline_always,
    reason = "vector code must be inlined where its instructions are enabled"
)]

use fearless_simd::prelude::*;
use fearless_simd::{Level, dispatch, f32x4, f32x8};

/// Weighted sum of `rows` (all as long as `sum`) into `sum`.
pub(super) fn down(level: Level, sum: &mut [f32], rows: &[&[f32]], weights: &[f32]) {
    dispatch!(level, simd => down_impl(simd, sum, rows, weights));
}

#[inline(always)]
fn down_impl<S: Simd>(simd: S, sum: &mut [f32], rows: &[&[f32]], weights: &[f32]) {
    const BLOCK: usize = 32;
    let whole = sum.len() / BLOCK * BLOCK;
    for start in (0..whole).step_by(BLOCK) {
        let mut a = [f32x8::splat(simd, 0.0); 4];
        for (row, &weight) in rows.iter().zip(weights) {
            let w = f32x8::splat(simd, weight);
            let part = &row[start..start + BLOCK];
            a[0] = f32x8::from_slice(simd, &part[..8]).mul_add(w, a[0]);
            a[1] = f32x8::from_slice(simd, &part[8..16]).mul_add(w, a[1]);
            a[2] = f32x8::from_slice(simd, &part[16..24]).mul_add(w, a[2]);
            a[3] = f32x8::from_slice(simd, &part[24..]).mul_add(w, a[3]);
        }
        let to = &mut sum[start..start + BLOCK];
        for (lanes, to) in a.iter().zip(to.chunks_exact_mut(8)) {
            lanes.store_slice(to);
        }
    }
    for (i, to) in sum.iter_mut().enumerate().skip(whole) {
        *to = rows.iter().zip(weights).map(|(row, weight)| row[i] * weight).sum();
    }
}

/// Weighted sums along one row of pixels of `channels` (1, 3 or 4) samples. `row` carries three
/// samples more than its pixels need, so that four can be read at once anywhere.
pub(super) fn along(
    level: Level,
    out: &mut [f32],
    row: &[f32],
    kernel: &super::Kernel,
    channels: usize,
) {
    match channels {
        1 => dispatch!(level, simd => along_grey(simd, out, row, kernel)),
        3 => dispatch!(level, simd => along_impl::<_, 3>(simd, out, row, kernel)),
        _ => dispatch!(level, simd => along_impl::<_, 4>(simd, out, row, kernel)),
    }
}

#[inline(always)]
fn along_impl<S: Simd, const N: usize>(
    simd: S,
    out: &mut [f32],
    row: &[f32],
    kernel: &super::Kernel,
) {
    for (i, to) in out.chunks_exact_mut(N).take(kernel.len()).enumerate() {
        let (first, weights) = kernel.taps(i);
        let part = &row[first * N..(first + weights.len()) * N + (4 - N)];
        // Two sums, so that one addition need not wait for the other.
        let mut sums = [f32x4::splat(simd, 0.0); 2];
        for (k, &weight) in weights.iter().enumerate() {
            let four = f32x4::from_slice(simd, &part[k * N..k * N + 4]);
            sums[k & 1] = four.mul_add(f32x4::splat(simd, weight), sums[k & 1]);
        }
        let mut four = [0.0; 4];
        (sums[0] + sums[1]).store_slice(&mut four);
        to.copy_from_slice(&four[..N]);
    }
}

#[inline(always)]
fn along_grey<S: Simd>(simd: S, out: &mut [f32], row: &[f32], kernel: &super::Kernel) {
    for (i, to) in out.iter_mut().take(kernel.len()).enumerate() {
        let (first, weights) = kernel.taps(i);
        let part = &row[first..first + weights.len()];
        let (fours, rest) = part.as_chunks::<4>();
        let (weight_fours, weight_rest) = weights.as_chunks::<4>();
        let mut sum = f32x4::splat(simd, 0.0);
        for (four, weight) in fours.iter().zip(weight_fours) {
            let four = f32x4::from_slice(simd, four);
            sum = four.mul_add(f32x4::from_slice(simd, weight), sum);
        }
        let mut lanes = [0.0; 4];
        sum.store_slice(&mut lanes);
        let tail: f32 = rest.iter().zip(weight_rest).map(|(a, b)| a * b).sum();
        *to = lanes.iter().sum::<f32>() + tail;
    }
}
