//! A picture's dominant colours.
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "cells of a small grid and counts of pixels"
)]

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::lab::linear;
use super::{Lab, delta_e_2000};
use crate::Size;
use crate::tone::srgb_byte;

/// One colour and how much of the picture it covers.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Swatch {
    /// The colour.
    pub lab: Lab,
    /// The same as sRGB.
    pub rgb: [u8; 3],
    /// Share of the picture's area, 0 to 1.
    pub share: f64,
}

/// What a picture's colours are.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Palette {
    /// The mean of the picture's light.
    pub mean: Swatch,
    /// The mean of the light in the border zone: the outer twelfth of each side.
    pub border: Swatch,
    /// The lightest colour of any extent.
    pub light: Swatch,
    /// The darkest colour of any extent.
    pub dark: Swatch,
    /// Strong colours, the weightiest (by area and chroma) first.
    pub accents: Vec<Swatch>,
    /// Muted colours, the largest first.
    pub quiet: Vec<Swatch>,
    /// Lightness that one pixel in two hundred exceeds: the highlights.
    pub highlights: f64,
}

/// Sum of light.
#[derive(Debug, Clone, Copy, Default)]
struct Light {
    sum: [f64; 3],
    count: f64,
}

impl Light {
    fn add(&mut self, light: [f64; 3], count: f64) {
        for (sum, v) in self.sum.iter_mut().zip(light) {
            *sum += v * count;
        }
        self.count += count;
    }
    fn mean(&self) -> [f64; 3] {
        self.sum.map(|v| v / self.count.max(1.0))
    }
    fn swatch(&self, all: f64) -> Swatch {
        let mean = self.mean();
        Swatch {
            lab: Lab::from_linear(mean),
            rgb: mean.map(srgb_byte),
            share: self.count / all.max(1.0),
        }
    }
}

/// Oklab of linear sRGB light. Source: Björn Ottosson, "A perceptual color space for image
/// processing" (2020).
fn oklab(rgb: [f64; 3]) -> [f64; 3] {
    let sum = |m: [f64; 3], v: [f64; 3]| m[0] * v[0] + m[1] * v[1] + m[2] * v[2];
    let cone = [
        sum([0.412_221_470_8, 0.536_332_536_3, 0.051_445_992_9], rgb),
        sum([0.211_903_498_2, 0.680_699_545_1, 0.107_396_956_6], rgb),
        sum([0.088_302_461_9, 0.281_718_837_6, 0.629_978_700_5], rgb),
    ]
    .map(f64::cbrt);
    [
        sum([0.210_454_255_3, 0.793_617_785_0, -0.004_072_046_8], cone),
        sum([1.977_998_495_1, -2.428_592_205_0, 0.450_593_709_9], cone),
        sum([0.025_904_037_1, 0.782_771_766_2, -0.808_675_766_0], cone),
    ]
}

/// At most about this many pixels are looked at: enough for shares of a thousandth.
const LOOKED_AT: usize = 1 << 18;
/// The least share of a colour that counts: half a hundredth.
const LEAST: f64 = 0.005;
/// Chroma from which a colour is an accent (CIELAB).
const STRONG: f64 = 22.0;
/// Colours nearer than this (CIEDE2000) are one.
const SAME: f64 = 9.0;

/// The palette of RGBA pixels of `size`; see-through pixels are left out. `None` when nothing
/// is left.
#[must_use]
pub fn palette_of(rgba: &[u8], size: Size) -> Option<Palette> {
    let pixels = rgba.as_chunks::<4>().0;
    let width = usize::try_from(size.width).ok().filter(|&w| w > 0)?;
    let height = pixels.len() / width;
    let step = ((pixels.len() / LOOKED_AT) as f64).sqrt().ceil().max(1.0) as usize;
    let zone = (width.min(height) / 12).max(1);
    let mut cells: BTreeMap<[i8; 3], Light> = BTreeMap::new();
    let (mut all, mut border) = (Light::default(), Light::default());
    let mut by_lightness = [0.0f64; 1001];
    for y in (0..height).step_by(step) {
        for x in (0..width).step_by(step) {
            let [r, g, b, opacity] = pixels[y * width + x];
            if opacity < 128 {
                continue;
            }
            let light = linear([r, g, b]);
            let ok = oklab(light);
            // Cells of about 5 in lightness and 7 in chroma as CIELAB counts.
            let cell = [(ok[0] * 20.0) as i8, cell_of(ok[1]), cell_of(ok[2])];
            cells.entry(cell).or_default().add(light, 1.0);
            all.add(light, 1.0);
            if x < zone || y < zone || x + zone >= width || y + zone >= height {
                border.add(light, 1.0);
            }
            let lightness = Lab::from_linear(light).l.clamp(0.0, 100.0);
            by_lightness[(lightness * 10.0).round() as usize] += 1.0;
        }
    }
    if all.count < 1.0 {
        return None;
    }
    let swatches = merged(&cells, all.count);
    let extent = |s: &&Swatch| s.share >= LEAST;
    let first = *swatches.first()?;
    let by_l = |a: &&Swatch, b: &&Swatch| a.lab.l.total_cmp(&b.lab.l);
    let light = swatches.iter().filter(extent).max_by(by_l).copied().unwrap_or(first);
    let dark = swatches.iter().filter(extent).min_by(by_l).copied().unwrap_or(first);
    let mut accents: Vec<Swatch> =
        swatches.iter().filter(extent).filter(|s| s.lab.chroma() >= STRONG).copied().collect();
    let weight = |s: &Swatch| s.lab.chroma() * s.share.sqrt();
    accents.sort_by(|a, b| weight(b).total_cmp(&weight(a)));
    accents.truncate(5);
    let quiet: Vec<Swatch> = swatches
        .iter()
        .filter(|s| s.share >= 2.0 * LEAST && (3.0..STRONG).contains(&s.lab.chroma()))
        .take(5)
        .copied()
        .collect();
    Some(Palette {
        mean: Swatch { share: 1.0, ..all.swatch(all.count) },
        border: border.swatch(all.count),
        light,
        dark,
        accents,
        quiet,
        highlights: exceeded_by(&by_lightness, all.count / 200.0),
    })
}

