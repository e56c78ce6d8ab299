//! The currency of the price that was noted last, kept as a setting of the record.

use rusqlite::{Connection, OptionalExtension, Transaction};

use super::failures::Attempt;
use crate::Money;

/// The setting.
const KEY: &str = "currency";

pub(super) fn last(conn: &Connection) -> rusqlite::Result<Option<String>> {
    let sql = "SELECT value FROM setting WHERE key = ?1";
    conn.prepare_cached(sql)?.query_row([KEY], |row| row.get(0)).optional()
}

/// Remembers the currency of a price, within the change that notes the price.
pub(super) fn remember(tx: &Transaction<'_>, price: &Money) -> Attempt<()> {
    let sql = "INSERT INTO setting (key, value) VALUES (?1, ?2)
               ON CONFLICT (key) DO UPDATE SET value = excluded.value
               WHERE value <> excluded.value";
    tx.prepare_cached(sql)?.execute([KEY, &price.currency])?;
    Ok(())
}
