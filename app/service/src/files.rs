//! Plans on this system's disk, and the pictures they refer to.

use std::path::{Path, PathBuf};

use sightedge_core::date::Date;
use sightedge_core::file::reference::{self, ReferenceError};
use sightedge_core::file::store::{self, OpenError, Overwrite, System};
use sightedge_core::spec::Document;
use sightedge_pictures::{PictureError, Preview, WriteForm};

pub use sightedge_core::file::store::{
    Opened, SaveError, Stamp, is_plan, meant_by, plan_of, plans_in,
};

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
pub fn save(path: &Path, document: &Document, over: Overwrite<'_>) -> Result<Stamp, SaveError> {
    store::save(&System, path, document, over)
}

/// Writes any file whole or not at all, in the place of what is there.
///
/// # Errors
/// The system's.
pub fn write_whole(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    store::write_whole(&System, path, bytes)
}

/// Writes any file whole or not at all, where none may be yet.
///
/// # Errors
/// The system's; `AlreadyExists` where one is there.
pub fn write_new(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    store::write_new(&System, path, bytes)
}

/// Writes a picture in the form that its file's name asks for, whole or not at all.
///
/// # Errors
/// Where the name ends in neither `.png` nor `.ppm`, or the file cannot be written.
pub fn write_picture(path: &Path, picture: &Preview) -> Result<(), PictureError> {
    let unwritable = |reason: String| PictureError::Unwritable { path: path.into(), reason };
    let form = WriteForm::from_path(path)
        .ok_or_else(|| unwritable("its name should end in .png or .ppm".to_owned()))?;
    store::write_whole_by(&System, path, |out| form.write(picture, out))
        .map_err(|error| unwritable(error.to_string()))
}

/// What a plan is called: by its title, else by its picture's name.
pub fn title_of(document: &Document) -> String {
    let work = document.works.first();
    let title = work.map(|work| work.title.as_str()).unwrap_or_default();
    if !title.is_empty() {
        return title.to_owned();
    }
    let path = work.map(|work| work.picture.path.as_str()).unwrap_or_default();
    path.rsplit('/').next().unwrap_or(path).to_owned()
}

/// What lies where a plan is to be saved.
#[derive(Clone, Debug)]
pub struct There {
    /// What that plan is called, and its stamp; `None` where the file does not open as a plan.
    pub plan: Option<(String, Stamp)>,
    /// The day it was last written, where the system tells.
    pub day: Option<Date>,
}

/// What lies at `path`; `None` where nothing does.
pub fn there(path: &Path) -> Option<There> {
    let facts = std::fs::metadata(path).ok()?;
    let plan = open(path).ok().map(|opened| (title_of(&opened.document), opened.stamp));
    let day = facts.modified().ok().and_then(crate::dates::day_of);
    Some(There { plan, day })
}

/// Whether two paths lead to one file, links followed; where one is not there, whether they
/// are the same path.
pub fn are_one(one: &Path, other: &Path) -> bool {
    one == other
        || matches!((one.canonicalize(), other.canonicalize()), (Ok(a), Ok(b)) if a == b)
}

/// Points a document at its pictures from another place on disk; those that cannot be named
/// from there keep the name they had.
///
/// # Errors
/// The first of these.
pub fn move_references(
    document: &mut Document,
    from: &Path,
    to: &Path,
) -> Result<(), ReferenceError> {
    let mut outcome = Ok(());
    for work in &mut document.works {
        match reference_to(&picture_of(from, &work.picture.path), to) {
            Ok(reference) => work.picture.path = reference,
            Err(error) => outcome = outcome.and(Err(error)),
        }
    }
    outcome
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
