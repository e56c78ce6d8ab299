//! What a decoder learns from a file's headers.

use crate::{Finding, Format, Orientation, Resolution, Size};

/// What a pixel is made of, in the order it is handed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Channels {
    Grey,
    GreyAlpha,
    Rgb,
    Rgba,
    /// Ink coverage: 0 is bare paper, all ones is full ink.
    Cmyk,
}

impl Channels {
    pub(crate) const fn count(self) -> usize {
        match self {
            Self::Grey => 1,
            Self::GreyAlpha => 2,
            Self::Rgb => 3,
            Self::Rgba | Self::Cmyk => 4,
        }
    }
    pub(crate) const fn has_alpha(self) -> bool {
        matches!(self, Self::GreyAlpha | Self::Rgba)
    }
}

/// What a decoder learns from the headers alone.
#[derive(Debug, Clone)]
pub(crate) struct Header {
    pub(crate) format: Format,
    /// As stored, before orientation.
    pub(crate) size: Size,
    pub(crate) channels: Channels,
    /// Bits a sample in the file; up to 8 arrive as bytes, more as words.
    pub(crate) bits: u8,
    pub(crate) profile: Option<Vec<u8>>,
    pub(crate) orientation: Orientation,
    pub(crate) resolution: Option<Resolution>,
    /// A JPEG stream.
    pub(crate) thumbnail: Option<Vec<u8>>,
    pub(crate) findings: Vec<Finding>,
    /// Whether any range of rows can be decoded without those before it.
    pub(crate) any_rows: bool,
}

impl Header {
    pub(super) fn new(format: Format, size: Size, channels: Channels, bits: u8) -> Self {
        Self {
            format,
            size,
            channels,
            bits,
            profile: None,
            orientation: Orientation::Upright,
            resolution: None,
            thumbnail: None,
            findings: Vec::new(),
            any_rows: false,
        }
    }

    /// Takes a stated resolution; the first one stands, a second that differs is a finding.
    pub(crate) fn state_resolution(&mut self, stated: Resolution) {
        let Some(used) = self.resolution else {
            self.resolution = Some(stated);
            return;
        };
        if (used.x_ppi - stated.x_ppi).abs() > 0.01 * used.x_ppi {
            self.findings.push(Finding::ResolutionsDisagree {
                used: rounded(used.x_ppi),
                other: rounded(stated.x_ppi),
            });
        }
    }
}

#[allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a plausible resolution lies between 1 and 100 000"
)]
fn rounded(ppi: f64) -> u32 {
    ppi.round() as u32
}
