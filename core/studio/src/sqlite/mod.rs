//! The record over SQLite. All SQL of this package is in here.

mod currency;
mod failures;
mod prints;
mod query;
mod register;
mod rows;
mod schema;
mod shows;
mod sizes;
mod validate;
mod waiting;
mod whole;
mod write;

use std::path::{Path, PathBuf};

use rusqlite::Connection;

use crate::{
    Change, Correction, Dump, Edition, EditionId, Entry, Error, Format, FormatId, Issue,
    NewEdition, NewFormat, NewWork, Note, Print, PrintId, Record, Registration, Subject, Sums,
    TakenOver, Tier, Work, WorkId, WorkRow,
};

pub(crate) use schema::{LADDER, Rung, contents, copy, is_whole};
pub use waiting::when_waiting;

/// A record in one SQLite file.
#[derive(Debug)]
pub(crate) struct Sqlite {
    conn: Connection,
    file: PathBuf,
}

impl Sqlite {
    /// Turns SQLite's error into one of the record.
    fn failed(&self) -> impl Fn(rusqlite::Error) -> Error + use<'_> {
        |error| failures::describe(&self.file, &error)
    }

    pub(crate) fn file(&self) -> &Path {
        &self.file
    }
}

impl Record for Sqlite {
    fn last_currency(&self) -> Result<Option<String>, Error> {
        currency::last(&self.conn).map_err(self.failed())
    }

    fn pulse(&self) -> Result<i64, Error> {
        schema::data_version(&self.conn).map_err(self.failed())
    }

    fn add_work(
        &mut self,
        work: &NewWork,
        catalogue: Option<&str>,
        note: &Note,
    ) -> Result<WorkId, Error> {
        self.transact(|tx| write::add_work(tx, work, catalogue, note))
    }

    fn register(
        &mut self,
        what: &Registration,
        note: &Note,
    ) -> Result<(WorkId, Option<EditionId>), Error> {
        self.transact(|tx| register::register(tx, what, note))
    }

    fn correct_work(&mut self, id: WorkId, work: &NewWork, note: &Note) -> Result<(), Error> {
        self.transact(|tx| write::correct_work(tx, id, work, note))
    }

    fn add_format(
        &mut self,
        work: WorkId,
        format: &NewFormat,
        note: &Note,
    ) -> Result<FormatId, Error> {
        self.transact(|tx| write::add_format(tx, work, format, note))
    }

    fn correct_format(
        &mut self,
        id: FormatId,
        format: &NewFormat,
        note: &Note,
    ) -> Result<(), Error> {
        self.transact(|tx| write::correct_format(tx, id, format, note))
    }

    fn open_edition(
        &mut self,
        work: WorkId,
        edition: &NewEdition,
        note: &Note,
    ) -> Result<EditionId, Error> {
        self.transact(|tx| write::open_edition(tx, work, edition, note))
    }

    fn change_edition(
        &mut self,
        id: EditionId,
        edition: &NewEdition,
        note: &Note,
    ) -> Result<(), Error> {
        self.transact(|tx| write::change_edition(tx, id, edition, note))
    }

    fn set_tier(&mut self, tier: &Tier, note: &Note) -> Result<(), Error> {
        self.transact(|tx| write::set_tier(tx, tier, note))
    }

    fn correct(&mut self, work: WorkId, what: &Correction, note: &Note) -> Result<(), Error> {
        self.transact(|tx| write::correct(tx, work, what, note))
    }

    fn issue(&mut self, issue: &Issue, note: &Note) -> Result<Print, Error> {
        self.transact(|tx| prints::issue(tx, issue, note))
    }

    fn take_over(&mut self, taken: &TakenOver, note: &Note) -> Result<u32, Error> {
        self.transact(|tx| prints::take_over(tx, taken, note))
    }

    fn change(&mut self, print: PrintId, change: &Change, note: &Note) -> Result<Print, Error> {
        self.transact(|tx| prints::change(tx, print, change, note))
    }

    fn change_all(
        &mut self,
        changes: &[(PrintId, Change)],
        note: &Note,
    ) -> Result<Vec<Print>, Error> {
        self.transact(|tx| prints::change_all(tx, changes, note))
    }

    fn rename_show(&mut self, from: &str, to: &str, note: &Note) -> Result<Vec<Print>, Error> {
        self.transact(|tx| shows::rename(tx, from, to, note))
    }

    fn replace(&mut self, destroyed: PrintId, note: &Note) -> Result<Print, Error> {
        self.transact(|tx| prints::replace(tx, destroyed, note))
    }

    fn index(&self) -> Result<Vec<WorkRow>, Error> {
        query::index(&self.conn).map_err(self.failed())
    }

    fn work(&self, id: WorkId) -> Result<Work, Error> {
        let found = query::work(&self.conn, id).map_err(self.failed())?;
        found.ok_or_else(|| Error::Missing(format!("there is no work {}: list them", id.0)))
    }

    fn formats(&self, work: WorkId) -> Result<Vec<Format>, Error> {
        query::formats(&self.conn, work).map_err(self.failed())
    }

    fn edition(&self, id: EditionId) -> Result<Edition, Error> {
        let found = query::edition(&self.conn, id).map_err(self.failed())?;
        found.ok_or_else(|| Error::Missing(format!("there is no edition {}: list them", id.0)))
    }

    fn tiers(&self, edition: EditionId) -> Result<Vec<Tier>, Error> {
        query::tiers(&self.conn, edition).map_err(self.failed())
    }

    fn prints(&self, edition: EditionId) -> Result<Vec<Print>, Error> {
        query::prints(&self.conn, edition).map_err(self.failed())
    }

    fn print(&self, id: PrintId) -> Result<Print, Error> {
        let found = query::print(&self.conn, id).map_err(self.failed())?;
        found.ok_or_else(|| Error::Missing(format!("there is no print {}: list them", id.0)))
    }

    fn prints_of_plan(
        &self,
        plan: &str,
        also: Option<PrintId>,
    ) -> Result<Vec<(Work, Edition, Print)>, Error> {
        query::prints_of_plan(&self.conn, plan, also).map_err(self.failed())
    }

    fn at_show(&self, place: &str) -> Result<Vec<(Work, Edition, Print)>, Error> {
        query::at_show(&self.conn, place).map_err(self.failed())
    }

    fn held_by(&self, text: &str) -> Result<Vec<(WorkId, Print)>, Error> {
        query::held_by(&self.conn, text).map_err(self.failed())
    }

    fn shows(&self) -> Result<Vec<(String, u32)>, Error> {
        query::shows(&self.conn).map_err(self.failed())
    }

    fn sums(&self) -> Result<Vec<Sums>, Error> {
        query::sums(&self.conn).map_err(self.failed())
    }

    fn history(&self, of: Subject) -> Result<Vec<Entry>, Error> {
        query::history(&self.conn, of).map_err(self.failed())
    }

    fn check(&self) -> Result<Vec<String>, Error> {
        schema::full_check(&self.conn).map_err(self.failed())
    }

    fn dump(&self) -> Result<Dump, Error> {
        whole::dump(&self.conn).map_err(self.failed())
    }

    fn fill(&mut self, dump: &Dump) -> Result<(), Error> {
        self.transact(|tx| whole::fill(tx, dump))
    }
}
