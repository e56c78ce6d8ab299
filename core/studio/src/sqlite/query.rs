//! Queries.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension, params};

use super::rows::{
    self, EDITION, EDITION_COLUMNS, ENTRY, FORMAT, PRINT, PRINT_COLUMNS, WORK, WORK_COLUMNS,
};
use crate::{
    Edition, EditionId, EditionRow, Entry, Format, FormatId, Print, PrintId, Subject, Sums,
    Tier, Totals, Work, WorkId, WorkRow,
};

pub(super) fn work(conn: &Connection, id: WorkId) -> rusqlite::Result<Option<Work>> {
    let sql = format!("SELECT {WORK} FROM work WHERE id = ?1");
    conn.prepare_cached(&sql)?.query_row([id.0], rows::work).optional()
}

pub(super) fn formats(conn: &Connection, work: WorkId) -> rusqlite::Result<Vec<Format>> {
    let sql = format!("SELECT {FORMAT} FROM format WHERE work = ?1 ORDER BY id");
    conn.prepare_cached(&sql)?.query_map([work.0], rows::format)?.collect()
}

pub(super) fn edition(conn: &Connection, id: EditionId) -> rusqlite::Result<Option<Edition>> {
    let sql = format!("SELECT {EDITION} FROM edition WHERE id = ?1");
    conn.prepare_cached(&sql)?.query_row([id.0], rows::edition).optional()
}

pub(super) fn tiers(conn: &Connection, edition: EditionId) -> rusqlite::Result<Vec<Tier>> {
    let sql =
        "SELECT edition, first, cents, currency FROM tier WHERE edition = ?1 ORDER BY first";
    conn.prepare_cached(sql)?.query_map([edition.0], rows::tier)?.collect()
}

pub(super) fn prints(conn: &Connection, edition: EditionId) -> rusqlite::Result<Vec<Print>> {
    let sql = format!("SELECT {PRINT} FROM print WHERE edition = ?1 ORDER BY kind, number, id");
    let mut statement = conn.prepare_cached(&sql)?;
    let mut found: Vec<Print> =
        statement.query_map([edition.0], rows::print)?.collect::<Result<_, _>>()?;
    // Numbered ones first, then proofs in their usual order.
    found.sort_by_key(|print| (print.kind, print.number, print.id));
    Ok(found)
}

pub(super) fn print(conn: &Connection, id: PrintId) -> rusqlite::Result<Option<Print>> {
    let sql = format!("SELECT {PRINT} FROM print WHERE id = ?1");
    conn.prepare_cached(&sql)?.query_row([id.0], rows::print).optional()
}

pub(super) fn prints_of_plan(
    conn: &Connection,
    plan: &str,
    also: Option<PrintId>,
) -> rusqlite::Result<Vec<(Work, Edition, Print)>> {
    let with = |which: &str| {
        format!(
            "SELECT {WORK}, {EDITION}, {PRINT} FROM print
             JOIN edition ON edition.id = print.edition JOIN work ON work.id = edition.work
             WHERE print.plan = ?1 AND print.plan <> '' AND {which}"
        )
    };
    // Two queries, so that each can use its index.
    let live = with("print.live = 1");
    let mut found: Vec<(Work, Edition, Print)> =
        conn.prepare_cached(&live)?.query_map([plan], whole)?.collect::<Result<_, _>>()?;
    if let Some(id) = also {
        let gone = with("print.live = 0 AND print.id = ?2");
        let mut statement = conn.prepare_cached(&gone)?;
        found.extend(statement.query_row(params![plan, id.0], whole).optional()?);
    }
    found.sort_by_key(|(_, _, print)| (print.kind, print.number, print.edition, print.id));
    Ok(found)
}

/// A print with its work and its edition.
fn whole(row: &rusqlite::Row<'_>) -> rusqlite::Result<(Work, Edition, Print)> {
    Ok((
        rows::work_at(row, 0)?,
        rows::edition_at(row, WORK_COLUMNS)?,
        rows::print_at(row, WORK_COLUMNS + EDITION_COLUMNS)?,
    ))
}

/// The lowest number of a kind that no live print holds.
pub(super) fn lowest_free(
    conn: &Connection,
    edition: EditionId,
    kind: &str,
) -> rusqlite::Result<u32> {
    let sql = "SELECT count(*), coalesce(max(number), 0) FROM print
               WHERE edition = ?1 AND kind = ?2 AND live = 1";
    let (count, highest): (u32, u32) = conn
        .prepare_cached(sql)?
        .query_row(params![edition.0, kind], |row| Ok((row.get(0)?, row.get(1)?)))?;
    if count == highest {
        return Ok(highest + 1);
    }
    let sql = "SELECT min(n) FROM (
                   SELECT 1 AS n UNION ALL SELECT number + 1 FROM print
                   WHERE edition = ?1 AND kind = ?2 AND live = 1)
               WHERE NOT EXISTS (SELECT 1 FROM print
                   WHERE edition = ?1 AND kind = ?2 AND live = 1 AND number = n)";
    conn.prepare_cached(sql)?.query_row(params![edition.0, kind], |row| row.get(0))
}

