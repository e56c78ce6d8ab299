//! What stops a picture from being shown, in words that say what to do.

use std::path::{Path, PathBuf};
use std::time::Duration;

use serde::{Deserialize, Serialize};

use crate::{Format, Size};

/// Why there are no pixels. Every message says what was found, what was wanted, what to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
pub enum PictureError {
    /// The file cannot be read at all.
    #[error("cannot read {}: {reason}; check that it is still there and may be read", path.display())]
    Unreadable {
        /// The file asked for.
        path: PathBuf,
        /// The system's message.
        reason: String,
    },
    /// The file's first bytes belong to no picture format known here.
    #[error(
        "{} is no picture this program opens: use a JPEG, TIFF, PNG or WebP file",
        path.display()
    )]
    NotAPicture {
        /// The file asked for.
        path: PathBuf,
    },
    /// A format that is recognised, not opened.
    #[error("{} is {}: {}", path.display(), format.article_name(), format.advice())]
    NeedsExport {
        /// The file asked for.
        path: PathBuf,
        /// What it was recognised as.
        format: Format,
    },
    /// A variant of an opened format that is not opened.
    #[error(
        "this {} file uses {detail}, which is not opened here: export it again as an 8 or \
         16-bit RGB or grey TIFF, or as a JPEG",
        format.name()
    )]
    UnsupportedVariant {
        /// The file's format.
        format: Format,
        /// The variant found.
        detail: String,
    },
    /// The file is broken before any pixels came out of it.
    #[error(
        "this {} file is damaged ({detail}): copy it again from where it came, or export it anew",
        format.name()
    )]
    Damaged {
        /// The file's format.
        format: Format,
        /// What the decoder found.
        detail: String,
    },
    /// More pixels than the limit allows.
    #[error(
        "the picture has {size} pixels ({:.0} MP); at most {:.0} MP are opened here: export a \
         smaller copy",
        size.megapixels(), crate::size::mega(*limit)
    )]
    TooManyPixels {
        /// The picture's size.
        size: Size,
        /// The limit, in pixels.
        limit: u64,
    },
    /// A side longer than the limit allows.
    #[error(
        "the picture states {size} pixels; no side may have more than {limit}: its file may be \
         damaged, so copy it again from where it came, or export a smaller copy"
    )]
    TooLong {
        /// The picture's size, as its file states it.
        size: Size,
        /// The limit for each side, in pixels.
        limit: u32,
    },
    /// Decoding would need more memory than the limit allows.
    #[error(
        "decoding this picture needs about {} MiB; at most {} MiB are allowed: export it as a \
         baseline JPEG or as an uncompressed TIFF in strips",
        wanted.div_ceil(1 << 20), limit >> 20
    )]
    TooMuchMemory {
        /// Bytes the decoder would hold.
        wanted: u64,
        /// The limit, in bytes.
        limit: u64,
    },
    /// Decoding took longer than a picture of its size may.
    #[error(
        "the picture was not open after {limit_seconds} s, the most that {} may take: its file \
         may be damaged, so export it anew as TIFF or JPEG, or open it again when the machine \
         is less busy",
        pixels.map_or_else(
            || "reading its headers".to_owned(),
            |pixels| format!("one of {:.0} MP", crate::size::mega(pixels).ceil())
        )
    )]
    TooSlow {
        /// The limit, in whole seconds.
        limit_seconds: u64,
        /// Its pixels, where its headers were read.
        pixels: Option<u64>,
    },
    /// The person, or a newer request, called it off.
    #[error("opening was cancelled")]
    Cancelled,
    /// The decoder failed in a way it should not; nothing else was touched.
    #[error(
        "decoding this picture failed unexpectedly ({detail}); nothing else is affected: export \
         it anew as TIFF or JPEG"
    )]
    Crashed {
        /// What is known about it.
        detail: String,
    },
    /// The picture could not be written.
    #[error("cannot write {}: {reason}", path.display())]
    Unwritable {
        /// The file to write.
        path: PathBuf,
        /// The system's message.
        reason: String,
    },
}

impl PictureError {
    pub(crate) fn unreadable(path: &Path, reason: &std::io::Error) -> Self {
        let reason = match reason.kind() {
            std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
            std::io::ErrorKind::PermissionDenied => "you may not read it".to_owned(),
            std::io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
            _ => reason.to_string(),
        };
        Self::Unreadable { path: path.to_path_buf(), reason }
    }
    pub(crate) fn too_slow(allowed: Duration, pixels: Option<u64>) -> Self {
        Self::TooSlow { limit_seconds: allowed.as_secs(), pixels }
    }
    pub(crate) fn damaged(format: Format, detail: &(impl ToString + ?Sized)) -> Self {
        Self::Damaged { format, detail: detail.to_string() }
    }
    pub(crate) fn unsupported(format: Format, detail: impl Into<String>) -> Self {
        Self::UnsupportedVariant { format, detail: detail.into() }
    }
}
