//! CIELAB, differences and contrast, as the library `palette` has them.

use palette::color_difference::{Ciede2000, Wcag21RelativeContrast};
use palette::white_point::D65;
use palette::{GetHue, IntoColor, Lch, LinSrgb, Srgb};
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

/// Linear light of an sRGB colour, each 0 to 1. Source: IEC 61966-2-1.
#[must_use]
pub(crate) fn linear(rgb: [u8; 3]) -> [f64; 3] {
    Srgb::from(rgb).into_linear().into()
}

/// The library's form of it.
type Library = palette::Lab<D65, f64>;

impl From<Lab> for Library {
    fn from(Lab { l, a, b }: Lab) -> Self {
        Self::new(l, a, b)
    }
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

    /// The Lab of linear sRGB light. Source: IEC 61966-2-1 (matrix), CIE 15 (Lab).
    #[must_use]
    pub fn from_linear(light: [f64; 3]) -> Self {
        let Library { l, a, b, .. } = LinSrgb::from(light).into_color();
        Self { l, a, b }
    }

    /// The nearest sRGB colour, each channel cut off at its ends.
    #[must_use]
    pub fn to_srgb(self) -> [u8; 3] {
        let light: LinSrgb<f64> = Library::from(self).into_color();
        Srgb::<f64>::from_linear(light).into_format().into()
    }

    /// The Lab of a colour written as `#rrggbb` (the sign may be left out).
    ///
    /// # Errors
    /// What was found, what is wanted.
    pub fn from_hex(text: &str) -> Result<Self, String> {
        let wrong = || {
            format!(
                "\"{text}\" is not a colour: type # and six digits 0 to 9 and a to f, \
                        as in #f4efe6"
            )
        };
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
        let polar: Lch<D65, f64> = Library::from(self).into_color();
        polar.chroma
    }

    /// Hue angle, 0 to 360 degrees.
    #[must_use]
    pub fn hue(self) -> f64 {
        Library::from(self).get_hue().into_positive_degrees()
    }
}

/// CIEDE2000. Source: CIE 142-2001; the library's is checked on the published 34 pairs.
#[must_use]
pub fn delta_e_2000(a: Lab, b: Lab) -> f64 {
    Library::from(a).difference(b.into())
}

/// Relative luminance, 0 to 1. Source: WCAG 2.2.
#[must_use]
pub fn relative_luminance(rgb: [u8; 3]) -> f64 {
    Srgb::from(rgb).into_format::<f64>().relative_luminance().luma
}

/// Contrast ratio, 1 to 21, whichever is lighter. Source: WCAG 2.2.
#[must_use]
pub fn contrast_ratio(a: [u8; 3], b: [u8; 3]) -> f64 {
    Srgb::from(a).into_format::<f64>().relative_contrast(Srgb::from(b).into_format())
}
