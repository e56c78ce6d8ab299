//! TIFF, 1 to 16 bits, strips or tiles, through the `tiff` crate, a band of chunks at a time.

use std::fs::File;
use std::io::BufReader;

use tiff::decoder::{ChunkType, Decoder as Library, DecodingResult, Limits};
use tiff::tags::{ExtraSamples, PhotometricInterpretation, Tag};
use tiff::{ColorType, TiffError};

use super::{Channels, Decoder, Header, Samples, Sink, Source, Want};
use crate::facts::{Resolution, ResolutionSource};
use crate::limits::Run;
use crate::{Finding, Format, Orientation, PictureError, Size};

pub(super) struct Tiff;

type Reader = Library<BufReader<File>>;

fn stop(error: &TiffError) -> PictureError {
    match error {
        TiffError::UnsupportedError(what) => {
            PictureError::unsupported(Format::Tiff, format!("a variant ({what})"))
        }
        other => PictureError::damaged(Format::Tiff, other),
    }
}

fn open(source: &Source, run: &Run) -> Result<Reader, PictureError> {
    let mut limits = Limits::default();
    limits.decoding_buffer_size = run.limits().memory_len() / 2;
    limits.intermediate_buffer_size = run.limits().memory_len() / 2;
    limits.ifd_value_size = 16 << 20;
    let reader = source.reader()?;
    Ok(Library::new(reader).map_err(|e| stop(&e))?.with_limits(limits))
}

/// How the file's samples become the pipeline's.
struct Layout {
    channels: Channels,
    bits: u8,
    /// Samples a pixel in the file; those beyond the channels are dropped.
    samples: usize,
    /// Each sample in a plane of its own.
    planar: bool,
}

fn layout(reader: &mut Reader) -> Result<Layout, PictureError> {
    let unsupported = |what: String| PictureError::unsupported(Format::Tiff, what);
    let colour = reader.colortype().map_err(|e| stop(&e))?;
    let planar =
        reader.find_tag_unsigned::<u16>(Tag::PlanarConfiguration).ok().flatten() == Some(2);
    let photometric = reader
        .find_tag_unsigned::<u16>(Tag::PhotometricInterpretation)
        .ok()
        .flatten()
        .and_then(PhotometricInterpretation::from_u16);
    let alpha = reader
        .find_tag_unsigned_vec::<u16>(Tag::ExtraSamples)
        .ok()
        .flatten()
        .and_then(|v| v.first().copied())
        .is_some_and(|v| {
            v == ExtraSamples::AssociatedAlpha.to_u16()
                || v == ExtraSamples::UnassociatedAlpha.to_u16()
        });
    let samples = usize::from(colour.num_samples());
    let channels = match colour {
        ColorType::Gray(_) => Channels::Grey,
        ColorType::GrayA(_) => Channels::GreyAlpha,
        ColorType::RGB(_) => Channels::Rgb,
        ColorType::RGBA(_) => {
            if alpha {
                Channels::Rgba
            } else {
                Channels::Rgb
            }
        }
        ColorType::CMYK(_) | ColorType::CMYKA(_) => Channels::Cmyk,
        ColorType::Multiband { .. }
            if matches!(
                photometric,
                Some(
                    PhotometricInterpretation::BlackIsZero
                        | PhotometricInterpretation::WhiteIsZero
                )
            ) =>
        {
            if alpha && samples == 2 {
                Channels::GreyAlpha
            } else {
                Channels::Grey
            }
        }
        other => return Err(unsupported(format!("{other:?} pixels"))),
    };
    let bits = colour.bit_depth();
    if !(bits == 8 || bits == 16 || (bits < 8 && channels == Channels::Grey)) {
        return Err(unsupported(format!("{bits} bits a sample")));
    }
    Ok(Layout { channels, bits, samples, planar })
}

impl Decoder for Tiff {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        let mut reader = open(source, run)?;
        let (width, height) = reader.dimensions().map_err(|e| stop(&e))?;
        let size = Size::new(width, height);
        let Layout { channels, bits, .. } = layout(&mut reader)?;
        let mut header = Header::new(Format::Tiff, size, channels, bits);
        header.any_rows = true;
        header.profile = reader.get_tag_u8_vec(Tag::IccProfile).ok();
        if let Ok(Some(value)) = reader.find_tag_unsigned::<u32>(Tag::Orientation) {
            match Orientation::from_tag(value) {
                Some(orientation) => header.orientation = orientation,
                None => header.findings.push(Finding::OrientationUnknown { value }),
            }
        }
        let per_inch = match reader.find_tag_unsigned::<u16>(Tag::ResolutionUnit) {
            Ok(None | Some(2)) => Some(1.0),
            Ok(Some(3)) => Some(2.54),
            _ => None,
        };
        let number = |reader: &mut Reader, tag| match reader.find_tag(tag) {
            Ok(Some(tiff::decoder::ifd::Value::Rational(n, d))) if d != 0 => {
                Some(f64::from(n) / f64::from(d))
            }
            Ok(Some(tiff::decoder::ifd::Value::Float(v))) => Some(f64::from(v)),
            _ => None,
        };
        if let (Some(unit), Some(x)) = (per_inch, number(&mut reader, Tag::XResolution)) {
            let y = number(&mut reader, Tag::YResolution).unwrap_or(x);
            header.resolution = Resolution::sane(x * unit, y * unit, ResolutionSource::Tiff);
        }
        if reader.more_images() {
            header.findings.push(Finding::SeveralPictures);
        }
        Ok(header)
    }

    fn rows(
        &self,
        source: &Source,
        header: &Header,
        want: &Want,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let mut reader = open(source, run)?;
        let layout = layout(&mut reader)?;
        Bands::new(&mut reader, layout, header, run)?.hand_on(&mut reader, want, run, sink)
    }
}

