//! JPEG: sequential and progressive, grey, RGB, `YCbCr`, CMYK and YCCK of 8 bits, through the
//! `zune-jpeg` crate, decoded as a whole.
//!
//! What describes the picture is read here, for the crate keeps neither the resolution nor
//! whether Adobe's segment was there, and gives up on descriptions that other readers skip: it
//! sees only the segments its pixels need.

mod bytes;
mod segments;

use zune_jpeg::JpegDecoder;
use zune_jpeg::errors::DecodeErrors;
use zune_jpeg::zune_core::bytestream::ZByteIoError;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

use self::bytes::Bytes;
use self::segments::{Component, Frame, Segments, Stop};
use super::{Channels, Decoder, Header, Source, Whole};
use crate::facts::ResolutionSource;
use crate::limits::Run;
use crate::{Format, PictureError, Size, exif};

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

/// Decodes a stream in memory.
fn decode(mut data: Vec<u8>, run: &Run) -> Result<Whole, PictureError> {
    let mut segments = Segments::default();
    segments.read(&data)?;
    let frame = frame_of(&segments)?;
    let channels = header_of(&segments)?.channels.count();
    let task = Task {
        colour: colour(&segments, frame),
        named_rgb: is_named_rgb(frame),
        line: usize::from(frame.width) * channels,
        run,
    };
    let length = task.line * usize::from(frame.height);
    let together = frame.components.len() == segments.in_scan && !frame.progressive;
    let held = if together { 0 } else { coefficients(frame) };
    let wanted = held.saturating_add(length).saturating_add(data.len());
    run.limits().check_memory(u64::try_from(wanted).unwrap_or(u64::MAX))?;
    let (rows, progressive) = (frame.height, frame.progressive);
    data.splice(..segments.coded, task.head(&segments.needed));
    let mut samples = vec![0; length];
    let mut stopped = None;
    let mut reached = rows.into();
    if let Err(error) = task.attempt(&data, true, &mut samples) {
        run.check()?;
        stopped = Some(words(&error));
        // A broken scan leaves a coarser picture, which the crate hands out if it may be lax.
        if !progressive || task.attempt(&data, false, &mut samples).is_err() {
            run.check()?;
            reached = task.reached(&samples);
        }
    }
    task.straighten(&mut samples);
    Ok(Whole { samples, line: task.line, rows: reached, stopped })
}

/// Bytes of all coefficients, which are held where components come in scans of their own.
fn coefficients(frame: &Frame) -> usize {
    let most = |factor: fn(&Component) -> u8| frame.components.iter().map(factor).max();
    let (h, v) = (most(|c| c.h).unwrap_or(1), most(|c| c.v).unwrap_or(1));
    let blocks = usize::from(frame.width).div_ceil(usize::from(h) * 8)
        * usize::from(frame.height).div_ceil(usize::from(v) * 8);
    let in_unit = frame.components.iter().map(|c| usize::from(c.h) * usize::from(c.v));
    blocks.saturating_mul(in_unit.sum::<usize>() * 64 * size_of::<i16>())
}

/// What the crate's error says.
fn words(error: &DecodeErrors) -> String {
    match error {
        DecodeErrors::ExhaustedData
        | DecodeErrors::IoErrors(ZByteIoError::Generic(_) | ZByteIoError::NotEnoughBytes(..)) => {
            "it ends early".into()
        }
        DecodeErrors::Format(what) if what.starts_with("Bad Huffman") => {
            "a code is not in its table".into()
        }
        DecodeErrors::Format(what) => what.clone(),
        DecodeErrors::FormatStatic(what) => (*what).into(),
        other => other.to_string(),
    }
}

/// One stream's pixels to be.
struct Task<'a> {
    colour: Colour,
    /// See [`is_named_rgb`]: the crate takes such components for RGB whatever else is there.
    named_rgb: bool,
    /// Samples in a row.
    line: usize,
    run: &'a Run,
}

/// What a row that was not decoded begins with. That a decoded one does, too, is as good as
/// impossible; then one row fewer is told.
const BLANK: [u8; 12] = *b"\x5a\xa5\x3c\xc3\x96\x69\x0f\xf0\x33\xcc\x55\xaa";

