//! TIFF, 1 to 16 bits, strips or tiles, through the `tiff` crate, chunk by chunk; any rows alone
//! and two threads at once where chunks are small.

mod bands;
mod chunk;
mod input;

use std::io::{Read, Seek, SeekFrom};
use std::ops::Range;

use tiff::decoder::{ChunkType, Decoder as Library, Limits, ifd::Value};
use tiff::tags::{ExtraSamples, Tag};
use tiff::{ColorType, TiffError};

use self::bands::Bands;
use self::chunk::{Chunk, PlainStrips};
use self::input::Input;
use super::{Channels, Decoder, Header, Sink, Source};
use crate::limits::Run;
use crate::size::{Resolution, ResolutionSource};
use crate::{Finding, Format, Orientation, PictureError, Size};

pub(super) struct Tiff;

type Tags = Library<Input>;

fn stop(error: &TiffError) -> PictureError {
    match error {
        TiffError::UnsupportedError(what) => {
            PictureError::unsupported(Format::Tiff, format!("a kind of TIFF ({what})"))
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
    let input = Input::new(source.reader()?);
    Ok(Library::new(input).map_err(|e| stop(&e))?.with_limits(limits))
}

fn number(tags: &mut Tags, tag: Tag) -> Option<u32> {
    tags.find_tag_unsigned::<u32>(tag).ok().flatten()
}

/// Samples a pixel at most: four inks and a dozen saved selections. A tag may claim 65535, and
/// each costs as much as the picture.
const MOST_SAMPLES: usize = 16;

/// How the file's samples become the pipeline's.
struct Layout {
    channels: Channels,
    bits: u8,
    /// Samples a pixel in a chunk as it is read; those beyond the channels are dropped.
    samples: usize,
    /// Samples a pixel in the file.
    stored: usize,
    /// Each sample in a plane of its own.
    planar: bool,
    /// Colour was multiplied by opacity.
    multiplied: bool,
    /// Neighbouring samples are stored as differences.
    differences: bool,
}

impl Layout {
    /// Planes to read.
    fn planes(&self) -> u32 {
        let planes = if self.planar { self.channels.count() } else { 1 };
        u32::try_from(planes).unwrap_or(1)
    }
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
    let stored = number(tags, Tag::SamplesPerPixel).map_or(1, len).max(samples);
    if stored > MOST_SAMPLES {
        return Err(unsupported(format!("{stored} samples a pixel ({MOST_SAMPLES} at most)")));
    }
    let differences = number(tags, Tag::Predictor) == Some(2);
    Ok(Layout { channels, bits, samples, stored, planar, multiplied, differences })
}

impl Decoder for Tiff {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        let mut tags = open(source, run)?;
        let (width, height) = tags.dimensions().map_err(|e| stop(&e))?;
        let size = Size::new(width, height);
        run.limits().check_size(size)?;
        let layout = layout(&mut tags)?;
        let grid = Grid::of(&mut tags, size)?;
        let mut header = Header::new(Format::Tiff, size, layout.channels, layout.bits);
        // Two threads would each unpack a chunk that lies across the middle.
        header.any_rows = size.height / 4 >= grid.chunk.height
            || PlainStrips::are_in(&mut tags, &layout, &grid);
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
        rows: Range<u32>,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let mut tags = open(source, run)?;
        let layout = layout(&mut tags)?;
        let grid = Grid::of(&mut tags, header.size)?;
        check_packing(&mut tags, &grid, source)?;
        let plain = if PlainStrips::are_in(&mut tags, &layout, &grid) {
            let strips = PlainStrips::new(&mut tags, &layout, &grid, source)?;
            run.limits().check_memory(strips.memory())?;
            Some(strips)
        } else {
            // A chunk as read, and the band it goes to.
            let samples = u64::try_from(layout.samples).unwrap_or(u64::MAX) * 2;
            let width = grid.chunk.width.max(header.size.width);
            let band = u64::from(width) * u64::from(grid.chunk.height);
            run.limits().check_memory(band.saturating_mul(samples).saturating_mul(2))?;
            None
        };
        let chunk = Chunk::new(&mut tags, &grid)?;
        Bands { tags, layout, size: header.size, grid, plain, chunk }.hand_on(rows, run, sink)
    }
}

/// Refuses, by name, what is packed in a way that is not opened here. Source: TIFF 6.0; Deflate
/// as Adobe's technical notes have it.
fn check_packing(tags: &mut Tags, grid: &Grid, source: &Source) -> Result<(), PictureError> {
    let name = match number(tags, Tag::Compression).unwrap_or(1) {
        5 if starts_with_oldest_codes(tags, grid, source)? => {
            return Err(unsupported("LZW codes of the oldest kind"));
        }
        1 | 5 | 8 | 0x80b2 | 0x8005 => None,
        2..=4 => Some("fax"),
        6 | 7 => Some("JPEG"),
        0xc350 => Some("Zstandard"),
        0xc351 => Some("WebP"),
        _ => Some("an unknown"),
    };
    if let Some(name) = name {
        return Err(unsupported(format!("{name} compression")));
    }
    if number(tags, Tag::Predictor).is_some_and(|predictor| predictor > 2) {
        return Err(unsupported("floating-point differences"));
    }
    if number(tags, Tag::FillOrder) == Some(2) {
        return Err(unsupported("bytes stored with their bits reversed"));
    }
    Ok(())
}

/// LZW of before TIFF 5 fills its bytes from the other end: its first code, 256, says so.
fn starts_with_oldest_codes(
    tags: &mut Tags,
    grid: &Grid,
    source: &Source,
) -> Result<bool, PictureError> {
    let offsets = tags.get_tag_u64_vec(grid.offsets()).map_err(|e| stop(&e))?;
    let Some(first) = offsets.first() else { return Ok(false) };
    let (mut file, mut code) = (source.file()?, [0; 2]);
    let read = file.seek(SeekFrom::Start(*first)).and_then(|_| file.read_exact(&mut code));
    Ok(read.is_ok() && code == [0, 1])
}

/// How the picture is cut into chunks.
struct Grid {
    tiles: bool,
    chunk: Size,
    across: u32,
    per_plane: u32,
}

impl Grid {
    fn offsets(&self) -> Tag {
        if self.tiles { Tag::TileOffsets } else { Tag::StripOffsets }
    }
    fn lengths(&self) -> Tag {
        if self.tiles { Tag::TileByteCounts } else { Tag::StripByteCounts }
    }
    fn of(tags: &mut Tags, size: Size) -> Result<Self, PictureError> {
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
            .filter(|count| count.checked_mul(u32::from(u16::MAX)).is_some())
            .ok_or_else(|| damaged("too many tiles"))?;
        Ok(Self { tiles, chunk: Size::new(width, height), across, per_plane })
    }
}

fn len(n: u32) -> usize {
    usize::try_from(n).unwrap_or(usize::MAX)
}
