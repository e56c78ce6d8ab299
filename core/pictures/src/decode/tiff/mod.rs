//! TIFF, 1 to 16 bits, strips or tiles: tags through the `tiff` crate, pixels by our own reader,
//! which takes any rows of plain strips alone and two threads at once.

mod chunk;
mod lzw;

use std::fs::File;
use std::io::BufReader;

use tiff::decoder::{ChunkType, Decoder as Library, Limits, ifd::Value};
use tiff::tags::{ByteOrder, ExtraSamples, Tag};
use tiff::{ColorType, TiffError};

use self::chunk::{Chunks, Packing, Reader, Shape};
use super::{Channels, Decoder, Header, Samples, Sink, Source, Want};
use crate::facts::{Resolution, ResolutionSource};
use crate::limits::Run;
use crate::{Finding, Format, Orientation, PictureError, Size};

pub(super) struct Tiff;

type Tags = Library<BufReader<File>>;

fn stop(error: &TiffError) -> PictureError {
    match error {
        TiffError::UnsupportedError(what) => {
            PictureError::unsupported(Format::Tiff, format!("a variant ({what})"))
        }
        other => PictureError::damaged(Format::Tiff, other),
    }
}

fn unsupported(what: impl Into<String>) -> PictureError {
    PictureError::unsupported(Format::Tiff, what)
}

fn open(source: &Source, run: &Run) -> Result<Tags, PictureError> {
    let mut limits = Limits::default();
    limits.decoding_buffer_size = run.limits().memory_len() / 2;
    limits.intermediate_buffer_size = run.limits().memory_len() / 2;
    limits.ifd_value_size = 16 << 20;
    Ok(Library::new(source.reader()?).map_err(|e| stop(&e))?.with_limits(limits))
}

fn number(tags: &mut Tags, tag: Tag) -> Option<u32> {
    tags.find_tag_unsigned::<u32>(tag).ok().flatten()
}

/// How the file's samples become the pipeline's.
struct Layout {
    channels: Channels,
    bits: u8,
    /// Samples a pixel in the file; those beyond the channels are dropped.
    samples: usize,
    /// Each sample in a plane of its own.
    planar: bool,
    /// Colour was multiplied by opacity.
    multiplied: bool,
}

fn layout(tags: &mut Tags) -> Result<Layout, PictureError> {
    let colour = tags.colortype().map_err(|e| stop(&e))?;
    let planar = number(tags, Tag::PlanarConfiguration) == Some(2);
    let grey = matches!(number(tags, Tag::PhotometricInterpretation), Some(0 | 1));
    let extra = tags.find_tag_unsigned_vec::<u16>(Tag::ExtraSamples).ok().flatten();
    let extra = extra.and_then(|v| v.first().copied()).and_then(ExtraSamples::from_u16);
    let multiplied = extra == Some(ExtraSamples::AssociatedAlpha);
    let alpha = multiplied || extra == Some(ExtraSamples::UnassociatedAlpha);
    let samples = usize::from(colour.num_samples());
    let channels = match colour {
        ColorType::Gray(_) => Channels::Grey,
        ColorType::GrayA(_) => Channels::GreyAlpha,
        ColorType::RGBA(_) if alpha => Channels::Rgba,
        ColorType::RGB(_) | ColorType::RGBA(_) => Channels::Rgb,
        ColorType::CMYK(_) | ColorType::CMYKA(_) => Channels::Cmyk,
        ColorType::Multiband { .. } if grey && alpha && samples == 2 => Channels::GreyAlpha,
        ColorType::Multiband { .. } if grey => Channels::Grey,
        other => return Err(unsupported(format!("{other:?} pixels"))),
    };
    let bits = colour.bit_depth();
    let packed = matches!(bits, 1 | 2 | 4) && channels == Channels::Grey && samples == 1;
    if !(bits == 8 || bits == 16 || packed) {
        return Err(unsupported(format!("{bits} bits a sample")));
    }
    // Signed and floating-point samples say so in this tag.
    if number(tags, Tag::SampleFormat).is_some_and(|format| !matches!(format, 1 | 4)) {
        return Err(unsupported("signed or floating-point samples"));
    }
    Ok(Layout { channels, bits, samples, planar, multiplied })
}

