//! Chunks put together to rows across the picture.

use std::ops::Range;

use super::chunk::{Chunk, PlainStrips};
use super::{Grid, Layout, Tags, len};
use crate::decode::{BAND, Samples, Sink};
use crate::limits::Run;
use crate::{PictureError, Size};

/// The rows of chunks across the picture, decoded one after another.
pub(super) struct Bands {
    pub(super) tags: Tags,
    pub(super) layout: Layout,
    pub(super) size: Size,
    pub(super) grid: Grid,
    /// Where rows can be read alone.
    pub(super) plain: Option<PlainStrips>,
    pub(super) chunk: Chunk,
}

impl Bands {
    /// Hands on `rows`, and what else is in their chunks.
    pub(super) fn hand_on(
        &mut self,
        rows: Range<u32>,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let (mut bytes, mut words) = (Vec::new(), Vec::new());
        let height = self.grid.chunk.height;
        let mut top = rows.start;
        if self.plain.is_none() {
            top -= top % height;
        }
        while top < rows.end.min(self.size.height) {
            run.check()?;
            let most = if self.plain.is_some() { BAND } else { height };
            let rows = most.min(height - top % height).min(self.size.height - top);
            self.read(top, rows, run, (&mut bytes, &mut words))?;
            let line = len(self.size.width) * self.layout.channels.count();
            let pieces = (top..top + rows).step_by(len(BAND));
            if self.layout.bits > 8 {
                for (first, piece) in pieces.zip(words.chunks(line * len(BAND))) {
                    sink.rows(first, Samples::Words(piece))?;
                }
            } else {
                for (first, piece) in pieces.zip(bytes.chunks(line * len(BAND))) {
                    sink.rows(first, Samples::Bytes(piece))?;
                }
            }
            top += rows;
        }
        Ok(())
    }

    /// Reads `rows` rows from row `top`, which end with their chunks.
    fn read(
        &mut self,
        top: u32,
        rows: u32,
        run: &Run,
        (bytes, words): (&mut Vec<u8>, &mut Vec<u16>),
    ) -> Result<(), PictureError> {
        let Self { tags, layout, size, grid, plain, chunk } = self;
        let samples = len(rows) * len(size.width) * layout.channels.count();
        for column in 0..grid.across {
            for plane in 0..layout.planes() {
                if let Some(strips) = plain {
                    strips.read(top, rows, layout, chunk)?;
                } else {
                    run.check()?;
                    let first = top / grid.chunk.height * grid.across;
                    let index = first + column + plane * grid.per_plane;
                    chunk.read(tags, layout, index)?;
                }
                let place = Place {
                    left: len(column * grid.chunk.width),
                    width: len(size.width),
                    rows: len(rows),
                    plane: len(plane),
                };
                let whole = chunk.step == layout.channels.count() && grid.across == 1;
                match layout.bits {
                    9.. if whole => std::mem::swap(&mut chunk.words, words),
                    8 if whole => std::mem::swap(&mut chunk.bytes, bytes),
                    9.. => {
                        words.resize(samples, 0);
                        put(&chunk.words, chunk, &place, layout, words);
                    }
                    8 => {
                        bytes.resize(samples, 0);
                        put(&chunk.bytes, chunk, &place, layout, bytes);
                    }
                    bits => {
                        bytes.resize(samples, 0);
                        unpack(chunk, &place, usize::from(bits), bytes);
                    }
                }
            }
        }
        if layout.multiplied && layout.channels.has_alpha() {
            straighten(bytes, layout.channels.count(), u8::MAX.into());
            straighten(words, layout.channels.count(), u16::MAX.into());
        }
        Ok(())
    }
}

/// Divides colour by opacity.
fn straighten<T: Copy + Into<u32> + TryFrom<u32>>(samples: &mut [T], n: usize, top: u32) {
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

/// Where a chunk lies in its band.
struct Place {
    left: usize,
    width: usize,
    rows: usize,
    plane: usize,
}

fn put<T: Copy>(from: &[T], chunk: &Chunk, place: &Place, layout: &Layout, to: &mut [T]) {
    let channels = layout.channels.count();
    let Chunk { line, step, .. } = *chunk;
    let width = place.width.saturating_sub(place.left).min(line / step.max(1));
    for (y, from) in from.chunks_exact(line.max(1)).take(place.rows).enumerate() {
        let start = (y * place.width + place.left) * channels;
        let Some(to) = to.get_mut(start..start + width * channels) else { return };
        if step == channels {
            to.copy_from_slice(&from[..width * channels]);
            continue;
        }
        let taken = if layout.planar { 1 } else { channels };
        let at = place.plane.min(channels - taken);
        let targets = to.chunks_exact_mut(channels);
        for (pixel, target) in from.chunks_exact(step).zip(targets) {
            target[at..at + taken].copy_from_slice(&pixel[..taken]);
        }
    }
}

/// Samples of less than a byte, packed from the high bits down, each row from a new byte.
fn unpack(chunk: &Chunk, place: &Place, bits: usize, to: &mut [u8]) {
    let width = place.width.saturating_sub(place.left).min(chunk.line);
    let line = (chunk.line * bits).div_ceil(8);
    let mask = u8::MAX >> (8 - bits);
    let scale = 255 / mask;
    for (y, from) in chunk.bytes.chunks_exact(line.max(1)).take(place.rows).enumerate() {
        let start = y * place.width + place.left;
        let Some(to) = to.get_mut(start..start + width) else { return };
        for (byte, group) in from.iter().zip(to.chunks_mut(8 / bits)) {
            for (k, sample) in group.iter_mut().enumerate() {
                *sample = (byte >> (8 - bits * (k + 1)) & mask) * scale;
            }
        }
    }
}
