//! Coefficients to rows of pixels: transform, fill in what was sampled less often, colour.
#![allow(
    clippy::inline_always,
    reason = "vector code must be inlined where its instructions are enabled"
)]

use fearless_simd::{Level, Simd, dispatch};

use super::blocks::{Band, LANES, Part};
use super::idct;
use crate::PictureError;
use crate::decode::{Samples, Sink};

/// What the components are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Colour {
    Grey,
    Rgb,
    YCbCr,
    /// Ink as such, or stored inverted.
    Cmyk {
        inverted: bool,
    },
    /// `YCbCr` of inverted ink, and black.
    Ycck {
        inverted: bool,
    },
}

impl Colour {
    fn count(self) -> usize {
        match self {
            Self::Grey => 1,
            Self::Rgb | Self::YCbCr => 3,
            Self::Cmyk { .. } | Self::Ycck { .. } => 4,
        }
    }
}

/// One component's samples in one row of units.
#[derive(Debug, Clone, Default)]
struct Plane {
    samples: Vec<u8>,
    stride: usize,
    rows: usize,
}

/// Makes rows from bands, in order.
pub(super) struct Maker<'a> {
    level: Level,
    parts: &'a [Part],
    colour: Colour,
    width: usize,
    height: usize,
    /// Rows and columns of pixels in a unit.
    unit: (usize, usize),
    planes: Vec<Plane>,
    earlier: Vec<Plane>,
    /// Bands taken.
    bands: usize,
    /// Rows handed on.
    done: usize,
    lines: Vec<Vec<u8>>,
    blend: Vec<u16>,
    out: Vec<u8>,
}

impl<'a> Maker<'a> {
    /// `unit` is a unit's width and height in pixels of the shrunk picture.
    pub(super) fn new(
        parts: &'a [Part],
        colour: Colour,
        size: (usize, usize),
        unit: (usize, usize),
    ) -> Self {
        let planes = vec![Plane::default(); parts.len()];
        Self {
            level: Level::new(),
            parts,
            colour,
            width: size.0,
            height: size.1,
            unit,
            earlier: planes.clone(),
            planes,
            bands: 0,
            done: 0,
            lines: vec![Vec::new(); parts.len()],
            blend: Vec::new(),
            out: Vec::new(),
        }
    }

    /// Takes the next band and hands on the rows that are now certain.
    pub(super) fn take(
        &mut self,
        band: &Band,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        std::mem::swap(&mut self.planes, &mut self.earlier);
        for ((plane, part), coded) in self.planes.iter_mut().zip(self.parts).zip(&band.planes) {
            transform(self.level, part, coded, plane);
        }
        self.bands += 1;
        // Filling in between rows looks one row ahead.
        let lag = usize::from(self.parts.iter().any(|part| part.v * part.side < self.unit.1));
        let ready = (self.bands * self.unit.1).saturating_sub(lag).min(self.height);
        self.hand_on(ready, sink)
    }

    /// Hands on the rows still kept back.
    pub(super) fn finish(&mut self, sink: &mut dyn Sink) -> Result<(), PictureError> {
        self.hand_on((self.bands * self.unit.1).min(self.height), sink)
    }

    fn hand_on(&mut self, end: usize, sink: &mut dyn Sink) -> Result<(), PictureError> {
        if self.done >= end {
            return Ok(());
        }
        let first = self.done;
        let line = self.width * self.colour.count();
        let mut out = std::mem::take(&mut self.out);
        out.resize((end - first) * line, 0);
        for (y, to) in (first..end).zip(out.chunks_exact_mut(line.max(1))) {
            for index in 0..self.parts.len() {
                self.line(index, y);
            }
            let lines: Vec<&[u8]> = self.lines.iter().map(Vec::as_slice).collect();
            let colour = self.colour;
            dispatch!(self.level, simd => colour_row(simd, colour, &lines, to));
        }
        self.done = end;
        let sent = sink.rows(u32::try_from(first).unwrap_or(u32::MAX), Samples::Bytes(&out));
        self.out = out;
        sent
    }

    /// Row `y` of component `index` at full width into its line.
    fn line(&mut self, index: usize, y: usize) {
        let part = &self.parts[index];
        let (have_x, have_y) = (part.h * part.side, part.v * part.side);
        let (unit_x, unit_y) = self.unit;
        let mut line = std::mem::take(&mut self.lines[index]);
        line.resize(self.width, 0);
        let mut blend = std::mem::take(&mut self.blend);
        blend.clear();
        let own = y * have_y / unit_y;
        let near = self.row(index, own);
        let across = (self.width * have_x).div_ceil(unit_x).min(near.len());
        let near = &near[..across];
        if unit_y == 2 * have_y && unit_x <= 2 * have_x {
            // Between rows: three parts of the nearer, one of the farther.
            let last = (self.height * have_y).div_ceil(unit_y) - 1;
            let other =
                if y.is_multiple_of(2) { own.saturating_sub(1) } else { (own + 1).min(last) };
            let far = &self.row(index, other)[..across];
            blend.extend(near.iter().zip(far).map(|(&n, &f)| 3 * u16::from(n) + u16::from(f)));
            if unit_x == have_x {
                for (to, v) in line.iter_mut().zip(&blend) {
                    *to = low_byte((v + 2) >> 2);
                }
            } else {
                widen(&blend, &mut line, 16);
            }
        } else if unit_x == have_x {
            line.copy_from_slice(&near[..self.width]);
        } else if unit_x == 2 * have_x {
            blend.extend(near.iter().map(|&n| u16::from(n)));
            widen(&blend, &mut line, 4);
        } else {
            for (x, to) in line.iter_mut().enumerate() {
                *to = near[(x * have_x / unit_x).min(across - 1)];
            }
        }
        self.lines[index] = line;
        self.blend = blend;
    }

