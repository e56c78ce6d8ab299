//! Hashes and gradient noise: the same numbers on every machine.

#![allow(clippy::as_conversions, reason = "lattice noise turns floats into cells")]
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "cells wrap and hashes are bits, not quantities"
)]

use crate::vector::V;

pub(crate) fn hash(a: i64, b: i64, c: i64, seed: u32) -> u32 {
    let mut h = (a as u32).wrapping_mul(0x9E37_79B1)
        ^ (b as u32).wrapping_mul(0x85EB_CA77).rotate_left(13)
        ^ (c as u32).wrapping_mul(0xC2B2_AE3D).rotate_left(7)
        ^ seed.wrapping_mul(0x27D4_EB2F);
    h ^= h >> 16;
    h = h.wrapping_mul(0x7FEB_352D);
    h ^= h >> 15;
    h = h.wrapping_mul(0x846C_A68B);
    h ^ (h >> 16)
}

/// 0 up to 1, from a hash.
pub(crate) fn unit(h: u32) -> f64 {
    f64::from(h) / 4_294_967_296.0
}

pub(crate) fn random(a: i64, b: i64, seed: u32) -> f64 {
    unit(hash(a, b, 0, seed))
}

fn cell(x: f64) -> (i64, f64) {
    let mut i = x as i64;
    if (i as f64) > x {
        i -= 1;
    }
    (i, x - i as f64)
}

fn fade(t: f64) -> f64 {
    t * t * t * (t * (t * 6.0 - 15.0) + 10.0)
}

fn slope2(h: u32, x: f64, y: f64) -> f64 {
    // Eight directions, even round the circle.
    const D: f64 = std::f64::consts::FRAC_1_SQRT_2;
    match h >> 29 {
        0 => x,
        1 => -x,
        2 => y,
        3 => -y,
        4 => (x + y) * D,
        5 => (x - y) * D,
        6 => (y - x) * D,
        _ => (-x - y) * D,
    }
}

/// Gradient noise in the plane, about -0.7 to 0.7.
pub(crate) fn noise2(x: f64, y: f64, seed: u32) -> f64 {
    let ((i, fx), (j, fy)) = (cell(x), cell(y));
    let g = |di: i64, dj: i64| {
        slope2(hash(i + di, j + dj, 0, seed), fx - di as f64, fy - dj as f64)
    };
    let (u, w) = (fade(fx), fade(fy));
    let low = g(0, 0) + (g(1, 0) - g(0, 0)) * u;
    let high = g(0, 1) + (g(1, 1) - g(0, 1)) * u;
    low + (high - low) * w
}

fn slope3(h: u32, x: f64, y: f64, z: f64) -> f64 {
    let (a, b) = match (h >> 28) % 12 / 4 {
        0 => (x, y),
        1 => (x, z),
        _ => (y, z),
    };
    let a = if h & 1 == 0 { a } else { -a };
    let b = if h & 2 == 0 { b } else { -b };
    a + b
}

/// Gradient noise in space, about -1 to 1.
pub(crate) fn noise3(p: V, seed: u32) -> f64 {
    let ((i, fx), (j, fy), (k, fz)) = (cell(p.x), cell(p.y), cell(p.z));
    let g = |a: i64, b: i64, c: i64| {
        let h = hash(i + a, j + b, k + c, seed);
        slope3(h, fx - a as f64, fy - b as f64, fz - c as f64)
    };
    let (u, w, s) = (fade(fx), fade(fy), fade(fz));
    let edge = |b: i64, c: i64| {
        let (l, r) = (g(0, b, c), g(1, b, c));
        l + (r - l) * u
    };
    let face = |c: i64| {
        let (l, r) = (edge(0, c), edge(1, c));
        l + (r - l) * w
    };
    let (l, r) = (face(0), face(1));
    l + (r - l) * s
}

/// Octaves of [`noise2`], turned between octaves so that no lattice shows; about -1 to 1.
pub(crate) fn fbm2(mut x: f64, mut y: f64, octaves: u32, seed: u32) -> f64 {
    let (mut sum, mut gain) = (0.0, 0.8);
    for k in 0..octaves {
        sum += gain * noise2(x, y, seed.wrapping_add(k * 101));
        (x, y) = (1.62 * x - 1.21 * y + 7.3, 1.21 * x + 1.62 * y - 3.1);
        gain *= 0.5;
    }
    sum
}

/// Octaves of [`noise3`]; about -1 to 1.
pub(crate) fn fbm3(mut p: V, octaves: u32, seed: u32) -> f64 {
    let (mut sum, mut gain) = (0.0, 0.55);
    for k in 0..octaves {
        sum += gain * noise3(p, seed.wrapping_add(k * 57));
        p = V { x: 1.7 * p.x - 1.1 * p.z, y: 2.03 * p.y + 0.37, z: 1.1 * p.x + 1.7 * p.z };
        gain *= 0.5;
    }
    sum
}
