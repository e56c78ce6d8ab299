//! The record behind the room, in a thread of its own: nothing of it is read or written in a
//! frame.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

use sightedge_studio::{
    Contents, Edition, EditionRow, Entry, Error, Opened, Print, PrintId, Record, Subject, Sums,
    Work, WorkId, WorkRow, backups, begin_anew, contents, put_back,
};

use crate::state::Keep;
use crate::studio;
use crate::studio::papers::{Wanted, Whole, Written, pieces, write};

/// What a change came to.
#[derive(Debug, Default)]
pub(super) struct Made {
    /// In words.
    pub(super) said: String,
    /// The print that was issued by it, and how it is called.
    pub(super) issued: Option<(PrintId, String)>,
    /// The print whose number is free again by it.
    pub(super) freed: Option<PrintId>,
    /// The work to look at from now on.
    pub(super) look: Option<WorkId>,
}

/// A change of the record.
pub(super) type Change = Box<dyn FnOnce(&mut dyn Record) -> Result<Made, Error> + Send>;

/// What is asked of the record.
pub(super) enum Ask {
    /// All works, and the prints of this one.
    Look(Option<WorkId>),
    /// What happened to a print.
    History(PrintId),
    /// The list of a show.
    Show(String),
    /// A change; after it, the prints of this work are looked at.
    Do(Change, Option<WorkId>),
    /// Puts a backup in the place of a damaged record.
    PutBack(PathBuf),
    /// Sets a damaged record of which there is no backup aside, for a new one.
    BeginAnew,
    /// Keeps the record in another folder; `None` is the usual one.
    Move(Keep, Option<PathBuf>),
    /// Writes papers of these prints.
    Papers(Box<(Wanted, Vec<Whole>)>),
}

/// What a folder is asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum For {
    /// To keep the record in.
    Record,
    /// To write papers to.
    Papers,
}

/// The editions of a work with their prints.
#[derive(Debug, Default)]
pub(super) struct Prints {
    pub(super) work: Option<WorkId>,
    /// Whether the work is new and is to be looked at from now on.
    pub(super) new: bool,
    pub(super) editions: Vec<(EditionRow, Vec<Print>)>,
}

/// A damaged record.
#[derive(Debug)]
pub(super) struct Damage {
    /// What is wrong, and what can be done.
    pub(super) words: String,
    /// The newest whole backup.
    pub(super) backup: Option<PathBuf>,
    /// Its day, and what is in it.
    pub(super) holds: Option<(String, Contents)>,
}

impl Damage {
    fn new(folder: &std::path::Path, words: String, backup: Option<PathBuf>) -> Self {
        let holds = backup.as_deref().and_then(|file| {
            let dated = backups(folder).into_iter().find(|backup| backup.file == file)?;
            Some((dated.day, contents(file)?))
        });
        Self { words, backup, holds }
    }
}

/// What hangs at a show.
pub(super) type AtShow = Vec<(Work, Edition, Print)>;

/// What comes back.
#[derive(Debug)]
pub(super) enum Told {
    /// Every work, the sums, the shows.
    Index(Vec<WorkRow>, Vec<Sums>, Vec<(String, u32)>),
    Prints(Prints),
    /// Others wrote to the record; what is shown was asked for anew.
    Refreshed,
    History(PrintId, Vec<Entry>),
    Show(String, AtShow),
    Made(Made),
    /// A sentence.
    Said(String),
    /// What could not be done.
    Failed(String),
    Damaged(Damage),
    /// The record is kept there from now on, and holds so many works.
    Moved(studio::Home, usize),
    /// What became of papers.
    Written(Result<Written, String>),
    /// A folder was chosen, for what it was asked.
    Folder(For, PathBuf),
    /// All that was asked for is answered.
    Done,
}

/// The thread and the ways to and from it.
#[derive(Debug)]
pub(super) struct Keeper {
    asks: Sender<Ask>,
    tell: Sender<Told>,
    context: egui::Context,
    told: Receiver<Told>,
    pub(super) pending: usize,
}

