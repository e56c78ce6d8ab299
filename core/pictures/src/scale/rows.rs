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

/// What came out: RGBA rows of sRGB, and how many source rows were seen.
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
    report: bool,
    decoded: Size,
    down: Arc<Kernel>,
    along: Kernel,
    /// Source columns used.
    columns: Range<usize>,
    /// Linear samples a pixel.
    channels: usize,
    /// Linear rows, row `r` in slot `r % len`.
    ring: Vec<Vec<f32>>,
    sum: Vec<f32>,
    line: Vec<f32>,
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
        let width = to_usize(window.decoded.width);
        let across = to_usize(window.target.width);
        let along = Kernel::new(width, left, right, across);
        let columns = along.needs(0..across);
        let along = along.shifted(columns.start);
        let channels = painter.linear_channels();
        let samples = columns.len() * channels;
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
            columns,
            channels,
            sum: row,
            line: vec![0.0; across * channels],
            scratch: Vec::new(),
            next: rows.start,
            end: rows.end,
            rgba: Vec::with_capacity(rows.len() * across * 4),
        }
    }

    /// One decoded row.
    fn row(&mut self, y: usize, samples: Samples<'_>) -> Result<(), PictureError> {
        if self.next >= self.end || y < self.down.taps(self.next).0 {
            return Ok(());
        }
        let slots = self.ring.len();
        let samples_used = self.columns.len() * self.channels;
        let to = &mut self.ring[y % slots][..samples_used];
        self.painter.linearise(samples, self.columns.clone(), to);
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

    /// What was made; rows that never came are see-through white.
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
        if self.report {
            self.run.advance(u32::try_from(y).unwrap_or(u32::MAX), self.decoded.height);
        }
        Ok(())
    }
}
