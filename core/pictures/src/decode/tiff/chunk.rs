//! A strip's or tile's bytes: read, expanded, undone to plain samples.

use std::fs::File;
use std::io::{Read, Seek, SeekFrom};

use flate2::{Decompress, FlushDecompress};

use super::lzw;
use crate::limits::Run;
use crate::{Format, PictureError};

fn damaged(what: &str) -> PictureError {
    PictureError::damaged(Format::Tiff, what)
}

/// How chunks are packed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Packing {
    Plain,
    Lzw,
    Deflate,
    PackBits,
}

impl Packing {
    /// By the compression tag. Source: TIFF 6.0; Deflate as Adobe's technical notes have it.
    pub(super) fn from_tag(value: u16) -> Result<Self, PictureError> {
        let name = match value {
            1 => return Ok(Self::Plain),
            5 => return Ok(Self::Lzw),
            8 | 0x80b2 => return Ok(Self::Deflate),
            0x8005 => return Ok(Self::PackBits),
            2..=4 => "fax",
            6 | 7 => "JPEG",
            0xc350 => "Zstandard",
            0xc351 => "WebP",
            _ => "an unknown",
        };
        Err(PictureError::unsupported(Format::Tiff, format!("{name} compression")))
    }
}

/// Where chunks lie and how their bytes become samples.
#[derive(Debug, Clone)]
pub(super) struct Chunks {
    pub(super) offsets: Vec<u64>,
    pub(super) lengths: Vec<u64>,
    pub(super) packing: Packing,
    /// Neighbouring samples are stored as differences.
    pub(super) differences: bool,
    pub(super) big_endian: bool,
    pub(super) bits: u8,
    /// White is zero.
    pub(super) inverted: bool,
}

/// One chunk's shape.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shape {
    /// Samples in a row.
    pub(super) line: usize,
    /// Samples a pixel, which differences step over.
    pub(super) step: usize,
    /// Rows to read, from row `skip` of the chunk.
    pub(super) rows: usize,
    pub(super) skip: usize,
}

/// No packing makes more of a byte: LZW of TIFF 6.0 at most some 1,300 (codes of 12 bits, each
/// string one longer than the one before), Deflate 1,032 (RFC 1951), `PackBits` 64.
const MOST_EXPANDED: u64 = 2048;

/// Reads chunks of one file, its memory kept from one to the next.
#[derive(Debug)]
pub(super) struct Reader<'a> {
    chunks: &'a Chunks,
    file: File,
    /// How long the file is.
    bytes: u64,
    packed: Vec<u8>,
    plain: Vec<u8>,
}

impl<'a> Reader<'a> {
    pub(super) fn new(chunks: &'a Chunks, file: File) -> Self {
        // Where the system does not tell, a chunk that is not there is found by reading.
        let bytes = file.metadata().map_or(u64::MAX, |facts| facts.len());
        Self { chunks, file, bytes, packed: Vec::new(), plain: Vec::new() }
    }

    /// Whether any rows can be read alone.
    pub(super) fn is_plain(&self) -> bool {
        self.chunks.packing == Packing::Plain
    }

    /// Bytes in a row of `samples`.
    fn line_bytes(&self, samples: usize) -> usize {
        (samples * usize::from(self.chunks.bits)).div_ceil(8)
    }

    fn fill(&mut self, from: u64, length: usize) -> Result<(), PictureError> {
        // Room is made for nothing that is not in the file.
        let end = u64::try_from(length).ok().and_then(|length| from.checked_add(length));
        if end.is_none_or(|end| end > self.bytes) {
            return Err(damaged("its pixels cannot be read: the file ends before them"));
        }
        self.packed.resize(length, 0);
        let read = self
            .file
            .seek(SeekFrom::Start(from))
            .and_then(|_| self.file.read_exact(&mut self.packed));
        read.map_err(|e| damaged(&format!("its pixels cannot be read: {e}")))
    }

