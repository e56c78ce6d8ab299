//! How much time and memory a picture may take; progress, and stopping.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use serde::{Deserialize, Serialize};

use crate::{PictureError, Size};

/// The most that opening a picture may take.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Limits {
    /// Pixels, as stored.
    pub pixels: u64,
    /// Pixels along one side, as stored.
    pub side: u32,
    /// Bytes held while decoding, by estimate.
    pub memory: u64,
    /// Time from start to end, whatever the size.
    pub time: Duration,
}

/// What opening any picture may take, however small: a machine may be busy.
const LEAST_TIME: Duration = Duration::from_secs(10);
/// What it may take beyond that for each million pixels: chosen wide, so that no sound picture
/// meets it.
const TIME_PER_MEGAPIXEL: Duration = Duration::from_millis(250);
/// What it may take beyond that for each million bytes of the file: a slow disk or network.
const TIME_PER_MEGABYTE: Duration = Duration::from_millis(100);

impl Default for Limits {
    /// 1000 MP, 300,000 pixels a side (a print 25 m long at 300 pixels an inch), 1.5 GiB (a
    /// progressive JPEG of 100 MP takes two thirds of it), 60 s.
    fn default() -> Self {
        Self {
            pixels: 1_000_000_000,
            side: 300_000,
            memory: 1536 << 20,
            time: Duration::from_mins(1),
        }
    }
}

impl Limits {
    /// How long opening a file of so many bytes may take: a time that follows from its size,
    /// and never more than [`Self::time`]. `pixels` is `None` until its headers are read.
    #[must_use]
    pub fn allowed(&self, file_bytes: u64, pixels: Option<u64>) -> Duration {
        let millions = |n: u64| u32::try_from(n / 1_000_000).unwrap_or(u32::MAX);
        LEAST_TIME
            .saturating_add(TIME_PER_MEGABYTE.saturating_mul(millions(file_bytes)))
            .saturating_add(TIME_PER_MEGAPIXEL.saturating_mul(millions(pixels.unwrap_or(0))))
            .min(self.time)
    }
    pub(crate) fn check_size(&self, size: Size) -> Result<(), PictureError> {
        if size.width.max(size.height) > self.side {
            return Err(PictureError::TooLong { size, limit: self.side });
        }
        if size.pixels() > self.pixels {
            return Err(PictureError::TooManyPixels { size, limit: self.pixels });
        }
        Ok(())
    }
    pub(crate) fn check_memory(&self, wanted: u64) -> Result<(), PictureError> {
        if wanted > self.memory {
            return Err(PictureError::TooMuchMemory { wanted, limit: self.memory });
        }
        Ok(())
    }
    /// The memory limit as a length for libraries that take one.
    pub(crate) fn memory_len(&self) -> usize {
        usize::try_from(self.memory).unwrap_or(usize::MAX)
    }
}

/// Follows one opening from another thread: how far it is, and a way to call it off.
/// Clones share the same state.
#[derive(Debug, Clone, Default)]
pub struct CancelToken {
    cancelled: Arc<AtomicBool>,
    per_mille: Arc<AtomicU32>,
    /// 0 until the headers are read.
    pixels: Arc<AtomicU64>,
}

impl CancelToken {
    /// Calls the opening off; it ends with [`PictureError::Cancelled`] soon after.
    pub fn cancel(&self) {
        self.cancelled.store(true, Ordering::Relaxed);
    }
    /// Whether it was called off.
    #[must_use]
    pub fn is_cancelled(&self) -> bool {
        self.cancelled.load(Ordering::Relaxed)
    }
    /// How far it is, 0 to 1000.
    #[must_use]
    pub fn per_mille(&self) -> u32 {
        self.per_mille.load(Ordering::Relaxed)
    }
    /// How many pixels the picture has, once its headers are read.
    #[must_use]
    pub fn pixels(&self) -> Option<u64> {
        Some(self.pixels.load(Ordering::Relaxed)).filter(|pixels| *pixels > 0)
    }
    pub(crate) fn has_pixels(&self, pixels: u64) {
        self.pixels.store(pixels, Ordering::Relaxed);
    }
    pub(crate) fn advance(&self, per_mille: u32) {
        self.per_mille.fetch_max(per_mille.min(1000), Ordering::Relaxed);
    }
}

/// One running job's token and deadline.
#[derive(Debug, Clone)]
pub(crate) struct Run {
    token: CancelToken,
    limits: Limits,
    began: Instant,
    /// From start to end.
    allowed: Duration,
    /// What was done before the first row, in thousandths of all.
    before: Arc<AtomicU32>,
}

impl Run {
    pub(crate) fn new(token: &CancelToken, limits: Limits) -> Self {
        let allowed = limits.time;
        let began = Instant::now();
        Self { token: token.clone(), limits, began, allowed, before: Arc::default() }
    }
    /// The same once the headers are read: a picture of too many pixels is refused before any
    /// work is done on it, and the others get a time that follows from their size.
    pub(crate) fn sized(mut self, file_bytes: u64, size: Size) -> Result<Self, PictureError> {
        self.limits.check_size(size)?;
        self.token.has_pixels(size.pixels());
        self.allowed = self.limits.allowed(file_bytes, Some(size.pixels()));
        Ok(self)
    }
    pub(crate) fn limits(&self) -> &Limits {
        &self.limits
    }
    /// Stops the work when it was called off or takes too long.
    pub(crate) fn check(&self) -> Result<(), PictureError> {
        if self.token.is_cancelled() {
            return Err(PictureError::Cancelled);
        }
        if self.began.elapsed() > self.allowed {
            return Err(PictureError::too_slow(self.allowed, self.token.pixels()));
        }
        Ok(())
    }
    /// Reports to the token that `done` of `of` rows are finished. What a decoder did before its
    /// first row counts as [`Self::before_rows`] reported it.
    pub(crate) fn advance(&self, done: usize, of: usize) {
        let per_mille = done.saturating_mul(1000) / of.max(1);
        let before = u64::from(self.before.load(Ordering::Relaxed));
        let rows = u64::try_from(per_mille).unwrap_or(1000).min(1000);
        self.token.advance(u32::try_from(before + rows * (1000 - before) / 1000).unwrap_or(0));
    }
    /// Reports to the token how far a decoder is that reads all of the file before its first row;
    /// the rows take the last third.
    pub(crate) fn before_rows(&self, done: usize, of: usize) {
        let share = done.saturating_mul(667) / of.max(1);
        let share = u32::try_from(share).unwrap_or(667).min(667);
        self.before.fetch_max(share, Ordering::Relaxed);
        self.token.advance(share);
    }
}
