//! What a file's headers say.

use serde::{Deserialize, Serialize};

use crate::{Finding, Format, Orientation, ProfileFacts, Resolution, Size};

/// What a file's headers say, found without decoding its pixels.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Facts {
    /// The file's format.
    pub format: Format,
    /// Pixels as shown, after orientation.
    pub pixels: Size,
    /// The resolution the file states, turned with the picture.
    pub resolution: Option<Resolution>,
    /// How the stored pixels are turned to be shown.
    pub orientation: Orientation,
    /// The colour profile, or that there is none.
    pub profile: ProfileFacts,
    /// Bits a sample.
    pub bits: u8,
    /// Whether the file carries a small picture of itself.
    pub has_thumbnail: bool,
    /// The file's length in bytes.
    pub file_bytes: u64,
    /// What the person should know.
    pub findings: Vec<Finding>,
}

impl Facts {
    /// The printed size the stated resolution asks for, in millimetres (width, height).
    #[must_use]
    pub fn print_size_mm(&self) -> Option<(f64, f64)> {
        let r = self.resolution?;
        Some((
            f64::from(self.pixels.width) / r.x_ppi * 25.4,
            f64::from(self.pixels.height) / r.y_ppi * 25.4,
        ))
    }

    /// The true pixels per inch when printed at this size (across, down).
    #[must_use]
    pub fn ppi_at_mm(&self, width_mm: f64, height_mm: f64) -> (f64, f64) {
        (
            f64::from(self.pixels.width) * 25.4 / width_mm,
            f64::from(self.pixels.height) * 25.4 / height_mm,
        )
    }

    /// Whether the stated print size differs from this printed size by more than `tolerance_mm`
    /// on either side; `false` when the file states none.
    #[must_use]
    pub fn print_size_disagrees(
        &self,
        width_mm: f64,
        height_mm: f64,
        tolerance_mm: f64,
    ) -> bool {
        self.print_size_mm().is_some_and(|(w, h)| {
            (w - width_mm).abs() > tolerance_mm || (h - height_mm).abs() > tolerance_mm
        })
    }
}
