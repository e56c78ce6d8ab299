//! `scene WIDTH HEIGHT OUT.ppm`: an invented landscape as a 16-bit binary PPM, for the bench.
//!
//! Sky, ridges, a field of stones and fine grain: smooth parts, hard edges and texture in about
//! the mix a photograph has, so that a JPEG of it at quality 92 takes 0.3 to 0.5 byte a pixel.
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    clippy::many_single_char_names,
    clippy::print_stderr,
    reason = "a generator of test pictures"
)]

use std::fs::File;
use std::io::{BufWriter, Write};
use std::process::ExitCode;

fn hash(x: i32, y: i32, seed: u32) -> u32 {
    let mut h = (x as u32).wrapping_mul(0x9e37_79b1)
        ^ (y as u32).wrapping_mul(0x85eb_ca77)
        ^ seed.wrapping_mul(0xc2b2_ae3d);
    h = (h ^ (h >> 15)).wrapping_mul(0x2c1b_3c6d);
    h = (h ^ (h >> 12)).wrapping_mul(0x297a_2d39);
    h ^ (h >> 15)
}

/// -1 to 1.
fn white(x: i32, y: i32, seed: u32) -> f32 {
    hash(x, y, seed) as f32 / 2_147_483_648.0 - 1.0
}

/// Smooth noise, one lattice point a unit.
fn smooth(x: f32, y: f32, seed: u32) -> f32 {
    let (ix, iy) = (x.floor(), y.floor());
    let (fx, fy) = (x - ix, y - iy);
    let (ix, iy) = (ix as i32, iy as i32);
    let ease = |t: f32| t * t * (3.0 - 2.0 * t);
    let (u, v) = (ease(fx), ease(fy));
    let row = |dy| {
        let (a, b) = (white(ix, iy + dy, seed), white(ix + 1, iy + dy, seed));
        a + (b - a) * u
    };
    let (a, b) = (row(0), row(1));
    a + (b - a) * v
}

/// Noise of several scales; `keep` is how much of its strength each finer one keeps.
fn layers(x: f32, y: f32, octaves: i32, keep: f32, seed: u32) -> f32 {
    let (mut sum, mut scale, mut weight) = (0.0, 1.0, 0.5);
    for k in 0..octaves {
        sum += weight * smooth(x * scale, y * scale, seed + k as u32);
        scale *= 2.03;
        weight *= keep;
    }
    sum
}

/// Linear light at (u, v), both 0 to 1 along the longer side; `px` is a pixel's size.
fn light(u: f32, v: f32, x: i32, y: i32, px: f32) -> [f32; 3] {
    let ridge = |seed: u32, base: f32, height: f32| {
        base + height * layers(u * 5.0, 0.37, 7, 0.53, seed)
    };
    let fine = ((0.003 / px).log2().max(0.0) as i32 + 5).min(9);
    let mut rgb;
    if v < ridge(3, 0.24, 0.16) {
        let cloud = (layers(u * 4.0, v * 9.0, 6, 0.53, 11) * 1.6).clamp(0.0, 1.0);
        let t = v / 0.4;
        rgb = [0.10 + 0.35 * t, 0.22 + 0.33 * t, 0.55 + 0.1 * t];
        for c in &mut rgb {
            *c += (0.92 - *c) * cloud;
        }
    } else if v < ridge(5, 0.36, 0.12) {
        let rock = 0.16 + 0.13 * layers(u * 60.0, v * 60.0, fine - 1, 0.7, 21);
        rgb = [rock * 0.85, rock * 0.95, rock * 1.25];
    } else {
        let texture = layers(u * 140.0, v * 190.0, fine - 2, 0.75, 31);
        let ground = 0.14 + 0.12 * texture;
        rgb = [ground * 1.15, ground * 1.2, ground * 0.55];
        // Stones: discs with hard edges, lit from the left.
        let (cx, cy) = ((u * 34.0).floor() as i32, (v * 34.0).floor() as i32);
        for (dx, dy) in [(0, 0), (-1, 0), (0, -1), (-1, -1)] {
            let (gx, gy) = (cx + dx, cy + dy);
            let r = 0.28 + 0.2 * white(gx, gy, 41);
            let ox = u * 34.0 - gx as f32 - 1.0 - 0.4 * white(gx, gy, 42);
            let oy = v * 34.0 - gy as f32 - 1.0 - 0.4 * white(gx, gy, 43);
            if ox * ox + oy * oy < r * r {
                let lit = 0.45 - 0.5 * ox / r * 0.6 + 0.05 * texture;
                let warm = white(gx, gy, 44) * 0.12;
                rgb = [lit * (0.9 + warm), lit * 0.85, lit * (0.8 - warm)];
            }
        }
        // Grass blades: thin bright lines.
        if smooth(u * 900.0, v * 90.0, 51) > 0.62 {
            rgb = [rgb[0] * 1.3 + 0.03, rgb[1] * 1.5 + 0.05, rgb[2]];
        }
    }
    let grain = 0.085;
    for (k, c) in rgb.iter_mut().enumerate() {
        let shot = white(x, y, 61 + k as u32) + white(x, y, 71 + k as u32);
        *c = (*c + grain * shot * c.max(0.004).sqrt() * 0.7).clamp(0.0, 1.0);
    }
    rgb
}

fn encode(v: f32) -> u16 {
    let v = if v <= 0.003_130_8 { v * 12.92 } else { 1.055 * v.powf(1.0 / 2.4) - 0.055 };
    (v * 65535.0 + 0.5) as u16
}

fn row(y: u32, width: u32, height: u32) -> Vec<u8> {
    let px = 1.0 / width.max(height) as f32;
    let mut row = Vec::with_capacity(width as usize * 6);
    for x in 0..width {
        let rgb = light(x as f32 * px, y as f32 * px, x.cast_signed(), y.cast_signed(), px);
        row.extend(rgb.iter().flat_map(|&c| encode(c).to_be_bytes()));
    }
    row
}

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [width, height, path] = args.as_slice() else {
        eprintln!("usage: scene WIDTH HEIGHT OUT.ppm");
        return ExitCode::from(2);
    };
    let (Ok(width), Ok(height)) = (width.parse::<u32>(), height.parse::<u32>()) else {
        eprintln!("\"{width}\" and \"{height}\" should be whole numbers of pixels");
        return ExitCode::from(2);
    };
    let written = File::create(path).and_then(|file| {
        let mut out = BufWriter::new(file);
        write!(out, "P6\n{width} {height}\n65535\n")?;
        for first in (0..height).step_by(64) {
            let rows = first..(first + 64).min(height);
            let middle = rows.start.midpoint(rows.end);
            let make = |range: std::ops::Range<u32>| -> Vec<u8> {
                range.flat_map(|y| row(y, width, height)).collect()
            };
            let (a, b) = std::thread::scope(|scope| {
                let other = scope.spawn(|| make(middle..rows.end));
                (make(rows.start..middle), other.join())
            });
            out.write_all(&a)?;
            out.write_all(&b.map_err(|_| std::io::Error::other("a thread failed"))?)?;
        }
        out.flush()
    });
    match written {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("cannot write {path}: {error}");
            ExitCode::FAILURE
        }
    }
}
