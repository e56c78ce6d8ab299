//! The segments of a JPEG stream. Source: ITU-T T.81 annex B; JFIF (T.871); Adobe's APP14 as
//! described in T.872.

use std::sync::Arc;

use super::huffman::Huffman;
use crate::facts::{Resolution, ResolutionSource};

/// Natural place of each coefficient in the order it is sent. Source: T.81 figure A.6.
#[rustfmt::skip]
pub(super) const NATURAL: [u8; 64] = [
     0,  1,  8, 16,  9,  2,  3, 10, 17, 24, 32, 25, 18, 11,  4,  5,
    12, 19, 26, 33, 40, 48, 41, 34, 27, 20, 13,  6,  7, 14, 21, 28,
    35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51,
    58, 59, 52, 45, 38, 31, 39, 46, 53, 60, 61, 54, 47, 55, 62, 63,
];

/// What stops the reading of a stream.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Stop {
    /// A process this decoder does not know.
    Unsupported(String),
    /// Something that cannot be.
    Damaged(String),
    /// The bytes at hand end before the first scan.
    Short,
}

pub(super) fn damaged<T>(what: &str) -> Result<T, Stop> {
    Err(Stop::Damaged(what.into()))
}

/// One component of the frame.
#[derive(Debug, Clone)]
pub(super) struct Component {
    pub(super) id: u8,
    /// Sampling factors, 1 to 4.
    pub(super) h: usize,
    pub(super) v: usize,
    pub(super) quant: usize,
}

/// The frame header.
#[derive(Debug, Clone)]
pub(super) struct Frame {
    pub(super) progressive: bool,
    pub(super) width: u16,
    pub(super) height: u16,
    pub(super) components: Vec<Component>,
    pub(super) h_max: usize,
    pub(super) v_max: usize,
}

impl Frame {
    /// Units of interleaved scans across and down.
    pub(super) fn mcus(&self) -> (usize, usize) {
        (
            usize::from(self.width).div_ceil(8 * self.h_max),
            usize::from(self.height).div_ceil(8 * self.v_max),
        )
    }
    /// Blocks of component `c` that a scan of it alone holds, across and down.
    pub(super) fn own_blocks(&self, c: &Component) -> (usize, usize) {
        (
            (usize::from(self.width) * c.h).div_ceil(self.h_max).div_ceil(8),
            (usize::from(self.height) * c.v).div_ceil(self.v_max).div_ceil(8),
        )
    }
}

/// A code table, where one is in force.
type Code = Option<Arc<Huffman>>;

/// One scan's header and the tables in force where it starts.
#[derive(Debug, Clone)]
pub(super) struct Scan {
    /// Component index, DC table, AC table.
    pub(super) parts: Vec<(usize, Code, Code)>,
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) high: u32,
    pub(super) low: u32,
    /// Units between restart markers; 0 for none.
    pub(super) restart: usize,
    /// Where the coded data starts.
    pub(super) start: usize,
}

/// A stream's headers, read as far as asked.
#[derive(Debug, Default)]
pub(super) struct Headers {
    pub(super) frame: Option<Frame>,
    pub(super) quants: [Option<[u16; 64]>; 4],
    dc: [Code; 4],
    ac: [Code; 4],
    restart: usize,
    pub(super) exif: Option<Vec<u8>>,
    icc: Vec<(u8, Vec<u8>)>,
    ended_is_fine: bool,
    pub(super) jfif: bool,
    pub(super) jfif_resolution: Option<Resolution>,
    pub(super) adobe: Option<u8>,
    /// Where the next marker is looked for.
    position: usize,
}

/// Reads big-endian numbers out of one segment.
struct Fields<'a>(&'a [u8]);

impl Fields<'_> {
    fn byte(&mut self) -> Result<u8, Stop> {
        let (&first, rest) =
            self.0.split_first().ok_or(Stop::Damaged("a segment is too short".into()))?;
        self.0 = rest;
        Ok(first)
    }
    fn word(&mut self) -> Result<u16, Stop> {
        Ok(u16::from_be_bytes([self.byte()?, self.byte()?]))
    }
    fn small(&mut self) -> Result<(usize, usize), Stop> {
        let both = self.byte()?;
        Ok((usize::from(both >> 4), usize::from(both & 15)))
    }
}

