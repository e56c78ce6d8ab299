//! Shows and galleries: names that prints carry.

use rusqlite::{Transaction, params};

use super::failures::Attempt;
use super::rows::{self, PRINT};
use super::validate;
use crate::{Error, Note, Print};

/// Gives a show another name; each print there gets its own entry in the history. Gives the prints
/// as they were.
pub(super) fn rename(
    tx: &Transaction<'_>,
    from: &str,
    to: &str,
    note: &Note,
) -> Attempt<Vec<Print>> {
    validate::note(note)?;
    validate::text("the name of the show", to)?;
    if to.trim().is_empty() {
        return Err(Error::refused("the show needs a name: type the new one").into());
    }
    let there = "print.live = 1 AND print.state IN ('show', 'sold') AND print.place = ?1";
    let sql = format!("SELECT {PRINT} FROM print WHERE {there} ORDER BY id");
    let were: Vec<Print> =
        tx.prepare(&sql)?.query_map([from], rows::print)?.collect::<Result<_, _>>()?;
    if were.is_empty() {
        return Err(Error::Missing(format!(
            "no print is at a show named {from}: check its name in the list of shows"
        ))
        .into());
    }
    let sql = format!("UPDATE print SET place = ?2, at = ?3, why = ?4 WHERE {there}");
    tx.execute(&sql, params![from, to, note.at, note.why])?;
    Ok(were)
}
