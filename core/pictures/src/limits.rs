//! How much a picture may cost, and how its opening is followed and called off.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::time::{Duration, Instant};

use serde::{Deserialize, Serialize};

use crate::{PictureError, Size};

/// The most a picture may cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Limits {
    /// Pixels, as stored.
    pub pixels: u64,
    /// Bytes held while decoding, by estimate.
    pub memory: u64,
    /// Time from start to end.
    pub time: Duration,
}

impl Default for Limits {
    /// 1000 MP, 1.5 GiB (a progressive JPEG of 100 MP takes two thirds of it), 60 s.
    fn default() -> Self {
        Self { pixels: 1_000_000_000, memory: 1536 << 20, time: Duration::from_mins(1) }
    }
}

impl Limits {
    pub(crate) fn check_size(&self, size: Size) -> Result<(), PictureError> {
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
pub struct Watch {
    cancelled: Arc<AtomicBool>,
    per_mille: Arc<AtomicU32>,
}

impl Watch {
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
    pub(crate) fn advance(&self, per_mille: u32) {
        self.per_mille.fetch_max(per_mille.min(1000), Ordering::Relaxed);
    }
}

/// One running job's watch and deadline.
#[derive(Debug, Clone)]
pub(crate) struct Run {
    watch: Watch,
    limits: Limits,
    deadline: Option<Instant>,
    /// What was done before the first row, in thousandths of all.
    before: Arc<AtomicU32>,
}

impl Run {
    pub(crate) fn new(watch: &Watch, limits: Limits) -> Self {
        // A limit beyond what the clock can hold is no limit.
        let deadline = Instant::now().checked_add(limits.time);
        Self { watch: watch.clone(), limits, deadline, before: Arc::default() }
    }
    pub(crate) fn limits(&self) -> &Limits {
        &self.limits
    }
    /// Stops the work when it was called off or takes too long.
    pub(crate) fn check(&self) -> Result<(), PictureError> {
        if self.watch.is_cancelled() {
            return Err(PictureError::Cancelled);
        }
        if self.deadline.is_some_and(|d| Instant::now() > d) {
            return Err(PictureError::TooSlow { limit_seconds: self.limits.time.as_secs() });
        }
        Ok(())
    }
    /// Tells the watch that `done` of `of` rows are through. What a decoder did before its
    /// first row counts as [`Self::before_rows`] told.
    pub(crate) fn advance(&self, done: usize, of: usize) {
        let per_mille = done.saturating_mul(1000) / of.max(1);
        let before = u64::from(self.before.load(Ordering::Relaxed));
        let rows = u64::try_from(per_mille).unwrap_or(1000).min(1000);
        self.watch.advance(u32::try_from(before + rows * (1000 - before) / 1000).unwrap_or(0));
    }
    /// Tells the watch that a decoder which reads all of the file before its first row is so
    /// far with it; the rows take the last third.
    pub(crate) fn before_rows(&self, done: usize, of: usize) {
        let share = done.saturating_mul(667) / of.max(1);
        let share = u32::try_from(share).unwrap_or(667).min(667);
        self.before.fetch_max(share, Ordering::Relaxed);
        self.watch.advance(share);
    }
}
