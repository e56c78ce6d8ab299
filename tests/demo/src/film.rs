//! From light to a print's tones: a film's curve, its split tones and its grain.

#![allow(clippy::as_conversions, reason = "pixels are counted in u32 and hashed as cells")]
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a level is clamped to 0..=255 before it becomes a byte"
)]

use crate::noise::random;
use crate::vector::{V, mix, smooth, v};

/// How one picture was developed.
#[derive(Clone, Debug)]
pub(crate) struct Film {
    pub(crate) exposure: f64,
    /// Share of colour kept.
    pub(crate) colour: f64,
    /// Spread of the grain in mid tones, as a share of white.
    pub(crate) grain: f64,
    /// How much darker the corners print.
    pub(crate) corners: f64,
    pub(crate) seed: u32,
}

/// A film's shoulder and toe, after a published rational fit of a print film's response.
fn curve(x: f64) -> f64 {
    let x = x.max(0.0);
    ((x * (2.51 * x + 0.03)) / (x * (2.43 * x + 0.59) + 0.14)).clamp(0.0, 1.0)
}

fn encoded(x: f64) -> f64 {
    if x <= 0.003_130_8 { 12.92 * x } else { 1.055 * libm::pow(x, 1.0 / 2.4) - 0.055 }
}

impl Film {
    /// Grain at a pixel: specks a little wider than a pixel, spread about 1.
    fn speck(&self, x: i64, y: i64, layer: u32) -> f64 {
        let mut sum = 0.0;
        for (dx, dy, w) in [
            (0, 0, 1.0),
            (1, 0, 0.55),
            (-1, 0, 0.55),
            (0, 1, 0.55),
            (0, -1, 0.55),
            (1, 1, 0.28),
            (-1, 1, 0.28),
            (1, -1, 0.28),
            (-1, -1, 0.28),
        ] {
            let one = random(x + dx, y + dy, self.seed + layer);
            let two = random(x + dx, y + dy, self.seed + layer + 50);
            sum += w * (one + two - 1.0);
        }
        // The nine weights squared sum to 2.52; two even spreads add to a variance of 1/6.
        sum / (2.52_f64 / 6.0).sqrt()
    }

    /// The three levels of the pixel at `at`, whose place in the frame is `across`, -1 to 1.
    pub(crate) fn develop(&self, light: V, at: (u32, u32), across: (f64, f64)) -> [u8; 3] {
        let r = across.0 * across.0 + across.1 * across.1;
        let light = light * (self.exposure * (1.0 - self.corners * smooth(0.15, 2.0, r)));
        let grey = light.luminance();
        let light = v(grey, grey, grey).toward(light, self.colour);
        let c = [curve(light.x), curve(light.y), curve(light.z)].map(encoded);
        let tone = 0.25 * c[0] + 0.6 * c[1] + 0.15 * c[2];
        // Cool shadows and warm lights; black is the paper's black, not the screen's.
        let cool = [-0.010, 0.001, 0.014];
        let warm = [0.012, 0.003, -0.016];
        let (x, y) = (i64::from(at.0), i64::from(at.1));
        let strength = self.grain * (0.35 + 2.6 * tone * (1.0 - tone).max(0.0));
        let common = self.speck(x, y, 0);
        let mut out = [0; 3];
        for k in 0..3 {
            let own = self.speck(x, y, 200 + k as u32 * 100);
            let split = mix(cool[k], warm[k], smooth(0.15, 0.85, tone));
            let level = 0.024 + 0.962 * (c[k] + split) + strength * (common + 0.22 * own);
            out[k] = (level.clamp(0.0, 1.0) * 255.0 + 0.5) as u8;
        }
        out
    }
}
