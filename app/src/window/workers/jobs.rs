//! The window's own work: plans opened and saved, pictures decoded and found, files watched.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use sightedge_core::file::store::{Failed, Overwrite, Step};
use sightedge_core::length::Unit;
use sightedge_core::material::Tables;
use sightedge_core::spec::Document;
use sightedge_pictures::{CancelToken, ToDisplay};

use super::dialog::{Dialog, Dialogs, Target};
use super::keep::{Keep, Keeper};
use super::monitors::{LookWith, MonitorWatch};
use super::opening::{Opened, find, open};
use super::picture::{Decoder, NoPicture, PictureReply, PictureRequest};
use super::pool::{Order, WorkerPool};
use super::watch::{Watch, Watched, Watcher};
use super::worker::Worker;
use crate::window::session::SessionId;
use sightedge_service::files::{self, SaveError, Stamp};
use sightedge_service::monitors::{KeptMonitor, Look, Monitor, Told};
use sightedge_service::picture_facts::{self, PictureFacts};
use sightedge_service::storage::Storage;

/// What a dialog was for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Purpose {
    /// To open.
    Open,
    /// To save under that name.
    SaveAs(SessionId),
    /// To show where a plan's picture is now.
    Relink(SessionId),
    /// To take as the colour profile of the screen.
    Profile,
}

/// What a save may write over.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Onto {
    /// Nothing: there is no file yet.
    Nothing,
    /// The file as it was last seen.
    Seen(Stamp),
    /// Whatever is there: the person was asked. A backup is kept.
    Anything,
}

/// What came of a save.
#[derive(Debug)]
pub struct Saved {
    /// What was saved.
    pub document: Document,
    /// Where.
    pub plan: PathBuf,
    /// Whether the open plan lies there from now on.
    pub moves: bool,
    /// The file as it is now, or why it is not.
    pub result: Result<Stamp, SaveError>,
}

/// What came of a job.
#[derive(Debug)]
pub enum Done {
    /// A file was opened, or could not be.
    Opened(PathBuf, Box<Result<Opened, String>>),
    /// A dialog was closed, with a path or without.
    Chosen(Purpose, Option<PathBuf>, Duration),
    /// A plan was saved, or could not be.
    Saved(SessionId, Box<Saved>),
    /// A picture is there, or cannot be.
    Picture(SessionId, PictureRequest, Result<PictureReply, NoPicture>),
    /// A picture that had moved was found by its content, or was not.
    Found(SessionId, Option<PathBuf>),
    /// What a file says of itself that is to be a plan's picture, or why it cannot.
    Read(SessionId, PathBuf, Box<Result<PictureFacts, String>>),
    /// Something changed on disk: the plan, or the picture.
    Changed(SessionId, Watched),
    /// The monitors are these from now on.
    Monitors(Vec<Monitor>),
    /// Something was to be kept, and this is worth saying: a sentence.
    Said(String),
}

/// All of it.
#[derive(Debug)]
pub struct Jobs {
    decoder: Decoder,
    dialogs: Dialogs<Purpose>,
    /// Plans and pictures being opened: their bytes are read, their headers decoded.
    opening: WorkerPool<Done>,
    saving: WorkerPool<Done>,
    /// Lost pictures being looked for, and others read that take their place.
    finding: WorkerPool<Done>,
    /// Pictures being decoded.
    decoding: WorkerPool<Done>,
    watcher: Worker<Watch, (SessionId, Watched)>,
    keeper: Worker<Keep, String>,
    /// None until the monitors are watched.
    monitors: Option<Worker<LookWith, Vec<Monitor>>>,
    looks_with: LookWith,
}

/// Files opened, saved or looked for at once: more would only fight for the disk.
const FILES_AT_ONCE: usize = 2;
/// Pictures decoded at once, each within [`Limits`](sightedge_pictures::Limits) of memory.
pub const DECODED_AT_ONCE: usize = 2;

