//! CIELAB, differences and contrast.

use std::sync::LazyLock;

use palette::color_difference::Ciede2000;
use palette::white_point::D65;
use serde::{Deserialize, Serialize};

/// A colour in CIELAB under D65 (2 degrees).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Lab {
    /// Lightness, 0 to 100.
    pub l: f64,
    /// Green to red.
    pub a: f64,
    /// Blue to yellow.
    pub b: f64,
}

/// Linear light of each sRGB byte. Source: IEC 61966-2-1.
static LINEAR: LazyLock<[f64; 256]> = LazyLock::new(|| {
    std::array::from_fn(|i| {
        let v = f64::from(u8::try_from(i).unwrap_or(255)) / 255.0;
        if v <= 0.040_45 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
    })
});

/// Linear light of an sRGB colour, each 0 to 1.
#[must_use]
pub(crate) fn linear(rgb: [u8; 3]) -> [f64; 3] {
    rgb.map(|v| LINEAR[usize::from(v)])
}

impl Lab {
    /// A colour by its coordinates.
    #[must_use]
    pub const fn new(l: f64, a: f64, b: f64) -> Self {
        Self { l, a, b }
    }

    /// The Lab of an sRGB colour.
    #[must_use]
    pub fn from_srgb(rgb: [u8; 3]) -> Self {
        Self::from_linear(linear(rgb))
    }

    /// The Lab of linear sRGB light. Source: IEC 61966-2-1 (matrix), CIE 15 (Lab), white
    /// .9505 1 1.089.
    #[must_use]
    pub fn from_linear(light: [f64; 3]) -> Self {
        let sum = |by: [f64; 3]| by[0] * light[0] + by[1] * light[1] + by[2] * light[2];
        let x = sum([0.4124, 0.3576, 0.1805]) / 0.9505;
        let y = sum([0.2126, 0.7152, 0.0722]);
        let z = sum([0.0193, 0.1192, 0.9505]) / 1.089;
        let f = |t: f64| {
            if t > 216.0 / 24389.0 { t.cbrt() } else { (t * 24389.0 / 27.0 + 16.0) / 116.0 }
        };
        let (fx, fy, fz) = (f(x), f(y), f(z));
        Self { l: 116.0 * fy - 16.0, a: 500.0 * (fx - fy), b: 200.0 * (fy - fz) }
    }

    /// The nearest sRGB colour, each channel cut off at its ends.
    #[must_use]
    pub fn to_srgb(self) -> [u8; 3] {
        let fy = (self.l + 16.0) / 116.0;
        let (fx, fz) = (fy + self.a / 500.0, fy - self.b / 200.0);
        let inverse = |f: f64| {
            let cube = f * f * f;
            if cube > 216.0 / 24389.0 { cube } else { (116.0 * f - 16.0) * 27.0 / 24389.0 }
        };
        let (x, y, z) = (inverse(fx) * 0.9505, inverse(fy), inverse(fz) * 1.089);
        let light = [
            3.2406 * x - 1.5372 * y - 0.4986 * z,
            -0.9689 * x + 1.8758 * y + 0.0415 * z,
            0.0557 * x - 0.2040 * y + 1.0570 * z,
        ];
        light.map(crate::tone::srgb_byte)
    }

    /// The Lab of a colour written as `#rrggbb` (the sign may be left out).
    ///
    /// # Errors
    /// What was found, what is wanted.
    pub fn from_hex(text: &str) -> Result<Self, String> {
        let wrong =
            || format!("\"{text}\" is not a colour: try #f4efe6, six hexadecimal digits");
        let digits = text.trim().trim_start_matches('#');
        if digits.len() != 6 || !digits.bytes().all(|b| b.is_ascii_hexdigit()) {
            return Err(wrong());
        }
        let whole = u32::from_str_radix(digits, 16).map_err(|_| wrong())?;
        let [_, r, g, b] = whole.to_be_bytes();
        Ok(Self::from_srgb([r, g, b]))
    }

    /// Chroma: distance from grey.
    #[must_use]
    pub fn chroma(self) -> f64 {
        self.a.hypot(self.b)
    }

    /// Hue angle, 0 to 360 degrees.
    #[must_use]
    pub fn hue(self) -> f64 {
        self.b.atan2(self.a).to_degrees().rem_euclid(360.0)
    }
}

/// CIEDE2000. Source: CIE 142-2001; the library's is checked on the published 34 pairs.
#[must_use]
pub fn delta_e_2000(a: Lab, b: Lab) -> f64 {
    let library = |c: Lab| palette::Lab::<D65, f64>::new(c.l, c.a, c.b);
    library(a).difference(library(b))
}

/// Relative luminance, 0 to 1. Source: WCAG 2.2.
#[must_use]
pub fn relative_luminance(rgb: [u8; 3]) -> f64 {
    let [r, g, b] = linear(rgb);
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// Contrast ratio, 1 to 21, whichever is lighter. Source: WCAG 2.2.
#[must_use]
pub fn contrast_ratio(a: [u8; 3], b: [u8; 3]) -> f64 {
    let (a, b) = (relative_luminance(a), relative_luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}