    /// Row `r` of a component, counted from the top of the picture: of the latest band or the
    /// one before it.
    fn row(&self, index: usize, r: usize) -> &[u8] {
        let rows = self.planes[index].rows.max(1);
        let band = r / rows;
        let plane =
            if band + 1 >= self.bands { &self.planes[index] } else { &self.earlier[index] };
        let at = (r % rows) * plane.stride;
        &plane.samples[at..at + plane.stride]
    }
}

fn low_byte(v: u16) -> u8 {
    v.to_le_bytes()[0]
}

/// Doubles a row: each sample three parts itself, one part its neighbour on that side. `whole`
/// is what four times a sample's weight is.
fn widen(from: &[u16], to: &mut [u8], whole: u16) {
    let shift = whole.trailing_zeros();
    let half = whole / 2;
    let last = from.len().saturating_sub(1);
    for (x, pair) in to.chunks_mut(2).enumerate() {
        let own = 3 * from[x.min(last)];
        let left = from[x.saturating_sub(1).min(last)];
        let right = from[(x + 1).min(last)];
        pair[0] = low_byte((own + left + half) >> shift);
        if let Some(second) = pair.get_mut(1) {
            *second = low_byte((own + right + half) >> shift);
        }
    }
}

fn transform(level: Level, part: &Part, coded: &super::blocks::Plane, plane: &mut Plane) {
    let width = LANES * part.side;
    let groups = part.across.div_ceil(LANES);
    plane.stride = groups * width;
    plane.rows = part.v * part.side;
    plane.samples.resize(plane.stride * plane.rows, 0);
    let length = part.kept() * LANES;
    let all = coded.numbers.chunks_exact(length).zip(&coded.used);
    for (at, (numbers, &used)) in all.enumerate() {
        let start = (at / groups) * part.side * plane.stride + (at % groups) * width;
        let Some(out) = plane.samples.get_mut(start..) else { return };
        idct::group(level, part.side, numbers, used, out, plane.stride);
    }
}

#[inline(always)]
fn colour_row<S: Simd>(_: S, colour: Colour, lines: &[&[u8]], to: &mut [u8]) {
    match (colour, lines) {
        (Colour::Grey, [grey]) => to.copy_from_slice(&grey[..to.len()]),
        (Colour::Rgb, [r, g, b]) => {
            let (to, _) = to.as_chunks_mut::<3>();
            for (((to, &r), &g), &b) in to.iter_mut().zip(*r).zip(*g).zip(*b) {
                *to = [r, g, b];
            }
        }
        (Colour::YCbCr, [y, cb, cr]) => {
            let (to, _) = to.as_chunks_mut::<3>();
            for (((to, &y), &cb), &cr) in to.iter_mut().zip(*y).zip(*cb).zip(*cr) {
                *to = rgb(y, cb, cr);
            }
        }
        (Colour::Cmyk { inverted }, [c, m, y, k]) => {
            let flip = if inverted { 255 } else { 0 };
            let (to, _) = to.as_chunks_mut::<4>();
            for ((((to, &c), &m), &y), &k) in to.iter_mut().zip(*c).zip(*m).zip(*y).zip(*k) {
                *to = [c ^ flip, m ^ flip, y ^ flip, k ^ flip];
            }
        }
        (Colour::Ycck { inverted }, [y, cb, cr, black]) => {
            let flip = if inverted { 0 } else { 255 };
            let (to, _) = to.as_chunks_mut::<4>();
            for ((((to, &y), &cb), &cr), &black) in
                to.iter_mut().zip(*y).zip(*cb).zip(*cr).zip(*black)
            {
                let [r, g, b] = rgb(y, cb, cr);
                *to = [r ^ flip, g ^ flip, b ^ flip, black ^ flip ^ 255];
            }
        }
        _ => {}
    }
}

/// Source: JFIF (ITU-T T.871) clause 7.
#[inline(always)]
fn rgb(y: u8, cb: u8, cr: u8) -> [u8; 3] {
    let (y, cb, cr) = (i32::from(y) << 16, i32::from(cb) - 128, i32::from(cr) - 128);
    let half = 1 << 15;
    let r = (y + 91_881 * cr + half) >> 16;
    let g = (y - 22_554 * cb - 46_802 * cr + half) >> 16;
    let b = (y + 116_130 * cb + half) >> 16;
    [r, g, b].map(|v| v.clamp(0, 255).to_le_bytes()[0])
}
