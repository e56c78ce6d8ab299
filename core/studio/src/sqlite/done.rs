//! Changes of the record, each within one transaction.

use rusqlite::{Transaction, params};
use sightedge_core::catalogue::Kind;

use super::asked;
use super::failures::Step;
use super::sound::{noted, sized, sound, stock_texts, text, work_texts};
use crate::{
    Change, Choice, Correction, Edition, EditionId, Error, FormatId, Issue, NewEdition,
    NewFormat, NewWork, Note, Print, PrintId, State, Stock, TakenOver, Tier, Work, WorkId,
};

pub(super) fn set(tx: &Transaction<'_>, key: &str, value: &str) -> Step<()> {
    text("the setting", value)?;
    let sql = "INSERT INTO setting (key, value) VALUES (?1, ?2)
               ON CONFLICT (key) DO UPDATE SET value = excluded.value";
    tx.prepare_cached(sql)?.execute([key, value])?;
    Ok(())
}

pub(super) fn add_work(
    tx: &Transaction<'_>,
    work: &NewWork,
    catalogue: Option<&str>,
    note: &Note,
) -> Step<WorkId> {
    noted(note)?;
    work_texts(work)?;
    let catalogue = match catalogue {
        Some(given) => {
            text("the catalogue number", given)?;
            given.to_owned()
        }
        None => next_catalogue(tx)?,
    };
    let sql =
        "INSERT INTO work (catalogue, title, maker, taken, printed, medium, paper, picture,
                   sha256, notes, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12)";
    let NewWork { title, maker, taken, printed, medium, paper, picture, sha256, notes } = work;
    tx.prepare_cached(sql)?.execute(params![
        catalogue, title, maker, taken, printed, medium, paper, picture, sha256, notes,
        note.at, note.why
    ])?;
    Ok(WorkId(tx.last_insert_rowid()))
}

fn next_catalogue(tx: &Transaction<'_>) -> Step<String> {
    let highest: i64 =
        tx.query_row("SELECT coalesce(max(id), 0) FROM work", [], |row| row.get(0))?;
    for number in highest + 1.. {
        let candidate = format!("W{number:04}");
        let sql = "SELECT EXISTS (SELECT 1 FROM work WHERE catalogue = ?1)";
        let taken: bool = tx.prepare_cached(sql)?.query_row([&candidate], |row| row.get(0))?;
        if !taken {
            return Ok(candidate);
        }
    }
    Err(Error::refused("no catalogue number is left: give one").into())
}

pub(super) fn correct_work(
    tx: &Transaction<'_>,
    id: WorkId,
    work: &NewWork,
    note: &Note,
) -> Step<()> {
    noted(note)?;
    work_texts(work)?;
    the_work(tx, id)?;
    let sql = "UPDATE work SET title = ?2, maker = ?3, taken = ?4, printed = ?5, medium = ?6,
                   paper = ?7, picture = ?8, sha256 = ?9, notes = ?10, at = ?11, why = ?12
               WHERE id = ?1";
    let NewWork { title, maker, taken, printed, medium, paper, picture, sha256, notes } = work;
    tx.prepare_cached(sql)?.execute(params![
        id.0, title, maker, taken, printed, medium, paper, picture, sha256, notes, note.at,
        note.why
    ])?;
    Ok(())
}

pub(super) fn add_format(
    tx: &Transaction<'_>,
    work: WorkId,
    format: &NewFormat,
    note: &Note,
) -> Step<FormatId> {
    noted(note)?;
    sized(format)?;
    the_work(tx, work)?;
    let sql = "INSERT INTO format (work, name, image_w, image_h, sheet_w, sheet_h, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)";
    let NewFormat { name, image_w, image_h, sheet_w, sheet_h } = format;
    tx.prepare_cached(sql)?.execute(params![
        work.0, name, image_w, image_h, sheet_w, sheet_h, note.at, note.why
    ])?;
    Ok(FormatId(tx.last_insert_rowid()))
}

pub(super) fn correct_format(
    tx: &Transaction<'_>,
    id: FormatId,
    format: &NewFormat,
    note: &Note,
) -> Step<()> {
    noted(note)?;
    sized(format)?;
    let sql = "UPDATE format SET name = ?2, image_w = ?3, image_h = ?4, sheet_w = ?5,
                   sheet_h = ?6, at = ?7, why = ?8
               WHERE id = ?1";
    let NewFormat { name, image_w, image_h, sheet_w, sheet_h } = format;
    let changed = tx
        .prepare_cached(sql)?
        .execute(params![id.0, name, image_w, image_h, sheet_w, sheet_h, note.at, note.why])?;
    if changed == 0 {
        return Err(Error::Missing(format!(
            "there is no format {}: list those of the work, or add it first",
            id.0
        ))
        .into());
    }
    Ok(())
}

