//! Everything slow or blocking, off the frame: dialogs, files, pictures. Results come back by
//! a channel; each wakes the window once.

pub mod dialog;
mod picture;
mod pool;

use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::{Duration, Instant, SystemTime};

use sightedge_core::file::store::Overwrite;
use sightedge_core::geometry::Rect;
use sightedge_core::length::Unit;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Entry, EntryKind, Start};
use sightedge_pictures::CancelToken;

use crate::window::session::SessionId;
pub use picture::{About, Ask, Brought, Decoder, Missed, Part, Pixels};
use pool::{Order, WorkerPool};
use sightedge_service::files::{self, SaveError, Stamp};
use sightedge_service::picture_facts::{self, PictureFacts};

/// A plan as it comes from disk or from a new picture.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The plan.
    pub document: Document,
    /// Where it lies, or will.
    pub plan: PathBuf,
    /// Of the saved plan; `None` for a new one.
    pub stamp: Option<Stamp>,
    /// What is worth saying.
    pub said: Option<String>,
}

/// What a dialog was for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Purpose {
    /// To open.
    Open,
    /// To save under that name.
    SaveAs(SessionId),
    /// To show where a plan's picture is now.
    Relink(SessionId),
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
    Picture(SessionId, Ask, Result<Brought, Missed>),
    /// A picture that had moved was found by its content, or was not.
    Found(SessionId, Option<PathBuf>),
    /// What a file says of itself that is to be a plan's picture, or why it cannot.
    Read(SessionId, PathBuf, Box<Result<PictureFacts, String>>),
    /// Something changed on disk: the plan, or the picture.
    Changed(SessionId, Watched),
}

/// What is watched on disk.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Watched {
    /// The saved plan.
    Plan,
    /// The picture.
    Picture,
}

/// The workbench behind the window.
#[derive(Debug)]
pub struct Jobs {
    context: egui::Context,
    sender: Sender<Done>,
    receiver: Receiver<Done>,
    /// One dialog at most.
    dialog_open: bool,
    /// What the next dialogs are answered with, unshown.
    answers: VecDeque<Option<PathBuf>>,
    pending: usize,
    decoder: Decoder,
    /// Plans and pictures being opened: their bytes are read, their headers told.
    opening: WorkerPool,
    /// Pictures being decoded.
    decoding: WorkerPool,
}

/// Files opened at once: more would only fight for the disk.
const OPENED_AT_ONCE: usize = 2;
/// Pictures decoded at once, each within [`Limits`](sightedge_pictures::Limits) of memory.
pub const DECODED_AT_ONCE: usize = 2;

/// The word that makes this program a decoder of one picture, in a process of its own.
pub const DECODER: &str = "decode-one-picture";

impl Jobs {
    /// A workbench that wakes `context`.
    pub fn new(context: egui::Context) -> Self {
        let (sender, receiver) = channel();
        Self {
            context,
            sender,
            receiver,
            dialog_open: false,
            answers: VecDeque::new(),
            pending: 0,
            decoder: Decoder::default(),
            opening: WorkerPool::new(OPENED_AT_ONCE, Order::OldestFirst),
            decoding: WorkerPool::new(DECODED_AT_ONCE, Order::NewestFirst),
        }
    }

    /// Decodes pictures in processes of `program`, called with [`DECODER`], from now on: one
    /// that crashes, runs away or is killed takes no unsaved work along.
    pub fn decode_apart(&mut self, program: PathBuf) {
        self.decoder.apart(program);
    }

    /// Where pictures are decoded.
    pub const fn decoder(&self) -> &Decoder {
        &self.decoder
    }

    /// What came in since it was last asked.
    pub fn done(&mut self) -> Vec<Done> {
        let done: Vec<Done> = self.receiver.try_iter().collect();
        for one in &done {
            match one {
                Done::Chosen(..) => self.dialog_open = false,
                Done::Changed(..) => continue,
                _ => {}
            }
            self.pending = self.pending.saturating_sub(1);
        }
        done
    }

    /// How many jobs are not done.
    pub const fn pending(&self) -> usize {
        self.pending
    }

    /// The most pictures that were ever decoded at once.
    pub fn most_decoded(&self) -> usize {
        self.decoding.most_busy()
    }

