//! What can go wrong with a record: what was found, what was expected, what to do.

use std::path::{Path, PathBuf};

/// Why the record refuses a change that would make it untrue.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Refusal(pub String);

/// Why something could not be done.
#[derive(Debug)]
pub enum Error {
    /// The record would no longer be true.
    Refused(Refusal),
    /// There is no such thing.
    Missing(String),
    /// The folder is on a network drive.
    Network {
        /// The folder.
        folder: PathBuf,
        /// The kind of file system.
        kind: String,
    },
    /// The folder cannot be used.
    Folder {
        /// The folder.
        folder: PathBuf,
        /// The system's words.
        why: String,
    },
    /// The file is damaged.
    Damaged {
        /// The file.
        file: PathBuf,
        /// What is wrong with it.
        why: String,
        /// The newest backup that is whole.
        backup: Option<PathBuf>,
    },
    /// It is in a version of before the first release.
    NeverReleased {
        /// The file.
        file: PathBuf,
        /// Its version.
        found: i64,
    },
    /// A newer version of the program wrote it.
    Newer {
        /// The file.
        file: PathBuf,
        /// Its version.
        found: i64,
    },
    /// No room is left.
    Full(PathBuf),
    /// Other programs kept it locked for too long.
    Busy(PathBuf),
    /// What is to be imported cannot be read.
    Unreadable(String),
    /// All else the system refused.
    System {
        /// The file.
        file: PathBuf,
        /// Its words.
        why: String,
    },
}

impl Error {
    /// A refusal in these words.
    pub fn refused(words: impl Into<String>) -> Self {
        Self::Refused(Refusal(words.into()))
    }

    pub(crate) fn system(file: &Path, error: impl std::fmt::Display) -> Self {
        Self::System { file: file.to_owned(), why: error.to_string() }
    }
}

impl std::fmt::Display for Error {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Refused(Refusal(words)) | Self::Missing(words) | Self::Unreadable(words) => {
                f.write_str(words)
            }
            Self::Network { folder, kind } => write!(
                f,
                "{} is on a network drive ({kind}): two machines writing to one record over a \
                 network can damage it. Choose a folder on a disk of this machine; backups may \
                 be copied anywhere",
                folder.display()
            ),
            Self::Folder { folder, why } => write!(
                f,
                "{} cannot hold the studio's record: {why}. Choose a folder in which you may \
                 make files",
                folder.display()
            ),
            Self::Damaged { file, why, backup } => {
                write!(f, "{} is damaged ({why}). Nothing was changed. ", file.display())?;
                match backup {
                    Some(backup) => write!(
                        f,
                        "The newest whole backup is {}: restore it; the damaged file is kept \
                         beside it",
                        backup.display()
                    ),
                    None => f.write_str(
                        "There is no whole backup beside it: fetch one from where you keep \
                         copies, or begin a new record in another folder",
                    ),
                }
            }
            Self::NeverReleased { file, found } => write!(
                f,
                "{} was saved by version {found} of the record's format, which was never \
                 released; this program reads versions 5 to {}. Export it with the program that \
                 wrote it (sightedge edition export) and import that here into a new folder \
                 (sightedge edition import), or begin a new record there. Nothing was changed",
                file.display(),
                crate::VERSION
            ),
            Self::Newer { file, found } => write!(
                f,
                "{} has version {found} of the record's format, and this program reads up to \
                 {}: a newer Sightedge wrote it. Use that one; nothing was changed",
                file.display(),
                crate::VERSION
            ),
            Self::Full(file) => write!(
                f,
                "there is no room left for {}: nothing was changed. Free some space on that \
                 disk and try again",
                file.display()
            ),
            Self::Busy(file) => write!(
                f,
                "another window or program kept {} busy for too long: nothing was changed. \
                 Close what hangs and try again",
                file.display()
            ),
            Self::System { file, why } => write!(
                f,
                "{}: {why}. Check that the disk is there and may be written to, and try again",
                file.display()
            ),
        }
    }
}

impl std::error::Error for Error {}