pub(super) fn open_edition(
    tx: &Transaction<'_>,
    work: WorkId,
    edition: &NewEdition,
    note: &Note,
) -> Step<EditionId> {
    noted(note)?;
    the_work(tx, work)?;
    sound(edition)?;
    let sql = "INSERT INTO edition (work, format, name, size, proof_share, artist, printer,
                   hors_commerce, trial, roman, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12)";
    edition_written(tx, sql, work.0, edition, note)?;
    Ok(EditionId(tx.last_insert_rowid()))
}

pub(super) fn change_edition(
    tx: &Transaction<'_>,
    id: EditionId,
    edition: &NewEdition,
    note: &Note,
) -> Step<()> {
    noted(note)?;
    sound(edition)?;
    the_edition(tx, id)?;
    let sql = "UPDATE edition SET format = ?2, name = ?3, size = ?4, proof_share = ?5,
                   artist = ?6, printer = ?7, hors_commerce = ?8, trial = ?9, roman = ?10,
                   at = ?11, why = ?12
               WHERE id = ?1";
    edition_written(tx, sql, id.0, edition, note)?;
    Ok(())
}

/// Runs `sql` with `id` as its first value and what an edition is after it.
fn edition_written(
    tx: &Transaction<'_>,
    sql: &str,
    id: i64,
    edition: &NewEdition,
    note: &Note,
) -> Step<()> {
    tx.prepare_cached(sql)?.execute(params![
        id,
        edition.format.map(|format| format.0),
        edition.name,
        edition.size,
        edition.proof_share,
        edition.artist,
        edition.printer,
        edition.hors_commerce,
        edition.trial,
        edition.roman,
        note.at,
        note.why
    ])?;
    Ok(())
}

pub(super) fn set_tier(tx: &Transaction<'_>, tier: &Tier, note: &Note) -> Step<()> {
    noted(note)?;
    the_edition(tx, tier.edition)?;
    let sql = "INSERT INTO tier (edition, first, cents, currency, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6)
               ON CONFLICT (edition, first) DO UPDATE SET cents = excluded.cents,
                   currency = excluded.currency, at = excluded.at, why = excluded.why";
    tx.prepare_cached(sql)?.execute(params![
        tier.edition.0,
        tier.from,
        tier.price.cents,
        tier.price.currency,
        note.at,
        note.why
    ])?;
    Ok(())
}

pub(super) fn correct(
    tx: &Transaction<'_>,
    id: WorkId,
    what: &Correction,
    note: &Note,
) -> Step<()> {
    let Correction { work, format, edition, tiers } = what;
    if let Some(work) = work {
        correct_work(tx, id, work, note)?;
    }
    match format {
        Some((Some(format), what)) => correct_format(tx, *format, what, note)?,
        Some((None, what)) => {
            add_format(tx, id, what, note)?;
        }
        None => {}
    }
    if let Some((edition, what)) = edition {
        change_edition(tx, *edition, what, note)?;
    }
    for tier in tiers {
        set_tier(tx, tier, note)?;
    }
    Ok(())
}

pub(super) fn issue(tx: &Transaction<'_>, issue: &Issue, note: &Note) -> Step<Print> {
    noted(note)?;
    let Issue { edition: id, kind, choice, stock } = issue;
    let edition = the_edition(tx, *id)?;
    let most = edition.what.count(*kind);
    let number = match *choice {
        Choice::Number(number) => number,
        Choice::Next => asked::lowest_free(tx, *id, kind.key())?,
    };
    if number == 0 || number > most {
        return Err(beyond(&edition, *kind, *choice, most).into());
    }
    if matches!(stock.state, State::Voided | State::Destroyed) {
        return Err(Error::refused(format!(
            "a new print was to be {}, and one that is there is wanted: issue it, and say \
             later what became of it",
            stock.state.name()
        ))
        .into());
    }
    let mut stock = stock.clone();
    stock.format = stock.format.or(edition.what.format);
    if stock.price.is_none() && *kind == Kind::Numbered {
        let tiers = asked::tiers(tx, *id)?;
        let tier = tiers.into_iter().rev().find(|tier| tier.from <= number);
        stock.price = tier.map(|tier| tier.price);
    }
    insert(tx, *id, *kind, number, None, &stock, note)
}

