//! The system's own dialogs for files and folders. Each waits for the person, so they are shown
//! from a thread of their own.

use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use sightedge_pictures::CancelToken;

use super::replies::ReplySender;
use super::worker::{Job, Worker};

/// A dialog to be shown.
#[derive(Clone, Debug)]
pub(crate) struct Dialog {
    /// Over it.
    pub(crate) title: &'static str,
    /// What is to be chosen.
    pub(crate) target: Target,
    /// The folder where it begins; where that is not there yet, the nearest one above it.
    pub(crate) near: Option<PathBuf>,
}

/// What is to be chosen.
#[derive(Clone, Debug)]
pub(crate) enum Target {
    /// A folder.
    Folder,
    /// A file that is there.
    File,
    /// A file to save to; at first that name.
    SaveAs(String),
}

/// How a dialog was closed.
#[derive(Debug)]
pub(crate) struct Chosen<For> {
    /// What it was shown for.
    pub(crate) what: For,
    /// What was chosen, if anything.
    pub(crate) path: Option<PathBuf>,
    /// How long it was open.
    pub(crate) took: Duration,
}

/// Shows dialogs, one at a time.
#[derive(Debug)]
pub(crate) struct Dialogs<For> {
    worker: Worker<(For, Request), Chosen<For>>,
    /// What the next dialogs are answered with, unshown.
    answers: VecDeque<Option<PathBuf>>,
}

#[derive(Debug)]
enum Request {
    Show(Dialog),
    Answer(Option<PathBuf>),
}

impl<For: Copy + Send + 'static> Dialogs<For> {
    /// None yet; each that is closed wakes `context`.
    pub(crate) fn new(context: egui::Context) -> Self {
        let worker = Worker::new(context, Show { asked: None });
        Self { worker, answers: VecDeque::new() }
    }

    /// Answers the next dialog, which is not shown then: for a window without a screen.
    /// `None` is what a system without dialogs answers.
    pub(crate) fn answer(&mut self, path: Option<PathBuf>) {
        self.answers.push_back(path);
    }

    /// Shows a dialog, without holding up the window. While one is open no other is shown.
    pub(crate) fn show(&mut self, what: For, dialog: Dialog) {
        if self.pending() > 0 {
            return;
        }
        let none = || (!is_there()).then_some(None);
        let request = match self.answers.pop_front().or_else(none) {
            Some(answer) => Request::Answer(answer),
            None => Request::Show(dialog),
        };
        self.worker.request((what, request));
    }

    /// Those that were closed since the last call.
    pub(crate) fn closed(&mut self) -> Vec<Chosen<For>> {
        self.worker.replies()
    }

    /// How many are open: none or one.
    pub(crate) const fn pending(&self) -> usize {
        self.worker.pending()
    }
}

struct Show<For> {
    /// What the last one was shown for.
    asked: Option<For>,
}

impl<For: Copy + Send + 'static> Job for Show<For> {
    type Request = (For, Request);
    type Reply = Chosen<For>;

    fn run(
        &mut self,
        (what, request): Self::Request,
        _: &CancelToken,
        _: &ReplySender<Self::Reply>,
    ) -> Option<Chosen<For>> {
        self.asked = Some(what);
        Some(match request {
            Request::Answer(path) => Chosen { what, path, took: Duration::ZERO },
            Request::Show(dialog) => {
                let started = Instant::now();
                let path = choose(dialog);
                Chosen { what, path, took: started.elapsed() }
            }
        })
    }

    fn panicked(&mut self, _: String) -> Option<Chosen<For>> {
        // As where the system has no dialogs: then a place can be typed.
        let what = self.asked?;
        Some(Chosen { what, path: None, took: Duration::ZERO })
    }
}

/// Whether this system can show dialogs at all: on Linux they come over the session's bus.
fn is_there() -> bool {
    if !cfg!(target_os = "linux") {
        return true;
    }
    let set = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
    let bus = set("XDG_RUNTIME_DIR").map(|folder| PathBuf::from(folder).join("bus"));
    set("DBUS_SESSION_BUS_ADDRESS").is_some() || bus.is_some_and(|bus| bus.exists())
}

fn choose(Dialog { title, target, near }: Dialog) -> Option<PathBuf> {
    let dialog = rfd::AsyncFileDialog::new().set_title(title);
    // A folder that is not there yet is made when it is written to.
    let near = near.as_deref().and_then(|near| near.ancestors().find(|path| path.is_dir()));
    let dialog =
        near.map_or_else(|| dialog.clone(), |near: &Path| dialog.clone().set_directory(near));
    let chosen = match target {
        Target::Folder => pollster::block_on(dialog.pick_folder()),
        Target::File => pollster::block_on(dialog.pick_file()),
        Target::SaveAs(name) => pollster::block_on(dialog.set_file_name(name).save_file()),
    };
    chosen.map(|chosen| chosen.path().to_owned())
}
