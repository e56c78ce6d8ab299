//! JPEG: sequential and progressive, grey, RGB, `YCbCr`, CMYK and YCCK of 8 bits, through the
//! `zune-jpeg` crate, decoded as a whole.
//!
//! What describes the picture is read here, for the crate keeps neither the resolution nor
//! whether Adobe's segment was there, and gives up on descriptions that other readers skip: it
//! sees only the segments its pixels need.

mod bytes;
mod pixels;
mod segments;

use self::pixels::decode;
use self::segments::{Frame, Segments, Stop};
use super::exif;
use super::{Channels, Decoder, Header, Source, Whole};
use crate::limits::Run;
use crate::size::ResolutionSource;
use crate::{Format, PictureError, Size};

pub(super) struct Jpeg;

impl From<Stop> for PictureError {
    fn from(stop: Stop) -> Self {
        match stop {
            Stop::Unsupported(what) => Self::unsupported(Format::Jpeg, what),
            Stop::Damaged(what) => Self::damaged(Format::Jpeg, &what),
            Stop::Short => Self::damaged(Format::Jpeg, "it ends early"),
        }
    }
}

/// What the components are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Colour {
    Grey,
    Rgb,
    YCbCr,
    /// Ink as such, or stored inverted.
    Cmyk {
        inverted: bool,
    },
    /// `YCbCr` of inverted ink, and black.
    Ycck {
        inverted: bool,
    },
}

/// As other readers guess it too: by Adobe's segment, else by JFIF's, else by the components'
/// names.
fn colour(segments: &Segments, frame: &Frame) -> Colour {
    let inverted = segments.adobe.is_some();
    match (frame.components.len(), segments.adobe) {
        (1, _) => Colour::Grey,
        (4, Some(2)) => Colour::Ycck { inverted },
        (4, _) => Colour::Cmyk { inverted },
        (_, Some(0)) if !segments.jfif => Colour::Rgb,
        (_, None) if !segments.jfif && is_named_rgb(frame) => Colour::Rgb,
        _ => Colour::YCbCr,
    }
}

/// Whether the components carry the letters R, G, B as their names.
fn is_named_rgb(frame: &Frame) -> bool {
    frame.components.iter().map(|c| c.id).eq(*b"RGB")
}

fn frame_of(segments: &Segments) -> Result<&Frame, PictureError> {
    let none = || PictureError::damaged(Format::Jpeg, "no frame was found");
    segments.frame.as_ref().ok_or_else(none)
}

fn header_of(segments: &Segments) -> Result<Header, PictureError> {
    let frame = frame_of(segments)?;
    let channels = match colour(segments, frame) {
        Colour::Grey => Channels::Grey,
        Colour::Rgb | Colour::YCbCr => Channels::Rgb,
        Colour::Cmyk { .. } | Colour::Ycck { .. } => Channels::Cmyk,
    };
    let size = Size::new(frame.width.into(), frame.height.into());
    let mut header = Header::new(Format::Jpeg, size, channels, 8);
    header.profile = segments.profile();
    if let Some(block) = &segments.exif {
        exif::read_into(&mut header, block, ResolutionSource::Exif);
    }
    if let Some(stated) = segments.jfif_resolution {
        header.state_resolution(stated);
    }
    Ok(header)
}

impl Decoder for Jpeg {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        // The segments are at the front; profiles and small pictures may make them long.
        let mut length = 1 << 17;
        loop {
            let head = source.head(length)?;
            let mut segments = Segments::default();
            match segments.read(&head) {
                Err(Stop::Short) if length < source.bytes => length *= 8,
                Err(Stop::Short) if segments.frame.is_some() => return header_of(&segments),
                Err(stop) => return Err(stop.into()),
                Ok(()) => return header_of(&segments),
            }
            run.check()?;
            run.limits().check_memory(length)?;
        }
    }

    fn whole(
        &self,
        source: &Source,
        _header: &Header,
        run: &Run,
    ) -> Result<Option<Whole>, PictureError> {
        decode(source.all(run)?, run).map(Some)
    }
}

/// The header of a stream in memory, which is all there is of it.
pub(crate) fn jpeg_header(data: &[u8]) -> Result<Header, PictureError> {
    let mut segments = Segments::default();
    segments.read(data)?;
    header_of(&segments)
}

/// A stream in memory: an embedded small picture.
pub(crate) struct JpegBytes<'a>(pub(crate) &'a [u8]);

impl Decoder for JpegBytes<'_> {
    fn header(&self, _: &Source, _: &Run) -> Result<Header, PictureError> {
        jpeg_header(self.0)
    }

    fn whole(&self, _: &Source, _: &Header, run: &Run) -> Result<Option<Whole>, PictureError> {
        decode(self.0.to_vec(), run).map(Some)
    }
}