impl Jobs {
    /// None yet; each that is done wakes `context`. What is kept goes into `storage`.
    pub fn new(context: &egui::Context, storage: Storage) -> Self {
        let pool = |workers, order| WorkerPool::new(context.clone(), workers, order);
        Self {
            decoder: Decoder::default(),
            dialogs: Dialogs::new(context.clone()),
            opening: pool(FILES_AT_ONCE, Order::OldestFirst),
            saving: pool(FILES_AT_ONCE, Order::OldestFirst),
            finding: pool(FILES_AT_ONCE, Order::OldestFirst),
            decoding: pool(DECODED_AT_ONCE, Order::NewestFirst),
            watcher: Worker::new(context.clone(), Watcher::default()),
            keeper: Worker::new(context.clone(), Keeper(storage)),
            monitors: None,
            looks_with: LookWith::default(),
        }
    }

    /// Decodes pictures in processes of `program`, called with [`DECODER`](super::DECODER), from now on: one
    /// that crashes, runs away or is killed takes no unsaved work along.
    pub fn decode_apart(&mut self, program: PathBuf) {
        self.decoder.apart(program);
    }

    /// Where pictures are decoded.
    pub const fn decoder(&self) -> &Decoder {
        &self.decoder
    }

    /// What came in since the last call.
    pub fn done(&mut self) -> Vec<Done> {
        let chosen = self.dialogs.closed().into_iter();
        let mut done: Vec<Done> =
            chosen.map(|one| Done::Chosen(one.what, one.path, one.took)).collect();
        for pool in [&mut self.opening, &mut self.saving, &mut self.finding, &mut self.decoding]
        {
            done.extend(pool.replies());
        }
        let changed = self.watcher.replies().into_iter();
        done.extend(changed.map(|(session, what)| Done::Changed(session, what)));
        done.extend(self.keeper.replies().into_iter().map(Done::Said));
        let monitors = self.monitors.as_mut().map(Worker::replies).unwrap_or_default();
        done.extend(monitors.into_iter().map(Done::Monitors));
        done
    }

    /// How many jobs are not done.
    pub fn pending(&self) -> usize {
        let pools = [&self.opening, &self.saving, &self.finding, &self.decoding];
        let pools: usize = pools.map(WorkerPool::pending).iter().sum();
        let monitors = self.monitors.as_ref().map_or(0, Worker::pending);
        pools
            + self.dialogs.pending()
            + self.watcher.pending()
            + self.keeper.pending()
            + monitors
    }

    /// The most pictures that were ever decoded at once.
    pub fn most_decoded(&self) -> usize {
        self.decoding.most_busy()
    }

    /// Opens a plan, or a picture with or without a plan beside it.
    pub fn open(&mut self, path: PathBuf, unit: Unit, tables: Arc<Tables>) {
        let (decoder, of) = (self.decoder.clone(), path.clone());
        self.opening.push(
            0,
            move || {
                let opened = open(&path, unit, &tables, &decoder);
                Done::Opened(path, Box::new(opened))
            },
            |words| Done::Opened(of, Box::new(Err(words))),
        );
    }

    /// Answers the next dialog, which is not shown then: for a window without a screen.
    /// `None` is what a system without dialogs answers.
    pub fn answer(&mut self, path: Option<PathBuf>) {
        self.dialogs.answer(path);
    }

    /// Asks for a file, without holding up the window; one at a time.
    pub fn ask(&mut self, purpose: Purpose, near: Option<PathBuf>) {
        let (title, target) = match purpose {
            Purpose::Open => ("Open a picture or a plan", Target::File),
            Purpose::Relink(_) => ("Show where the picture is now", Target::File),
            Purpose::Profile => ("The colour profile of this screen", Target::File),
            Purpose::SaveAs(_) => {
                let name = near.as_deref().and_then(Path::file_name);
                let name = name.map(|name| name.to_string_lossy().into_owned());
                ("Save the plan as", Target::SaveAs(name.unwrap_or_default()))
            }
        };
        let near = near.and_then(|mut near| near.pop().then_some(near));
        self.dialogs.show(purpose, Dialog { title, target, near });
    }

