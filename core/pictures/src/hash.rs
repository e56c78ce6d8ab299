//! Finding a picture again by its content.

use std::fmt;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::{CancelToken, PictureError};

/// The SHA-256 of a whole file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct ContentHash(pub [u8; 32]);

impl fmt::Display for ContentHash {
    /// 64 lower-case hexadecimal digits.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl std::str::FromStr for ContentHash {
    type Err = String;
    fn from_str(s: &str) -> Result<Self, String> {
        let wrong =
            || format!("\"{s}\" is not a content hash: it needs 64 digits 0 to 9 and a to f");
        if s.len() != 64 || !s.is_ascii() {
            return Err(wrong());
        }
        let mut bytes = [0; 32];
        for (i, byte) in bytes.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&s[2 * i..2 * i + 2], 16).map_err(|_| wrong())?;
        }
        Ok(Self(bytes))
    }
}

/// The SHA-256 of the file at `path`, read in pieces.
///
/// # Errors
/// The file cannot be read, or `token` was cancelled.
pub fn content_hash(path: &Path, token: &CancelToken) -> Result<ContentHash, PictureError> {
    let unreadable = |e: std::io::Error| PictureError::unreadable(path, &e);
    let mut file = File::open(path).map_err(unreadable)?;
    let mut hasher = Sha256::new();
    let mut piece = vec![0; 1 << 18];
    loop {
        if token.is_cancelled() {
            return Err(PictureError::Cancelled);
        }
        match file.read(&mut piece).map_err(unreadable)? {
            0 => return Ok(ContentHash(hasher.finalize().into())),
            n => hasher.update(&piece[..n]),
        }
    }
}

/// Shows without reading the file whether it was replaced: compare an old stamp with a new one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct FileStamp {
    /// The file's length in bytes.
    pub bytes: u64,
    /// When it was last written, where the system reports it.
    pub modified: Option<SystemTime>,
}

impl FileStamp {
    /// The stamp of the file at `path`; `None` when there is none (any more).
    #[must_use]
    pub fn of(path: &Path) -> Option<Self> {
        let meta = std::fs::metadata(path).ok().filter(std::fs::Metadata::is_file)?;
        Some(Self { bytes: meta.len(), modified: meta.modified().ok() })
    }
}

/// Looks for a moved picture: the file in `folder` (not in folders inside it) that is `bytes`
/// long and has this hash. Only files of that length are read.
///
/// # Errors
/// The folder cannot be read, or `token` was cancelled. Files that cannot be read are passed
/// over.
pub fn find_moved(
    hash: ContentHash,
    bytes: u64,
    folder: &Path,
    token: &CancelToken,
) -> Result<Option<PathBuf>, PictureError> {
    let entries =
        std::fs::read_dir(folder).map_err(|e| PictureError::unreadable(folder, &e))?;
    let mut paths: Vec<PathBuf> = entries.filter_map(|e| Some(e.ok()?.path())).collect();
    // The same one every time, should there be two.
    paths.sort();
    for path in paths {
        if FileStamp::of(&path).is_none_or(|stamp| stamp.bytes != bytes) {
            continue;
        }
        match content_hash(&path, token) {
            Ok(found) if found == hash => return Ok(Some(path)),
            Err(PictureError::Cancelled) => return Err(PictureError::Cancelled),
            Ok(_) | Err(_) => {}
        }
    }
    Ok(None)
}