impl Keeper {
    /// A thread that keeps the record in `folder` open, and wakes the window for each answer.
    pub(super) fn new(folder: PathBuf, context: egui::Context) -> Self {
        let (asks, asked) = channel();
        let (sender, told) = channel();
        let (tell, waking) = (sender.clone(), context.clone());
        std::thread::spawn(move || {
            let tell = move |one: Told| {
                // The window may be gone by then.
                let there = tell.send(one).is_ok();
                waking.request_repaint();
                there
            };
            keep(folder, &asked, &tell);
        });
        Self { asks, tell: sender, context, told, pending: 0 }
    }

    /// Asks for a folder, without holding up the window.
    pub(super) fn folder(&mut self, what: For, near: PathBuf) {
        let (tell, context) = (self.tell.clone(), self.context.clone());
        self.pending += 1;
        std::thread::spawn(move || {
            let title = match what {
                For::Record => "Keep the record in",
                For::Papers => "Write the papers to",
            };
            let chosen = crate::folder::ask(title, Some(&near));
            let told = chosen.map(|folder| Told::Folder(what, folder));
            // The window may be gone by then.
            if told.into_iter().chain([Told::Done]).all(|one| tell.send(one).is_ok()) {
                context.request_repaint();
            }
        });
    }

    pub(super) fn ask(&mut self, ask: Ask) {
        if self.asks.send(ask).is_ok() {
            self.pending += 1;
        }
    }

    /// What came in since it was last asked.
    pub(super) fn told(&mut self) -> Vec<Told> {
        let mut all = Vec::new();
        for one in self.told.try_iter() {
            match one {
                Told::Done => self.pending = self.pending.saturating_sub(1),
                other => all.push(other),
            }
        }
        all
    }
}

/// How often one looks whether others wrote to the record. Asking that reads a few bytes of
/// shared memory and wakes no window.
const LOOK: Duration = Duration::from_secs(1);

/// What others wrote since it was last looked at.
#[derive(Default)]
struct Seen {
    pulse: Option<i64>,
    /// The work that is looked at.
    work: Option<WorkId>,
}

impl Seen {
    /// Tells what others wrote, if they did.
    fn look(&mut self, opened: &mut Opened, tell: &dyn Fn(Told) -> bool) -> Result<(), Error> {
        let pulse = Some(opened.read().pulse()?);
        if pulse != self.pulse {
            self.pulse = pulse;
            look(opened.read(), self.work, false, tell)?;
            tell(Told::Refreshed);
        }
        Ok(())
    }
}

fn failed(folder: &std::path::Path, error: Error) -> Told {
    let words = error.to_string();
    match error {
        Error::Damaged { backup, .. } => Told::Damaged(Damage::new(folder, words, backup)),
        _ => Told::Failed(words),
    }
}

/// What went wrong with an open record. A damaged one is opened anew, which finds the newest
/// whole backup.
fn broken(
    folder: &std::path::Path,
    opened: &mut Option<Opened>,
    error: Error,
    tell: &dyn Fn(Told) -> bool,
) {
    if matches!(error, Error::Damaged { .. }) {
        *opened = None;
        let error = studio::opened(folder).err().unwrap_or(error);
        tell(failed(folder, error));
    } else {
        tell(failed(folder, error));
    }
}

/// How old a backup may be while the record changes.
const KEEP_FRESH: Duration = Duration::from_mins(10);