    fn start(&mut self, work: impl FnOnce() -> Done + Send + 'static) {
        std::thread::spawn(self.told(work));
    }

    /// The work, and telling the window what came of it.
    fn told(
        &mut self,
        work: impl FnOnce() -> Done + Send + 'static,
    ) -> impl FnOnce() + Send + 'static {
        self.pending += 1;
        let (sender, context) = (self.sender.clone(), self.context.clone());
        move || {
            // The window may be gone by then.
            if sender.send(work()).is_ok() {
                context.request_repaint();
            }
        }
    }

    /// Opens a plan, or a picture with or without a plan beside it.
    pub fn open(&mut self, path: PathBuf, unit: Unit, tables: Arc<Tables>) {
        let decoder = self.decoder.clone();
        let work = self.told(move || {
            let opened = open(&path, unit, &tables, &decoder);
            Done::Opened(path, Box::new(opened))
        });
        self.opening.push(0, work);
    }

    /// Answers the next dialog, which is not shown then: for a window without a screen.
    /// `None` is what a system without dialogs answers.
    pub fn answer(&mut self, path: Option<PathBuf>) {
        self.answers.push_back(path);
    }

    /// Asks for a file, without holding up the window.
    pub fn ask(&mut self, purpose: Purpose, near: Option<PathBuf>) {
        if self.dialog_open {
            return;
        }
        self.dialog_open = true;
        let none = || (!dialog::is_there()).then_some(None);
        if let Some(answer) = self.answers.pop_front().or_else(none) {
            self.start(move || Done::Chosen(purpose, answer, Duration::ZERO));
            return;
        }
        self.start(move || {
            let started = Instant::now();
            let mut dialog = rfd::AsyncFileDialog::new();
            if let Some(folder) = near.as_deref().and_then(Path::parent) {
                dialog = dialog.set_directory(folder);
            }
            let chosen = match purpose {
                Purpose::Open => {
                    pollster::block_on(dialog.set_title("Open a picture or a plan").pick_file())
                }
                Purpose::Relink(_) => pollster::block_on(
                    dialog.set_title("Show where the picture is now").pick_file(),
                ),
                Purpose::SaveAs(_) => {
                    let name = near.as_deref().and_then(Path::file_name);
                    let name = name.map(|name| name.to_string_lossy().into_owned());
                    pollster::block_on(
                        dialog
                            .set_title("Save the plan as")
                            .set_file_name(name.unwrap_or_default())
                            .save_file(),
                    )
                }
            };
            let path = chosen.map(|file| file.path().to_owned());
            Done::Chosen(purpose, path, started.elapsed())
        });
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
        self.start(move || {
            let over = match &onto {
                Onto::Nothing => Overwrite::Nothing,
                Onto::Seen(stamp) => Overwrite::This(stamp),
                Onto::Anything => Overwrite::Anything,
            };
            let result = files::save(&plan, &document, over);
            Done::Saved(session, Box::new(Saved { document, plan, moves, result }))
        });
    }

    /// Makes what is asked of a picture, unless `token` is called off before its turn.
    pub fn picture(&mut self, session: SessionId, path: PathBuf, ask: Ask, token: CancelToken) {
        let decoder = self.decoder.clone();
        let urgency = ask.part.urgency();
        let work = self.told(move || {
            let brought = decoder.bring(&path, ask, &token);
            Done::Picture(session, ask, brought)
        });
        self.decoding.push(urgency, work);
    }

    /// Looks for a picture that is not where its plan says, by its content: in the plan's
    /// folder, the one above and those below.
    pub fn find(&mut self, session: SessionId, plan: PathBuf, sha256: String) {
        self.start(move || Done::Found(session, find(&plan, &sha256)));
    }

    /// Gives the decoders that were called off a moment to end, so that none outlives the
    /// window.
    pub fn close(&self) {
        self.decoding.close(Duration::from_millis(500));
    }

    /// Reads what a file says of itself that is to be a plan's picture.
    pub fn read(&mut self, session: SessionId, path: PathBuf) {
        let decoder = self.decoder.clone();
        self.start(move || {
            let facts = picture_facts::facts_by(&path, |path| decoder.probe(path));
            Done::Read(session, path, Box::new(facts))
        });
    }

    /// Watches the files of a plan until `token` is called off; looks every two seconds and
    /// wakes the window only when something changed.
    pub fn token(
        &self,
        session: SessionId,
        files: Vec<(Watched, PathBuf)>,
        token: CancelToken,
    ) {
        let (sender, context) = (self.sender.clone(), self.context.clone());
        std::thread::spawn(move || {
            let look = |path: &Path| -> Option<(SystemTime, u64)> {
                let facts = std::fs::metadata(path).ok()?;
                Some((facts.modified().ok()?, facts.len()))
            };
            let mut seen: Vec<_> = files.iter().map(|(_, path)| look(path)).collect();
            while !token.is_cancelled() {
                std::thread::sleep(Duration::from_secs(2));
                for ((what, path), seen) in files.iter().zip(&mut seen) {
                    let now = look(path);
                    if now != *seen && !token.is_cancelled() {
                        *seen = now;
                        if sender.send(Done::Changed(session, *what)).is_err() {
                            return;
                        }
                        context.request_repaint();
                    }
                }
            }
        });
    }
}

