//! The whole record out of the database, and into an empty one.

use rusqlite::{Connection, Transaction, params};

use super::failures::Attempt;
use super::rows::{self, EDITION, ENTRY, FORMAT, PRINT, WORK};
use super::validate;
use crate::{Dump, Edition, Entry, Error, Format, Print, Setting, Tier, Work};

/// The version of the form in which a whole record is written.
const FORM: u32 = 2;
/// The oldest that is read: form 1 has none of the certificate's fields, and no work withdrawn.
const OLDEST_FORM: u32 = 1;

/// What marks the time in which the history does not write itself.
const REBUILDING: &str = "rebuilding";

pub(super) fn dump(conn: &Connection) -> rusqlite::Result<Dump> {
    // One moment for all tables, whatever others write meanwhile.
    let conn = conn.unchecked_transaction()?;
    let mut setting = conn.prepare("SELECT key, value FROM setting ORDER BY key")?;
    let settings = setting
        .query_map([], |row| Ok(Setting { key: row.get(0)?, value: row.get(1)? }))?
        .collect::<rusqlite::Result<_>>()?;
    let tiers = "SELECT edition, first, cents, currency FROM tier ORDER BY edition, first";
    Ok(Dump {
        version: FORM,
        settings,
        works: all(&conn, &format!("SELECT {WORK} FROM work ORDER BY id"), rows::work)?,
        formats: all(&conn, &format!("SELECT {FORMAT} FROM format ORDER BY id"), rows::format)?,
        editions: all(
            &conn,
            &format!("SELECT {EDITION} FROM edition ORDER BY id"),
            rows::edition,
        )?,
        tiers: all(&conn, tiers, rows::tier)?,
        prints: all(&conn, &format!("SELECT {PRINT} FROM print ORDER BY id"), rows::print)?,
        history: all(&conn, &format!("SELECT {ENTRY} FROM history ORDER BY id"), rows::entry)?,
    })
}

fn all<T>(
    conn: &Connection,
    sql: &str,
    read: fn(&rusqlite::Row<'_>) -> rusqlite::Result<T>,
) -> rusqlite::Result<Vec<T>> {
    conn.prepare(sql)?.query_map([], read)?.collect()
}

pub(super) fn fill(tx: &Transaction<'_>, dump: &Dump) -> Attempt<()> {
    let Dump { version, settings, works, formats, editions, tiers, prints, history } = dump;
    if !(OLDEST_FORM..=FORM).contains(version) {
        return Err(Error::Unreadable(format!(
            "this export is in form {version}, and this program reads forms {OLDEST_FORM} to \
             {FORM}: import it with the program that wrote it, or a newer one"
        ))
        .into());
    }
    let empty: bool =
        tx.query_row("SELECT NOT EXISTS (SELECT 1 FROM work)", [], |row| row.get(0))?;
    if !empty {
        return Err(Error::refused(
            "the record holds works already: import into a new, empty folder",
        )
        .into());
    }
    if settings.iter().any(|setting| setting.key == REBUILDING) {
        return Err(Error::Unreadable(format!(
            "the export has a setting {REBUILDING}, a name this program uses itself: take it out"
        ))
        .into());
    }
    // A print may come before the one it replaces.
    tx.pragma_update(None, "defer_foreign_keys", true)?;
    tx.execute("DELETE FROM setting", [])?;
    tx.execute("INSERT INTO setting (key, value) VALUES (?1, '')", [REBUILDING])?;
    for Setting { key, value } in settings {
        validate::text("a setting", value)?;
        tx.prepare_cached("INSERT INTO setting (key, value) VALUES (?1, ?2)")?
            .execute([key, value])?;
    }
    // Of works, editions and prints, the time of the last change is their last entry's.
    let last = last_entries(history);
    let at = |subject: &str, id: i64| {
        last.get(&(subject, id)).copied().unwrap_or(("0000-01-01", ""))
    };
    for work in works {
        insert_work(tx, work, at("work", work.id.0))?;
    }
    for format in formats {
        insert_format(tx, format, at("format", format.id.0))?;
    }
    for edition in editions {
        insert_edition(tx, edition, at("edition", edition.id.0))?;
    }
    for tier in tiers {
        insert_tier(tx, tier, at("tier", tier.edition.0))?;
    }
    for print in prints {
        insert_print(tx, print, at("print", print.id.0))?;
    }
    for entry in history {
        insert_entry(tx, entry)?;
    }
    tx.execute("DELETE FROM setting WHERE key = ?1", [REBUILDING])?;
    if let Some(wrong) = print_without_history(tx)? {
        return Err(Error::Unreadable(wrong).into());
    }
    Ok(())
}

type Last<'a> = std::collections::BTreeMap<(&'a str, i64), (&'a str, &'a str)>;

