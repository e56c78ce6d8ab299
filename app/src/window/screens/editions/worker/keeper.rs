//! What the worker does: it keeps the record open and answers each request.

use std::path::{Path, PathBuf};
use std::time::Duration;

use sightedge_pictures::CancelToken;
use sightedge_studio::{Error, Opened, Record, WorkId, begin_anew, restore};

use crate::window::screens::editions::messages::{
    Damage, Index, Numbered, Outcome, Prints, Reply, Request,
};
use crate::window::workers::{Job, ReplySender};
use sightedge_service::record::printouts::{pieces, write};
use sightedge_service::record::{self, Home};
use sightedge_service::storage::Storage;

type Replies = ReplySender<Reply>;

/// Keeps the record open, once it was needed.
pub(super) struct Keeper {
    storage: Storage,
    folder: PathBuf,
    opened: Option<Opened>,
    seen: Seen,
    /// Whether something was changed that is in no backup yet.
    changed: bool,
    /// Whether there is no record yet, as far as was looked.
    none_yet: bool,
}

/// What others wrote since it was last looked at.
#[derive(Default)]
struct Seen {
    pulse: Option<i64>,
    /// The work that is looked at.
    work: Option<WorkId>,
}

impl Seen {
    /// Tells what others wrote, if they did.
    fn look(&mut self, opened: &mut Opened, replies: &Replies) -> Result<(), Error> {
        let pulse = Some(opened.read().pulse()?);
        if pulse != self.pulse {
            self.pulse = pulse;
            look(opened.read(), self.work, false, replies)?;
            replies.send(Reply::Refreshed);
        }
        Ok(())
    }
}

impl Job for Keeper {
    type Request = Request;
    type Reply = Reply;

    /// How often it looks whether others wrote to the record. That reads a few bytes of shared
    /// memory and wakes no window.
    const IDLE_AFTER: Option<Duration> = Some(Duration::from_secs(1));
    /// So that what was entered last is in a backup before the program ends. Where that hangs,
    /// the record itself has all that was said to be in it.
    const FINISH_WITHIN: Duration = Duration::from_secs(10);

    // What was entered is carried out even when the window closes: no request minds its token.
    fn run(&mut self, request: Request, _: &CancelToken, replies: &Replies) -> Option<Reply> {
        let busy = replies.clone();
        record::when_waiting(move || busy.send(Reply::Busy));
        if self.opened.as_ref().is_some_and(Opened::replaced) {
            self.opened = None;
        }
        let mends =
            matches!(request, Request::Restore(_) | Request::BeginAnew | Request::Move(..));
        self.none_yet = self.opened.is_none()
            && !mends
            && !matches!(request, Request::Change(..))
            && is_nothing_yet(&self.folder);
        if self.none_yet {
            return Some(of_nothing(request));
        }
        if self.opened.is_none() && !mends {
            self.open(replies);
            self.opened.as_ref()?;
        }
        if let Err(error) = self.answer(request, replies) {
            self.failed(error, replies);
        }
        None
    }

    fn panicked(&mut self, words: String) -> Option<Reply> {
        // Nothing is known of what it left behind: it is opened anew.
        self.opened = None;
        self.seen.pulse = None;
        Some(Reply::Failed(words))
    }

    fn idle(&mut self, replies: &Replies) {
        // Another window began it, or put a backup in its place.
        let begun = self.none_yet && record::is_record(&self.folder);
        if begun || self.opened.as_ref().is_some_and(Opened::replaced) {
            self.opened = record::opened(&self.folder).ok().map(|(record, _)| record);
            self.seen.pulse = None;
            self.none_yet = false;
        }
        if let Some(record) = &mut self.opened
            && let Err(error) = self.seen.look(record, replies)
        {
            self.failed(error, replies);
        }
        // At rest; a backup that cannot be made is tried again, the next opening tells.
        if self.changed
            && let Some(record) = &self.opened
            && record.back_up_change(&record::today()).is_ok_and(|it| it.is_some())
        {
            self.changed = false;
        }
    }

    fn finish(&mut self) {
        if self.changed
            && let Some(record) = self.opened.as_ref().filter(|record| !record.replaced())
        {
            // There is nobody left to be told; the next opening tries again.
            record.back_up_anew(&record::today(), Duration::ZERO).unwrap_or_default();
        }
    }
}

impl Keeper {
    /// None is open yet.
    pub(super) fn new(storage: Storage, folder: PathBuf) -> Self {
        let seen = Seen::default();
        Self { storage, folder, opened: None, seen, changed: false, none_yet: false }
    }

    /// Opens the record, or tells why that cannot be.
    fn open(&mut self, replies: &Replies) {
        match record::opened(&self.folder) {
            Ok((record, said)) => {
                if let Some(said) = said {
                    replies.send(Reply::Said(said));
                }
                self.opened = Some(record);
            }
            Err(error) => replies.send(failed(&self.folder, error)),
        }
    }

