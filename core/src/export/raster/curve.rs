//! Linear light and sRGB bytes, by table.

use std::sync::LazyLock;

use crate::drawing::{linear_from_srgb, srgb_from_linear};

/// Steps of the way back. Spaced by the square root of light, where the sRGB curve is nearly
/// straight, so that a line between two of them is off by less than 1/1000 of a byte.
const STEPS: usize = 4096;

pub(super) struct Curve {
    linear: [f32; 256],
    bytes: Vec<f32>,
}

pub(super) static CURVE: LazyLock<Curve> = LazyLock::new(|| {
    let mut linear = [0.0; 256];
    for (value, light) in (0..=255_u8).zip(&mut linear) {
        *light = linear_from_srgb(f32::from(value) / 255.0);
    }
    let byte = |step: usize| {
        let root = step as f32 / STEPS as f32;
        srgb_from_linear(root * root) * 255.0
    };
    // Two more, so that white itself has a next step.
    Curve { linear, bytes: (0..STEPS + 2).map(byte).collect() }
});

impl Curve {
    pub(super) fn linear(&self, value: u8) -> f32 {
        self.linear[usize::from(value)]
    }

    /// The byte of a light. `grain`, within ± 0.5, decides between two bytes where the light
    /// falls between them, so that a long faint shade shows no steps; a light that is a
    /// byte's own stays that byte.
    pub(super) fn byte(&self, light: f32, grain: f32) -> u8 {
        let place = light.clamp(0.0, 1.0).sqrt() * STEPS as f32;
        let step = place as usize;
        let part = place - step as f32;
        let (below, above) = (self.bytes[step], self.bytes[step + 1]);
        (below + (above - below) * part + grain + 0.5) as u8
    }
}

/// An even grain of ± 0.49 that has no pattern to the eye. Source: Jimenez, *Next Generation
/// Post Processing in Call of Duty*, SIGGRAPH 2014 (interleaved gradient noise).
pub(super) fn grain(x: usize, y: usize) -> f32 {
    // 0.06711056, 0.00583715 in 32 bits after the point, 52.9829189 in 16: whole numbers,
    // of which those before the point fall off.
    let along =
        (x as u32).wrapping_mul(288_237_660).wrapping_add((y as u32).wrapping_mul(25_070_368));
    let part = ((u64::from(along) * 3_472_289) >> 16) as u32;
    (part as f32 / u32::MAX as f32 - 0.5) * 0.98
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_byte_of_light_stays_that_byte() {
        for value in 0..=255 {
            for grain in [-0.49, 0.0, 0.49] {
                assert_eq!(CURVE.byte(CURVE.linear(value), grain), value, "grain {grain}");
            }
        }
        assert_eq!(CURVE.byte(f32::NAN, 0.0), 0, "no number is no light");
        assert_eq!(CURVE.byte(9.0, 0.49), 255, "more than white is white");
    }
}
