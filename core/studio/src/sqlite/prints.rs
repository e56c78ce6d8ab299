//! Prints issued, taken over, moved, corrected, voided and replaced, each within one
//! transaction.

use rusqlite::{OptionalExtension, Transaction, params};
use sightedge_core::catalogue::Kind;

use super::failures::{Attempt, Failure};
use super::write::existing_edition;
use super::{currency, query, sizes, validate};
use crate::{
    Change, Choice, Edition, EditionId, Error, Issue, Money, Note, Print, PrintDetails,
    PrintId, Refusal, State, TakenOver,
};

pub(super) fn issue(tx: &Transaction<'_>, issue: &Issue, note: &Note) -> Attempt<Print> {
    validate::note(note)?;
    let Issue { edition: id, kind, choice, stock, size } = issue;
    let edition = existing_edition(tx, *id)?;
    let most = edition.what.count(*kind);
    let number = match *choice {
        Choice::Number(number) => number,
        Choice::Next => query::lowest_free(tx, *id, kind.key())?,
    };
    if number == 0 || number > most {
        return Err(beyond(&edition, *kind, *choice, most).into());
    }
    if matches!(stock.state, State::Voided | State::Destroyed) {
        return Err(Error::refused(format!(
            "a new print cannot be {} yet: issue it first, then record what became of it",
            stock.state.name()
        ))
        .into());
    }
    let mut stock = stock.clone();
    stock.format = stock.format.or(edition.what.format);
    if let (None, Some(size)) = (stock.format, size) {
        stock.format = Some(sizes::found_or_added(tx, edition.work, size, note)?);
    }
    if let Some(price) = &stock.price {
        currency::remember(tx, price)?;
    } else if *kind == Kind::Numbered {
        let tiers = query::tiers(tx, *id)?;
        let tier = tiers.into_iter().rev().find(|tier| tier.from <= number);
        stock.price = tier.map(|tier| tier.price);
    }
    insert(tx, *id, *kind, number, None, &stock, note)
}

fn beyond(edition: &Edition, kind: Kind, choice: Choice, most: u32) -> Error {
    let what = format!("this edition has {}", counted(kind, most));
    if most == 0 {
        return Error::refused(format!(
            "{what}: set how many it has, which can be done until the first print is issued"
        ));
    }
    match choice {
        Choice::Next => Error::refused(format!(
            "{what}, and no number is free. Void one that was given in error, or replace one \
             that is destroyed (edition {})",
            edition.id.0
        )),
        Choice::Number(0) => Error::refused(format!(
            "{what}, numbered from 1: choose a free number from 1 to {most}"
        )),
        Choice::Number(number) => Error::refused(format!(
            "{what}; {number} is beyond it. Choose a free number from 1 to {most}"
        )),
    }
}

/// So many of a kind, in words.
fn counted(kind: Kind, count: u32) -> String {
    let (one, many) = match kind {
        Kind::Numbered => ("print", "prints"),
        Kind::Artist => ("artist's proof", "artist's proofs"),
        Kind::Printer => ("printer's proof", "printer's proofs"),
        Kind::HorsCommerce => ("print hors commerce", "prints hors commerce"),
        Kind::BonATirer => ("bon à tirer", "bons à tirer"),
        Kind::Trial => ("trial proof", "trial proofs"),
    };
    match count {
        0 => format!("no {many}"),
        1 => format!("1 {one}"),
        count => format!("{count} {many}"),
    }
}

