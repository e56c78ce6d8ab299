//! A strip's or tile's samples: through the `tiff` crate, whole; rows of plain strips, which may
//! be as large as the picture, straight from the file.

use std::fs::File;
use std::io::{Read, Seek, SeekFrom};

use tiff::decoder::DecodingBuffer;
use tiff::tags::{ByteOrder, Tag};

use super::{Grid, Layout, Tags, len, number, stop};
use crate::decode::{BAND, Source};
use crate::{Format, PictureError};

/// One chunk's samples, those of less than a byte packed as in the file.
#[derive(Debug, Default)]
pub(super) struct Chunk {
    /// Where the pixels of each end, if they are deflated: before the checksum. That it is wrong
    /// after they were read well loses nothing.
    ends: Vec<u64>,
    pub(super) bytes: Vec<u8>,
    pub(super) words: Vec<u16>,
    /// Samples in a row.
    pub(super) line: usize,
    /// Samples from one pixel to the next.
    pub(super) step: usize,
}

/// Bytes of the checksum that ends deflated data. Source: RFC 1950, 2.2.
const CHECKSUM: u64 = 4;

impl Chunk {
    /// For the chunks of `tags`, none of which is read yet.
    pub(super) fn new(tags: &mut Tags, grid: &Grid) -> Result<Self, PictureError> {
        let mut chunk = Self::default();
        if matches!(number(tags, Tag::Compression), Some(8 | 0x80b2)) {
            let mut all = |tag| tags.get_tag_u64_vec(tag).map_err(|e| stop(&e));
            let offsets = all(grid.offsets())?;
            let lengths = all(grid.lengths())?;
            let ends = offsets.iter().zip(lengths);
            chunk.ends = ends
                .map(|(offset, length)| offset.saturating_add(length.saturating_sub(CHECKSUM)))
                .collect();
        }
        Ok(chunk)
    }

    /// Reads chunk `index` of `tags`.
    pub(super) fn read(
        &mut self,
        tags: &mut Tags,
        layout: &Layout,
        index: u32,
    ) -> Result<(), PictureError> {
        let length = tags.image_chunk_buffer_layout(index).map_err(|e| stop(&e))?.len;
        let (width, _) = tags.chunk_data_dimensions(index);
        self.step = if layout.planar { 1 } else { layout.samples };
        self.line = len(width) * self.step;
        tags.inner().end = self.ends.get(len(index)).copied().unwrap_or(u64::MAX);
        let read = if layout.bits > 8 {
            self.words.resize(length.div_ceil(2), 0);
            let mut words = DecodingBuffer::U16(&mut self.words);
            tags.read_chunk_bytes(index, words.as_bytes_mut())
        } else {
            self.bytes.resize(length, 0);
            tags.read_chunk_bytes(index, &mut self.bytes)
        };
        read.map_err(|e| stop(&e))?;
        if layout.differences && !layout.planar && layout.stored > layout.samples {
            if layout.bits > 8 {
                mend(&mut self.words, self.line, layout);
            } else {
                mend(&mut self.bytes, self.line, layout);
            }
        }
        Ok(())
    }
}

/// Where samples beyond the colours are dropped, the crate (0.11.3) drops them first and then
/// adds up differences as if they were still there: takes that back and adds up again.
fn mend<T: Sum>(samples: &mut [T], line: usize, layout: &Layout) {
    for row in samples.chunks_exact_mut(line.max(1)) {
        for k in (layout.stored..row.len()).rev() {
            row[k] = row[k].less(row[k - layout.stored]);
        }
        for k in layout.samples..row.len() {
            row[k] = row[k].plus(row[k - layout.samples]);
        }
    }
}

/// Adding up that wraps, as differences do.
trait Sum: Copy {
    fn plus(self, other: Self) -> Self;
    fn less(self, other: Self) -> Self;
}

impl Sum for u8 {
    fn plus(self, other: Self) -> Self {
        self.wrapping_add(other)
    }
    fn less(self, other: Self) -> Self {
        self.wrapping_sub(other)
    }
}

