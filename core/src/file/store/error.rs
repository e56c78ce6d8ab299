//! What can go wrong between a plan and its file: the step, the file, the system's words, and
//! what to do.

use std::io;
use std::path::{Path, PathBuf};

use super::Stamp;
use crate::file::ReadError;

/// A step of opening or saving.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Step {
    /// Follow symbolic links to the file itself.
    FollowLink,
    /// Read what lies there.
    Read,
    /// See who may change it.
    Permissions,
    /// Make the new file beside it.
    Create,
    /// Write the new file.
    Write,
    /// Make sure of the new file's bytes.
    Sync,
    /// Keep the last file as the backup.
    Backup,
    /// Keep a file of an older version.
    KeepOld,
    /// Put the new file in the old one's place.
    Replace,
    /// Make sure of the folder.
    SyncFolder,
}

impl Step {
    /// What was tried, as in `could not … the plan`.
    const fn words(self) -> &'static str {
        match self {
            Self::FollowLink => "follow the link",
            Self::Read => "read",
            Self::Permissions => "see who may change",
            Self::Create => "make a new file beside",
            Self::Write => "write the new file for",
            Self::Sync => "make sure of the new file for",
            Self::Backup => "keep the backup of",
            Self::KeepOld => "keep the older version of",
            Self::Replace => "put the new file in the place of",
            Self::SyncFolder => "make sure of the folder of",
        }
    }
}

/// A step that the system refused.
#[derive(Debug)]
pub struct Failed {
    /// The step.
    pub step: Step,
    /// The plan's file.
    pub path: PathBuf,
    /// The system's words.
    pub error: io::Error,
}

impl Failed {
    pub(super) fn at(step: Step, path: &Path) -> impl Fn(io::Error) -> Self {
        move |error| Self { step, path: path.to_owned(), error }
    }

    fn remedy(&self) -> &'static str {
        match (self.error.kind(), self.step) {
            (io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded, _) => {
                "Free some space on that disk, or save elsewhere"
            }
            (io::ErrorKind::NotFound, _) => {
                "Check that the folder is still there, or save elsewhere"
            }
            (_, Step::Read | Step::FollowLink) => "Check its permissions, or choose another",
            (io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem, _) => {
                "Allow changes to the file and its folder, or save elsewhere"
            }
            _ => {
                "Check that the disk is connected and working, then try again, or save \
                  elsewhere"
            }
        }
    }
}

impl std::fmt::Display for Failed {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (step, path) = (self.step.words(), self.path.display());
        write!(f, "could not {step} {path}: {}. {}", self.error, self.remedy())
    }
}

impl std::error::Error for Failed {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&self.error)
    }
}

/// Why a plan could not be opened. To the commands: unreadable input.
#[derive(Debug)]
pub enum OpenError {
    /// There is no such file.
    Missing(PathBuf),
    /// The system refused.
    Failed(Failed),
    /// What lies there is no plan this program can read.
    Unreadable(ReadError),
}

impl std::fmt::Display for OpenError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Missing(path) => write!(
                f,
                "{}: there is no such plan. Check the name, or make a plan from the picture \
                 first",
                path.display()
            ),
            Self::Failed(failed) => failed.fmt(f),
            Self::Unreadable(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for OpenError {}

/// Why a plan was not saved. What lay there before is whole, in its place or, after
/// [`Step::SyncFolder`], as the backup.
#[derive(Debug)]
pub enum SaveError {
    /// A file lies there that was not opened before: the person may replace it.
    Exists(PathBuf),
    /// The file is no longer the one that was opened or saved last: the person may overwrite
    /// it, or save under another name.
    Changed(PathBuf),
    /// The file may not be changed.
    ReadOnly(PathBuf),
    /// The plan as it stands could not be opened again; nothing was written.
    WouldNotOpen {
        /// The plan's file.
        path: PathBuf,
        /// Why not.
        why: Option<ReadError>,
    },
    /// The system refused.
    Failed(Failed),
    /// The plan is in its place, but the system would not promise that it outlasts a power
    /// cut.
    Unsure {
        /// The system's refusal.
        failed: Failed,
        /// Of the file as it now is.
        stamp: Stamp,
    },
}

impl std::fmt::Display for SaveError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Exists(path) => write!(
                f,
                "{}: there is already a plan. Replace it (it is kept as .bak), or save under \
                 another name",
                path.display()
            ),
            Self::Changed(path) => write!(
                f,
                "{}: someone else has changed it since it was opened here. Open it again to see \
                 their changes, save under another name, or write over it (theirs is kept as \
                 .bak)",
                path.display()
            ),
            Self::ReadOnly(path) => write!(
                f,
                "{}: this file is marked read-only. Allow changes to it, or save under \
                 another name",
                path.display()
            ),
            Self::WouldNotOpen { path, why: Some(why) } => write!(
                f,
                "{}: nothing was written, because the plan could not be opened again. {why}",
                path.display()
            ),
            Self::WouldNotOpen { path, why: None } => write!(
                f,
                "{}: nothing was written, because the plan would not be the same when opened \
                 again. Undo the last change and save, and please report this",
                path.display()
            ),
            Self::Failed(failed) => failed.fmt(f),
            Self::Unsure { failed, .. } => {
                write!(f, "the plan is saved, but may not outlast a power cut: {failed}")
            }
        }
    }
}

impl std::error::Error for SaveError {}

impl From<Failed> for SaveError {
    fn from(failed: Failed) -> Self {
        Self::Failed(failed)
    }
}
