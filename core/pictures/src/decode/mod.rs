//! The decoders: one small trait, one file a format.
//!
//! Each uses directly the crate that `image` decodes with: `image` itself returns only whole
//! pictures, ink as RGB without its profile, and nothing of a broken file.

mod decoder;
mod exif;
mod header;
mod jpeg;
#[cfg(feature = "jxl")]
mod jxl;
mod png;
mod tiff;
mod webp;

use crate::{Format, PictureError};

pub(crate) use self::decoder::{BAND, Decoder, Samples, Sink, Source, Whole};
pub(crate) use self::header::{Channels, Header};
pub(crate) use self::jpeg::{JpegBytes, jpeg_header};

/// The decoder of a file, by its first bytes.
pub(crate) fn decoder_of(source: &Source) -> Result<&'static dyn Decoder, PictureError> {
    let path = source.path.clone();
    match Format::recognise(&source.head(64)?, &source.path) {
        Some(Format::Jpeg) => Ok(&jpeg::Jpeg),
        Some(Format::Png) => Ok(&png::Png),
        Some(Format::Tiff) => Ok(&tiff::Tiff),
        Some(Format::WebP) => Ok(&webp::WebP),
        #[cfg(feature = "jxl")]
        Some(Format::JpegXl) => Ok(&jxl::JpegXl),
        Some(format) => Err(PictureError::NeedsExport { path, format }),
        None => Err(PictureError::NotAPicture { path }),
    }
}
