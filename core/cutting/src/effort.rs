//! How long to try. Work is counted, not timed, so that the same effort gives the same plan.

use std::fmt;

use crate::plan::Plan;

/// How much work a plan may take.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Effort {
    /// Elementary steps; some 800 to 1,200 million are done in a second on one core of a
    /// machine of 2020.
    pub steps: u64,
    /// Feeds the generator of repeatable numbers.
    pub seed: u64,
}

impl Effort {
    /// About so many seconds' worth of steps.
    #[must_use]
    pub const fn seconds(seconds: u64) -> Self {
        Self { steps: seconds.saturating_mul(800_000_000), seed: 1 }
    }
}

impl Default for Effort {
    fn default() -> Self {
        Self::seconds(4)
    }
}

/// What is reported while a plan improves.
#[derive(Clone, Copy, Debug)]
pub struct Progress<'a> {
    /// The best plan so far.
    pub plan: &'a Plan,
    /// Share of the effort spent, 0 to 1.
    pub spent: f64,
}

/// The caller's callbacks while the solver works: when to stop, and where to report.
pub struct Control<'a> {
    /// Called about every millisecond; `true` ends the work and keeps the best plan.
    pub should_stop: &'a mut dyn FnMut() -> bool,
    /// Called with each better plan and each better bound.
    pub progress: &'a mut dyn FnMut(&Progress<'_>),
}

impl fmt::Debug for Control<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Control").finish_non_exhaustive()
    }
}

/// Counts steps and asks now and then whether to stop.
pub(crate) struct Meter<'a> {
    limit: u64,
    spent: u64,
    check_at: u64,
    stopped: bool,
    should_stop: &'a mut dyn FnMut() -> bool,
}

impl<'a> Meter<'a> {
    const CHECK_EVERY: u64 = 1_000_000;

    pub(crate) fn new(limit: u64, should_stop: &'a mut dyn FnMut() -> bool) -> Self {
        Self { limit, spent: 0, check_at: Self::CHECK_EVERY, stopped: false, should_stop }
    }

    /// Counts `steps`; `true` when it is time to stop.
    pub(crate) fn spend(&mut self, steps: u64) -> bool {
        self.spent = self.spent.saturating_add(steps);
        if self.spent >= self.limit {
            self.stopped = true;
        } else if self.spent >= self.check_at && !self.stopped {
            self.check_at = self.spent + Self::CHECK_EVERY;
            self.stopped = (self.should_stop)();
        }
        self.stopped
    }

    pub(crate) const fn over(&self) -> bool {
        self.stopped
    }

    /// Moves the limit; work stopped by the old limit alone may go on.
    pub(crate) fn set_limit(&mut self, limit: u64) {
        if self.spent >= self.limit && self.spent < limit {
            self.stopped = (self.should_stop)();
        }
        self.limit = limit;
    }

    pub(crate) const fn limit(&self) -> u64 {
        self.limit
    }

    pub(crate) const fn spent(&self) -> u64 {
        self.spent
    }

    pub(crate) const fn left(&self) -> u64 {
        self.limit.saturating_sub(self.spent)
    }

    #[allow(
        clippy::as_conversions,
        clippy::cast_precision_loss,
        reason = "a share for display"
    )]
    pub(crate) fn share(&self) -> f64 {
        (self.spent as f64 / self.limit.max(1) as f64).min(1.0)
    }
}