impl Decoder for Tiff {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        let mut tags = open(source, run)?;
        let (width, height) = tags.dimensions().map_err(|e| stop(&e))?;
        let size = Size::new(width, height);
        let Layout { channels, bits, .. } = layout(&mut tags)?;
        let mut header = Header::new(Format::Tiff, size, channels, bits);
        header.any_rows = true;
        header.profile = tags.get_tag_u8_vec(Tag::IccProfile).ok();
        if let Ok(Some(value)) = tags.find_tag_unsigned::<u32>(Tag::Orientation) {
            match Orientation::from_tag(value) {
                Some(orientation) => header.orientation = orientation,
                None => header.findings.push(Finding::OrientationUnknown { value }),
            }
        }
        let per_inch = match tags.find_tag_unsigned::<u16>(Tag::ResolutionUnit) {
            Ok(None | Some(2)) => Some(1.0),
            Ok(Some(3)) => Some(2.54),
            _ => None,
        };
        let number = |tags: &mut Tags, tag| match tags.find_tag(tag) {
            Ok(Some(Value::Rational(n, d))) if d != 0 => Some(f64::from(n) / f64::from(d)),
            Ok(Some(Value::Float(v))) => Some(f64::from(v)),
            _ => None,
        };
        if let (Some(unit), Some(x)) = (per_inch, number(&mut tags, Tag::XResolution)) {
            let y = number(&mut tags, Tag::YResolution).unwrap_or(x);
            header.resolution = Resolution::sane(x * unit, y * unit, ResolutionSource::Tiff);
        }
        if tags.more_images() {
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
        let mut tags = open(source, run)?;
        let layout = layout(&mut tags)?;
        let (chunks, grid) = chunks(&mut tags, &layout, header.size, run)?;
        let reader = Reader::new(&chunks, source.file()?);
        Bands { layout, size: header.size, grid, reader, words: Vec::new() }
            .hand_on(want, run, sink)
    }
}

/// How the picture is cut into chunks.
struct Grid {
    tiles: bool,
    chunk: Size,
    across: u32,
    per_plane: u32,
}

fn chunks(
    tags: &mut Tags,
    layout: &Layout,
    size: Size,
    run: &Run,
) -> Result<(Chunks, Grid), PictureError> {
    let damaged = |what: &str| PictureError::damaged(Format::Tiff, what);
    let tiles = tags.get_chunk_type() == ChunkType::Tile;
    let (width, height) = tags.chunk_dimensions();
    let height = if tiles { height } else { height.min(size.height) };
    if width == 0 || height == 0 || width > 1 << 24 || height > 1 << 24 {
        return Err(damaged("its strips or tiles have no sensible size"));
    }
    let across = if tiles { size.width.div_ceil(width) } else { 1 };
    let per_plane = across
        .checked_mul(size.height.div_ceil(height))
        .ok_or_else(|| damaged("too many tiles"))?;
    let [offsets, lengths] = if tiles {
        [Tag::TileOffsets, Tag::TileByteCounts]
    } else {
        [Tag::StripOffsets, Tag::StripByteCounts]
    };
    let offsets = tags.get_tag_u64_vec(offsets).map_err(|e| stop(&e))?;
    let packing = u16::try_from(number(tags, Tag::Compression).unwrap_or(1)).unwrap_or(0);
    let packing = Packing::from_tag(packing)?;
    let lengths = match tags.get_tag_u64_vec(lengths) {
        Ok(lengths) => lengths,
        // Plain strips need none.
        Err(_) if packing == Packing::Plain => Vec::new(),
        Err(error) => return Err(stop(&error)),
    };
    let predictor = number(tags, Tag::Predictor).unwrap_or(1);
    if predictor > 2 {
        return Err(unsupported("floating-point differences"));
    }
    if number(tags, Tag::FillOrder) == Some(2) {
        return Err(unsupported("bytes stored with their bits reversed"));
    }
    let band = u64::from(height)
        * u64::from(size.width)
        * u64::try_from(layout.samples * 2).unwrap_or(u64::MAX);
    if packing != Packing::Plain || tiles {
        run.limits().check_memory(band.saturating_mul(2))?;
    }
    let chunks = Chunks {
        offsets,
        lengths,
        packing,
        differences: predictor == 2,
        big_endian: tags.byte_order() == ByteOrder::BigEndian,
        bits: layout.bits,
        inverted: number(tags, Tag::PhotometricInterpretation) == Some(0),
    };
    Ok((chunks, Grid { tiles, chunk: Size::new(width, height), across, per_plane }))
}

/// Rows handed on at a time where chunks leave the choice.
const ROWS: u32 = 32;

/// The rows of chunks across the picture, decoded one after another.
struct Bands<'a> {
    layout: Layout,
    size: Size,
    grid: Grid,
    reader: Reader<'a>,
    words: Vec<u16>,
}

fn len(n: u32) -> usize {
    usize::try_from(n).unwrap_or(usize::MAX)
}