fn beyond(edition: &Edition, kind: Kind, choice: Choice, most: u32) -> Error {
    let what = if kind == Kind::Numbered {
        format!("the edition is one of {most}")
    } else {
        format!("the edition has {most} {} in all", plural(kind))
    };
    match choice {
        Choice::Next if most == 0 => Error::refused(format!(
            "{what}, and one more was asked for: say how many there are to be before the first \
             print is issued"
        )),
        Choice::Next => Error::refused(format!(
            "{what}, and all of them are issued: no number is free. Void one that was given in \
             error, or replace one that is destroyed (edition {})",
            edition.id.0
        )),
        Choice::Number(number) => Error::refused(format!(
            "{what}, and number {number} was asked for: choose one from 1 to {most}"
        )),
    }
}

const fn plural(kind: Kind) -> &'static str {
    match kind {
        Kind::Numbered => "numbered prints",
        Kind::Artist => "artist's proofs",
        Kind::Printer => "printer's proofs",
        Kind::HorsCommerce => "prints hors commerce",
        Kind::BonATirer => "bon à tirer",
        Kind::Trial => "trial proofs",
    }
}

fn insert(
    tx: &Transaction<'_>,
    edition: EditionId,
    kind: Kind,
    number: u32,
    replaces: Option<PrintId>,
    stock: &Stock,
    note: &Note,
) -> Step<Print> {
    stock_texts(stock)?;
    let sql = "INSERT INTO print (edition, kind, number, live, replaces, format, state, place,
                   printed, matted, plan, plan_file, cents, currency, buyer, at, why)
               VALUES (?1, ?2, ?3, 1, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16)";
    let price = stock.price.as_ref();
    tx.prepare_cached(sql)?.execute(params![
        edition.0,
        kind.key(),
        number,
        replaces.map(|print| print.0),
        stock.format.map(|format| format.0),
        stock.state.key(),
        stock.place,
        stock.printed,
        stock.matted,
        stock.plan,
        stock.plan_file,
        price.map(|price| price.cents),
        price.map_or("", |price| price.currency.as_str()),
        stock.buyer,
        note.at,
        note.why
    ])?;
    let id = PrintId(tx.last_insert_rowid());
    Ok(Print { id, edition, kind, number, live: true, replaces, now: stock.clone() })
}

pub(super) fn take_over(tx: &Transaction<'_>, taken: &TakenOver, note: &Note) -> Step<u32> {
    noted(note)?;
    let TakenOver { edition: id, from, to, unknown, state } = taken;
    let edition = the_edition(tx, *id)?;
    let size = edition.what.size;
    if *from == 0 || to < from || *to > size {
        return Err(Error::refused(format!(
            "numbers {from} to {to} were to be taken over, and numbers from 1 to {size} are \
             wanted: the edition is one of {size}"
        ))
        .into());
    }
    if let Some(odd) = unknown.iter().find(|number| !(*from..=*to).contains(number)) {
        return Err(Error::refused(format!(
            "number {odd} is said to be out, not known where, but is not among {from} to {to}: \
             take it out, or take over more numbers"
        ))
        .into());
    }
    if matches!(state, State::Voided | State::Destroyed) {
        return Err(Error::refused(format!(
            "prints that are out were to be taken over as {}: sold, at a show, in the studio or \
             unknown is wanted",
            state.name()
        ))
        .into());
    }
    for number in *from..=*to {
        let state = if unknown.contains(&number) { State::Unknown } else { *state };
        let stock = Stock { state, format: edition.what.format, ..Stock::default() };
        insert(tx, *id, Kind::Numbered, number, None, &stock, note)?;
    }
    Ok(to - from + 1)
}