/// More files than this are not looked through for a lost picture.
const MOST_LOOKED_AT: usize = 400;

/// The file whose bytes have that hash, in the plan's folder, below it or one above.
fn find(plan: &Path, sha256: &str) -> Option<PathBuf> {
    let home = plan.parent()?;
    let mut folders = vec![home.to_owned()];
    let below = |folder: &Path| -> Vec<PathBuf> {
        let entries = std::fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok);
        entries.map(|entry| entry.path()).collect()
    };
    folders.extend(below(home).into_iter().filter(|path| path.is_dir()));
    folders.extend(home.parent().map(Path::to_owned));
    folders
        .iter()
        .flat_map(|folder| below(folder))
        .filter(|path| path.is_file() && !files::is_plan(path))
        .take(MOST_LOOKED_AT)
        .find(|path| {
            let hash = sightedge_pictures::content_hash(path, &CancelToken::default());
            hash.is_ok_and(|hash| hash.to_string() == sha256)
        })
}

/// Opens a plan, or makes one for a picture that has none.
fn open(path: &Path, unit: Unit, tables: &Tables, decoder: &Decoder) -> Result<Opened, String> {
    // Absolute, so that the plan still finds its picture when the program moves on.
    let path = &std::path::absolute(path).map_err(|error| {
        format!("{} is no place that can be opened: {error}", path.display())
    })?;
    let beside = files::plan_of(path);
    let plan = if files::is_plan(path) { path.clone() } else { beside };
    if plan.exists() {
        let opened = files::open(&plan).map_err(|error| error.to_string())?;
        let (document, stamp) = (opened.document, Some(opened.stamp));
        return Ok(Opened { document, plan, stamp, said: None });
    }
    if files::is_plan(path) {
        return Err(format!(
            "{} is not there: check the name, or open the picture instead",
            path.display()
        ));
    }
    let facts = picture_facts::facts_by(path, |path| decoder.probe(path))?;
    let stated = facts.print_size();
    let sheet = stated.unwrap_or_else(|| facts.size_at(300.0, 300.0));
    let mut said = stated.is_none().then(|| {
        "The picture states no resolution: its sheet is taken at 300 ppi. Set the sheet to the \
         paper it is printed on."
            .to_owned()
    });
    let start = Start {
        id: picture_facts::plan_id(&facts.sha256, &plan),
        unit,
        picture: facts.picture(path, &plan)?,
        sheet,
        image: Rect::at_origin(sheet),
    };
    let (mut document, usual) = start.plan_and_size(tables);
    // A standard size is what one expects.
    if let Some(usual) = usual.filter(|usual| !usual.standard) {
        let words = sightedge_service::wording::whole(&usual.words(unit));
        said = Some(said.map_or(words.clone(), |said| format!("{said} {words}")));
    }
    if let Some(said) = &said {
        document.log.push(Entry {
            when: String::new(),
            kind: EntryKind::Choice,
            text: said.clone(),
            ticked: None,
        });
    }
    Ok(Opened { document, plan, stamp: None, said })
}
