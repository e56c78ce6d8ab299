//! Watches the monitors: looks at them every second, and wakes the window only when something
//! changed there.

use std::time::Duration;

use sightedge_pictures::CancelToken;
use sightedge_service::monitors::{KeptMonitor, Look, Monitor, Told};

use super::replies::ReplySender;
use super::worker::Job;

/// What to look with from now on.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct LookWith {
    /// The monitors that the window's own system tells of.
    pub(super) told: Vec<Told>,
    /// What was chosen for them.
    pub(super) kept: Vec<KeptMonitor>,
}

#[derive(Debug)]
pub(super) struct MonitorWatch {
    look: Look,
    with: LookWith,
    seen: Option<Vec<Monitor>>,
}

impl MonitorWatch {
    pub(super) const fn new(look: Look) -> Self {
        Self { look, with: LookWith { told: Vec::new(), kept: Vec::new() }, seen: None }
    }

    /// What is there now, if it is not what was seen before.
    fn news(&mut self) -> Option<Vec<Monitor>> {
        let now = self.look.monitors(&self.with.told, &self.with.kept);
        if self.seen.as_ref() == Some(&now) {
            return None;
        }
        self.seen = Some(now.clone());
        Some(now)
    }
}

impl Job for MonitorWatch {
    type Request = LookWith;
    type Reply = Vec<Monitor>;

    const IDLE_AFTER: Option<Duration> = Some(Duration::from_secs(1));

    fn run(
        &mut self,
        with: LookWith,
        _: &CancelToken,
        _: &ReplySender<Self::Reply>,
    ) -> Option<Self::Reply> {
        self.with = with;
        self.news()
    }

    fn panicked(&mut self, _: String) -> Option<Self::Reply> {
        None
    }

    fn idle(&mut self, replies: &ReplySender<Self::Reply>) {
        if let Some(news) = self.news() {
            replies.send(news);
        }
    }
}
