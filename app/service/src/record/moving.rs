//! What is done to prints: they go to a show or a buyer, come back, are destroyed, voided,
//! replaced.

use sightedge_studio::{
    Change, Edition, EditionId, Error, Note, Price, Print, PrintId, Record, State,
};

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
    /// A new print gets the number of this one, which is destroyed. Nothing takes that back: ask
    /// first, in the words of [`question_before`].
    Replace,
}

/// Does it to a print; gives it as it is then, or the new one that replaces it.
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

/// What is asked before something is done to a print that nothing takes back; `None` for what can
/// be taken back, or cannot be done to it at all.
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

/// Says where numbered prints are whose whereabouts are unknown: all of them or none.
///
/// # Errors
/// Where none is named, or one of them is not to be located so.
pub fn locate(
    record: &mut dyn Record,
    edition: EditionId,
    numbers: &[u32],
    going: Going,
    note: &Note,
) -> Result<Vec<Print>, Error> {
    if numbers.is_empty() {
        return Err(Error::refused(
            "no number is named: type those you know of, as in 3, 7, 10-20",
        ));
    }
    if matches!(going.to, State::Voided | State::Unknown) {
        return Err(Error::refused(
            "several numbers were given: say where they are (studio, show, sold, returned or \
             destroyed); void or replace one at a time",
        ));
    }
    if going.price.is_some() {
        return Err(Error::refused(
            "a price is of one print: move several without it, then correct each with its price",
        ));
    }
    let change = change(record, going)?;
    record.locate(edition, numbers, &change, note)
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
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let named = plain(named);
    if !named.is_empty() && !keeps_place(state) {
        return Err(Error::refused(format!(
            "{named} is named as the show, and a print that is {} is at none: leave the show \
             out, or say that it is at the show, or was sold there",
            state.name()
        )));
    }
    let shows = record.shows()?.into_iter().map(|(name, _)| name);
    let same = { shows }.find(|name| plain(name).to_lowercase() == named.to_lowercase());
    Ok(same.unwrap_or(named))
}

/// Whether a print in that state is at a show, or may have been sold at one.
pub const fn keeps_place(state: State) -> bool {
    matches!(state, State::Show | State::Sold)
}
