//! The printouts' work, off the frame: one worker sets pages and paints them, one writes files, one
//! hands a paper to the system's viewer.

mod files;
mod pages;

use std::path::PathBuf;

use egui::Context;
use sightedge_core::material::Tables;
use sightedge_core::spec::Document;
use sightedge_papers::{House, Kind, Paper};

use self::files::{Files, Viewer};
use self::pages::Pages;
use crate::window::workers::{Dialog, Dialogs, Target, Worker};

pub(super) use self::files::{FileReply, FileRequest, Summary};
pub(super) use self::pages::{PageReply, PageRequest};

/// A paper of a plan to be set.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) ticket: u64,
    pub(super) kind: Kind,
    pub(super) document: Document,
    pub(super) plan: PathBuf,
    pub(super) paper: Paper,
    pub(super) tables: Tables,
    pub(super) house: House,
}

/// What a folder is asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Purpose {
    /// To write to.
    Printouts,
    /// To take plans from.
    Plans,
}

/// All workers of this place.
#[derive(Debug)]
pub(super) struct Workers {
    pub(super) pages: Worker<PageRequest, PageReply>,
    pub(super) files: Worker<FileRequest, FileReply>,
    pub(super) viewer: Worker<Wanted, Result<PathBuf, String>>,
    pub(super) dialogs: Dialogs<Purpose>,
}

impl Workers {
    /// Each reply wakes `context`.
    pub(super) fn new(context: &Context) -> Self {
        Self {
            pages: Worker::new(context.clone(), Pages::default()),
            files: Worker::new(context.clone(), Files),
            viewer: Worker::new(context.clone(), Viewer),
            dialogs: Dialogs::new(context.clone()),
        }
    }

    /// How many requests are not done.
    pub(super) const fn pending(&self) -> usize {
        self.pages.pending()
            + self.files.pending()
            + self.viewer.pending()
            + self.dialogs.pending()
    }

    /// Sets a paper, instead of those that wait.
    pub(super) fn lay(&mut self, wanted: Wanted) {
        self.pages.cancel_all();
        self.pages.request(PageRequest::Lay(Box::new(wanted)));
    }

    /// Asks for a folder, without holding up the window.
    pub(super) fn folder(&mut self, what: Purpose, near: PathBuf) {
        let title = match what {
            Purpose::Printouts => "Write the printouts to",
            Purpose::Plans => "Plans in",
        };
        self.dialogs.show(what, Dialog { title, target: Target::Folder, near: Some(near) });
    }
}
