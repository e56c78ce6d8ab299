//! Checks before anything is written, so that a refusal is in our words and not the database's.

use sightedge_core::date::Date;

use crate::{Error, LONGEST, NewEdition, NewFormat, NewWork, Note, PrintDetails};

/// An edition that can be opened.
pub(super) fn edition(edition: &NewEdition) -> Result<(), Error> {
    text("the edition's name", &edition.name)?;
    if !(1..=1_000_000).contains(&edition.size) {
        return Err(Error::refused(format!(
            "an edition has 1 to 1 000 000 prints, not {}: choose its size",
            edition.size
        )));
    }
    if edition.proof_share > 100 {
        return Err(Error::refused(format!(
            "artist's proofs can be 0 to 100 % of the edition, not {} %: {} % is usual",
            edition.proof_share,
            crate::PROOF_SHARE
        )));
    }
    let most = crate::model::proofs(edition.size, edition.proof_share);
    if edition.artist > most {
        return Err(Error::refused(format!(
            "{} artist's proofs are too many beside an edition of {}: {} % of it allows {most}. \
             Take fewer, or raise the percentage",
            edition.artist, edition.size, edition.proof_share
        )));
    }
    if [edition.printer, edition.hors_commerce, edition.trial].iter().any(|n| *n > 1_000_000) {
        return Err(Error::refused(
            "an edition has at most 1 000 000 proofs of a kind: take fewer",
        ));
    }
    Ok(())
}

/// A format whose sizes are known, or 0 where they are not.
pub(super) fn format(format: &NewFormat) -> Result<(), Error> {
    let NewFormat { name, image_w, image_h, sheet_w, sheet_h } = format;
    text("the name of the size", name)?;
    if [image_w, image_h, sheet_w, sheet_h].into_iter().any(|length| *length < 0) {
        return Err(Error::refused(
            "a width or height is less than zero: measure it again, or leave the size empty if \
             you do not know it",
        ));
    }
    let within = |image: i64, sheet: i64| sheet == 0 || image <= sheet;
    if !within(*image_w, *sheet_w) || !within(*image_h, *sheet_h) {
        return Err(Error::refused(
            "the image is larger than its sheet: the sheet is the whole paper, and width comes \
             before height. Measure both again",
        ));
    }
    Ok(())
}

/// A text that every form of the record can hold.
pub(super) fn text(what: &str, text: &str) -> Result<(), Error> {
    if text.contains('\0') {
        return Err(Error::refused(format!(
            "{what}: there is a character in it that cannot be shown (NUL). Type the text again"
        )));
    }
    let length = text.chars().count();
    if length > LONGEST {
        return Err(Error::refused(format!(
            "{what}: {length} characters are too many, at most {LONGEST} fit. Shorten the text"
        )));
    }
    Ok(())
}

/// A catalogue number.
pub(super) fn catalogue(given: &str) -> Result<(), Error> {
    if given.trim().is_empty() {
        return Err(Error::refused("the catalogue number is empty: type one, as in W0012"));
    }
    text("the catalogue number", given)
}

pub(super) fn note(note: &Note) -> Result<(), Error> {
    text("the reason", &note.why)?;
    day("the date of the entry", note.at.get(..10).unwrap_or(&note.at))?;
    text("the date of the entry", &note.at)
}

impl Note {
    /// Whether the record would take it.
    ///
    /// # Errors
    /// Where its date is not a day of the calendar, or a text is too long or holds controls.
    pub fn check(&self) -> Result<(), Error> {
        note(self)
    }
}

pub(super) fn work(work: &NewWork) -> Result<(), Error> {
    let NewWork {
        title,
        maker,
        taken,
        printed,
        medium,
        process,
        paper,
        signed,
        authorised,
        master,
        others,
        picture,
        sha256,
        notes,
    } = work;
    for (what, given) in [
        ("the title", title),
        ("the maker's name", maker),
        ("the medium", medium),
        ("the process", process),
        ("the paper", paper),
        ("the line on how prints are signed", signed),
        ("the line on who authorised the edition", authorised),
        ("the line on the negative, plate or file", master),
        ("the line on other editions", others),
        ("the picture's file", picture),
        ("the picture's digest", sha256),
        ("the notes", notes),
    ] {
        text(what, given)?;
    }
    for year in [taken, printed].into_iter().flatten() {
        if !(-9999..=9999).contains(year) {
            return Err(Error::refused(format!(
                "{year} is no year: type four figures, as in 2021"
            )));
        }
    }
    Ok(())
}

pub(super) fn details(details: &PrintDetails) -> Result<(), Error> {
    let PrintDetails {
        format: _,
        state: _,
        place,
        printed,
        matted,
        plan,
        plan_file,
        price,
        buyer,
    } = details;
    for (what, given) in [
        ("the place", place),
        ("the plan's id", plan),
        ("the plan's file", plan_file),
        ("the buyer's note", buyer),
    ] {
        text(what, given)?;
    }
    for (what, given) in [("the day of printing", printed), ("the day of matting", matted)] {
        if !given.is_empty() {
            day(what, given)?;
        }
    }
    if let Some(price) = price {
        let letters = price.currency.bytes().all(|letter| letter.is_ascii_uppercase());
        if price.cents < 0 || price.currency.len() != 3 || !letters {
            return Err(Error::refused(format!(
                "{price} is no price: type an amount and a currency of three letters, as in \
                 1200.50 EUR"
            )));
        }
    }
    Ok(())
}

/// Refuses a print that was matted before it was printed.
pub(super) fn in_order(
    PrintDetails { printed, matted, .. }: &PrintDetails,
) -> Result<(), Error> {
    if printed.is_empty() || matted.is_empty() || printed <= matted {
        return Ok(());
    }
    Err(Error::refused(format!(
        "the print was matted on {matted}, before it was printed on {printed}: correct one of \
         the two days"
    )))
}

/// A day as in 2025-11-30, and no more than that.
fn day(what: &str, given: &str) -> Result<(), Error> {
    if given.len() == 10 && given.parse::<Date>().is_ok() {
        return Ok(());
    }
    let shown: String = given.chars().take(40).collect();
    Err(Error::refused(format!(
        "\"{shown}\" is no day for {what}: type year, month and day, as in 2025-11-30"
    )))
}