impl Headers {
    /// Reads on to the next scan; `None` at the end of the picture (or of the data).
    pub(super) fn next_scan(&mut self, data: &[u8]) -> Result<Option<Scan>, Stop> {
        if self.position == 0 {
            if !data.starts_with(b"\xff\xd8") {
                return damaged("it does not start like one");
            }
            self.position = 2;
        }
        loop {
            // Anything between segments is skipped, as other readers do.
            let Some(found) = next_marker(data, self.position) else {
                let seen = self.frame.is_some() && self.ended_is_fine;
                return if seen { Ok(None) } else { Err(Stop::Short) };
            };
            let marker = data[found];
            self.position = found + 1;
            match marker {
                0xd9 => return Ok(None),
                0x01 | 0xd0..=0xd8 => continue,
                _ => {}
            }
            let Some(length) = data.get(found + 1..found + 3) else { return Err(Stop::Short) };
            let length = usize::from(u16::from_be_bytes([length[0], length[1]]));
            if length < 2 {
                return damaged("a segment has no length");
            }
            let Some(segment) = data.get(found + 3..found + 1 + length) else {
                return Err(Stop::Short);
            };
            self.position = found + 1 + length;
            if let Some(scan) = self.segment(marker, segment)? {
                return Ok(Some(scan));
            }
        }
    }

    /// From now on the end of the data is the end of the picture.
    pub(super) fn may_end(&mut self) {
        self.ended_is_fine = true;
    }

    /// Skips the coded data of the scan just read.
    pub(super) fn skip_scan(&mut self, data: &[u8]) {
        let mut at = self.position;
        while let Some(found) = next_marker(data, at) {
            if !(0xd0..=0xd7).contains(&data[found]) {
                self.position = found - 1;
                return;
            }
            at = found + 1;
        }
        self.position = data.len();
    }

    /// The embedded profile, put together from its numbered pieces.
    pub(super) fn profile(&self) -> Option<Vec<u8>> {
        if self.icc.is_empty() {
            return None;
        }
        let mut pieces: Vec<_> = self.icc.iter().collect();
        pieces.sort_by_key(|(number, _)| *number);
        Some(pieces.iter().flat_map(|(_, piece)| piece.iter().copied()).collect())
    }

    fn segment(&mut self, marker: u8, segment: &[u8]) -> Result<Option<Scan>, Stop> {
        let mut fields = Fields(segment);
        match marker {
            0xc0..=0xc2 => self.frame(marker == 0xc2, &mut fields)?,
            0xc3 | 0xc5..=0xc7 | 0xcb | 0xcd..=0xcf => {
                let what = "a lossless or hierarchical process".to_string();
                return Err(Stop::Unsupported(what));
            }
            0xc9 | 0xca | 0xcc => {
                return Err(Stop::Unsupported("arithmetic coding".into()));
            }
            0xc4 => self.huffman(&mut fields)?,
            0xdb => self.quantisation(&mut fields)?,
            0xdd => self.restart = usize::from(fields.word()?),
            0xda => return self.scan(&mut fields).map(Some),
            0xe0 => self.jfif(segment),
            0xe1 => {
                if let Some(block) = segment.strip_prefix(b"Exif\0\0") {
                    self.exif.get_or_insert_with(|| block.to_vec());
                }
            }
            0xe2 => {
                if let Some([number, _, piece @ ..]) = segment.strip_prefix(b"ICC_PROFILE\0") {
                    self.icc.push((*number, piece.to_vec()));
                }
            }
            0xee if segment.starts_with(b"Adobe") => self.adobe = segment.get(11).copied(),
            _ => {}
        }
        Ok(None)
    }

    fn jfif(&mut self, segment: &[u8]) {
        let Some([_, _, unit, x1, x0, y1, y0, ..]) = segment.strip_prefix(b"JFIF\0") else {
            return;
        };
        let per_inch = match unit {
            1 => 1.0,
            2 => 2.54,
            _ => 0.0,
        };
        let number = |high, low| f64::from(u16::from_be_bytes([high, low])) * per_inch;
        self.jfif = true;
        self.jfif_resolution =
            Resolution::sane(number(*x1, *x0), number(*y1, *y0), ResolutionSource::Jfif);
    }