    /// Saves a plan; `moves` says whether the open plan lies there from then on.
    pub fn save(
        &mut self,
        session: SessionId,
        document: Document,
        plan: PathBuf,
        onto: Onto,
        moves: bool,
    ) {
        let saved = move |document, plan, result| {
            Done::Saved(session, Box::new(Saved { document, plan, moves, result }))
        };
        let (same, place) = (document.clone(), plan.clone());
        self.saving.push(
            0,
            move || {
                let over = match &onto {
                    Onto::Nothing => Overwrite::Nothing,
                    Onto::Seen(stamp) => Overwrite::This(stamp),
                    Onto::Anything => Overwrite::Anything,
                };
                let result = files::save(&plan, &document, over);
                saved(document, plan, result)
            },
            move |words| {
                let error = std::io::Error::other(words);
                let failed = Failed { step: Step::Write, path: place.clone(), error };
                saved(same, place, Err(SaveError::Failed(failed)))
            },
        );
    }

    /// Makes what is requested of a picture, unless `token` is cancelled before its turn.
    pub fn picture(
        &mut self,
        session: SessionId,
        path: PathBuf,
        request: PictureRequest,
        token: CancelToken,
    ) {
        let decoder = self.decoder.clone();
        self.decoding.push(
            request.part.urgency(),
            move || Done::Picture(session, request, decoder.bring(&path, request, &token)),
            move |words| Done::Picture(session, request, Err(NoPicture::Failed(words))),
        );
    }

    /// Looks for a picture that is not where its plan says, by its content: in the plan's
    /// folder, the one above and those below.
    pub fn find(&mut self, session: SessionId, plan: PathBuf, sha256: String) {
        self.finding.push(
            0,
            move || Done::Found(session, find(&plan, &sha256)),
            move |_| Done::Found(session, None),
        );
    }

    /// Reads what a file says of itself that is to be a plan's picture.
    pub fn read(&mut self, session: SessionId, path: PathBuf) {
        let (decoder, of) = (self.decoder.clone(), path.clone());
        // Before those that are looked for: it was named.
        self.finding.push(
            1,
            move || {
                let facts = picture_facts::facts_by(&path, |path| decoder.probe(path));
                Done::Read(session, path, Box::new(facts))
            },
            move |words| Done::Read(session, of, Box::new(Err(words))),
        );
    }

    /// Watches the monitors from now on, by `look`.
    pub fn watch_monitors(&mut self, context: &egui::Context, look: Look) {
        let mut monitors = Worker::new(context.clone(), MonitorWatch::new(look));
        monitors.request(self.looks_with.clone());
        self.monitors = Some(monitors);
    }

    /// Looks at the monitors with what was chosen for them, and with what the window's own
    /// system tells of them, where that changed.
    pub fn look_with(&mut self, told: Option<Vec<Told>>, kept: &[KeptMonitor]) {
        let told = told.unwrap_or_else(|| self.looks_with.told.clone());
        let with = LookWith { told, kept: kept.to_vec() };
        if with != self.looks_with {
            self.looks_with = with.clone();
            if let Some(monitors) = &mut self.monitors {
                monitors.request(with);
            }
        }
    }

    /// Pictures are made for this monitor from now on; gives whether that is another one.
    pub fn show_on(&mut self, display: Option<Arc<ToDisplay>>) -> bool {
        self.decoder.show_on(display)
    }

    /// Watches the files of a plan until the token is cancelled.
    pub fn watch(&mut self, session: SessionId, files: Vec<(Watched, PathBuf)>) -> CancelToken {
        self.watcher.request(Watch { session, files })
    }

    /// Keeps something between sessions.
    pub fn keep(&mut self, keep: Keep) {
        self.keeper.request(keep);
    }

    /// Gives the decoders that were cancelled a moment to end, so that none outlives the
    /// window.
    pub fn close(&self) {
        self.decoding.close(Duration::from_millis(500));
    }
}
