//! Rows of the database as what the record holds.

use rusqlite::{Connection, Row};
use sightedge_core::catalogue::Kind;

use crate::{
    Edition, EditionId, Entry, Format, FormatId, Money, NewEdition, NewFormat, NewWork, Print,
    PrintDetails, PrintId, State, Tier, Work, WorkId,
};

pub(super) const WORK: &str = "work.id, work.catalogue, work.title, work.maker, work.taken, \
    work.printed, work.medium, work.process, work.paper, work.signed, work.authorised, \
    work.master, work.others, work.picture, work.sha256, work.notes, work.withdrawn";
pub(super) const FORMAT: &str = "format.id, format.work, format.name, format.image_w, \
    format.image_h, format.sheet_w, format.sheet_h";
pub(super) const EDITION: &str = "edition.id, edition.work, edition.format, edition.name, \
    edition.size, edition.proof_share, edition.artist, edition.printer, \
    edition.hors_commerce, edition.trial, edition.roman";
pub(super) const PRINT: &str = "print.id, print.edition, print.kind, print.number, print.live, \
    print.replaces, print.format, print.state, print.place, print.printed, print.matted, \
    print.plan, print.plan_file, print.cents, print.currency, print.buyer";
pub(super) const ENTRY: &str = "id, at, subject, subject_id, what, why, payload";

/// How many columns each of them has.
pub(super) const WORK_COLUMNS: usize = 17;
pub(super) const EDITION_COLUMNS: usize = 11;
pub(super) const PRINT_COLUMNS: usize = 16;

pub(super) fn work(row: &Row<'_>) -> rusqlite::Result<Work> {
    work_at(row, 0)
}

pub(super) fn work_at(row: &Row<'_>, at: usize) -> rusqlite::Result<Work> {
    Ok(Work {
        id: WorkId(row.get(at)?),
        catalogue: row.get(at + 1)?,
        withdrawn: row.get(at + 16)?,
        what: NewWork {
            title: row.get(at + 2)?,
            maker: row.get(at + 3)?,
            taken: row.get(at + 4)?,
            printed: row.get(at + 5)?,
            medium: row.get(at + 6)?,
            process: row.get(at + 7)?,
            paper: row.get(at + 8)?,
            signed: row.get(at + 9)?,
            authorised: row.get(at + 10)?,
            master: row.get(at + 11)?,
            others: row.get(at + 12)?,
            picture: row.get(at + 13)?,
            sha256: row.get(at + 14)?,
            notes: row.get(at + 15)?,
        },
    })
}

pub(super) fn format(row: &Row<'_>) -> rusqlite::Result<Format> {
    Ok(Format {
        id: FormatId(row.get(0)?),
        work: WorkId(row.get(1)?),
        what: NewFormat {
            name: row.get(2)?,
            image_w: row.get(3)?,
            image_h: row.get(4)?,
            sheet_w: row.get(5)?,
            sheet_h: row.get(6)?,
        },
    })
}

pub(super) fn edition(row: &Row<'_>) -> rusqlite::Result<Edition> {
    edition_at(row, 0)
}

pub(super) fn edition_at(row: &Row<'_>, at: usize) -> rusqlite::Result<Edition> {
    Ok(Edition {
        id: EditionId(row.get(at)?),
        work: WorkId(row.get(at + 1)?),
        what: NewEdition {
            format: row.get::<_, Option<i64>>(at + 2)?.map(FormatId),
            name: row.get(at + 3)?,
            size: row.get(at + 4)?,
            proof_share: row.get(at + 5)?,
            artist: row.get(at + 6)?,
            printer: row.get(at + 7)?,
            hors_commerce: row.get(at + 8)?,
            trial: row.get(at + 9)?,
            roman: row.get(at + 10)?,
        },
    })
}

pub(super) fn print(row: &Row<'_>) -> rusqlite::Result<Print> {
    print_at(row, 0)
}

pub(super) fn print_at(row: &Row<'_>, at: usize) -> rusqlite::Result<Print> {
    let kind: String = row.get(at + 2)?;
    let state: String = row.get(at + 7)?;
    let cents: Option<i64> = row.get(at + 13)?;
    let currency: String = row.get(at + 14)?;
    Ok(Print {
        id: PrintId(row.get(at)?),
        edition: EditionId(row.get(at + 1)?),
        // The database holds no others.
        kind: Kind::of_key(&kind).unwrap_or_default(),
        number: row.get(at + 3)?,
        live: row.get(at + 4)?,
        replaces: row.get::<_, Option<i64>>(at + 5)?.map(PrintId),
        now: PrintDetails {
            format: row.get::<_, Option<i64>>(at + 6)?.map(FormatId),
            state: State::of_key(&state).unwrap_or_default(),
            place: row.get(at + 8)?,
            printed: row.get(at + 9)?,
            matted: row.get(at + 10)?,
            plan: row.get(at + 11)?,
            plan_file: row.get(at + 12)?,
            price: cents.map(|cents| Money { cents, currency }),
            buyer: row.get(at + 15)?,
        },
    })
}

pub(super) fn tier(row: &Row<'_>) -> rusqlite::Result<Tier> {
    Ok(Tier {
        edition: EditionId(row.get(0)?),
        from: row.get(1)?,
        price: Money { cents: row.get(2)?, currency: row.get(3)? },
    })
}

pub(super) fn entry(row: &Row<'_>) -> rusqlite::Result<Entry> {
    Ok(Entry {
        id: row.get(0)?,
        at: row.get(1)?,
        subject: row.get(2)?,
        subject_id: row.get(3)?,
        what: row.get(4)?,
        why: row.get(5)?,
        payload: row.get(6)?,
    })
}

/// The first column of every row.
pub(super) fn texts(conn: &Connection, sql: &str) -> rusqlite::Result<Vec<String>> {
    let mut statement = conn.prepare(sql)?;
    let found = statement.query_map([], |row| row.get(0))?;
    found.collect()
}