    fn frame(&mut self, progressive: bool, fields: &mut Fields<'_>) -> Result<(), Stop> {
        if self.frame.is_some() {
            return damaged("it holds two frames");
        }
        let bits = fields.byte()?;
        if bits != 8 {
            return Err(Stop::Unsupported(format!("{bits} bits a sample")));
        }
        let (height, width, count) = (fields.word()?, fields.word()?, fields.byte()?);
        if width == 0 || height == 0 {
            return damaged("its size is not stated");
        }
        if !matches!(count, 1 | 3 | 4) {
            return Err(Stop::Unsupported(format!("{count} components")));
        }
        let mut components = Vec::new();
        for _ in 0..count {
            let id = fields.byte()?;
            let (h, v) = fields.small()?;
            let quant = usize::from(fields.byte()?);
            if !(1..=4).contains(&h) || !(1..=4).contains(&v) || quant > 3 {
                return damaged("a component makes no sense");
            }
            components.push(Component { id, h, v, quant });
        }
        if let [only] = components.as_mut_slice() {
            // One component alone is never interleaved, whatever factors it states.
            (only.h, only.v) = (1, 1);
        }
        let h_max = components.iter().map(|c| c.h).max().unwrap_or(1);
        let v_max = components.iter().map(|c| c.v).max().unwrap_or(1);
        self.frame = Some(Frame { progressive, width, height, components, h_max, v_max });
        Ok(())
    }

    fn quantisation(&mut self, fields: &mut Fields<'_>) -> Result<(), Stop> {
        while !fields.0.is_empty() {
            let (precision, at) = fields.small()?;
            let mut table = [0; 64];
            for &natural in &NATURAL {
                table[usize::from(natural)] =
                    if precision == 0 { u16::from(fields.byte()?) } else { fields.word()? };
            }
            match self.quants.get_mut(at) {
                Some(slot) => *slot = Some(table),
                None => return damaged("a quantisation table has no place"),
            }
        }
        Ok(())
    }

    fn huffman(&mut self, fields: &mut Fields<'_>) -> Result<(), Stop> {
        while !fields.0.is_empty() {
            let (class, at) = fields.small()?;
            let mut counts = [0; 16];
            for count in &mut counts {
                *count = fields.byte()?;
            }
            let total = counts.iter().map(|&c| usize::from(c)).sum::<usize>();
            if total > fields.0.len() || total > 256 {
                return damaged("a code table is too short");
            }
            let (symbols, rest) = fields.0.split_at(total);
            fields.0 = rest;
            let table = Arc::new(Huffman::new(&counts, symbols, class != 0)?);
            let tables = if class == 0 { &mut self.dc } else { &mut self.ac };
            match tables.get_mut(at) {
                Some(slot) => *slot = Some(table),
                None => return damaged("a code table has no place"),
            }
        }
        Ok(())
    }

    fn scan(&mut self, fields: &mut Fields<'_>) -> Result<Scan, Stop> {
        let Some(frame) = &self.frame else { return damaged("a scan comes before the frame") };
        let count = usize::from(fields.byte()?);
        if count == 0 || count > frame.components.len() {
            return damaged("a scan names too many components");
        }
        let mut parts: Vec<(usize, _, _)> = Vec::new();
        for _ in 0..count {
            let id = fields.byte()?;
            let (dc, ac) = fields.small()?;
            let Some(index) = frame.components.iter().position(|c| c.id == id) else {
                return damaged("a scan names a component that is not there");
            };
            if parts.iter().any(|part| part.0 == index) {
                return damaged("a scan names a component twice");
            }
            let dc = self.dc.get(dc).cloned().flatten();
            let ac = self.ac.get(ac).cloned().flatten();
            parts.push((index, dc, ac));
        }
        let (from, to) = (usize::from(fields.byte()?), usize::from(fields.byte()?));
        let (high, low) = fields.small()?;
        let sequential = !frame.progressive;
        let (from, to, high, low) =
            if sequential { (0, 63, 0, 0) } else { (from, to, high, low) };
        let mixed = frame.progressive && (from == 0) != (to == 0);
        if from > to || to > 63 || low > 13 || high > 13 || mixed || (from > 0 && count > 1) {
            return damaged("a scan's band makes no sense");
        }
        let bits = |n: usize| u32::try_from(n).unwrap_or(0);
        Ok(Scan {
            parts,
            from,
            to,
            high: bits(high),
            low: bits(low),
            restart: self.restart,
            start: self.position,
        })
    }
}

/// Where the byte after the next `0xff` run lies, if it is a marker.
fn next_marker(data: &[u8], from: usize) -> Option<usize> {
    let mut at = from;
    loop {
        at += data.get(at..)?.iter().position(|&b| b == 0xff)?;
        while *data.get(at)? == 0xff {
            at += 1;
        }
        if data[at] != 0 {
            return Some(at);
        }
    }
}
