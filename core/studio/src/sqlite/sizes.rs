//! The sizes in which a work is printed.

use rusqlite::Transaction;

use super::failures::Attempt;
use super::{query, write};
use crate::{FormatId, NewFormat, Note, WorkId};

/// The size of a work that has these measures, else one that is added.
pub(super) fn found_or_added(
    tx: &Transaction<'_>,
    work: WorkId,
    size: &NewFormat,
    note: &Note,
) -> Attempt<FormatId> {
    let there = query::formats(tx, work)?.into_iter().find(|one| one.what.measures_as(size));
    match there {
        Some(there) => Ok(there.id),
        None => write::add_format(tx, work, size, note),
    }
}