pub(super) fn index(conn: &Connection) -> rusqlite::Result<Vec<WorkRow>> {
    let sql = "SELECT edition, kind = 'numbered', state, count(*) FROM print
               WHERE live = 1 GROUP BY 1, 2, 3";
    let mut totals: BTreeMap<i64, Totals> = BTreeMap::new();
    let mut statement = conn.prepare_cached(sql)?;
    let mut found = statement.query([])?;
    while let Some(row) = found.next()? {
        let (numbered, state, count): (bool, String, u32) =
            (row.get(1)?, row.get(2)?, row.get(3)?);
        let sum = totals.entry(row.get(0)?).or_default();
        *(if numbered { &mut sum.issued } else { &mut sum.proofs }) += count;
        *(match state.as_str() {
            "show" => &mut sum.show,
            "sold" => &mut sum.sold,
            "unknown" => &mut sum.unknown,
            "destroyed" => &mut sum.destroyed,
            _ => &mut sum.studio,
        }) += count;
    }
    let sql = format!("SELECT {EDITION} FROM edition ORDER BY id");
    let mut editions: BTreeMap<WorkId, Vec<EditionRow>> = BTreeMap::new();
    for edition in conn.prepare_cached(&sql)?.query_map([], rows::edition)? {
        let edition = edition?;
        let totals = totals.get(&edition.id.0).copied().unwrap_or_default();
        editions.entry(edition.work).or_default().push(EditionRow { edition, totals });
    }
    let sql = format!("SELECT {WORK} FROM work ORDER BY catalogue, id");
    let mut statement = conn.prepare_cached(&sql)?;
    let works = statement.query_map([], rows::work)?;
    works
        .map(|work| {
            let work = work?;
            let editions = editions.remove(&work.id).unwrap_or_default();
            Ok(WorkRow { work, editions })
        })
        .collect()
}

pub(super) fn at_show(
    conn: &Connection,
    place: &str,
) -> rusqlite::Result<Vec<(Work, Edition, Print)>> {
    let sql = format!(
        "SELECT {WORK}, {EDITION}, {PRINT} FROM print
         JOIN edition ON edition.id = print.edition JOIN work ON work.id = edition.work
         WHERE print.live = 1 AND print.state IN ('show', 'sold') AND print.place = ?1
         ORDER BY work.catalogue, print.kind, print.number"
    );
    let mut statement = conn.prepare_cached(&sql)?;
    statement.query_map([place], whole)?.collect()
}

/// Whether an edition counts that size alone.
pub(super) fn has_edition(conn: &Connection, format: FormatId) -> rusqlite::Result<bool> {
    let sql = "SELECT EXISTS (SELECT 1 FROM edition WHERE format = ?1)";
    conn.prepare_cached(sql)?.query_row([format.0], |row| row.get(0))
}

pub(super) fn held_by(conn: &Connection, text: &str) -> rusqlite::Result<Vec<(WorkId, Print)>> {
    // Letters of any script are compared here: SQLite knows the capitals of ASCII alone.
    let sql = format!(
        "SELECT {PRINT}, edition.work FROM print JOIN edition ON edition.id = print.edition
         WHERE print.live = 1 AND (print.buyer <> '' OR print.place <> '')"
    );
    let sought = text.to_lowercase();
    let mut found = Vec::new();
    let mut statement = conn.prepare_cached(&sql)?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let print = rows::print(row)?;
        let texts = [&print.now.buyer, &print.now.place];
        if texts.iter().any(|text| text.to_lowercase().contains(&sought)) {
            found.push((WorkId(row.get(PRINT_COLUMNS)?), print));
        }
    }
    found.sort_by_key(|(work, print)| (*work, print.edition, print.kind, print.number));
    Ok(found)
}

pub(super) fn shows(conn: &Connection) -> rusqlite::Result<Vec<(String, u32)>> {
    let sql = "SELECT place, count(*) FROM print WHERE live = 1 AND state = 'show'
               GROUP BY place ORDER BY place";
    conn.prepare_cached(sql)?.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?.collect()
}

pub(super) fn sums(conn: &Connection) -> rusqlite::Result<Vec<Sums>> {
    let sql = "SELECT currency,
                   sum(state = 'sold'), sum(iif(state = 'sold', coalesce(cents, 0), 0)),
                   sum(state IN ('studio', 'show', 'returned')),
                   sum(iif(state IN ('studio', 'show', 'returned'), coalesce(cents, 0), 0))
               FROM print WHERE live = 1
               GROUP BY currency ORDER BY currency = '', currency";
    let mut statement = conn.prepare_cached(sql)?;
    let found = statement.query_map([], |row| {
        Ok(Sums {
            currency: row.get(0)?,
            sold: row.get(1)?,
            sold_cents: row.get(2)?,
            offered: row.get(3)?,
            offered_cents: row.get(4)?,
        })
    })?;
    found.collect()
}

pub(super) fn history(conn: &Connection, of: Subject) -> rusqlite::Result<Vec<Entry>> {
    // Entries of prices have the id of their edition.
    let (subject, also, id) = match of {
        Subject::Work(id) => ("work", "work", id.0),
        Subject::Format(id) => ("format", "format", id.0),
        Subject::Edition(id) => ("edition", "tier", id.0),
        Subject::Print(id) => ("print", "print", id.0),
    };
    let sql = format!(
        "SELECT {ENTRY} FROM history WHERE subject IN (?1, ?2) AND subject_id = ?3 ORDER BY id"
    );
    conn.prepare_cached(&sql)?.query_map(params![subject, also, id], rows::entry)?.collect()
}
