//! The record behind the room, in a thread of its own: nothing of it is read or written in a
//! frame.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

use sightedge_studio::{Error, Opened, Record, WorkId, begin_anew, restore};

use super::talk::{Ask, Damage, For, Numbered, Prints, Told};
use crate::window::workers::dialog;
use sightedge_service::record;
use sightedge_service::record::printouts::{pieces, write};

/// The thread and the ways to and from it.
#[derive(Debug)]
pub(super) struct RecordWorker {
    requests: Sender<Ask>,
    tell: Sender<Told>,
    context: egui::Context,
    told: Receiver<Told>,
    /// Gives word when the thread has ended.
    ended: Receiver<()>,
    pub(super) pending: usize,
}

/// How long the window waits at its end for the last backup.
const LAST: Duration = Duration::from_secs(10);

impl Drop for RecordWorker {
    /// What was entered last is in a backup before the program ends.
    fn drop(&mut self) {
        // A channel no longer asked is how the thread learns of the end.
        self.requests = channel().0;
        // Where it hangs, the record itself has all that was said to be in it.
        self.ended.recv_timeout(LAST).unwrap_or_default();
    }
}

impl RecordWorker {
    /// A thread that keeps the record in `folder` open, and wakes the window for each answer.
    pub(super) fn new(folder: PathBuf, context: egui::Context) -> Self {
        let (requests, asked) = channel();
        let (sender, told) = channel();
        let (end, ended) = channel();
        let (tell, waking) = (sender.clone(), context.clone());
        std::thread::spawn(move || {
            let tell = move |one: Told| {
                // The window may be gone by then.
                let there = tell.send(one).is_ok();
                waking.request_repaint();
                there
            };
            keep(folder, &asked, &tell);
            // Nobody waits where the window is gone.
            end.send(()).unwrap_or_default();
        });
        Self { requests, tell: sender, context, told, ended, pending: 0 }
    }

    /// Asks for a folder or a file, without holding up the window.
    pub(super) fn choose(&mut self, what: For, near: PathBuf) {
        let (tell, context) = (self.tell.clone(), self.context.clone());
        self.pending += 1;
        std::thread::spawn(move || {
            let near = Some(near.as_path());
            let chosen = match what {
                For::Record => dialog::folder("Keep the record in", near),
                For::Papers => dialog::folder("Write the papers to", near),
                For::Picture => dialog::file("The picture of the work", near),
            };
            let told = chosen.map(|path| Told::Chosen(what, path));
            // The window may be gone by then.
            if told.into_iter().chain([Told::Done]).all(|one| tell.send(one).is_ok()) {
                context.request_repaint();
            }
        });
    }