fn keep(mut folder: PathBuf, asked: &Receiver<Ask>, tell: &dyn Fn(Told) -> bool) {
    let mut opened: Option<Opened> = None;
    let mut seen = Seen::default();
    let mut changed = false;
    loop {
        let ask = match asked.recv_timeout(LOOK) {
            Ok(ask) => ask,
            Err(RecvTimeoutError::Disconnected) => return,
            Err(RecvTimeoutError::Timeout) => {
                // Another window put a backup in its place.
                if opened.as_ref().is_some_and(Opened::replaced) {
                    opened = studio::opened(&folder).ok().map(|(record, _)| record);
                    seen.pulse = None;
                }
                if let Some(record) = &mut opened
                    && let Err(error) = seen.look(record, tell)
                {
                    broken(&folder, &mut opened, error, tell);
                }
                // At rest; a backup that cannot be made is tried again, the next opening tells.
                if changed
                    && let Some(record) = &opened
                    && record
                        .back_up_anew(&studio::today(), KEEP_FRESH)
                        .is_ok_and(|it| it.is_some())
                {
                    changed = false;
                }
                continue;
            }
        };
        if opened.as_ref().is_some_and(Opened::replaced) {
            opened = None;
        }
        let mending = matches!(ask, Ask::PutBack(_) | Ask::BeginAnew | Ask::Move(..));
        if opened.is_none() && !mending {
            match studio::opened(&folder) {
                Ok((record, said)) => {
                    opened = Some(record);
                    if let Some(said) = said {
                        tell(Told::Said(said));
                    }
                }
                Err(error) => {
                    tell(failed(&folder, error));
                    tell(Told::Done);
                    continue;
                }
            }
        }
        let answered = match (ask, opened.as_mut()) {
            (Ask::PutBack(backup), _) => {
                opened = None;
                let kept = put_back(&folder, &backup, &studio::today());
                kept.map(|kept| {
                    tell(Told::Said(format!(
                        "The backup is back; what was damaged is kept as {}.",
                        kept.display()
                    )));
                })
            }
            (Ask::BeginAnew, _) => {
                opened = None;
                begin_anew(&folder, &studio::today()).map(|kept| {
                    tell(Told::Said(format!(
                        "A new record is begun; what was damaged is kept as {}.",
                        kept.display()
                    )));
                })
            }
            (Ask::Move(keep, to), _) => {
                studio::Home::choose(&keep, to.as_deref()).and_then(|(home, record, said)| {
                    folder.clone_from(&home.folder);
                    let record = opened.insert(record).record();
                    tell(Told::Moved(home, record.index()?.len()));
                    if let Some(said) = said {
                        tell(Told::Said(said));
                    }
                    look(record, None, false, tell)
                })
            }
            (_, None) => Ok(()),
            (ask, Some(record)) => {
                if let Ask::Look(work) | Ask::Do(_, work) = &ask {
                    // Before it is looked at: what comes between is told once more.
                    seen = Seen { pulse: record.read().pulse().ok(), work: *work };
                }
                changed |= matches!(ask, Ask::Do(..));
                answer(record.record(), ask, &mut seen.work, tell)
            }
        };
        if let Err(error) = answered {
            broken(&folder, &mut opened, error, tell);
        }
        if !tell(Told::Done) {
            return;
        }
    }
}

fn answer(
    record: &mut dyn Record,
    ask: Ask,
    at: &mut Option<WorkId>,
    tell: &dyn Fn(Told) -> bool,
) -> Result<(), Error> {
    match ask {
        Ask::Look(work) => look(record, work, false, tell)?,
        Ask::History(print) => {
            tell(Told::History(print, record.history(Subject::Print(print))?));
        }
        Ask::Show(name) => {
            let list = record.at_show(&name)?;
            tell(Told::Show(name, list));
        }
        Ask::Do(change, work) => {
            let made = change(record);
            let new = made.as_ref().ok().and_then(|made| made.look);
            *at = new.or(work);
            // What others did meanwhile is seen even where this could not be done.
            look(record, *at, new.is_some(), tell)?;
            tell(Told::Made(made?));
        }
        Ask::Papers(papers) => {
            let (wanted, prints) = *papers;
            let pieces = pieces(record, &prints).map_err(|error| error.to_string());
            tell(Told::Written(pieces.and_then(|pieces| write(&wanted, &pieces))));
        }
        Ask::PutBack(_) | Ask::BeginAnew | Ask::Move(..) => {}
    }
    Ok(())
}

fn look(
    record: &dyn Record,
    work: Option<WorkId>,
    new: bool,
    tell: &dyn Fn(Told) -> bool,
) -> Result<(), Error> {
    let index = record.index()?;
    if let Some(id) = work {
        let row = index.iter().find(|row| row.work.id == id);
        let mut editions = Vec::new();
        for one in row.into_iter().flat_map(|row| &row.editions) {
            editions.push((one.clone(), record.prints(one.edition.id)?));
        }
        tell(Told::Prints(Prints { work, new, editions }));
    }
    tell(Told::Index(index, record.sums()?, record.shows()?));
    Ok(())
}
