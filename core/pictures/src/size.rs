//! How many pixels a picture has, and how many of them make an inch.
#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "pixel counts become f64 for display and ratios"
)]

use std::fmt;

use serde::{Deserialize, Serialize};

/// Width and height in pixels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Size {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

impl Size {
    /// A size of `width` by `height` pixels.
    #[must_use]
    pub const fn new(width: u32, height: u32) -> Self {
        Self { width, height }
    }
    /// All pixels.
    #[must_use]
    pub fn pixels(self) -> u64 {
        u64::from(self.width) * u64::from(self.height)
    }
    /// Pixels in millions.
    #[must_use]
    pub fn megapixels(self) -> f64 {
        mega(self.pixels())
    }
    /// Width and height exchanged.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self { width: self.height, height: self.width }
    }
    /// The largest size of the same proportion whose longer side is at most `side`, each side
    /// rounded to the nearest pixel and at least 1; `self` if it is already small enough.
    #[must_use]
    pub fn fitted(self, side: u32) -> Self {
        let longer = self.width.max(self.height).max(1);
        let side = side.max(1);
        if longer <= side {
            return self;
        }
        let scaled = |n: u32| {
            let twice = u64::from(n) * u64::from(side) * 2 + u64::from(longer);
            u32::try_from(twice / (2 * u64::from(longer))).unwrap_or(side).max(1)
        };
        Self { width: scaled(self.width), height: scaled(self.height) }
    }
}

impl fmt::Display for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} x {}", self.width, self.height)
    }
}

pub(crate) fn mega(pixels: u64) -> f64 {
    pixels as f64 / 1e6
}

/// Where a resolution was stated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum ResolutionSource {
    /// EXIF's `XResolution` and `YResolution`.
    Exif,
    /// The JFIF header's density.
    Jfif,
    /// TIFF's own tags.
    Tiff,
    /// PNG's `pHYs` chunk.
    Png,
}

/// Pixels per inch, across and down the picture as shown.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Resolution {
    /// Pixels per inch across.
    pub x_ppi: f64,
    /// Pixels per inch down.
    pub y_ppi: f64,
    /// Where the file says so.
    pub source: ResolutionSource,
}

impl Resolution {
    /// A plausible resolution: finite, between 1 and 100 000 pixels per inch.
    pub(crate) fn sane(x_ppi: f64, y_ppi: f64, source: ResolutionSource) -> Option<Self> {
        let plausible = 1.0..=100_000.0;
        (plausible.contains(&x_ppi) && plausible.contains(&y_ppi)).then_some(Self {
            x_ppi,
            y_ppi,
            source,
        })
    }
    pub(crate) fn turned(self) -> Self {
        Self { x_ppi: self.y_ppi, y_ppi: self.x_ppi, source: self.source }
    }
}
