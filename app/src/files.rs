//! Plans on this system's disk, and the pictures they refer to.

use std::path::{Path, PathBuf};

use sightedge_core::file::reference::{self, ReferenceError};
use sightedge_core::file::store::{self, OpenError, Over, System};
use sightedge_core::spec::Document;

pub use sightedge_core::file::store::{Opened, SaveError, Stamp, is_plan, meant_by, plan_of};

/// What a person knows a file by: a plan that lies beside its picture by the picture's name.
pub fn named_by(path: &Path) -> PathBuf {
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
    let picture = name.as_deref().and_then(|name| name.strip_suffix(store::ENDING));
    let picture = picture.map(|picture| path.with_file_name(picture));
    picture.filter(|picture| picture.exists()).unwrap_or_else(|| path.to_owned())
}

/// Opens a plan.
///
/// # Errors
/// Says what was found and what to do.
pub fn open(path: &Path) -> Result<Opened, OpenError> {
    store::open(&System, path)
}

/// Saves a plan.
///
/// # Errors
/// Says which step failed; nothing is lost.
pub fn save(path: &Path, document: &Document, over: Over<'_>) -> Result<Stamp, SaveError> {
    store::save(&System, path, document, over)
}

/// The picture that the plan at `plan` refers to.
pub fn picture_of(plan: &Path, reference: &str) -> PathBuf {
    reference::resolve(&folder(plan), reference)
}

/// How the plan at `plan` refers to a picture.
///
/// # Errors
/// Where the picture's name is no text.
pub fn reference_to(picture: &Path, plan: &Path) -> Result<String, ReferenceError> {
    reference::relative(&folder(plan), picture)
}

/// The folder of a plan, as it is once links are followed.
fn folder(plan: &Path) -> PathBuf {
    let plan = plan.canonicalize().unwrap_or_else(|_| plan.to_owned());
    match plan.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    }
}
