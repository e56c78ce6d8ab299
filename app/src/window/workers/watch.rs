//! Watches the files of open plans: looks at them every two seconds, and wakes the window only
//! when one changed.

use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use sightedge_pictures::CancelToken;

use super::replies::ReplySender;
use super::worker::Job;
use crate::window::session::SessionId;

/// What is watched on disk.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Watched {
    /// The saved plan.
    Plan,
    /// The picture.
    Picture,
}

/// The files of a plan, to be watched until the request is cancelled.
#[derive(Debug)]
pub(super) struct Watch {
    pub(super) session: SessionId,
    pub(super) files: Vec<(Watched, PathBuf)>,
}

/// When a file was changed last, and its length; `None` where there is none.
type Look = Option<(SystemTime, u64)>;

#[derive(Debug, Default)]
pub(super) struct Watcher(Vec<One>);

#[derive(Debug)]
struct One {
    session: SessionId,
    what: Watched,
    path: PathBuf,
    seen: Look,
    token: CancelToken,
}

impl Job for Watcher {
    type Request = Watch;
    type Reply = (SessionId, Watched);

    const IDLE_AFTER: Option<Duration> = Some(Duration::from_secs(2));

    fn run(
        &mut self,
        Watch { session, files }: Watch,
        token: &CancelToken,
        _: &ReplySender<Self::Reply>,
    ) -> Option<Self::Reply> {
        self.0.extend(files.into_iter().map(|(what, path)| {
            let (seen, token) = (look(&path), token.clone());
            One { session, what, path, seen, token }
        }));
        None
    }

    fn panicked(&mut self, _: String) -> Option<Self::Reply> {
        None
    }

    fn idle(&mut self, replies: &ReplySender<Self::Reply>) {
        self.0.retain(|one| !one.token.is_cancelled());
        for one in &mut self.0 {
            let now = look(&one.path);
            if now != one.seen && !one.token.is_cancelled() {
                one.seen = now;
                replies.send((one.session, one.what));
            }
        }
    }
}

fn look(path: &Path) -> Look {
    let facts = std::fs::metadata(path).ok()?;
    Some((facts.modified().ok()?, facts.len()))
}