    /// What went wrong with an open record. A damaged one is opened anew, which finds the newest
    /// whole backup.
    fn failed(&mut self, mut error: Error, replies: &Replies) {
        if matches!(error, Error::Damaged { .. }) {
            self.opened = None;
            error = record::opened(&self.folder).err().unwrap_or(error);
        }
        replies.send(failed(&self.folder, error));
    }

    fn answer(&mut self, request: Request, replies: &Replies) -> Result<(), Error> {
        match (request, self.opened.as_mut()) {
            (Request::Restore(backup), _) => {
                self.opened = None;
                // Why it cannot be put back is told on the page that offers the others.
                replies.send(match restore(&self.folder, &backup, &record::today()) {
                    Ok(kept) => {
                        let kept = record::kept_as(&kept);
                        Reply::Said(format!("The backup is restored{kept}."))
                    }
                    Err(error) => Reply::Failed(error.to_string()),
                });
                Ok(())
            }
            (Request::BeginAnew, _) => {
                self.opened = None;
                let kept = begin_anew(&self.folder, &record::today())?;
                let kept = record::kept_as(&kept);
                replies.send(Reply::Said(format!("A new record is begun{kept}.")));
                Ok(())
            }
            (Request::Move(to), _) => {
                let (home, record, said) = Home::choose(&self.storage, to.as_deref())?;
                self.folder.clone_from(&home.folder);
                let record = self.opened.insert(record).record();
                replies.send(Reply::Moved(home, record.index()?.len()));
                if let Some(said) = said {
                    replies.send(Reply::Said(said));
                }
                look(record, None, false, replies)
            }
            (_, None) => Ok(()),
            (request, Some(record)) => {
                if let Request::Look(work) | Request::Change(_, work) = &request {
                    // Before it is looked at: what comes between is told once more.
                    self.seen = Seen { pulse: record.read().pulse().ok(), work: *work };
                }
                self.changed |= matches!(request, Request::Change(..));
                if let Request::Printouts(printouts) = &request {
                    record::keep_folder_for_printouts(&self.storage, &printouts.0.out);
                }
                answer(record.record(), request, &mut self.seen.work, replies)
            }
        }
    }
}

fn failed(folder: &Path, error: Error) -> Reply {
    let words = error.to_string();
    match error {
        Error::Damaged { backup, .. } => Reply::Damaged(Damage::new(folder, words, backup)),
        _ => Reply::Failed(words),
    }
}

/// Whether a folder holds no record, and could: what can be no folder is said to be none.
fn is_nothing_yet(folder: &Path) -> bool {
    !record::is_record(folder) && (folder.is_dir() || !folder.exists())
}

/// What is answered where no record is begun yet: looking begins none.
fn of_nothing(request: Request) -> Reply {
    match request {
        Request::History(of) => Reply::History(of, Vec::new()),
        Request::Show(name) => Reply::Show(name, Vec::new()),
        Request::Held(text) => Reply::Held(text, Vec::new()),
        _ => Reply::Index(Index::default()),
    }
}

/// Answers what needs nothing but the record.
fn answer(
    record: &mut dyn Record,
    request: Request,
    at: &mut Option<WorkId>,
    replies: &Replies,
) -> Result<(), Error> {
    match request {
        Request::Look(work) => look(record, work, false, replies)?,
        Request::History(of) => {
            let mut entries = Vec::new();
            for one in &of {
                entries.extend(record.history(*one)?);
            }
            entries.sort_by_key(|entry| entry.id);
            replies.send(Reply::History(of, entries));
        }
        Request::Show(name) => {
            let list = record.at_show(&name)?;
            replies.send(Reply::Show(name, list));
        }
        Request::OfPlan(of) => {
            let prints = record::at_bench::Prints::of_plan(record, &of.0, of.1)?;
            replies.send(Reply::OfPlan(of, prints));
        }
        Request::Held(text) => {
            let prints = record.held_by(&text)?;
            replies.send(Reply::Held(text, prints));
        }
        Request::Change(change, work) => {
            let outcome: Result<Outcome, Error> = change(record);
            let new = outcome.as_ref().ok().and_then(|outcome| outcome.look);
            *at = new.or(work);
            // What others did meanwhile is seen even where this could not be done.
            look(record, *at, new.is_some(), replies)?;
            replies.send(Reply::Changed(outcome?));
        }
        Request::Printouts(printouts) => {
            let (wanted, prints) = *printouts;
            let unit = wanted.sheet.unit();
            let pieces = pieces(record, &prints, unit).map_err(|error| error.to_string());
            replies.send(Reply::Written(pieces.and_then(|pieces| write(&wanted, &pieces))));
        }
        Request::Restore(_) | Request::BeginAnew | Request::Move(..) => {}
    }
    Ok(())
}

fn look(
    record: &dyn Record,
    work: Option<WorkId>,
    new: bool,
    replies: &Replies,
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
        let formats = record.formats(id)?;
        replies.send(Reply::Prints(Prints { work, new, formats, editions }));
    }
    replies.send(Reply::Index(Index {
        works: index,
        sums: record.sums()?,
        shows: record.shows()?,
        currency: record.last_currency()?,
    }));
    Ok(())
}
