//! The record in a worker of its own: nothing of it is read or written in a frame.

mod keeper;

use std::path::{Path, PathBuf};

use self::keeper::Keeper;
use super::messages::{Purpose, Reply, Request};
use crate::window::workers::{Chosen, Dialog, Dialogs, Target, Worker};
use sightedge_service::record::{self, Home, Lost};
use sightedge_service::storage::Storage;

/// The record's worker, once it is needed.
#[derive(Debug)]
pub(in crate::window::screens) struct RecordWorker {
    /// Remembers the folder of the record.
    storage: Storage,
    started: Option<Started>,
}

#[derive(Debug)]
struct Started {
    worker: Worker<Request, Reply>,
    dialogs: Dialogs<Purpose>,
}

impl RecordWorker {
    /// One that is not started; `storage` remembers the folder of the record.
    pub(in crate::window::screens) const fn new(storage: Storage) -> Self {
        Self { storage, started: None }
    }

    /// Where the record is kept.
    pub(super) fn home(&self) -> Result<Home, Lost> {
        Home::of(&self.storage)
    }

    /// Where it is kept unless the person chooses.
    pub(super) fn usual_home(&self) -> Result<Home, Lost> {
        Home::usual(&self.storage)
    }

    /// Where printouts are written unless another folder is chosen.
    pub(super) fn folder_for_printouts(&self, studio: &Path) -> PathBuf {
        record::folder_for_printouts(&self.storage, studio)
    }

    /// Starts it: it keeps the record in `folder` open, and each reply wakes `context`.
    pub(super) fn start(&mut self, context: &egui::Context, folder: PathBuf) {
        let keeper = Keeper::new(self.storage.clone(), folder);
        self.started = Some(Started {
            worker: Worker::new(context.clone(), keeper),
            dialogs: Dialogs::new(context.clone()),
        });
    }

    pub(super) const fn is_started(&self) -> bool {
        self.started.is_some()
    }

    pub(super) fn ask(&mut self, request: Request) {
        if let Some(started) = &mut self.started {
            started.worker.request(request);
        }
    }

    /// Asks for a folder or a file, without holding up the window.
    pub(super) fn choose(&mut self, what: Purpose, near: PathBuf) {
        let (title, target) = match what {
            Purpose::Record => ("Keep the record in", Target::Folder),
            Purpose::Printouts => ("Write the printouts to", Target::Folder),
            Purpose::Picture => ("The picture of the work", Target::File),
        };
        if let Some(started) = &mut self.started {
            started.dialogs.show(what, Dialog { title, target, near: Some(near) });
        }
    }

    /// What came in since the last call.
    pub(super) fn replies(&mut self) -> Vec<Reply> {
        self.started.as_mut().map(|it| it.worker.replies()).unwrap_or_default()
    }

    /// Dialogs that were closed since the last call.
    pub(super) fn chosen(&mut self) -> Vec<Chosen<Purpose>> {
        self.started.as_mut().map(|it| it.dialogs.closed()).unwrap_or_default()
    }

    /// How many requests are not done.
    pub(super) fn pending(&self) -> usize {
        self.started.as_ref().map_or(0, |it| it.worker.pending())
    }

    /// How many dialogs are open.
    pub(super) fn open_dialogs(&self) -> usize {
        self.started.as_ref().map_or(0, |it| it.dialogs.pending())
    }
}
