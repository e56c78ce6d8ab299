//! The plan's file: where it lies, opening it, saving it so that nothing a person made is
//! ever lost.
//!
//! Saving writes the new file beside the old one, makes sure of it, keeps the old one as
//! `….bak` and only then puts the new one in its place, in one step: whatever happens, the
//! old or the new plan is there. A file that is not the one last opened or saved is not
//! overwritten unasked. Between looking and replacing there is a moment in which another
//! program's change would go unnoticed; it is then the one kept as the backup, or lost if
//! made in the very last step, which no file system offers to exclude.

mod disk;
mod error;
mod save;
mod whole;

use std::ffi::OsString;
use std::io;
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

use super::{MOST_BYTES, read_versioned_bytes};
use crate::spec::Document;

pub use disk::{Disk, NewFile, System};
pub use error::{Failed, OpenError, SaveError, Step};
pub use save::{Overwrite, save};
pub use whole::{put_in_place, write_new, write_whole, write_whole_by};

/// What a plan's file is called behind the picture's name.
pub const ENDING: &str = ".sightedge.ron";

/// Names for new files, tried in turn.
const TRIES: usize = 1000;

/// Longer chains of links are circles.
const MOST_LINKS: usize = 40;

/// A file's content as it was when it was opened or saved, to notice someone else's change.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Stamp {
    sha256: [u8; 32],
    version: u64,
}

impl Stamp {
    fn of(bytes: &[u8], version: u64) -> Self {
        Self { sha256: Sha256::digest(bytes).into(), version }
    }

    fn is_of(&self, bytes: &[u8]) -> bool {
        *self == Self::of(bytes, self.version)
    }

    /// The version of the file's form.
    pub const fn version(&self) -> u64 {
        self.version
    }
}

/// A plan that was opened.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Opened {
    /// The plan.
    pub document: Document,
    /// The file it came from, as it was.
    pub stamp: Stamp,
    /// The folder where the file truly lies, links followed: pictures are looked for from
    /// there.
    pub folder: PathBuf,
}

/// Where the plan of a picture lies: `picture.jpg.sightedge.ron` beside `picture.jpg`.
pub fn plan_of(picture: &Path) -> PathBuf {
    with_ending(picture, ENDING)
}

/// Whether a path is a plan's by its name.
pub fn is_plan(path: &Path) -> bool {
    let name = path.file_name().and_then(|name| name.to_str());
    name.is_some_and(|name| name.ends_with(ENDING))
}

/// The plans in a folder, in the order of their names.
///
/// # Errors
/// Where the folder cannot be read.
pub fn plans_in(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut plans = Vec::new();
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if is_plan(&path) && path.is_file() {
            plans.push(path);
        }
    }
    plans.sort();
    Ok(plans)
}

/// What is opened where a plan or its picture was named: the plan beside the picture, where
/// there is one.
pub fn meant_by(path: &Path) -> PathBuf {
    let beside = plan_of(path);
    if is_plan(path) || !beside.exists() { path.to_owned() } else { beside }
}

/// The path with something more behind its name.
fn with_ending(path: &Path, ending: &str) -> PathBuf {
    let mut longer = OsString::from(path);
    longer.push(ending);
    PathBuf::from(longer)
}

/// Opens a plan.
///
/// # Errors
/// Where the file is missing, the system refuses, or it is no plan.
pub fn open(disk: &dyn Disk, path: &Path) -> Result<Opened, OpenError> {
    let file = file_itself(disk, path).map_err(OpenError::Failed)?;
    let bytes = disk
        .read(&file, most_read())
        .map_err(Failed::at(Step::Read, path))
        .map_err(OpenError::Failed)?
        .ok_or_else(|| OpenError::Missing(path.to_owned()))?;
    let found = read_versioned_bytes(&bytes, &path.display().to_string());
    let found = found.map_err(OpenError::Unreadable)?;
    Ok(Opened {
        stamp: Stamp::of(&bytes, found.version),
        document: found.document,
        folder: folder(&file).to_owned(),
    })
}

/// One byte more than a plan may have shows that it has too many.
fn most_read() -> u64 {
    u64::try_from(MOST_BYTES).unwrap_or(u64::MAX).saturating_add(1)
}

/// The folder of a file.
fn folder(file: &Path) -> &Path {
    match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// The file behind all links, which need not be there.
fn file_itself(disk: &dyn Disk, path: &Path) -> Result<PathBuf, Failed> {
    let mut file = path.to_owned();
    for _ in 0..MOST_LINKS {
        let target = disk.link_target(&file).map_err(Failed::at(Step::FollowLink, path))?;
        match target {
            Some(target) => file = folder(&file).join(target),
            None => return Ok(file),
        }
    }
    let circle = io::Error::other("the link points back to itself");
    Err(Failed::at(Step::FollowLink, path)(circle))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::{VERSION, write};
    use crate::sample::reference;

    /// An empty folder of its own for one test.
    fn own_folder(name: &str) -> PathBuf {
        let name = format!("sightedge-core-{name}-{}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        std::fs::create_dir_all(&folder).expect("a folder for the test");
        folder
    }

    #[test]
    fn where_the_plan_of_a_picture_lies() {
        let plan = |picture: &str| plan_of(Path::new(picture));
        assert_eq!(plan("a/b.jpg"), Path::new("a/b.jpg.sightedge.ron"));
        assert_eq!(plan("ä b"), Path::new("ä b.sightedge.ron"));
    }

    /// The stamp says of a file of today that it was an older one.
    #[test]
    fn a_file_of_an_older_version_is_kept() {
        let folder = own_folder("older");
        let plan = folder.join("a.sightedge.ron");
        let kept = |name: &str| std::fs::read_to_string(folder.join(name)).ok();
        let mut document = reference();
        let mut before = String::new();
        for notes in ["first", "second", "third"] {
            document.variants[0].mat.notes = notes.to_owned();
            let old = Stamp::of(before.as_bytes(), VERSION - 1);
            let over =
                if before.is_empty() { Overwrite::Nothing } else { Overwrite::This(&old) };
            let stamp = save(&System, &plan, &document, over).expect("saved");
            assert_eq!(stamp.version(), VERSION, "{notes}");
            let text = write(&document);
            assert_eq!(kept("a.sightedge.ron").as_ref(), Some(&text), "{notes}");
            if !before.is_empty() {
                assert_eq!(kept("a.sightedge.ron.bak").as_ref(), Some(&before), "{notes}");
            }
            before = text;
        }
        let first =
            kept(&format!("a.sightedge.ron.v{}", VERSION - 1)).expect("the first is kept");
        assert!(first.contains("first"), "{first}");
        let second = kept(&format!("a.sightedge.ron.v{}.2", VERSION - 1))
            .expect("the second is kept beside it");
        assert!(second.contains("second"), "{second}");
        let mut left = System.names(&folder).expect("names");
        left.retain(|name| name.contains(".part"));
        assert!(left.is_empty(), "{left:?}");
        std::fs::remove_dir_all(&folder).expect("taken away");
    }
}
