//! The queries and changes of a record, whatever stores it. Today that is SQLite; studios with
//! several seats will want the same over PostgreSQL.

use crate::{
    Change, Correction, Dump, Edition, EditionId, Entry, Error, Format, FormatId, Issue,
    NewEdition, NewFormat, NewWork, Note, Print, PrintId, Registration, Subject, Sums,
    TakenOver, Tier, Work, WorkId, WorkRow,
};

/// The record of a studio. Each change is done whole or not at all, is on the disk when it
/// returns, and leaves its entry in the history.
pub trait Record {
    /// The currency of the price that was noted last; `None` before the first. It is that of the
    /// next price that names none.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn last_currency(&self) -> Result<Option<String>, Error>;

    /// A number that changes whenever another connection writes to the record: another window,
    /// another program. Cheap to ask.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn pulse(&self) -> Result<i64, Error>;

    /// Adds a work; without a catalogue number it gets the next.
    ///
    /// # Errors
    /// Where the catalogue number is taken, a text is no text, or the disk is full.
    fn add_work(
        &mut self,
        work: &NewWork,
        catalogue: Option<&str>,
        note: &Note,
    ) -> Result<WorkId, Error>;

    /// Registers a work, a size and an edition in one step: none of them where a part is refused.
    ///
    /// # Errors
    /// Where a part is refused, or the work is printed in that size already.
    fn register(
        &mut self,
        what: &Registration,
        note: &Note,
    ) -> Result<(WorkId, Option<EditionId>), Error>;

    /// Corrects a work.
    ///
    /// # Errors
    /// As [`Record::add_work`].
    fn correct_work(&mut self, id: WorkId, work: &NewWork, note: &Note) -> Result<(), Error>;

    /// Adds a format to a work.
    ///
    /// # Errors
    /// Where there is no such work, a size is less than zero, or the record cannot be
    /// written.
    fn add_format(
        &mut self,
        work: WorkId,
        format: &NewFormat,
        note: &Note,
    ) -> Result<FormatId, Error>;

    /// Corrects a format, also where prints of it are issued: a size typed wrong was wrong for them,
    /// too.
    ///
    /// # Errors
    /// Where there is no such format, or as [`Record::add_format`].
    fn correct_format(
        &mut self,
        id: FormatId,
        format: &NewFormat,
        note: &Note,
    ) -> Result<(), Error>;

    /// Opens an edition.
    ///
    /// # Errors
    /// Where size or proofs are refused.
    fn open_edition(
        &mut self,
        work: WorkId,
        edition: &NewEdition,
        note: &Note,
    ) -> Result<EditionId, Error>;

    /// Changes an edition. Its size and proofs only before the first print is issued.
    ///
    /// # Errors
    /// Where the change is refused.
    fn change_edition(
        &mut self,
        id: EditionId,
        edition: &NewEdition,
        note: &Note,
    ) -> Result<(), Error>;

    /// Sets what prints cost from a number on.
    ///
    /// # Errors
    /// Where there is no such edition or number.
    fn set_tier(&mut self, tier: &Tier, note: &Note) -> Result<(), Error>;

    /// Corrects a work and what belongs to it, withdraws it or brings it back: all of it or nothing.
    ///
    /// # Errors
    /// As [`Record::correct_work`], [`Record::correct_format`], [`Record::change_edition`] and
    /// [`Record::set_tier`]; where the catalogue number is taken, or prints of a work that is to be
    /// withdrawn are issued.
    fn correct(&mut self, work: WorkId, what: &Correction, note: &Note) -> Result<(), Error>;

    /// Issues a print, and adds its size to the work where that is a new one.
    ///
    /// # Errors
    /// Where the number is taken or there is none left; then no size is added either.
    fn issue(&mut self, issue: &Issue, note: &Note) -> Result<Print, Error>;

