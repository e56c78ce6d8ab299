//! What is known of the record, as its worker last replied.

use sightedge_studio::{Entry, Print, PrintId, Subject, Sums, Work, WorkId, WorkRow};

use super::messages::{AtShow, Numbered, OfPlan, Prints};
use sightedge_service::record::at_bench;

/// What is known of the record.
#[derive(Debug, Default)]
pub(super) struct Cache {
    /// `None` until the record was opened.
    pub(super) works: Option<Vec<WorkRow>>,
    pub(super) sums: Vec<Sums>,
    /// Each show with how many prints are there.
    pub(super) shows: Vec<(String, u32)>,
    /// The show that was chosen, and what hangs there.
    pub(super) show: Option<(String, AtShow)>,
    /// Of the work that is chosen.
    pub(super) prints: Prints,
    /// What was looked at, and what happened to it.
    pub(super) history: Option<(Vec<Subject>, Vec<Entry>)>,
    /// The prints whose buyer or show has this text in its name, by work.
    pub(super) held: Option<(String, Vec<(WorkId, Print)>)>,
    /// The record's currency, once a price was noted.
    pub(super) currency: Option<String>,
    /// Of the plan in front.
    pub(super) of_plan: Option<(OfPlan, at_bench::Prints)>,
    /// Of the last work, proposed for the next.
    pub(super) maker: String,
}

impl Cache {
    /// A work of the record.
    pub(super) fn work(&self, id: WorkId) -> Option<&WorkRow> {
        self.works.iter().flatten().find(|row| row.work.id == id)
    }

    /// The work whose picture has that content.
    pub(super) fn work_of_picture(&self, sha256: &str) -> Option<WorkId> {
        let mut works = self.works.iter().flatten().map(|row| &row.work);
        let same = |work: &&Work| !sha256.is_empty() && work.what.sha256 == sha256;
        works.find(same).map(|work| work.id)
    }

    /// The edition that a print of the chosen work is of.
    pub(super) fn edition_of(&self, id: PrintId) -> Option<&Numbered> {
        let has = |one: &&Numbered| one.prints.iter().any(|print| print.id == id);
        self.prints.editions.iter().find(has)
    }
}
