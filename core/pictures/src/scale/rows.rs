//! A scaler that takes rows in order and holds only as many as the filter spans.

use std::ops::Range;
use std::sync::Arc;

use fearless_simd::Level;

use super::{Kernel, passes};
use crate::decode::{Samples, Sink};
use crate::limits::Run;
use crate::profile::Painter;
use crate::{PictureError, Size};

/// The part of the decoded picture that is wanted, and at what size; all as stored.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Window {
    /// Size of the decoded picture (after a decoder's own shrinking).
    pub(crate) decoded: Size,
    /// Left, top, right, bottom in its pixels.
    pub(crate) span: [f64; 4],
    /// Size wanted.
    pub(crate) target: Size,
}

impl Window {
    /// Side of the squares whose light is averaged before the filter: strong reductions leave
    /// the filter a factor of two to four, which bounds the rows it holds.
    pub(crate) fn square(&self) -> usize {
        let [left, top, right, bottom] = self.span;
        let across = (right - left) / f64::from(self.target.width.max(1));
        let down = (bottom - top) / f64::from(self.target.height.max(1));
        let spare = across.min(down);
        [16u8, 8, 4, 2]
            .into_iter()
            .find(|&s| f64::from(s) * 2.0 <= spare)
            .map_or(1, usize::from)
    }

    /// The filter along one side: `length` decoded samples of which `from..to` become `target`.
    pub(crate) fn kernel(&self, length: u32, from: f64, to: f64, target: u32) -> Kernel {
        let square = self.square();
        let scale = f64::from(u32::try_from(square).unwrap_or(1));
        let samples = to_usize(length).div_ceil(square);
        Kernel::new(samples, from / scale, to / scale, to_usize(target))
    }
}

/// The result: RGBA rows of sRGB, and how many source rows were seen.
#[derive(Debug)]
pub(crate) struct Reduced {
    pub(crate) rgba: Vec<u8>,
    /// Target rows that could be made.
    pub(crate) rows: usize,
}

/// Turns decoded rows into finished ones.
pub(crate) struct Scaler<'a> {
    level: Level,
    painter: &'a Painter,
    run: &'a Run,
    /// Where the progress of decoded rows is reported, if anywhere.
    report: Option<Range<usize>>,
    decoded: Size,
    down: Arc<Kernel>,
    along: Kernel,
    /// Side of the squares averaged first.
    square: usize,
    /// Columns of squares used.
    columns: Range<usize>,
    /// Linear samples a pixel.
    channels: usize,
    /// Linear rows, row `r` in slot `r % len`.
    ring: Vec<Vec<f32>>,
    sum: Vec<f32>,
    line: Vec<f32>,
    wide: Vec<f32>,
    scratch: Vec<u16>,
    next: usize,
    end: usize,
    rgba: Vec<u8>,
}

impl std::fmt::Debug for Scaler<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Scaler").field("next", &self.next).field("end", &self.end).finish()
    }
}

pub(crate) fn to_usize(n: u32) -> usize {
    usize::try_from(n).unwrap_or(usize::MAX)
}

impl<'a> Scaler<'a> {
    /// A scaler for the target rows `rows`.
    pub(crate) fn new(
        window: &Window,
        down: Arc<Kernel>,
        rows: Range<usize>,
        painter: &'a Painter,
        run: &'a Run,
        report: bool,
    ) -> Self {
        let [left, _, right, _] = window.span;
        let across = to_usize(window.target.width);
        let along = window.kernel(window.decoded.width, left, right, window.target.width);
        let columns = along.needs(0..across);
        let along = along.shifted(columns.start);
        let channels = painter.linear_channels();
        let samples = columns.len() * channels;
        let square = window.square();
        let report = report.then(|| {
            let needs = down.needs(rows.clone());
            needs.start * square..needs.end * square
        });
        // Three samples more, for four-wide reads at the end of a row.
        let row = vec![0.0; samples + 3];
        Self {
            level: Level::new(),
            painter,
            run,
            report,
            decoded: window.decoded,
            ring: vec![row.clone(); down.longest()],
            down,
            along,
            square,
            columns,
            channels,
            sum: row,
            line: vec![0.0; across * channels],
            wide: Vec::new(),
            scratch: Vec::new(),
            next: rows.start,
            end: rows.end,
            rgba: Vec::with_capacity(rows.len() * across * 4),
        }
    }