fn last_entries(history: &[Entry]) -> Last<'_> {
    let entries = history.iter();
    entries
        .map(|one| {
            ((one.subject.as_str(), one.subject_id), (one.at.as_str(), one.why.as_str()))
        })
        .collect()
}

fn print_without_history(tx: &Transaction<'_>) -> Attempt<Option<String>> {
    let sql = "SELECT 'print ' || id || ' has no history: the export is not complete. Export \
                   the record again' FROM print
               WHERE NOT EXISTS (SELECT 1 FROM history
                   WHERE subject = 'print' AND subject_id = print.id) LIMIT 1";
    Ok(rows::texts(tx, sql)?.into_iter().next())
}

fn insert_work(tx: &Transaction<'_>, work: &Work, (at, why): (&str, &str)) -> Attempt<()> {
    let what = &work.what;
    validate::text("the catalogue number", &work.catalogue)?;
    validate::work(what)?;
    let sql = "INSERT INTO work (id, catalogue, title, maker, taken, printed, medium, process,
                   paper, signed, authorised, master, others, picture, sha256, notes,
                   withdrawn, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16,
                   ?17, ?18, ?19)";
    tx.prepare_cached(sql)?.execute(params![
        work.id.0,
        work.catalogue,
        what.title,
        what.maker,
        what.taken,
        what.printed,
        what.medium,
        what.process,
        what.paper,
        what.signed,
        what.authorised,
        what.master,
        what.others,
        what.picture,
        what.sha256,
        what.notes,
        work.withdrawn,
        at,
        why
    ])?;
    Ok(())
}

fn insert_format(
    tx: &Transaction<'_>,
    format: &Format,
    (at, why): (&str, &str),
) -> Attempt<()> {
    let what = &format.what;
    let sql = "INSERT INTO format (id, work, name, image_w, image_h, sheet_w, sheet_h, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)";
    tx.prepare_cached(sql)?.execute(params![
        format.id.0,
        format.work.0,
        what.name,
        what.image_w,
        what.image_h,
        what.sheet_w,
        what.sheet_h,
        at,
        why
    ])?;
    Ok(())
}

fn insert_edition(
    tx: &Transaction<'_>,
    edition: &Edition,
    (at, why): (&str, &str),
) -> Attempt<()> {
    let what = &edition.what;
    let sql = "INSERT INTO edition (id, work, format, name, size, proof_share, artist, printer,
                   hors_commerce, trial, roman, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)";
    tx.prepare_cached(sql)?.execute(params![
        edition.id.0,
        edition.work.0,
        what.format.map(|format| format.0),
        what.name,
        what.size,
        what.proof_share,
        what.artist,
        what.printer,
        what.hors_commerce,
        what.trial,
        what.roman,
        at,
        why
    ])?;
    Ok(())
}

fn insert_tier(tx: &Transaction<'_>, tier: &Tier, (at, why): (&str, &str)) -> Attempt<()> {
    let sql = "INSERT INTO tier (edition, first, cents, currency, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6)";
    let Tier { edition, from, price } = tier;
    tx.prepare_cached(sql)?.execute(params![
        edition.0,
        from,
        price.cents,
        price.currency,
        at,
        why
    ])?;
    Ok(())
}

fn insert_print(tx: &Transaction<'_>, print: &Print, (at, why): (&str, &str)) -> Attempt<()> {
    let now = &print.now;
    for given in [&now.place, &now.buyer, &now.plan, &now.plan_file] {
        validate::text("a text of a print", given)?;
    }
    let sql =
        "INSERT INTO print (id, edition, kind, number, live, replaces, format, state, place,
                   printed, matted, plan, plan_file, cents, currency, buyer, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16,
                   ?17, ?18)";
    tx.prepare_cached(sql)?.execute(params![
        print.id.0,
        print.edition.0,
        print.kind.key(),
        print.number,
        print.live,
        print.replaces.map(|print| print.0),
        now.format.map(|format| format.0),
        now.state.key(),
        now.place,
        now.printed,
        now.matted,
        now.plan,
        now.plan_file,
        now.price.as_ref().map(|price| price.cents),
        now.price.as_ref().map_or("", |price| price.currency.as_str()),
        now.buyer,
        at,
        why
    ])?;
    Ok(())
}

fn insert_entry(tx: &Transaction<'_>, entry: &Entry) -> Attempt<()> {
    let Entry { id, at, subject, subject_id, what, why, payload } = entry;
    let sql = "INSERT INTO history (id, at, subject, subject_id, what, why, payload)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)";
    tx.prepare_cached(sql)?
        .execute(params![id, at, subject, subject_id, what, why, payload])?;
    Ok(())
}
