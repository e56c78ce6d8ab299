//! What is done to prints: they go to a show or a buyer, are returned, destroyed, voided or
//! replaced; several at once, too.

use sightedge_studio::{
    Change, Edition, EditionId, Error, Kind, Note, Price, Print, PrintId, Record, State,
};

use super::correct::unchanged;
use super::prices::in_usual;

/// Where a print goes, as it was typed.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Going {
    /// Where it is then.
    pub to: State,
    /// Which show or gallery, where it goes or was sold; `None` leaves what is there.
    pub place: Option<String>,
    /// Who has it; `None` leaves what is there.
    pub buyer: Option<String>,
    /// What it costs, or was sold for; `None` leaves it.
    pub price: Option<Price>,
}

/// What is done to one print.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Doing {
    /// It goes somewhere.
    Go(Going),
    /// Its number was given in error.
    Void,
    /// A new print gets the number of this one, which is destroyed. That cannot be undone: ask
    /// first, in the words of [`question_before`].
    Replace,
}

/// Does it to a print; returns it as it is then, or the new one that replaces it.
///
/// # Errors
/// Where it cannot be done to the print as it is.
pub fn change_print(
    record: &mut dyn Record,
    print: PrintId,
    doing: Doing,
    note: &Note,
) -> Result<Print, Error> {
    let change = match doing {
        Doing::Go(going) => change(record, going)?,
        Doing::Void => Change::Void,
        Doing::Replace => return record.replace(print, note),
    };
    record.change(print, &change, note)
}

/// What is asked before something is done to a print that cannot be undone; `None` for what can
/// be, or cannot be done to it at all.
pub fn question_before(doing: &Doing, edition: &Edition, print: &Print) -> Option<String> {
    let replaces = *doing == Doing::Replace && print.live;
    if !replaces || print.now.state != State::Destroyed {
        return None;
    }
    let written = edition.what.notation(print.kind, print.number);
    let what = if print.now.plan.is_empty() { "" } else { ", its plan and its inscription" };
    Some(format!(
        "A new print gets the number {written}{what}; the destroyed one stays in the history. \
         This cannot be undone."
    ))
}

/// The live prints of an edition that hold these numbers.
///
/// # Errors
/// Where none is named, or one of them is not issued.
pub fn holding(
    record: &dyn Record,
    edition: EditionId,
    numbers: &[u32],
) -> Result<Vec<PrintId>, Error> {
    if numbers.is_empty() {
        return Err(Error::refused(
            "no number is named: type those you know of, as in 3, 7, 10-20",
        ));
    }
    let all = record.prints(edition)?;
    let live = |number: &u32| {
        let held = all.iter().find(|print| {
            print.live && print.kind == Kind::Numbered && print.number == *number
        });
        held.map(|print| print.id).ok_or_else(|| {
            Error::Missing(format!(
                "number {number} is not issued: nothing was changed. Leave it out, or issue it \
                 first"
            ))
        })
    };
    numbers.iter().map(live).collect()
}

/// What is done to several prints at once: all of them or none. Each goes where it is said, and has
/// that buyer and that price.
///
/// # Errors
/// Where none is named, one of them cannot go there, or it is sold already.
pub fn several(
    record: &mut dyn Record,
    prints: &[PrintId],
    going: Going,
    note: &Note,
) -> Result<Vec<Print>, Error> {
    if matches!(going.to, State::Voided | State::Unknown) {
        return Err(Error::refused(
            "several numbers were given: say where they are (studio, show, sold, returned or \
             destroyed); void or replace one at a time",
        ));
    }
    if let ([_, _, ..], State::Sold) = (prints, going.to) {
        for id in prints {
            let print = record.print(*id)?;
            // Who bought it is written over by nobody who meant the others.
            if print.now.state == State::Sold {
                let written = record.edition(print.edition)?.what;
                return Err(Error::refused(format!(
                    "{} is sold already, so nothing was changed: leave it out, or correct it by \
                     itself",
                    written.notation(print.kind, print.number)
                )));
            }
        }
    }
    let change = change(record, going)?;
    let changes: Vec<_> = prints.iter().map(|id| (*id, change.clone())).collect();
    record.change_all(&changes, note)
}

/// Restores prints as they were, unless they were changed since; `made` is how they were left.
///
/// # Errors
/// Where one of them was changed meanwhile.
pub fn several_back(
    record: &mut dyn Record,
    made: &[Print],
    were: &[Print],
    note: &Note,
) -> Result<(), Error> {
    for print in made {
        unchanged(print, &record.print(print.id)?, "a print")?;
    }
    let back = |was: &Print| (was.id, Change::Correct(Box::new(was.now.clone())));
    let changes: Vec<_> = were.iter().map(back).collect();
    record.change_all(&changes, note).map(drop)
}

/// What several prints are, and were.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Renamed {
    /// The prints as they were.
    pub were: Vec<Print>,
    /// The prints as they are.
    pub made: Vec<Print>,
    /// How many were at a show of the new name already: the two are one show now.
    pub joined: u32,
}

/// Gives a show another name: each print there, or sold there, gets an entry in its history.
///
/// # Errors
/// Where no print is at such a show, the new name is empty, or it is the same.
pub fn rename_show(
    record: &mut dyn Record,
    from: &str,
    to: &str,
    note: &Note,
) -> Result<Renamed, Error> {
    let shows = record.shows()?;
    let named = |name: &str| shows.iter().find(|(other, _)| same_name(other, name));
    // One where all prints are sold is in no list, and is found by its name as it is.
    let from = named(from).map_or_else(|| plain(from), |(name, _)| name.clone());
    let to = plain(to);
    if to == from {
        return Err(Error::refused(format!(
            "the show has the name {to} already: type another one"
        )));
    }
    let other = named(&to).filter(|(name, _)| *name != from);
    let (to, joined) = other.map_or((to, 0), |(name, count)| (name.clone(), *count));
    let were = record.rename_show(&from, &to, note)?;
    let made = were.iter().map(|print| record.print(print.id)).collect::<Result<_, _>>()?;
    Ok(Renamed { were, made, joined })
}

/// A name without spaces at its ends, and with one between its words.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether two names differ in capitals and spaces at most.
fn same_name(one: &str, other: &str) -> bool {
    plain(one).to_lowercase() == plain(other).to_lowercase()
}

fn change(record: &dyn Record, going: Going) -> Result<Change, Error> {
    let Going { to, place, buyer, price } = going;
    let place = place.map(|named| shown_at(record, to, &named)).transpose()?;
    let price = price.map(|price| in_usual(record, price)).transpose()?;
    Ok(Change::Move { to, place, buyer, price })
}

/// The place of a print in that state. A show is called as it is called in the record already,
/// however it is typed now: its name is not to be there twice because of a capital letter.
///
/// # Errors
/// Where a print in that state is at no show and was sold at none.
pub(super) fn shown_at(
    record: &dyn Record,
    state: State,
    named: &str,
) -> Result<String, Error> {
    let named = plain(named);
    if !named.is_empty() && !keeps_place(state) {
        return Err(Error::refused(format!(
            "a print that is {} is at no show, but {named} was given as one: leave the show out, \
             or mark the print as at a show or sold",
            state.name()
        )));
    }
    let shows = record.shows()?.into_iter().map(|(name, _)| name);
    let same = { shows }.find(|name| same_name(name, &named));
    Ok(same.unwrap_or(named))
}

/// Whether a print in that state is at a show, or may have been sold at one.
pub const fn keeps_place(state: State) -> bool {
    matches!(state, State::Show | State::Sold)
}