    /// Takes over an edition under way: all numbers or none.
    ///
    /// # Errors
    /// Where one of the numbers is taken or beyond the edition.
    fn take_over(&mut self, taken: &TakenOver, note: &Note) -> Result<u32, Error>;

    /// Changes a print: it moves, is corrected or voided.
    ///
    /// # Errors
    /// Where it no longer holds its number.
    fn change(&mut self, print: PrintId, change: &Change, note: &Note) -> Result<Print, Error>;

    /// Changes several prints, each as is said beside it: all of them or none.
    ///
    /// # Errors
    /// As [`Record::change`]; names the print that is refused.
    fn change_all(
        &mut self,
        changes: &[(PrintId, Change)],
        note: &Note,
    ) -> Result<Vec<Print>, Error>;

    /// Gives a show another name, with every live print that is there or was sold there. Gives the
    /// prints as they were.
    ///
    /// # Errors
    /// Where no print is there.
    fn rename_show(&mut self, from: &str, to: &str, note: &Note) -> Result<Vec<Print>, Error>;

    /// Replaces a destroyed print under its number: the new one goes with the same plan, and so
    /// gets the same mat and inscription.
    ///
    /// # Errors
    /// Where it is not destroyed, or is replaced already.
    fn replace(&mut self, destroyed: PrintId, note: &Note) -> Result<Print, Error>;

    /// Every work with its editions and their counts, by catalogue number; withdrawn ones too.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn index(&self) -> Result<Vec<WorkRow>, Error>;

    /// A work.
    ///
    /// # Errors
    /// Where there is none.
    fn work(&self, id: WorkId) -> Result<Work, Error>;

    /// The formats of a work.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn formats(&self, work: WorkId) -> Result<Vec<Format>, Error>;

    /// An edition.
    ///
    /// # Errors
    /// Where there is none.
    fn edition(&self, id: EditionId) -> Result<Edition, Error>;

    /// The price tiers of an edition, the lowest number first.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn tiers(&self, edition: EditionId) -> Result<Vec<Tier>, Error>;

    /// The prints of an edition by kind and number; of one number, the older first.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn prints(&self, edition: EditionId) -> Result<Vec<Print>, Error>;

    /// A print.
    ///
    /// # Errors
    /// Where there is none.
    fn print(&self, id: PrintId) -> Result<Print, Error>;

    /// The live prints that go with a plan, with their work and edition, by kind and number;
    /// and `also` that print, live or not, where it goes with the plan.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn prints_of_plan(
        &self,
        plan: &str,
        also: Option<PrintId>,
    ) -> Result<Vec<(Work, Edition, Print)>, Error>;

    /// The live prints at a show and those sold there, with their work and edition, in the order of
    /// the catalogue.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn at_show(&self, place: &str) -> Result<Vec<(Work, Edition, Print)>, Error>;

    /// The live prints whose buyer's note or show has `text` in it, with their work, by work, edition
    /// and number; capitals do not matter.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn held_by(&self, text: &str) -> Result<Vec<(WorkId, Print)>, Error>;

    /// Every show and gallery where a live print is, and how many.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn shows(&self) -> Result<Vec<(String, u32)>, Error>;

    /// What prints were sold for and are offered for, by currency.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn sums(&self) -> Result<Vec<Sums>, Error>;

    /// What happened to a work, a format, an edition or a print, the oldest first.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn history(&self, of: Subject) -> Result<Vec<Entry>, Error>;

    /// What is wrong with the record; nothing where all is well.
    ///
    /// # Errors
    /// Where it cannot be read at all.
    fn check(&self) -> Result<Vec<String>, Error>;

    /// All of it.
    ///
    /// # Errors
    /// Where the record cannot be read.
    fn dump(&self) -> Result<Dump, Error>;

    /// Fills an empty record with all of another.
    ///
    /// # Errors
    /// Where this one is not empty, or the other contradicts itself.
    fn fill(&mut self, dump: &Dump) -> Result<(), Error>;
}