pub(super) fn change(
    tx: &Transaction<'_>,
    id: PrintId,
    change: &Change,
    note: &Note,
) -> Step<Print> {
    noted(note)?;
    let mut print = the_print(tx, id)?;
    if !print.live {
        return Err(Error::refused(format!(
            "the print gave up number {} (it is {}), and one that holds it is wanted: look for \
             the print that has the number now",
            print.number,
            print.now.state.name()
        ))
        .into());
    }
    match change {
        Change::Move { to, place, buyer, price } => {
            if *to == State::Voided {
                return Err(Error::refused("a print is voided, not moved: void it").into());
            }
            if print.now.state == State::Destroyed {
                return Err(Error::refused(
                    "the print is destroyed, and one that is there is wanted: replace it under \
                     its number, or correct the record if it is not destroyed after all",
                )
                .into());
            }
            print.now.state = *to;
            // What is no longer at the show it was at is not said to be.
            print.now.place = match place {
                Some(place) => place.clone(),
                None if *to == State::Show => print.now.place,
                None => String::new(),
            };
            if *to == State::Show {
                named(&print.now.place)?;
            }
            if let Some(buyer) = buyer {
                print.now.buyer.clone_from(buyer);
            }
            if price.is_some() {
                print.now.price.clone_from(price);
            }
        }
        Change::Correct(stock) => {
            if stock.state == State::Voided {
                return Err(Error::refused("a print is voided, not corrected: void it").into());
            }
            if stock.state == State::Show && print.now.state != State::Show {
                named(&stock.place)?;
            }
            print.now = (**stock).clone();
        }
        Change::Void => {
            if matches!(print.now.state, State::Sold | State::Destroyed) {
                return Err(Error::refused(format!(
                    "number {} was to be voided, and a number nobody has is wanted: this print \
                     is {}. If that is an error, correct it first; what is destroyed is \
                     replaced",
                    print.number,
                    print.now.state.name()
                ))
                .into());
            }
            print.now.state = State::Voided;
            print.live = false;
        }
    }
    update(tx, &print, note)?;
    Ok(print)
}

/// A show that the lists can name.
fn named(place: &str) -> Result<(), Error> {
    if place.trim().is_empty() {
        return Err(Error::refused(
            "a print goes to a show that is not named, and its name is wanted: say which show \
             or gallery",
        ));
    }
    Ok(())
}

pub(super) fn replace(tx: &Transaction<'_>, id: PrintId, note: &Note) -> Step<Print> {
    noted(note)?;
    let mut old = the_print(tx, id)?;
    if !old.live || old.now.state != State::Destroyed {
        return Err(Error::refused(format!(
            "number {} was to be replaced, and a destroyed print that still holds its number \
             is wanted: this one is {}. Say first that it was destroyed",
            old.number,
            old.now.state.name()
        ))
        .into());
    }
    old.live = false;
    update(tx, &old, note)?;
    let stock =
        Stock { format: old.now.format, price: old.now.price.clone(), ..Stock::default() };
    insert(tx, old.edition, old.kind, old.number, Some(old.id), &stock, note)
}

fn update(tx: &Transaction<'_>, print: &Print, note: &Note) -> Step<()> {
    stock_texts(&print.now)?;
    let sql = "UPDATE print SET live = ?2, format = ?3, state = ?4, place = ?5, printed = ?6,
                   matted = ?7, plan = ?8, plan_file = ?9, cents = ?10, currency = ?11,
                   buyer = ?12, at = ?13, why = ?14
               WHERE id = ?1";
    let Stock { format, state, place, printed, matted, plan, plan_file, price, buyer } =
        &print.now;
    tx.prepare_cached(sql)?.execute(params![
        print.id.0,
        print.live,
        format.map(|format| format.0),
        state.key(),
        place,
        printed,
        matted,
        plan,
        plan_file,
        price.as_ref().map(|price| price.cents),
        price.as_ref().map_or("", |price| price.currency.as_str()),
        buyer,
        note.at,
        note.why
    ])?;
    Ok(())
}

fn the_work(tx: &Transaction<'_>, id: WorkId) -> Step<Work> {
    asked::work(tx, id)?.ok_or_else(|| {
        Error::Missing(format!("there is no work {}: list them, or add it first", id.0)).into()
    })
}

fn the_edition(tx: &Transaction<'_>, id: EditionId) -> Step<Edition> {
    asked::edition(tx, id)?.ok_or_else(|| {
        Error::Missing(format!("there is no edition {}: list them, or open it first", id.0))
            .into()
    })
}

fn the_print(tx: &Transaction<'_>, id: PrintId) -> Step<Print> {
    asked::print(tx, id)?.ok_or_else(|| {
        Error::Missing(format!("there is no print {}: list them, or issue it first", id.0))
            .into()
    })
}
