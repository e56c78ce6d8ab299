//! Colours as light.

use crate::material::Colour;

/// A colour in linear light with sRGB's primaries: 0 is no light, 1 the medium's white.
/// Mixing and shading are honest only here; what is stored or shown is sRGB.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Tone {
    /// Red.
    pub red: f32,
    /// Green.
    pub green: f32,
    /// Blue.
    pub blue: f32,
}

impl Tone {
    /// The same light in each.
    pub const fn grey(light: f32) -> Self {
        Self { red: light, green: light, blue: light }
    }

    /// As much light as is left of it, or gained; never beyond the medium's white.
    #[must_use]
    pub fn lit(self, by: f32) -> Self {
        let lit = |part: f32| (part * by).clamp(0.0, 1.0);
        Self { red: lit(self.red), green: lit(self.green), blue: lit(self.blue) }
    }

    /// So much white light more in each part; never beyond the medium's white.
    #[must_use]
    pub fn lighter(self, by: f32) -> Self {
        let more = |part: f32| (part + by).clamp(0.0, 1.0);
        Self { red: more(self.red), green: more(self.green), blue: more(self.blue) }
    }

    /// On the way to `other`: 0 is this one, 1 the other.
    #[must_use]
    pub fn mixed(self, other: Self, share: f32) -> Self {
        let mix = |from: f32, to: f32| (to - from).mul_add(share, from);
        Self {
            red: mix(self.red, other.red),
            green: mix(self.green, other.green),
            blue: mix(self.blue, other.blue),
        }
    }

    /// In sRGB, each part to the nearest of 255.
    pub fn colour(self) -> Colour {
        Colour::new(nearest(self.red), nearest(self.green), nearest(self.blue))
    }
}

impl From<Colour> for Tone {
    fn from(colour: Colour) -> Self {
        Self {
            red: linear_from_srgb(f32::from(colour.red) / 255.0),
            green: linear_from_srgb(f32::from(colour.green) / 255.0),
            blue: linear_from_srgb(f32::from(colour.blue) / 255.0),
        }
    }
}

/// Linear light of an sRGB value, both 0 to 1. Source: IEC 61966-2-1.
pub fn linear_from_srgb(value: f32) -> f32 {
    if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
}

/// The sRGB value of linear light, both 0 to 1. Source: IEC 61966-2-1.
pub fn srgb_from_linear(light: f32) -> f32 {
    if light <= 0.003_130_8 { light * 12.92 } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 }
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a byte first"
)]
fn nearest(light: f32) -> u8 {
    (srgb_from_linear(light.clamp(0.0, 1.0)) * 255.0).round() as u8
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_colour_comes_back() {
        for value in 0..=255 {
            let colour = Colour::new(value, 255 - value, 128);
            assert_eq!(Tone::from(colour).colour(), colour, "through linear light");
        }
    }

    /// Source: IEC 61966-2-1: half of the white's light is sRGB 188 of 255; the straight
    /// part meets the curve at 0.04045.
    #[test]
    fn the_curve() {
        assert_eq!(Tone::grey(0.5).colour(), Colour::new(188, 188, 188), "half the light");
        let knee = linear_from_srgb(0.04045);
        assert!((knee - 0.003_130_8).abs() < 1e-6, "{knee}");
    }
}