fn insert(
    tx: &Transaction<'_>,
    edition: EditionId,
    kind: Kind,
    number: u32,
    replaces: Option<PrintId>,
    stock: &PrintDetails,
    note: &Note,
) -> Attempt<Print> {
    validate::details(stock)?;
    validate::in_order(stock)?;
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

pub(super) fn take_over(tx: &Transaction<'_>, taken: &TakenOver, note: &Note) -> Attempt<u32> {
    validate::note(note)?;
    let TakenOver { edition: id, from, to, sold } = taken;
    let edition = existing_edition(tx, *id)?;
    let size = edition.what.size;
    if *from == 0 || to < from || *to > size {
        return Err(Error::refused(format!(
            "numbers {from} to {to} do not fit an edition of {size}: choose a first and a last \
             number from 1 to {size}, the lower one first"
        ))
        .into());
    }
    if let Some(odd) = sold.iter().find(|number| !(*from..=*to).contains(number)) {
        return Err(Error::refused(format!(
            "number {odd} is marked as sold, but only {from} to {to} were issued before the \
             record began: leave it out, or widen the range"
        ))
        .into());
    }
    let why = if note.why.is_empty() { "issued before the record began" } else { &note.why };
    let note = &Note::because(&note.at, why);
    for number in *from..=*to {
        // A print counts as sold only where the person said so.
        let state = if sold.contains(&number) { State::Sold } else { State::Unknown };
        let stock =
            PrintDetails { state, format: edition.what.format, ..PrintDetails::default() };
        insert(tx, *id, Kind::Numbered, number, None, &stock, note)?;
    }
    Ok(to - from + 1)
}

pub(super) fn change(
    tx: &Transaction<'_>,
    id: PrintId,
    change: &Change,
    note: &Note,
) -> Attempt<Print> {
    validate::note(note)?;
    let mut print = existing_print(tx, id)?;
    if !print.live {
        return Err(Error::refused(format!(
            "this print no longer holds number {} (it is {}): look for the print that has the \
             number now",
            print.number,
            print.now.state.name()
        ))
        .into());
    }
    let before = print.clone();
    match change {
        Change::Move { to, place, buyer, price } => {
            if *to == State::Voided {
                return Err(Error::refused("voiding is no move: void the print instead").into());
            }
            if print.now.state == State::Destroyed {
                return Err(Error::refused(
                    "this print is destroyed: replace it under its number, or correct the record \
                     if it still exists",
                )
                .into());
            }
            if print.now.state == State::Sold && *to != State::Sold {
                // Nobody has it any more, and its price is as before; the sale stays in the
                // history.
                print.now.buyer = String::new();
                print.now.price = price_before_sale(tx, id, print.now.price)?;
            }
            print.now.state = *to;
            // It is no longer at the show it was at.
            // What was sold at one is.
            let stays = matches!(to, State::Show | State::Sold);
            print.now.place = match place {
                Some(place) => place.clone(),
                None if stays => print.now.place,
                None => String::new(),
            };
            if *to == State::Show {
                named(&print.now.place)?;
            }
            if let Some(buyer) = buyer {
                print.now.buyer.clone_from(buyer);
            }
            if let Some(price) = price {
                currency::remember(tx, price)?;
                print.now.price = Some(price.clone());
            }
        }
        Change::Correct(stock) => {
            if stock.state == State::Voided {
                return Err(
                    Error::refused("voiding is no correction: void the print instead").into()
                );
            }
            let placed = |stock: &PrintDetails| (stock.state, stock.place.clone());
            if stock.state == State::Show && placed(stock) != placed(&print.now) {
                named(&stock.place)?;
            }
            // What an older record says of its days stops nothing else.
            if (&stock.printed, &stock.matted) != (&print.now.printed, &print.now.matted) {
                validate::in_order(stock)?;
            }
            if let Some(price) = stock.price.as_ref().filter(|_| stock.price != print.now.price)
            {
                currency::remember(tx, price)?;
            }
            print.now = (**stock).clone();
        }
        Change::Void => {
            let out = matches!(print.now.state, State::Sold | State::Unknown | State::Show);
            if out || print.now.state == State::Destroyed {
                return Err(Error::refused(format!(
                    "number {} cannot be voided: this print is {}, and its number with it. If \
                     that is wrong, correct it first; take it back from a show first; replace \
                     it if it is destroyed",
                    print.number,
                    print.now.state.name()
                ))
                .into());
            }
            print.now.state = State::Voided;
            print.live = false;
        }
    }
    // A change to what is so already makes no entry.
    if print != before {
        update(tx, &print, note)?;
    }
    Ok(print)
}

/// Changes several prints, each as is said beside it: all of them or none.
pub(super) fn change_all(
    tx: &Transaction<'_>,
    changes: &[(PrintId, Change)],
    note: &Note,
) -> Attempt<Vec<Print>> {
    let mut made = Vec::with_capacity(changes.len());
    for (id, what) in changes {
        made.push(match change(tx, *id, what, note) {
            Err(Failure::Refused(Error::Refused(Refusal(words)))) if changes.len() > 1 => {
                let print = existing_print(tx, *id)?;
                let edition = existing_edition(tx, print.edition)?;
                let written = edition.what.notation(print.kind, print.number);
                let words = format!("nothing was changed, because of {written}: {words}");
                return Err(Error::refused(words).into());
            }
            other => other?,
        });
    }
    Ok(made)
}

/// A show that the lists can name.
fn named(place: &str) -> Result<(), Error> {
    if place.trim().is_empty() {
        return Err(Error::refused(
            "the show has no name: type which show or gallery the print goes to",
        ));
    }
    Ok(())
}

pub(super) fn replace(tx: &Transaction<'_>, id: PrintId, note: &Note) -> Attempt<Print> {
    validate::note(note)?;
    let mut old = existing_print(tx, id)?;
    if !old.live || old.now.state != State::Destroyed {
        return Err(Error::refused(format!(
            "number {} cannot be replaced: the print is {}. Record first that it was destroyed",
            old.number,
            old.now.state.name()
        ))
        .into());
    }
    old.live = false;
    update(tx, &old, note)?;
    let PrintDetails { format, price, plan, plan_file, .. } = old.now;
    let stock = PrintDetails { format, plan, plan_file, price, ..PrintDetails::default() };
    insert(tx, old.edition, old.kind, old.number, Some(old.id), &stock, note)
}

fn update(tx: &Transaction<'_>, print: &Print, note: &Note) -> Attempt<()> {
    validate::details(&print.now)?;
    let sql = "UPDATE print SET live = ?2, format = ?3, state = ?4, place = ?5, printed = ?6,
                   matted = ?7, plan = ?8, plan_file = ?9, cents = ?10, currency = ?11,
                   buyer = ?12, at = ?13, why = ?14
               WHERE id = ?1";
    let PrintDetails { format, state, place, printed, matted, plan, plan_file, price, buyer } =
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

fn existing_print(tx: &Transaction<'_>, id: PrintId) -> Attempt<Print> {
    query::print(tx, id)?.ok_or_else(|| {
        Error::Missing(format!("there is no print {}: list them, or issue it first", id.0))
            .into()
    })
}

/// What the print cost before it was sold; `now` where it was never anything but sold.
fn price_before_sale(
    tx: &Transaction<'_>,
    id: PrintId,
    now: Option<Money>,
) -> Attempt<Option<Money>> {
    let sql = "SELECT json_extract(payload, '$.cents'), json_extract(payload, '$.currency')
               FROM history
               WHERE subject = 'print' AND subject_id = ?1
                   AND json_extract(payload, '$.state') <> 'sold'
               ORDER BY id DESC LIMIT 1";
    let mut statement = tx.prepare_cached(sql)?;
    let found = statement.query_row([id.0], |row| {
        let (cents, currency): (Option<i64>, Option<String>) = (row.get(0)?, row.get(1)?);
        Ok(cents.zip(currency).map(|(cents, currency)| Money { cents, currency }))
    });
    Ok(found.optional()?.unwrap_or(now))
}