/// The rows of chunks across the picture, decoded one after another.
struct Bands {
    layout: Layout,
    size: Size,
    chunk: Size,
    across: u32,
    per_plane: u32,
}

fn len(n: u32) -> usize {
    usize::try_from(n).unwrap_or(usize::MAX)
}

impl Bands {
    fn new(
        reader: &mut Reader,
        layout: Layout,
        header: &Header,
        run: &Run,
    ) -> Result<Self, PictureError> {
        let (width, height) = reader.chunk_dimensions();
        let damaged = |what: &str| PictureError::damaged(Format::Tiff, what);
        if width == 0 || height == 0 {
            return Err(damaged("its strips or tiles have no size"));
        }
        let across = match reader.get_chunk_type() {
            ChunkType::Strip => 1,
            ChunkType::Tile => header.size.width.div_ceil(width),
        };
        let down = header.size.height.div_ceil(height);
        let per_plane = across.checked_mul(down).ok_or_else(|| damaged("too many tiles"))?;
        let band = u64::from(height.min(header.size.height))
            * u64::from(header.size.width)
            * u64::try_from(layout.samples * 2).unwrap_or(u64::MAX);
        run.limits().check_memory(band.saturating_mul(2))?;
        Ok(Self {
            layout,
            size: header.size,
            chunk: Size::new(width, height),
            across,
            per_plane,
        })
    }

    fn hand_on(
        &self,
        reader: &mut Reader,
        want: &Want,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let (first, last) = (want.rows.start, want.rows.end.min(self.size.height));
        let mut bytes: Vec<u8> = Vec::new();
        let mut words: Vec<u16> = Vec::new();
        for band in first / self.chunk.height..last.div_ceil(self.chunk.height) {
            run.check()?;
            let top = band * self.chunk.height;
            let rows = len(self.chunk.height.min(self.size.height - top));
            let pixels = rows * len(self.size.width);
            let samples = pixels * self.layout.channels.count();
            if self.layout.bits <= 8 {
                bytes.resize(samples, 0);
            } else {
                words.resize(samples, 0);
            }
            for column in 0..self.across {
                for plane in 0..self.planes() {
                    let index = band * self.across + column + plane * self.per_plane;
                    let left = len(column * self.chunk.width);
                    let place = Place { left, width: len(self.size.width), plane: len(plane) };
                    match reader.read_chunk(index).map_err(|e| stop(&e))? {
                        DecodingResult::U8(v) => self.put(&v, &place, rows, &mut bytes),
                        DecodingResult::U16(v) => self.put(&v, &place, rows, &mut words),
                        _ => {
                            let what = "signed, long or floating-point samples";
                            return Err(PictureError::unsupported(Format::Tiff, what));
                        }
                    }
                }
            }
            let samples = if self.layout.bits <= 8 {
                Samples::Bytes(&bytes)
            } else {
                Samples::Words(&words)
            };
            sink.rows(top, samples)?;
        }
        Ok(())
    }

    fn planes(&self) -> u32 {
        let planes = if self.layout.planar { self.layout.channels.count() } else { 1 };
        u32::try_from(planes).unwrap_or(1)
    }

    /// Copies a chunk's samples to their place in the band.
    fn put<T: Copy + Unpack>(&self, from: &[T], place: &Place, rows: usize, to: &mut [T]) {
        let channels = self.layout.channels.count();
        let width = place.width.saturating_sub(place.left).min(len(self.chunk.width));
        let per_pixel = if self.layout.planar { 1 } else { self.layout.samples };
        let bits = usize::from(self.layout.bits);
        // Rows of less than a byte a sample are padded to whole bytes.
        let line =
            if bits < 8 { (width * per_pixel * bits).div_ceil(8) } else { width * per_pixel };
        for (y, from) in from.chunks_exact(line.max(1)).take(rows).enumerate() {
            let start = (y * place.width + place.left) * channels;
            let Some(to) = to.get_mut(start..start + width * channels) else { return };
            if bits < 8 {
                T::unpack(from, bits, to);
            } else if per_pixel == channels && !self.layout.planar {
                to.copy_from_slice(from);
            } else {
                let taken = if self.layout.planar { 1 } else { channels };
                let targets = to.chunks_exact_mut(channels);
                for (pixel, target) in from.chunks_exact(per_pixel).zip(targets) {
                    let at = place.plane.min(channels - taken);
                    target[at..at + taken].copy_from_slice(&pixel[..taken]);
                }
            }
        }
    }
}

struct Place {
    left: usize,
    width: usize,
    plane: usize,
}

/// Samples of less than a byte, packed from the high bits down.
trait Unpack: Sized {
    fn unpack(from: &[Self], bits: usize, to: &mut [Self]);
}

impl Unpack for u8 {
    fn unpack(from: &[u8], bits: usize, to: &mut [u8]) {
        if !matches!(bits, 1 | 2 | 4) {
            return;
        }
        let mask = (1u8 << bits) - 1;
        let scale = 255 / mask;
        let per_byte = 8 / bits;
        for (byte, group) in from.iter().zip(to.chunks_mut(per_byte)) {
            for (k, sample) in group.iter_mut().enumerate() {
                *sample = ((byte >> (8 - bits * (k + 1))) & mask) * scale;
            }
        }
    }
}

impl Unpack for u16 {
    fn unpack(_: &[u16], _: usize, _: &mut [u16]) {}
}