impl Sum for u16 {
    fn plus(self, other: Self) -> Self {
        self.wrapping_add(other)
    }
    fn less(self, other: Self) -> Self {
        self.wrapping_sub(other)
    }
}

/// Plain strips of whole samples, of which any rows can be read.
#[derive(Debug)]
pub(super) struct PlainStrips {
    file: File,
    /// Bytes of the file.
    bytes: u64,
    offsets: Vec<u64>,
    /// Rows in a strip.
    height: u32,
    /// Bytes in a row.
    line: usize,
    order: ByteOrder,
    held: Vec<u8>,
}

impl PlainStrips {
    /// Whether the file holds such.
    pub(super) fn are_in(tags: &mut Tags, layout: &Layout, grid: &Grid) -> bool {
        let white_is_zero = number(tags, Tag::PhotometricInterpretation) == Some(0);
        let straight = !layout.planar && !layout.differences && !white_is_zero;
        let plain = number(tags, Tag::Compression).unwrap_or(1) == 1;
        plain && straight && !grid.tiles && layout.bits >= 8
    }

    pub(super) fn new(
        tags: &mut Tags,
        layout: &Layout,
        grid: &Grid,
        source: &Source,
    ) -> Result<Self, PictureError> {
        let offsets = tags.get_tag_u64_vec(grid.offsets()).map_err(|e| stop(&e))?;
        let line = len(grid.chunk.width) * layout.stored * usize::from(layout.bits / 8);
        let (height, order) = (grid.chunk.height, tags.byte_order());
        let (file, bytes) = (source.file()?, source.bytes);
        Ok(Self { file, bytes, offsets, height, line, order, held: Vec::new() })
    }

    /// Bytes that two threads hold at once: each the rows of a band as they are in the file, and
    /// the same again in the machine's order.
    pub(super) fn memory(&self) -> u64 {
        let rows = u64::from(self.height.min(BAND));
        u64::try_from(self.line).unwrap_or(u64::MAX).saturating_mul(rows).saturating_mul(4)
    }

    /// Reads `rows` rows from row `top` of the picture, all of one strip, with all their samples.
    pub(super) fn read(
        &mut self,
        top: u32,
        rows: u32,
        layout: &Layout,
        chunk: &mut Chunk,
    ) -> Result<(), PictureError> {
        let damaged = |what: &str| PictureError::damaged(Format::Tiff, what);
        let skip = len(top % self.height).saturating_mul(self.line);
        let start = self
            .offsets
            .get(len(top / self.height))
            .and_then(|offset| offset.checked_add(u64::try_from(skip).ok()?))
            .ok_or_else(|| damaged("a strip is missing"))?;
        let length = len(rows).saturating_mul(self.line);
        let end = u64::try_from(length).ok().and_then(|length| start.checked_add(length));
        // Before room is made: a few bytes may claim rows of any length.
        if end.is_none_or(|end| end > self.bytes) {
            return Err(damaged("the file ends before its pixels do"));
        }
        let held = if layout.bits > 8 { &mut self.held } else { &mut chunk.bytes };
        held.resize(length, 0);
        let read =
            self.file.seek(SeekFrom::Start(start)).and_then(|_| self.file.read_exact(held));
        read.map_err(|e| damaged(&format!("its pixels cannot be read: {e}")))?;
        chunk.step = layout.stored;
        chunk.line = self.line / usize::from(layout.bits / 8);
        if layout.bits > 8 {
            let pairs = held.as_chunks::<2>().0.iter();
            chunk.words.clear();
            match self.order {
                ByteOrder::BigEndian => {
                    chunk.words.extend(pairs.map(|pair| u16::from_be_bytes(*pair)));
                }
                ByteOrder::LittleEndian => {
                    chunk.words.extend(pairs.map(|pair| u16::from_le_bytes(*pair)));
                }
            }
        }
        Ok(())
    }
}
