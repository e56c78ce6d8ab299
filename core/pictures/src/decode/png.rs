//! PNG, 1 to 16 bits, through the `png` crate, row by row.

use std::fs::File;
use std::io::BufReader;
use std::ops::Range;

use png::{BitDepth, ColorType, DecodingError, Transformations, Unit};

use super::exif;
use super::{Channels, Decoder, Header, Samples, Sink, Source};
use crate::limits::Run;
use crate::size::{Resolution, ResolutionSource};
use crate::{Finding, Format, PictureError, Size};

pub(super) struct Png;

type Reader = png::Reader<BufReader<File>>;

fn damaged(error: &DecodingError) -> PictureError {
    PictureError::damaged(Format::Png, error)
}

/// What chunks beside the pixels, unpacked, and a row may take together: a colour profile of a
/// few kilobytes in the file may unpack to gigabytes. One that is larger is left out.
/// From memory: the largest profiles, of many inks, have a few megabytes.
const BESIDE_PIXELS: usize = 32 << 20;

fn open(source: &Source, run: &Run) -> Result<Reader, PictureError> {
    let limits = png::Limits { bytes: run.limits().memory_len().min(BESIDE_PIXELS) };
    let mut decoder = png::Decoder::new_with_limits(source.reader()?, limits);
    decoder.set_transformations(Transformations::EXPAND);
    // A wrong checksum after the pixels were read well loses nothing.
    decoder.ignore_checksums(true);
    decoder.set_ignore_text_chunk(true);
    decoder.read_info().map_err(|e| damaged(&e))
}

fn layout(reader: &Reader) -> (Channels, u8) {
    let (colour, depth) = reader.output_color_type();
    let channels = match colour {
        ColorType::Grayscale => Channels::Grey,
        ColorType::GrayscaleAlpha => Channels::GreyAlpha,
        ColorType::Rgba => Channels::Rgba,
        // `EXPAND` turns palettes into RGB.
        ColorType::Rgb | ColorType::Indexed => Channels::Rgb,
    };
    (channels, if depth == BitDepth::Sixteen { 16 } else { 8 })
}

/// The size as the first chunk states it, before the library makes room for a row. Source: PNG
/// specification (third edition), 11.2.1: after signature, length and name, two numbers of four
/// bytes.
fn stated(source: &Source) -> Result<Option<Size>, PictureError> {
    let head = source.head(24)?;
    let number = |at: usize| head.get(at..at + 4)?.try_into().ok().map(u32::from_be_bytes);
    Ok(number(16).zip(number(20)).map(|(width, height)| Size::new(width, height)))
}

impl Decoder for Png {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        if let Some(size) = stated(source)? {
            run.limits().check_size(size)?;
        }
        let reader = open(source, run)?;
        let info = reader.info();
        let (channels, bits) = layout(&reader);
        let size = Size::new(info.width, info.height);
        let mut header = Header::new(Format::Png, size, channels, bits);
        header.profile = info.icc_profile.as_deref().map(<[u8]>::to_vec);
        if let Some(d) = info.pixel_dims.filter(|d| d.unit == Unit::Meter) {
            let (x, y) = (f64::from(d.xppu) * 0.0254, f64::from(d.yppu) * 0.0254);
            header.resolution = Resolution::sane(x, y, ResolutionSource::Png);
        }
        if let Some(block) = &info.exif_metadata {
            exif::read_into(&mut header, block, ResolutionSource::Exif);
        }
        if info.animation_control.is_some_and(|a| a.num_frames > 1) {
            header.findings.push(Finding::SeveralPictures);
        }
        Ok(header)
    }

    fn rows(
        &self,
        source: &Source,
        header: &Header,
        _rows: Range<u32>,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let mut reader = open(source, run)?;
        let line = reader
            .output_line_size(header.size.width)
            .ok_or_else(|| PictureError::damaged(Format::Png, "its rows are too long"))?;
        if reader.info().interlaced {
            return interlaced(&mut reader, line, header, run, sink);
        }
        // A few rows at a time keep both threads busy without many hand-overs.
        let band = (1usize << 18).div_ceil(line.max(1)).clamp(1, 64);
        let mut bytes = vec![0; line * band];
        let mut words = Vec::new();
        let (mut first, mut filled) = (0, 0);
        for y in 0..header.size.height {
            run.check()?;
            let row = &mut bytes[filled * line..(filled + 1) * line];
            let read = reader.read_row(row);
            if read.is_ok() {
                filled += 1;
            }
            if filled == band || y + 1 == header.size.height || read.is_err() {
                hand_on(first, &bytes[..filled * line], header, &mut words, sink)?;
                (first, filled) = (y + 1, 0);
            }
            if read.map_err(|e| damaged(&e))?.is_none() {
                break;
            }
        }
        Ok(())
    }
}

/// An interlaced picture exists only as a whole.
fn interlaced(
    reader: &mut Reader,
    line: usize,
    header: &Header,
    run: &Run,
    sink: &mut dyn Sink,
) -> Result<(), PictureError> {
    let wanted = u64::try_from(line).unwrap_or(u64::MAX) * u64::from(header.size.height);
    run.limits().check_memory(wanted)?;
    let size = usize::try_from(wanted).unwrap_or(usize::MAX);
    let mut bytes = vec![0; size];
    let read = reader.next_frame(&mut bytes);
    let band = line.saturating_mul(64).max(1);
    let mut words = Vec::new();
    for (first, piece) in (0u32..).step_by(64).zip(bytes.chunks(band)) {
        run.check()?;
        hand_on(first, piece, header, &mut words, sink)?;
    }
    read.map(|_| ()).map_err(|e| damaged(&e))
}

fn hand_on(
    first: u32,
    bytes: &[u8],
    header: &Header,
    words: &mut Vec<u16>,
    sink: &mut dyn Sink,
) -> Result<(), PictureError> {
    if bytes.is_empty() {
        return Ok(());
    }
    if header.bits <= 8 {
        return sink.rows(first, Samples::Bytes(bytes));
    }
    words.clear();
    words.extend(bytes.as_chunks::<2>().0.iter().map(|&pair| u16::from_be_bytes(pair)));
    sink.rows(first, Samples::Words(words))
}
