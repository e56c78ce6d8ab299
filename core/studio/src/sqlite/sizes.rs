//! The sizes in which a work is printed.

use rusqlite::Transaction;

use super::failures::Step;
use super::{asked, done};
use crate::{FormatId, NewFormat, Note, WorkId};

/// The size of a work that has these measures, else one that is added.
pub(super) fn found_or_added(
    tx: &Transaction<'_>,
    work: WorkId,
    size: &NewFormat,
    note: &Note,
) -> Step<FormatId> {
    let there = asked::formats(tx, work)?.into_iter().find(|one| one.what.measures_as(size));
    match there {
        Some(there) => Ok(there.id),
        None => done::add_format(tx, work, size, note),
    }
}