impl Bands<'_> {
    fn hand_on(
        &mut self,
        want: &Want,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let end = want.rows.end.min(self.size.height);
        let mut bytes: Vec<u8> = Vec::new();
        let mut words: Vec<u16> = Vec::new();
        let height = self.grid.chunk.height;
        let plain = self.reader.is_plain() && !self.grid.tiles;
        let mut top = want.rows.start;
        if !plain {
            top -= top % height;
        }
        while top < end {
            run.check()?;
            // Plain strips are read in pieces, whatever their height.
            let in_chunk = top % height;
            let most = if plain { ROWS } else { height };
            let rows = most.min(height - in_chunk).min(self.size.height - top);
            let shape = (len(rows), len(in_chunk));
            let samples = shape.0 * len(self.size.width) * self.layout.channels.count();
            if self.layout.bits == 16 && self.is_straight() {
                // Whole rows as they are to be handed on.
                let step = self.layout.samples;
                let line = len(self.size.width) * step;
                let shape = Shape { line, step, rows: shape.0, skip: shape.1 };
                self.reader.words(len(top / height), shape, run, &mut self.words)?;
                sink.rows(top, Samples::Words(&self.words))?;
                top += rows;
                continue;
            }
            if self.layout.bits <= 8 {
                bytes.resize(samples, 0);
            } else {
                words.resize(samples, 0);
            }
            for column in 0..self.grid.across {
                for plane in 0..self.planes() {
                    let index =
                        top / height * self.grid.across + column + plane * self.grid.per_plane;
                    let place = Place {
                        left: len(column * self.grid.chunk.width),
                        width: len(self.size.width),
                        plane: len(plane),
                    };
                    self.chunk(len(index), &place, shape, run, (&mut bytes, &mut words))?;
                }
            }
            if self.layout.bits <= 8 {
                self.straighten(&mut bytes, 255);
                sink.rows(top, Samples::Bytes(&bytes))?;
            } else {
                self.straighten(&mut words, 65535);
                sink.rows(top, Samples::Words(&words))?;
            }
            top += rows;
        }
        Ok(())
    }

    /// Whether a chunk's samples are the band's.
    fn is_straight(&self) -> bool {
        let Layout { channels, samples, planar, multiplied, .. } = self.layout;
        !self.grid.tiles && !planar && !multiplied && samples == channels.count()
    }

    fn planes(&self) -> u32 {
        let planes = if self.layout.planar { self.layout.channels.count() } else { 1 };
        u32::try_from(planes).unwrap_or(1)
    }

    /// Reads one chunk and copies its samples to their place in the band.
    fn chunk(
        &mut self,
        index: usize,
        place: &Place,
        (rows, skip): (usize, usize),
        run: &Run,
        (bytes, words): (&mut [u8], &mut [u16]),
    ) -> Result<(), PictureError> {
        let step = if self.layout.planar { 1 } else { self.layout.samples };
        let width = if self.grid.tiles { len(self.grid.chunk.width) } else { place.width };
        let shape = Shape { line: width * step, step, rows, skip };
        match self.layout.bits {
            9.. => {
                self.reader.words(index, shape, run, &mut self.words)?;
                put(&self.words, shape, place, &self.layout, words);
            }
            8 => put(self.reader.bytes(index, shape, run)?, shape, place, &self.layout, bytes),
            bits => {
                let packed = self.reader.bytes(index, shape, run)?;
                unpack(packed, shape, place, usize::from(bits), bytes);
            }
        }
        Ok(())
    }

    /// Divides colour by opacity where it was multiplied in.
    fn straighten<T: Copy + Into<u32> + TryFrom<u32>>(&self, samples: &mut [T], top: u32) {
        let n = self.layout.channels.count();
        if !self.layout.multiplied || !self.layout.channels.has_alpha() {
            return;
        }
        for pixel in samples.chunks_exact_mut(n) {
            let Some((alpha, colours)) = pixel.split_last_mut() else { return };
            let alpha: u32 = (*alpha).into();
            for v in colours {
                let light: u32 = (*v).into();
                let straight = (light * top).checked_div(alpha).unwrap_or(0).min(top);
                *v = T::try_from(straight).unwrap_or(*v);
            }
        }
    }
}

/// Where a chunk lies in its band.
struct Place {
    left: usize,
    width: usize,
    plane: usize,
}

fn put<T: Copy>(from: &[T], shape: Shape, place: &Place, layout: &Layout, to: &mut [T]) {
    let channels = layout.channels.count();
    let width = place.width.saturating_sub(place.left).min(shape.line / shape.step.max(1));
    for (y, from) in from.chunks_exact(shape.line.max(1)).take(shape.rows).enumerate() {
        let start = (y * place.width + place.left) * channels;
        let Some(to) = to.get_mut(start..start + width * channels) else { return };
        if shape.step == channels {
            to.copy_from_slice(&from[..width * channels]);
            continue;
        }
        let taken = if layout.planar { 1 } else { channels };
        let at = place.plane.min(channels - taken);
        let targets = to.chunks_exact_mut(channels);
        for (pixel, target) in from.chunks_exact(shape.step).zip(targets) {
            target[at..at + taken].copy_from_slice(&pixel[..taken]);
        }
    }
}

/// Samples of less than a byte, packed from the high bits down, each row from a new byte.
fn unpack(from: &[u8], shape: Shape, place: &Place, bits: usize, to: &mut [u8]) {
    let width = place.width.saturating_sub(place.left).min(shape.line);
    let line = (shape.line * bits).div_ceil(8);
    let mask = u8::MAX >> (8 - bits);
    let scale = 255 / mask;
    for (y, from) in from.chunks_exact(line.max(1)).take(shape.rows).enumerate() {
        let start = y * place.width + place.left;
        let Some(to) = to.get_mut(start..start + width) else { return };
        for (byte, group) in from.iter().zip(to.chunks_mut(8 / bits)) {
            for (k, sample) in group.iter_mut().enumerate() {
                *sample = (byte >> (8 - bits * (k + 1)) & mask) * scale;
            }
        }
    }
}
