//! Checks before anything is written, so that a refusal is in our words and not the database's.

use sightedge_core::date::Date;

use crate::{Error, LONGEST, NewEdition, NewFormat, NewWork, Note, PrintDetails};

/// An edition that can be opened.
pub(super) fn edition(edition: &NewEdition) -> Result<(), Error> {
    text("the edition's name", &edition.name)?;
    if !(1..=1_000_000).contains(&edition.size) {
        return Err(Error::refused(format!(
            "an edition of {} was to be opened, and 1 to 1 000 000 prints are wanted",
            edition.size
        )));
    }
    if edition.proof_share > 100 {
        return Err(Error::refused(format!(
            "{} % of the edition were asked for as artist's proofs, and 0 to 100 % are wanted: \
             the usual is {} %",
            edition.proof_share,
            crate::PROOF_SHARE
        )));
    }
    let most = crate::model::proofs(edition.size, edition.proof_share);
    if edition.artist > most {
        return Err(Error::refused(format!(
            "{} artist's proofs beside an edition of {} were asked for, and at most {} % of it, \
             {most}, are wanted: take fewer, or set another share",
            edition.artist, edition.size, edition.proof_share
        )));
    }
    if [edition.printer, edition.hors_commerce, edition.trial].iter().any(|n| *n > 1_000_000) {
        return Err(Error::refused("more than 1 000 000 proofs were asked for: take fewer"));
    }
    Ok(())
}

/// A format whose sizes are known, or 0 where they are not.
pub(super) fn format(format: &NewFormat) -> Result<(), Error> {
    let NewFormat { name, image_w, image_h, sheet_w, sheet_h } = format;
    text("the format's name", name)?;
    if [image_w, image_h, sheet_w, sheet_h].into_iter().any(|length| *length < 0) {
        return Err(Error::refused(
            "a size less than nothing was given for a format, and a width and a height are \
             wanted, or 0 where they are not known: measure it again",
        ));
    }
    let within = |image: i64, sheet: i64| sheet == 0 || image <= sheet;
    if !within(*image_w, *sheet_w) || !within(*image_h, *sheet_h) {
        return Err(Error::refused(
            "the image is larger than its sheet, and one within it is wanted: the sheet is the \
             whole paper, and width comes before height",
        ));
    }
    Ok(())
}

/// A text that every form of the record can hold.
pub(super) fn text(what: &str, text: &str) -> Result<(), Error> {
    if text.contains('\0') {
        return Err(Error::refused(format!(
            "{what} holds a character of no meaning (NUL), and plain text is wanted: type it \
             anew"
        )));
    }
    let length = text.chars().count();
    if length > LONGEST {
        return Err(Error::refused(format!(
            "{what} has {length} characters, and at most {LONGEST} are wanted: shorten it"
        )));
    }
    Ok(())
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
    let NewWork { title, maker, taken, printed, medium, paper, picture, sha256, notes } = work;
    for (what, given) in [
        ("the title", title),
        ("the maker's name", maker),
        ("the medium", medium),
        ("the paper", paper),
        ("the picture's file", picture),
        ("the picture's digest", sha256),
        ("the notes", notes),
    ] {
        text(what, given)?;
    }
    for year in [taken, printed].into_iter().flatten() {
        if !(-9999..=9999).contains(year) {
            return Err(Error::refused(format!(
                "the year {year} was given, and one of four figures is wanted"
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
                "{price} is no price: no less than nothing, in a currency of three letters, is \
                 wanted, as in 1200.50 EUR"
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
        "the print is said to be matted on {matted}, before it was printed on {printed}, and the \
         same day or a later one is wanted: correct one of them"
    )))
}

/// A day as in 2025-11-30, and no more than that.
fn day(what: &str, given: &str) -> Result<(), Error> {
    if given.len() == 10 && given.parse::<Date>().is_ok() {
        return Ok(());
    }
    let shown: String = given.chars().take(40).collect();
    Err(Error::refused(format!(
        "\"{shown}\" is no day for {what}: year, month and day are wanted, as in 2025-11-30"
    )))
}
