//! Pixels out of `zune-jpeg`, and how many rows of them a broken stream holds.

use std::cell::Cell;

use zune_jpeg::JpegDecoder;
use zune_jpeg::errors::DecodeErrors;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

use super::bytes::Bytes;
use super::segments::{Component, Frame, Segments, cut};
use super::{Colour, colour, frame_of, header_of, is_named_rgb};
use crate::PictureError;
use crate::decode::Whole;
use crate::limits::Run;

/// Decodes a stream in memory.
pub(super) fn decode(mut data: Vec<u8>, run: &Run) -> Result<Whole, PictureError> {
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
    if let Err(what) = task.attempt(&data, true, &mut samples) {
        run.check()?;
        if !progressive || !task.coarse(&mut data, &mut samples) {
            run.check()?;
            reached = task.reached(&samples);
        }
        stopped = Some(what.detail);
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

/// What stopped the crate.
struct Broken {
    detail: String,
    /// Where it was in the stream.
    at: usize,
}

impl Broken {
    fn new(error: &DecodeErrors, at: usize, length: usize) -> Self {
        let detail = match error {
            // Whatever was made of the zeros beyond the end.
            _ if at > length => "it ends early".into(),
            DecodeErrors::ExhaustedData | DecodeErrors::IoErrors(_) => "it ends early".into(),
            DecodeErrors::Format(what) if what.starts_with("Bad Huffman") => {
                "a code is not in its table".into()
            }
            DecodeErrors::Format(what) => what.clone(),
            DecodeErrors::FormatStatic(what) => (*what).into(),
            other => other.to_string(),
        };
        Self { detail, at }
    }
}

/// One stream, and the pixels that it is decoded to.
struct Task<'a> {
    colour: Colour,
    /// See [`is_named_rgb`]: the crate takes such components for RGB whatever else is there.
    named_rgb: bool,
    /// Samples in a row.
    line: usize,
    run: &'a Run,
}

/// What a row that was not decoded begins with. A decoded row hardly ever
/// begins so; then one row fewer is reported.
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

    /// Decodes as many scans as can be read, which are a coarser picture; whether there are any.
    fn coarse(&self, data: &mut Vec<u8>, samples: &mut [u8]) -> bool {
        // Each time without one segment more; more than one is rarely broken.
        for _ in 0..4 {
            let Err(broken) = self.attempt(data, false, samples) else { return true };
            if self.run.check().is_err() {
                return false;
            }
            data.truncate(cut(data, broken.at));
            data.extend_from_slice(b"\xff\xd9");
        }
        false
    }

    /// Decodes into `samples`. A `strict` decoder leaves the rows it does not reach alone.
    fn attempt(&self, data: &[u8], strict: bool, samples: &mut [u8]) -> Result<(), Broken> {
        self.blank(samples, data.len());
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
        let left = Cell::default();
        let bytes = Bytes::new(data, self.run, &left);
        let decoded = JpegDecoder::new_with_options(bytes, options).decode_into(samples);
        decoded.map_err(|error| Broken::new(&error, left.get(), data.len()))
    }

    /// Marks every row as not decoded; `coded` bytes are to become them.
    fn blank(&self, samples: &mut [u8], coded: usize) {
        let line = self.line.max(1);
        let mark = &BLANK[..self.line.min(BLANK.len())];
        let middle = samples.len() / line / 2 * line;
        // Not more than can come: a file may claim any size.
        let pages = coded.saturating_mul(MOST_OF_A_BYTE) / PAGE;
        let (upper, lower) = samples.split_at_mut(middle);
        std::thread::scope(|scope| {
            for (half, pages) in [(upper, pages), (lower, pages.saturating_sub(middle / PAGE))]
            {
                scope.spawn(move || {
                    // The system gives memory page by page, when it is first written to: two
                    // threads take it sooner than the decoder would, which is alone.
                    for page in half.chunks_mut(PAGE).take(pages) {
                        page[0] = 0;
                    }
                    for row in half.chunks_exact_mut(line) {
                        row[..mark.len()].copy_from_slice(mark);
                    }
                });
            }
        });
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

/// Samples that a byte can code at most where each block takes a bit for each of its two kinds of
/// coefficients, and colour comes for every fourth pixel.
const MOST_OF_A_BYTE: usize = 512;

/// Bytes in the smallest page of memory. Where they are larger, the same ones are touched again.
const PAGE: usize = 4096;

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
