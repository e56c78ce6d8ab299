//! The segments before a JPEG's first scan: what the picture is, and those of them that its
//! pixels need. Source: ITU-T T.81 annex B; JFIF (T.871); Adobe's APP14 as described in T.872.

use crate::size::{Resolution, ResolutionSource};

/// What stops the reading of segments.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Stop {
    /// A coding process that is not supported.
    Unsupported(String),
    /// Values that cannot be right.
    Damaged(String),
    /// The bytes at hand end before the first scan.
    Short,
}

fn damaged<T>(what: &str) -> Result<T, Stop> {
    Err(Stop::Damaged(what.into()))
}

/// One component of the frame.
#[derive(Debug, Clone)]
pub(super) struct Component {
    pub(super) id: u8,
    /// Sampling factors, 1 to 4.
    pub(super) h: u8,
    pub(super) v: u8,
}

/// The frame header.
#[derive(Debug, Clone)]
pub(super) struct Frame {
    pub(super) progressive: bool,
    pub(super) width: u16,
    pub(super) height: u16,
    pub(super) components: Vec<Component>,
}

/// What the segments up to the first scan say.
#[derive(Debug, Default)]
pub(super) struct Segments {
    pub(super) frame: Option<Frame>,
    pub(super) exif: Option<Vec<u8>>,
    icc: Vec<(u8, Vec<u8>)>,
    pub(super) jfif: bool,
    pub(super) jfif_resolution: Option<Resolution>,
    /// The colour transform of Adobe's segment.
    pub(super) adobe: Option<u8>,
    /// Those segments that decoding needs, each as long as it says.
    pub(super) needed: Vec<u8>,
    /// Components in the first scan; 0 until it was reached.
    pub(super) in_scan: usize,
    /// Where the first scan's coded data starts.
    pub(super) coded: usize,
}

impl Segments {
    /// Reads up to the first scan into `self`, which says what came where the bytes end before.
    pub(super) fn read(&mut self, data: &[u8]) -> Result<(), Stop> {
        if !data.starts_with(b"\xff\xd8") {
            return damaged("it does not start like one");
        }
        let mut at = 2;
        while self.in_scan == 0 {
            // Anything between segments is skipped, as other readers do.
            let found = next_marker(data, at).ok_or(Stop::Short)?;
            at = found + 1;
            let marker = data[found];
            match marker {
                0xd9 => return damaged("it holds no scan"),
                0x01 | 0xd0..=0xd8 => continue,
                _ => {}
            }
            let Some(&[high, low]) = data.get(at..at + 2) else { return Err(Stop::Short) };
            let length = usize::from(u16::from_be_bytes([high, low]));
            if length < 2 {
                return damaged("a segment has no length");
            }
            let segment = data.get(at + 2..at + length).ok_or(Stop::Short)?;
            at += length;
            self.segment(marker, segment)?;
        }
        self.coded = at;
        Ok(())
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

    fn segment(&mut self, marker: u8, segment: &[u8]) -> Result<(), Stop> {
        match marker {
            0xc0..=0xc2 => self.frame(marker, segment)?,
            0xc3 | 0xc5..=0xc7 | 0xcb | 0xcd..=0xcf => {
                let what = "a lossless or hierarchical process".to_string();
                return Err(Stop::Unsupported(what));
            }
            0xc9 | 0xca | 0xcc => return Err(Stop::Unsupported("arithmetic coding".into())),
            // Code tables, quantisation tables, the distance of restart markers.
            0xc4 | 0xdb | 0xdd => self.need(marker, segment),
            0xda => self.scan(segment)?,
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
        Ok(())
    }

    /// Keeps a segment for the decoder.
    fn need(&mut self, marker: u8, segment: &[u8]) {
        let length = u16::try_from(segment.len() + 2).unwrap_or(u16::MAX);
        self.needed.extend_from_slice(&[0xff, marker]);
        self.needed.extend_from_slice(&length.to_be_bytes());
        self.needed.extend_from_slice(segment);
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

    fn frame(&mut self, marker: u8, segment: &[u8]) -> Result<(), Stop> {
        if self.frame.is_some() {
            return damaged("it holds two frames");
        }
        let &[bits, h1, h0, w1, w0, count, ref rest @ ..] = segment else {
            return damaged("a segment is too short");
        };
        if bits != 8 {
            return Err(Stop::Unsupported(format!("{bits} bits a sample")));
        }
        let (height, width) = (u16::from_be_bytes([h1, h0]), u16::from_be_bytes([w1, w0]));
        if width == 0 || height == 0 {
            return damaged("it gives no size");
        }
        if !matches!(count, 1 | 3 | 4) {
            return Err(Stop::Unsupported(format!("{count} components")));
        }
        let triples = rest.as_chunks::<3>().0.get(..usize::from(count));
        let Some(triples) = triples else { return damaged("a segment is too short") };
        let mut segment = segment[..6].to_vec();
        let mut components = Vec::new();
        for &[id, sampling, table] in triples {
            // One component alone is never interleaved, whatever factors it states.
            let sampling = if count == 1 { 0x11 } else { sampling };
            let (h, v) = (sampling >> 4, sampling & 15);
            if !(1..=4).contains(&h) || !(1..=4).contains(&v) || table > 3 {
                return damaged("one of its colour channels makes no sense");
            }
            components.push(Component { id, h, v });
            segment.extend_from_slice(&[id, sampling, table]);
        }
        self.need(marker, &segment);
        self.frame = Some(Frame { progressive: marker == 0xc2, width, height, components });
        Ok(())
    }

    fn scan(&mut self, segment: &[u8]) -> Result<(), Stop> {
        let Some(frame) = &self.frame else { return damaged("a scan comes before the frame") };
        let count = usize::from(segment.first().copied().unwrap_or(0));
        if count == 0 || count > frame.components.len() {
            return damaged("a scan names too many components");
        }
        let Some(segment) = segment.get(..4 + 2 * count) else {
            return damaged("a segment is too short");
        };
        self.need(0xda, segment);
        self.in_scan = count;
        Ok(())
    }
}

/// Where a stream that cannot be read on at `at` is to be cut so that what comes before it can be:
/// before the segment that is not sound or not whole there, else at its end.
pub(super) fn cut(data: &[u8], at: usize) -> usize {
    let mut from = 2;
    while let Some(found) = next_marker(data, from) {
        let start = found - 1;
        from = found + 1;
        match data[found] {
            0xd9 => return start,
            0x01 | 0xd0..=0xd8 => continue,
            _ if start >= at => break,
            _ => {}
        }
        let length = data.get(from..from + 2).map(|b| u16::from_be_bytes([b[0], b[1]]));
        let end = length.map(|length| from + usize::from(length));
        match end.filter(|end| *end <= data.len() && *end < at) {
            Some(end) => from = end,
            None => return start,
        }
    }
    data.len()
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
