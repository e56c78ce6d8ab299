//! What is asked of the record's worker, and what it replies.

use std::path::{Path, PathBuf};

use sightedge_studio::{
    Backup, Contents, Edition, EditionId, EditionRow, Entry, Error, Format, Print,
    PrintDetails, PrintId, Record, Subject, Sums, Tier, Work, WorkId, WorkRow, backups,
    contents,
};

use sightedge_service::record;
use sightedge_service::record::printouts::{Wanted, Whole, Written};

/// What a change came to.
#[derive(Debug, Default)]
pub(super) struct Outcome {
    /// In words.
    pub(super) said: String,
    /// How it is undone, where it can be.
    pub(super) undo: Option<Undo>,
    /// The print that has a plan from now on that it did not have before.
    pub(super) noted: Option<PrintId>,
    /// The print whose number is free again by it.
    pub(super) freed: Option<PrintId>,
    /// A print and the new one that replaces it.
    pub(super) replaced: Option<(PrintId, PrintId)>,
    /// The edition to look at from now on.
    pub(super) edition: Option<EditionId>,
    /// The work to look at from now on; the form that asked is done with.
    pub(super) look: Option<WorkId>,
    /// The show to look at from now on.
    pub(super) show: Option<String>,
}

/// What is undone by a new entry.
pub(super) enum Undo {
    /// A print that was issued, and how that is called.
    Issued(PrintId, String),
    /// A print, what it was before and after, and how that is called.
    Changed {
        print: PrintId,
        before: Box<PrintDetails>,
        after: Box<PrintDetails>,
        what: String,
    },
    /// Anything else: how that is called, and the change that undoes it.
    By(String, Change),
}

impl std::fmt::Debug for Undo {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_tuple("Undo").field(&self.words()).finish()
    }
}

impl Undo {
    /// `issuing 3/25`, `marking 3/25 sold`.
    pub(super) fn words(&self) -> &str {
        match self {
            Self::Issued(_, what) | Self::Changed { what, .. } | Self::By(what, _) => what,
        }
    }
}

/// A change of the record.
pub(super) type Change = Box<dyn FnOnce(&mut dyn Record) -> Result<Outcome, Error> + Send>;

/// What is asked of the record.
pub(super) enum Request {
    /// All works, and the prints of this one.
    Look(Option<WorkId>),
    /// What happened to these.
    History(Vec<Subject>),
    /// The list of a show.
    Show(String),
    /// The prints of a plan.
    OfPlan(OfPlan),
    /// The prints whose buyer or show has this in its name.
    Held(String),
    /// A change; after it, the prints of this work are looked at.
    Change(Change, Option<WorkId>),
    /// Puts a backup in the place of a damaged record.
    Restore(PathBuf),
    /// Sets a damaged record of which there is no backup aside, for a new one.
    BeginAnew,
    /// Keeps the record in another folder; `None` is the usual one.
    Move(Option<PathBuf>),
    /// Writes printouts of these prints.
    Printouts(Box<(Wanted, Vec<Whole>)>),
}

/// What a file or a folder is asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Purpose {
    /// A folder to keep the record in.
    Record,
    /// A folder to write printouts to.
    Printouts,
    /// The picture of a work.
    Picture,
}

/// An edition with all of its prints and prices.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Numbered {
    pub(super) row: EditionRow,
    /// By kind and number; of one number, the older first.
    pub(super) prints: Vec<Print>,
    /// The lowest number first.
    pub(super) tiers: Vec<Tier>,
}

impl Numbered {
    pub(super) const fn edition(&self) -> &Edition {
        &self.row.edition
    }
}

/// The editions of a work with their prints.
#[derive(Debug, Default)]
pub(super) struct Prints {
    pub(super) work: Option<WorkId>,
    /// Whether the work is new and is to be looked at from now on.
    pub(super) new: bool,
    /// The sizes it is printed in.
    pub(super) formats: Vec<Format>,
    pub(super) editions: Vec<Numbered>,
}

/// A damaged record.
#[derive(Debug)]
pub(super) struct Damage {
    /// What is wrong, and what can be done.
    pub(super) words: String,
    /// The backup that is to be put back: at first the newest whole one.
    pub(super) backup: Option<PathBuf>,
    /// All backups and what is in each, the newest first; nothing where it cannot be read.
    pub(super) backups: Vec<(Backup, Option<Contents>)>,
}

impl Damage {
    pub(super) fn new(folder: &Path, words: String, backup: Option<PathBuf>) -> Self {
        let dated = backups(folder).into_iter().rev();
        let backups = dated.map(|one| {
            let held = contents(&one.file);
            (one, held)
        });
        Self { words, backup, backups: backups.collect() }
    }
}

/// A plan, and the print that it names.
pub(super) type OfPlan = (String, Option<u32>);

/// All works, and what is known of the record as a whole.
#[derive(Debug, Default)]
pub(super) struct Index {
    pub(super) works: Vec<WorkRow>,
    pub(super) sums: Vec<Sums>,
    /// Each show with how many prints are there.
    pub(super) shows: Vec<(String, u32)>,
    pub(super) currency: Option<String>,
}

/// What hangs at a show.
pub(super) type AtShow = Vec<(Work, Edition, Print)>;

/// What it replies.
#[derive(Debug)]
pub(super) enum Reply {
    Index(Index),
    Prints(Prints),
    /// Others wrote to the record; what is shown was asked for anew.
    Refreshed,
    History(Vec<Subject>, Vec<Entry>),
    Show(String, AtShow),
    OfPlan(OfPlan, record::at_bench::Prints),
    Held(String, Vec<(WorkId, Print)>),
    /// Another window or program writes to the record, and is waited for.
    Busy,
    Changed(Outcome),
    /// A sentence.
    Said(String),
    /// What could not be done.
    Failed(String),
    Damaged(Damage),
    /// The record is kept there from now on, and holds so many works.
    Moved(record::Home, usize),
    /// What became of printouts.
    Written(Result<Written, String>),
}