    /// One decoded row.
    fn row(&mut self, y: usize, samples: Samples<'_>) -> Result<(), PictureError> {
        let (square, within) = (self.square, y % self.square);
        let last = within + 1 == square || y + 1 == to_usize(self.decoded.height);
        let y = y / square;
        if self.next >= self.end || y < self.down.taps(self.next).0 {
            return Ok(());
        }
        let slots = self.ring.len();
        let samples_used = self.columns.len() * self.channels;
        let to = &mut self.ring[y % slots][..samples_used];
        if square == 1 {
            self.painter.linearise(samples, self.columns.clone(), to);
        } else {
            let width = to_usize(self.decoded.width);
            let columns = self.columns.start * square..(self.columns.end * square).min(width);
            if within == 0 {
                to.fill(0.0);
            }
            self.painter.gather(samples, columns.clone(), square, to, &mut self.wide);
            if !last {
                return Ok(());
            }
            average(to, columns.len(), square, within + 1, self.channels);
        }
        while self.next < self.end {
            let (first, weights) = self.down.taps(self.next);
            if first + weights.len() > y + 1 {
                break;
            }
            let rows: Vec<&[f32]> = (first..first + weights.len())
                .map(|r| &self.ring[r % slots][..samples_used])
                .collect();
            if let [only] = rows[..] {
                self.sum[..samples_used].copy_from_slice(only);
            } else {
                passes::down(self.level, &mut self.sum[..samples_used], &rows, weights);
            }
            passes::along(self.level, &mut self.line, &self.sum, &self.along, self.channels);
            self.painter.paint(&mut self.line, &mut self.scratch, &mut self.rgba)?;
            self.next += 1;
        }
        Ok(())
    }

    /// The result; rows that were never decoded are see-through white.
    pub(crate) fn finish(mut self) -> Reduced {
        let line = self.along.len() * 4;
        let rows = self.rgba.len() / line.max(1);
        let missing = self.end - self.next;
        for _ in 0..missing * self.along.len() {
            self.rgba.extend_from_slice(&[255, 255, 255, 0]);
        }
        Reduced { rgba: self.rgba, rows }
    }
}

/// Sums of squares to means. The last square of a row may hold fewer columns.
fn average(sums: &mut [f32], columns: usize, square: usize, rows: usize, channels: usize) {
    let share = |columns: usize| {
        let pixels = u16::try_from(columns * rows).unwrap_or(u16::MAX);
        f32::from(pixels.max(1)).recip()
    };
    let (whole, rest) = (columns / square * channels, columns % square);
    let (full, partial) = sums.split_at_mut(whole.min(sums.len()));
    let by = share(square);
    for v in full {
        *v *= by;
    }
    let by = share(rest);
    for v in partial {
        *v *= by;
    }
}

impl Sink for Scaler<'_> {
    fn rows(&mut self, first: u32, samples: Samples<'_>) -> Result<(), PictureError> {
        let line = to_usize(self.decoded.width) * self.painter.channels().count();
        let mut y = to_usize(first);
        match samples {
            Samples::Bytes(all) => {
                for row in all.chunks_exact(line.max(1)) {
                    self.row(y, Samples::Bytes(row))?;
                    y += 1;
                }
            }
            Samples::Words(all) => {
                for row in all.chunks_exact(line.max(1)) {
                    self.row(y, Samples::Words(row))?;
                    y += 1;
                }
            }
        }
        self.run.check()?;
        if let Some(rows) = &self.report {
            self.run.advance(y.saturating_sub(rows.start), rows.len());
        }
        Ok(())
    }
}