fn cell_of(v: f64) -> i8 {
    (v * 40.0).round().clamp(-100.0, 100.0) as i8
}

/// The lightness that `count` pixels exceed.
fn exceeded_by(by_lightness: &[f64], count: f64) -> f64 {
    let mut seen = 0.0;
    for (tenths, pixels) in by_lightness.iter().enumerate().rev() {
        seen += pixels;
        if seen > count {
            return tenths as f64 / 10.0;
        }
    }
    0.0
}

/// Cells to colours: the weightiest cell takes in all cells that look the same, then the
/// weightiest of those left, and so on; at most 24 colours, the largest first.
fn merged(cells: &BTreeMap<[i8; 3], Light>, all: f64) -> Vec<Swatch> {
    let mut left: Vec<(Lab, Light)> =
        cells.values().map(|light| (Lab::from_linear(light.mean()), *light)).collect();
    // Chroma counts, so that a small strong colour founds a group of its own.
    let weight = |(lab, light): &(Lab, Light)| light.count * (1.0 + lab.chroma() / 25.0);
    // The sort is stable and the cells come in order: the same every time.
    left.sort_by(|a, b| weight(b).total_cmp(&weight(a)));
    let mut swatches: Vec<Swatch> = Vec::new();
    while let Some((seed, _)) = left.first().copied() {
        let mut group = Light::default();
        left.retain(|(lab, light)| {
            let same = delta_e_2000(seed, *lab) < SAME;
            if same {
                group.add(light.mean(), light.count);
            }
            !same
        });
        swatches.push(group.swatch(all));
        if swatches.len() == 24 {
            break;
        }
    }
    swatches.sort_by(|a, b| b.share.total_cmp(&a.share));
    swatches
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failing test says where")]
mod tests {
    use super::*;

    fn picture(blocks: &[([u8; 3], usize)]) -> (Vec<u8>, Size) {
        let mut rgba = Vec::new();
        for &([r, g, b], rows) in blocks {
            rgba.extend([r, g, b, 255].repeat(rows * 100));
        }
        let height = u32::try_from(rgba.len() / 400).unwrap();
        (rgba, Size::new(100, height))
    }

    #[test]
    fn known_areas_are_found_again() {
        let (rgba, size) = picture(&[
            ([245, 244, 240], 20),
            ([90, 95, 100], 50),
            ([200, 40, 30], 10),
            ([20, 22, 25], 20),
        ]);
        let palette = palette_of(&rgba, size).unwrap();
        assert_eq!(palette.light.rgb, [245, 244, 240], "the lightest");
        assert!((palette.light.share - 0.2).abs() < 1e-9, "a fifth is light");
        assert_eq!(palette.dark.rgb, [20, 22, 25], "the darkest");
        assert_eq!(palette.accents[0].rgb, [200, 40, 30], "the one strong colour");
        assert_eq!(palette.accents.len(), 1, "and no other");
        assert!((palette.highlights - palette.light.lab.l).abs() < 0.1, "its highlights");
    }

    #[test]
    fn the_same_every_time_and_nothing_for_nothing() {
        let rgba: Vec<u8> = (0..40_000u32)
            .flat_map(|i| {
                let v = i.wrapping_mul(2_654_435_761).to_le_bytes();
                [v[0], v[1], v[2], 255]
            })
            .collect();
        let size = Size::new(200, 200);
        assert_eq!(palette_of(&rgba, size), palette_of(&rgba, size), "deterministic");
        assert_eq!(palette_of(&[], Size::new(0, 0)), None, "no pixels, no palette");
        assert_eq!(palette_of(&[9, 9, 9, 0], Size::new(1, 1)), None, "all see-through");
    }
}