impl Task<'_> {
    /// The stream up to the first scan's coded data: the segments that decoding needs. Of
    /// Adobe's only that there is RGB; what is ink is left as it is stored.
    fn head(&self, needed: &[u8]) -> Vec<u8> {
        let mut head = b"\xff\xd8".to_vec();
        if self.colour == Colour::Rgb {
            head.extend_from_slice(b"\xff\xee\0\x0eAdobe\0\x64\0\0\0\0\0");
        }
        head.extend_from_slice(needed);
        head
    }

    /// Decodes into `samples`. A `strict` decoder leaves the rows it does not reach alone.
    fn attempt(
        &self,
        data: &[u8],
        strict: bool,
        samples: &mut [u8],
    ) -> Result<(), DecodeErrors> {
        let blank = self.line.min(BLANK.len());
        for row in samples.chunks_exact_mut(self.line.max(1)) {
            row[..blank].copy_from_slice(&BLANK[..blank]);
        }
        let colours = match self.colour {
            Colour::Grey => ColorSpace::Luma,
            Colour::Rgb | Colour::YCbCr => ColorSpace::RGB,
            Colour::Cmyk { .. } | Colour::Ycck { .. } => ColorSpace::CMYK,
        };
        let options = DecoderOptions::default()
            .set_max_width(u16::MAX.into())
            .set_max_height(u16::MAX.into())
            .jpeg_set_max_scans(MOST_SCANS)
            .jpeg_set_out_colorspace(colours)
            .set_strict_mode(strict);
        JpegDecoder::new_with_options(Bytes::new(data, self.run), options).decode_into(samples)
    }

    /// Rows that were decoded.
    fn reached(&self, samples: &[u8]) -> u32 {
        let blank = &BLANK[..self.line.min(BLANK.len())];
        let mut rows = samples.chunks_exact(self.line.max(1));
        let rows = rows.rposition(|row| !row.starts_with(blank)).map_or(0, |last| last + 1);
        u32::try_from(rows).unwrap_or(u32::MAX)
    }

    /// What the crate leaves as stored becomes RGB, or ink of which 255 is full.
    fn straighten(&self, samples: &mut [u8]) {
        match self.colour {
            Colour::YCbCr if self.named_rgb => {
                for pixel in samples.as_chunks_mut::<3>().0 {
                    *pixel = rgb(*pixel);
                }
            }
            Colour::Cmyk { inverted: true } => {
                for v in samples {
                    *v = !*v;
                }
            }
            Colour::Ycck { inverted } => {
                let flip = if inverted { 0 } else { 255 };
                for pixel in samples.as_chunks_mut::<4>().0 {
                    let [y, cb, cr, black] = *pixel;
                    let [r, g, b] = rgb([y, cb, cr]);
                    *pixel = [r ^ flip, g ^ flip, b ^ flip, black ^ flip ^ 255];
                }
            }
            _ => {}
        }
    }
}

/// More scans than any encoder writes; each costs a pass over the picture.
const MOST_SCANS: usize = 500;

/// Source: JFIF (ITU-T T.871) clause 7.
fn rgb([y, cb, cr]: [u8; 3]) -> [u8; 3] {
    let (y, cb, cr) = (i32::from(y) << 16, i32::from(cb) - 128, i32::from(cr) - 128);
    let half = 1 << 15;
    let r = (y + 91_881 * cr + half) >> 16;
    let g = (y - 22_554 * cb - 46_802 * cr + half) >> 16;
    let b = (y + 116_130 * cb + half) >> 16;
    [r, g, b].map(|v| v.clamp(0, 255).to_le_bytes()[0])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Limits;

    /// What is held of 100 million pixels, each component in scans of its own, beside a file of
    /// a byte a pixel.
    #[test]
    fn a_hundred_megapixels_in_many_scans_may_be_held() {
        let component = Component { id: 1, h: 1, v: 1 };
        let components = vec![component; 3];
        let frame = Frame { progressive: true, width: 11_648, height: 8_736, components };
        let pixels = 11_648 * 8_736;
        assert_eq!(coefficients(&frame), pixels * 6, "two bytes for each");
        let wanted = u64::try_from(coefficients(&frame) + pixels * 3 + pixels).unwrap();
        assert_eq!(Limits::default().check_memory(wanted), Ok(()), "{wanted} bytes");
    }
}
