//! What is known of a picture before its pixels: size, stated resolution, content hash.

use std::path::Path;
use std::time::SystemTime;

use sha2::{Digest, Sha256};
use sightedge_core::geometry::Size;
use sightedge_core::length::Length;
use sightedge_core::spec::Picture;
use sightedge_pictures::{Facts, Limits, Watch, content_hash, probe};

/// A picture's facts and the hash of its bytes.
#[derive(Clone, Debug)]
pub struct PictureFacts {
    /// What the headers say.
    pub facts: Facts,
    /// SHA-256 of the file in hexadecimal.
    pub sha256: String,
}

/// Reads a picture's headers and hashes its bytes.
///
/// # Errors
/// Says what was found and what to do.
pub fn facts(path: &Path) -> Result<PictureFacts, String> {
    let facts = probe(path, &Limits::default()).map_err(|error| error.to_string())?;
    let hash = content_hash(path, &Watch::default()).map_err(|error| error.to_string())?;
    Ok(PictureFacts { facts, sha256: hash.to_string() })
}

impl PictureFacts {
    /// The printed size that pixels and stated resolution ask for; `None` where no resolution
    /// is stated.
    pub fn print_size(&self) -> Option<Size> {
        let stated = self.facts.resolution?;
        Some(self.size_at(stated.x_ppi, stated.y_ppi))
    }

    /// The printed size at so many pixels per inch.
    pub fn size_at(&self, x_ppi: f64, y_ppi: f64) -> Size {
        let length = |pixels: u32, ppi: f64| {
            Length::INCH.scaled(i128::from(pixels) * 10_000, ten_thousandths(ppi))
        };
        Size::new(
            length(self.facts.pixels.width, x_ppi),
            length(self.facts.pixels.height, y_ppi),
        )
    }

    /// The picture as the plan at `plan` refers to it.
    ///
    /// # Errors
    /// Where its name is no text.
    pub fn picture(&self, picture: &Path, plan: &Path) -> Result<Picture, String> {
        Ok(Picture {
            path: crate::files::reference_to(picture, plan)
                .map_err(|error| error.to_string())?,
            sha256: self.sha256.clone(),
            width_px: self.facts.pixels.width,
            height_px: self.facts.pixels.height,
        })
    }
}

/// A resolution in whole ten-thousandths, at least one.
#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "clamped before")]
fn ten_thousandths(ppi: f64) -> i128 {
    (ppi * 10_000.0).round().clamp(1.0, 1e12) as i128
}

/// An id for a new plan: no two plans share one, though their pictures be the same.
pub fn plan_id(sha256: &str, plan: &Path) -> String {
    let now = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    let mut hash = Sha256::new();
    hash.update(sha256.as_bytes());
    hash.update(plan.as_os_str().as_encoded_bytes());
    hash.update(now.as_nanos().to_le_bytes());
    hash.update(std::process::id().to_le_bytes());
    let digest = hash.finalize();
    digest.iter().take(16).fold(String::new(), |id, byte| format!("{id}{byte:02x}"))
}