    pub(super) fn ask(&mut self, ask: Ask) {
        if self.requests.send(ask).is_ok() {
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

/// How often one looks whether others wrote to the record. Asking reads a few bytes of
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
        let error = record::opened(folder).err().unwrap_or(error);
        tell(failed(folder, error));
    } else {
        tell(failed(folder, error));
    }
}

fn keep(mut folder: PathBuf, asked: &Receiver<Ask>, tell: &dyn Fn(Told) -> bool) {
    let mut opened: Option<Opened> = None;
    let mut seen = Seen::default();
    let mut changed = false;
    // Whether there is no record yet, as far as was looked.
    let mut none_yet = false;
    loop {
        let ask = match asked.recv_timeout(LOOK) {
            Ok(ask) => ask,
            Err(RecvTimeoutError::Disconnected) => {
                if changed
                    && let Some(record) = opened.as_ref().filter(|record| !record.replaced())
                {
                    // There is nobody left to be told; the next opening tries again.
                    record.back_up_anew(&record::today(), Duration::ZERO).unwrap_or_default();
                }
                return;
            }
            Err(RecvTimeoutError::Timeout) => {
                // Another window began it, or put a backup in its place.
                let registration = none_yet && record::is_record(&folder);
                if registration || opened.as_ref().is_some_and(Opened::replaced) {
                    opened = record::opened(&folder).ok().map(|(record, _)| record);
                    seen.pulse = None;
                    none_yet = false;
                }
                if let Some(record) = &mut opened
                    && let Err(error) = seen.look(record, tell)
                {
                    broken(&folder, &mut opened, error, tell);
                }
                // At rest; a backup that cannot be made is tried again, the next opening tells.
                if changed
                    && let Some(record) = &opened
                    && record.back_up_change(&record::today()).is_ok_and(|it| it.is_some())
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
        none_yet = opened.is_none() && !mending && only_looks(&ask) && is_nothing_yet(&folder);
        if none_yet {
            of_nothing(ask, tell);
            tell(Told::Done);
            continue;
        }
        if opened.is_none() && !mending {
            opened = opening(&folder, tell);
            if opened.is_none() {
                tell(Told::Done);
                continue;
            }
        }
        let answered = match (ask, opened.as_mut()) {
            (Ask::PutBack(backup), _) => {
                opened = None;
                // Why it cannot be put back is told on the page that offers the others.
                tell(match restore(&folder, &backup, &record::today()) {
                    Ok(kept) => {
                        let kept = record::kept_as(&kept);
                        Told::Said(format!("The backup is back{kept}."))
                    }
                    Err(error) => Told::Failed(error.to_string()),
                });
                Ok(())
            }
            (Ask::BeginAnew, _) => {
                opened = None;
                begin_anew(&folder, &record::today()).map(|kept| {
                    let kept = record::kept_as(&kept);
                    tell(Told::Said(format!("A new record is begun{kept}.")));
                })
            }
            (Ask::Move(storage, to), _) => record::Home::choose(&storage, to.as_deref())
                .and_then(|(home, record, said)| {
                    folder.clone_from(&home.folder);
                    let record = opened.insert(record).record();
                    tell(Told::Moved(home, record.index()?.len()));
                    if let Some(said) = said {
                        tell(Told::Said(said));
                    }
                    look(record, None, false, tell)
                }),
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
        tell(Told::Done);
    }
}

/// Opens the record, or tells why that cannot be.
fn opening(folder: &std::path::Path, tell: &dyn Fn(Told) -> bool) -> Option<Opened> {
    match record::opened(folder) {
        Ok((record, said)) => {
            if let Some(said) = said {
                tell(Told::Said(said));
            }
            Some(record)
        }
        Err(error) => {
            tell(failed(folder, error));
            None
        }
    }
}

const fn only_looks(ask: &Ask) -> bool {
    !matches!(ask, Ask::Do(..))
}

/// Whether a folder holds no record, and could: what can be no folder is said to be none.
fn is_nothing_yet(folder: &std::path::Path) -> bool {
    !record::is_record(folder) && (folder.is_dir() || !folder.exists())
}

/// What is answered where no record is begun yet: looking begins none.
fn of_nothing(ask: Ask, tell: &dyn Fn(Told) -> bool) {
    tell(match ask {
        Ask::History(of) => Told::History(of, Vec::new()),
        Ask::Show(name) => Told::Show(name, Vec::new()),
        Ask::Held(text) => Told::Held(text, Vec::new()),
        _ => Told::Index(Vec::new(), Vec::new(), Vec::new()),
    });
}

fn answer(
    record: &mut dyn Record,
    ask: Ask,
    at: &mut Option<WorkId>,
    tell: &dyn Fn(Told) -> bool,
) -> Result<(), Error> {
    match ask {
        Ask::Look(work) => look(record, work, false, tell)?,
        Ask::History(of) => {
            let mut entries = Vec::new();
            for one in &of {
                entries.extend(record.history(*one)?);
            }
            entries.sort_by_key(|entry| entry.id);
            tell(Told::History(of, entries));
        }
        Ask::Show(name) => {
            let list = record.at_show(&name)?;
            tell(Told::Show(name, list));
        }
        Ask::OfPlan(of) => {
            let prints = record::at_bench::Prints::of_plan(record, &of.0, of.1)?;
            tell(Told::OfPlan(of, prints));
        }
        Ask::Held(text) => {
            let works = record.held_by(&text)?;
            tell(Told::Held(text, works));
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
            let id = one.edition.id;
            let (prints, tiers) = (record.prints(id)?, record.tiers(id)?);
            editions.push(Numbered { row: one.clone(), prints, tiers });
        }
        tell(Told::Prints(Prints { work, new, formats: record.formats(id)?, editions }));
    }
    tell(Told::Index(index, record.sums()?, record.shows()?));
    Ok(())
}