    /// The chunk's rows, one row of whole bytes after another.
    fn expanded(&mut self, index: usize, shape: Shape, run: &Run) -> Result<(), PictureError> {
        let short = || damaged("a strip or tile is missing");
        let start = *self.chunks.offsets.get(index).ok_or_else(short)?;
        let line = self.line_bytes(shape.line);
        let wanted = line * (shape.skip + shape.rows);
        if self.chunks.packing == Packing::Plain {
            // Only the rows wanted are read.
            let skip = u64::try_from(line * shape.skip).unwrap_or(u64::MAX);
            self.fill(start.checked_add(skip).ok_or_else(short)?, line * shape.rows)?;
            std::mem::swap(&mut self.packed, &mut self.plain);
            return Ok(());
        }
        let length = *self.chunks.lengths.get(index).ok_or_else(short)?;
        let wanted_bytes = u64::try_from(wanted).unwrap_or(u64::MAX);
        if wanted_bytes > length.saturating_mul(MOST_EXPANDED) {
            return Err(damaged("a strip or tile breaks off"));
        }
        let held = wanted_bytes.saturating_add(length);
        run.limits().check_memory(held)?;
        self.fill(start, usize::try_from(length).unwrap_or(usize::MAX))?;
        self.plain.resize(wanted, 0);
        let got = match self.chunks.packing {
            Packing::Plain => wanted,
            Packing::Lzw if self.packed.starts_with(&[0, 1]) => {
                let what = "LZW codes of the oldest kind";
                return Err(PictureError::unsupported(Format::Tiff, what));
            }
            Packing::Lzw => lzw::expand(&self.packed, &mut self.plain),
            Packing::Deflate => inflate(&self.packed, &mut self.plain),
            Packing::PackBits => unpack_bits(&self.packed, &mut self.plain),
        };
        if got < wanted {
            return Err(damaged("a strip or tile breaks off"));
        }
        self.plain.drain(..line * shape.skip);
        Ok(())
    }

    /// The chunk's samples of at most 8 bits, packed as in the file.
    pub(super) fn bytes(
        &mut self,
        index: usize,
        shape: Shape,
        run: &Run,
    ) -> Result<&mut [u8], PictureError> {
        self.expanded(index, shape, run)?;
        if self.chunks.differences && self.chunks.bits == 8 {
            for row in self.plain.chunks_exact_mut(shape.line.max(1)) {
                for k in shape.step..row.len() {
                    row[k] = row[k].wrapping_add(row[k - shape.step]);
                }
            }
        }
        if self.chunks.inverted {
            for v in &mut self.plain {
                *v = !*v;
            }
        }
        Ok(&mut self.plain)
    }

    /// The chunk's samples of 16 bits.
    pub(super) fn words(
        &mut self,
        index: usize,
        shape: Shape,
        run: &Run,
        words: &mut Vec<u16>,
    ) -> Result<(), PictureError> {
        self.expanded(index, shape, run)?;
        words.clear();
        let (pairs, _) = self.plain.as_chunks::<2>();
        if self.chunks.big_endian {
            words.extend(pairs.iter().map(|&pair| u16::from_be_bytes(pair)));
        } else {
            words.extend(pairs.iter().map(|&pair| u16::from_le_bytes(pair)));
        }
        if self.chunks.differences {
            for row in words.chunks_exact_mut(shape.line.max(1)) {
                match shape.step {
                    1 => sum_words::<1>(row),
                    3 => sum_words::<3>(row),
                    4 => sum_words::<4>(row),
                    step => {
                        for k in step..row.len() {
                            row[k] = row[k].wrapping_add(row[k - step]);
                        }
                    }
                }
            }
        }
        if self.chunks.inverted {
            for v in words {
                *v = !*v;
            }
        }
        Ok(())
    }
}

fn sum_words<const N: usize>(row: &mut [u16]) {
    let mut sum = [0u16; N];
    for pixel in row.as_chunks_mut::<N>().0 {
        for (sum, v) in sum.iter_mut().zip(pixel) {
            *sum = sum.wrapping_add(*v);
            *v = *sum;
        }
    }
}

fn inflate(packed: &[u8], plain: &mut [u8]) -> usize {
    let mut state = Decompress::new(true);
    // Damaged data ends it; what came before stays.
    drop(state.decompress(packed, plain, FlushDecompress::Finish));
    usize::try_from(state.total_out()).unwrap_or(0).min(plain.len())
}

/// Source: TIFF 6.0 section 9.
fn unpack_bits(packed: &[u8], plain: &mut [u8]) -> usize {
    let (mut at, mut written) = (0, 0);
    while written < plain.len() {
        let Some(&head) = packed.get(at) else { break };
        at += 1;
        if head < 128 {
            let length = (usize::from(head) + 1).min(plain.len() - written);
            let Some(from) = packed.get(at..at + length) else { break };
            plain[written..written + length].copy_from_slice(from);
            at += usize::from(head) + 1;
            written += length;
        } else if head > 128 {
            let length = (257 - usize::from(head)).min(plain.len() - written);
            let Some(&value) = packed.get(at) else { break };
            plain[written..written + length].fill(value);
            at += 1;
            written += length;
        }
    }
    written
}
