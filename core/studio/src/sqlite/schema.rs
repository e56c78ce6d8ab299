//! Opening the file: its settings, its version, whether it is whole.

use std::path::Path;
use std::time::Duration;

use rusqlite::{Connection, ErrorCode, OpenFlags, TransactionBehavior};

use super::failures::{Attempt, Failure, describe};
use super::{Sqlite, rows, waiting};
use crate::{Contents, Error, VERSION};

/// A version, and the SQL that makes it: of the first all of it, of each later one the step from
/// the one before.
pub(crate) type Rung = (i64, &'static str);

/// All versions that are read, the oldest first. A new one is a file and a rung more. Versions 1
/// to 4 were not released: they are refused, and their numbers stay unused.
pub(crate) const LADDER: [Rung; 2] =
    [(5, include_str!("migrations/0005.sql")), (6, include_str!("migrations/0006.sql"))];

/// SQLite's `application_id` of a studio's record: `SgEd`.
const APPLICATION: i64 = 0x5367_4564;

impl Sqlite {
    /// Opens the record in `file`; makes it where there is none. `before` is called with the
    /// old version before the file is migrated to the newest one of `ladder`.
    pub(crate) fn open(
        file: &Path,
        ladder: &[Rung],
        before: impl FnOnce(&Connection, i64) -> Result<(), Error>,
    ) -> Result<Self, Error> {
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
            | OpenFlags::SQLITE_OPEN_CREATE
            | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let conn =
            Connection::open_with_flags(file, flags).map_err(|error| describe(file, &error))?;
        // A file that opens and cannot be understood is damaged, whatever SQLite calls it: a
        // head of other bytes is an "unsupported file format" to it.
        let failed = |error: rusqlite::Error| match error.sqlite_error_code() {
            Some(ErrorCode::Unknown) => {
                Error::Damaged { file: file.to_owned(), why: error.to_string(), backup: None }
            }
            _ => describe(file, &error),
        };
        let mut record = Self { conn, file: file.to_owned() };
        prepare(&mut record.conn).map_err(failed)?;
        let found = version(&record.conn).map_err(failed)?;
        if found > VERSION {
            return Err(Error::Newer { file: file.to_owned(), found });
        }
        let damaged = |why: String| Error::Damaged { file: file.to_owned(), why, backup: None };
        if !is_ours(&record.conn).map_err(failed)? {
            return Err(damaged("it is a database of another program".to_owned()));
        }
        let oldest = ladder.first().map_or(VERSION, |(oldest, _)| *oldest);
        if (1..oldest).contains(&found) {
            return Err(Error::NeverReleased { file: file.to_owned(), found });
        }
        if found > 0 {
            if let Some(why) = quick_check(&record.conn).map_err(failed)?.into_iter().next() {
                return Err(damaged(why));
            }
            if found < VERSION {
                before(&record.conn, found)?;
            }
        }
        if found < VERSION {
            record.transact(|tx| migrate(tx, ladder))?;
        }
        Ok(record)
    }

    /// A change: whole or not at all, and on the disk when it returns.
    pub(super) fn transact<T>(
        &mut self,
        change: impl FnOnce(&rusqlite::Transaction<'_>) -> Attempt<T>,
    ) -> Result<T, Error> {
        let Self { conn, file } = self;
        let run = || -> Attempt<T> {
            // Immediate: whoever is to write waits at once, and reads what will still be true.
            let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
            let made = change(&tx)?;
            tx.commit()?;
            Ok(made)
        };
        run().map_err(|failure| match failure {
            Failure::Sql(error) => describe(file, &error),
            Failure::Refused(error) => error,
        })
    }

    /// A copy of the whole record as it is now, written to `file`.
    pub(crate) fn copy_to(&self, file: &Path) -> Result<(), Error> {
        copy(&self.conn, file)
    }

    /// How much is in it.
    pub(crate) fn contents(&self) -> rusqlite::Result<Contents> {
        counted(&self.conn)
    }

    /// No more than so many pages from now on: how tests fill a disk.
    pub(crate) fn limit_pages(&self, most: u32) -> Result<(), Error> {
        self.conn
            .pragma_update(None, "max_page_count", most)
            .map_err(|error| describe(&self.file, &error))
    }
}

/// Copies an open record to a file that is whole and on the disk when this returns.
pub(crate) fn copy(conn: &Connection, file: &Path) -> Result<(), Error> {
    let copied = || -> rusqlite::Result<()> {
        let mut to = Connection::open(file)?;
        let backup = rusqlite::backup::Backup::new(conn, &mut to)?;
        backup.run_to_completion(4096, Duration::ZERO, None)?;
        drop(backup);
        // One file, without a log beside it.
        to.pragma_update(None, "journal_mode", "DELETE")?;
        to.close().map_err(|(_, error)| error)
    };
    copied().map_err(|error| describe(file, &error))?;
    let synced = std::fs::File::open(file).and_then(|file| file.sync_all());
    synced.map_err(|error| Error::system(file, error))
}

fn prepare(conn: &mut Connection) -> rusqlite::Result<()> {
    conn.busy_handler(Some(waiting::wait_for_turn))?;
    conn.pragma_update(None, "foreign_keys", true)?;
    // Each change is on the disk when it is reported done, also on systems where a plain
    // fsync stops at the drive's cache.
    conn.pragma_update(None, "synchronous", "FULL")?;
    conn.pragma_update(None, "fullfsync", true)?;
    conn.pragma_update(None, "checkpoint_fullfsync", true)?;
    conn.pragma_update(None, "trusted_schema", false)?;
    conn.set_prepared_statement_cache_capacity(32);
    // The change to a write-ahead log is not waited for by SQLite itself.
    waiting::begin();
    for attempt in 0_i32.. {
        let mode = conn.pragma_update_and_check(None, "journal_mode", "WAL", |row| {
            row.get::<_, String>(0)
        });
        match mode {
            Err(error)
                if error.sqlite_error_code() == Some(ErrorCode::DatabaseBusy)
                    && waiting::go_on(attempt) => {}
            Err(error) => return Err(error),
            Ok(_) => break,
        }
    }
    Ok(())
}

fn version(conn: &Connection) -> rusqlite::Result<i64> {
    conn.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Source: SQLite's documentation of `PRAGMA data_version`: another one after a commit of
/// another connection, the same after its own.
pub(super) fn data_version(conn: &Connection) -> rusqlite::Result<i64> {
    conn.pragma_query_value(None, "data_version", |row| row.get(0))
}

/// How much is in a record of any version; it is not changed.
pub(crate) fn contents(file: &Path) -> rusqlite::Result<Contents> {
    counted(&Connection::open_with_flags(file, OpenFlags::SQLITE_OPEN_READ_ONLY)?)
}

fn counted(conn: &Connection) -> rusqlite::Result<Contents> {
    conn.query_row(
        "SELECT (SELECT count(*) FROM work), (SELECT count(*) FROM print)",
        [],
        |row| Ok(Contents { works: row.get(0)?, prints: row.get(1)? }),
    )
}

/// Whether the file is a studio's record, or empty.
fn is_ours(conn: &Connection) -> rusqlite::Result<bool> {
    let application: i64 = conn.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let tables: i64 =
        conn.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    Ok(application == APPLICATION || tables == 0)
}

/// Takes every step from the record's version to the newest; all of them where it is empty.
fn migrate(tx: &rusqlite::Transaction<'_>, ladder: &[Rung]) -> Attempt<()> {
    // Another process may have done so meanwhile.
    let found = version(tx)?;
    for (to, step) in ladder.iter().filter(|(to, _)| *to > found) {
        tx.execute_batch(step)?;
        tx.pragma_update(None, "user_version", to)?;
    }
    tx.pragma_update(None, "application_id", APPLICATION)?;
    Ok(())
}

/// What SQLite's quick check finds; empty where every page is sound.
fn quick_check(conn: &Connection) -> rusqlite::Result<Vec<String>> {
    messages(conn, "PRAGMA quick_check(20)")
}

fn messages(conn: &Connection, question: &str) -> rusqlite::Result<Vec<String>> {
    let mut statement = conn.prepare(question)?;
    let describe = statement.query_map([], |row| row.get::<_, String>(0))?;
    let describe: Vec<String> = describe.collect::<rusqlite::Result<_>>()?;
    Ok(describe.into_iter().filter(|line| line != "ok").collect())
}

/// SQLite's full check of the file, and whether the record agrees with its own history.
pub(super) fn full_check(conn: &Connection) -> rusqlite::Result<Vec<String>> {
    let mut wrong = messages(conn, "PRAGMA integrity_check(50)")?;
    let mut statement = conn.prepare("PRAGMA foreign_key_check")?;
    let mut lost = statement.query([])?;
    while let Some(row) = lost.next()? {
        let table: String = row.get(0)?;
        wrong.push(format!("a {table} refers to something that is not there"));
    }
    for question in [HELD_TWICE, UNLIKE_ITS_HISTORY] {
        wrong.extend(rows::texts(conn, question)?);
    }
    Ok(wrong)
}

/// Two live prints with one number.
const HELD_TWICE: &str = "
    SELECT work.catalogue || ': number ' || print.number || ' is held by two prints'
    FROM print JOIN edition ON edition.id = print.edition JOIN work ON work.id = edition.work
    WHERE print.live = 1
    GROUP BY print.edition, print.kind, print.number HAVING count(*) > 1";

/// Prints that differ from their last entry.
const UNLIKE_ITS_HISTORY: &str = "
    SELECT work.catalogue || ': ' ||
        CASE print.kind WHEN 'numbered' THEN 'number' ELSE upper(print.kind) END ||
        ' ' || print.number || ' (print ' || print.id ||
        CASE WHEN payload IS NULL THEN ') has no history' ELSE
            ') is not what its history says: look at the history, and correct the print' END
    FROM print JOIN edition ON edition.id = print.edition JOIN work ON work.id = edition.work
        LEFT JOIN history ON history.id = (SELECT max(id) FROM history
            WHERE subject = 'print' AND subject_id = print.id)
    WHERE payload IS NULL
        OR json_extract(payload, '$.kind') IS NOT print.kind
        OR json_extract(payload, '$.number') IS NOT print.number
        OR json_extract(payload, '$.live') IS NOT print.live
        OR json_extract(payload, '$.replaces') IS NOT print.replaces
        OR json_extract(payload, '$.format') IS NOT print.format
        OR json_extract(payload, '$.state') IS NOT print.state
        OR json_extract(payload, '$.place') IS NOT nullif(print.place, '')
        OR json_extract(payload, '$.printed') IS NOT nullif(print.printed, '')
        OR json_extract(payload, '$.matted') IS NOT nullif(print.matted, '')
        OR json_extract(payload, '$.plan') IS NOT nullif(print.plan, '')
        OR json_extract(payload, '$.plan_file') IS NOT nullif(print.plan_file, '')
        OR json_extract(payload, '$.cents') IS NOT print.cents
        OR json_extract(payload, '$.currency') IS NOT nullif(print.currency, '')
        OR json_extract(payload, '$.buyer') IS NOT nullif(print.buyer, '')
    LIMIT 50";

/// Whether a file beside the record is a whole record itself; it is not changed.
pub(crate) fn is_whole(file: &Path) -> bool {
    let checked = || -> rusqlite::Result<bool> {
        let conn = Connection::open_with_flags(file, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
        Ok(version(&conn)? > 0 && is_ours(&conn)? && quick_check(&conn)?.is_empty())
    };
    file.is_file() && checked().unwrap_or(false)
}

#[cfg(test)]
mod tests;
