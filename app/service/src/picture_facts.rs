//! What is known of a picture before its pixels: size, stated resolution, content hash.

use std::path::Path;
use std::time::SystemTime;

use sha2::{Digest, Sha256};
use sightedge_core::finding::Finding;
use sightedge_core::geometry::Size;
use sightedge_core::layout::Layout;
use sightedge_core::length::Length;
use sightedge_core::rules::print_size;
use sightedge_core::spec::{Document, Mat, Picture};
use sightedge_pictures::{CancelToken, Facts, Limits, PictureError, content_hash, probe};

use crate::files;

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
    facts_by(path, |path| probe(path, &Limits::default()))
}

/// The same, the headers read by `probe`.
///
/// # Errors
/// Says what was found and what to do.
pub fn facts_by(
    path: &Path,
    probe: impl FnOnce(&Path) -> Result<Facts, PictureError>,
) -> Result<PictureFacts, String> {
    let facts = probe(path).map_err(|error| error.to_string())?;
    let hash =
        content_hash(path, &CancelToken::default()).map_err(|error| error.to_string())?;
    Ok(PictureFacts { facts, sha256: hash.to_string() })
}

impl PictureFacts {
    /// The printed size that pixels and stated resolution ask for; `None` where no resolution
    /// is stated.
    pub fn print_size(&self) -> Option<Size> {
        stated_size(&self.facts)
    }

    /// The printed size at so many pixels per inch.
    pub fn size_at(&self, x_ppi: f64, y_ppi: f64) -> Size {
        size_at(&self.facts, x_ppi, y_ppi)
    }

    /// The picture as the plan at `plan` refers to it.
    ///
    /// # Errors
    /// Where its name is no text.
    pub fn picture(&self, picture: &Path, plan: &Path) -> Result<Picture, String> {
        Ok(Picture {
            path: files::reference_to(picture, plan).map_err(|error| error.to_string())?,
            sha256: self.sha256.clone(),
            width_px: self.facts.pixels.width,
            height_px: self.facts.pixels.height,
        })
    }
}

/// The printed size that a picture's pixels and its stated resolution ask for; `None` where it
/// states none.
pub fn stated_size(facts: &Facts) -> Option<Size> {
    let stated = facts.resolution?;
    Some(size_at(facts, stated.x_ppi, stated.y_ppi))
}

fn size_at(facts: &Facts, x_ppi: f64, y_ppi: f64) -> Size {
    let length = |pixels: u32, ppi: f64| {
        Length::INCH.scaled(i128::from(pixels) * 10_000, ten_thousandths(ppi))
    };
    Size::new(length(facts.pixels.width, x_ppi), length(facts.pixels.height, y_ppi))
}

/// Where the pictures of the plan at `plan`, as far as they are there, ask to be printed at
/// another size than the plan has them.
pub fn other_sizes(
    document: &Document,
    mat: &Mat,
    layout: &Layout,
    plan: &Path,
) -> Vec<Finding> {
    let seen = mat.openings.iter().zip(&layout.exact.openings);
    seen.filter_map(|(opening, window)| {
        let work = document.work(opening.work)?;
        let picture = files::picture_of(plan, &work.picture.path);
        let stated = stated_size(&probe(&picture, &Limits::default()).ok()?)?;
        print_size(document, work, window, stated)
    })
    .collect()
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
