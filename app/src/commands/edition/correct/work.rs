//! A work, the size it is printed in, its edition.

use serde_json::json;
use sightedge_core::geometry::Size;
use sightedge_core::length::Unit;
use sightedge_service::record::{self, Correcting, EditionTerms};
use sightedge_studio::{
    Correction, Format, NewEdition, NewFormat, NewWork, Numerals, Tier, Work, WorkRow,
};

use super::super::super::outcome::CliError;
use super::super::super::{Exit, Streams};
use super::super::given::{Counts, Prices, Year, absolute, prices, year};
use super::super::{Asked, show};
use super::{Correct, OfBoth, OfEdition, OfSize, OfWork, of_print, of_work, options_of};

pub(super) fn correct(
    given: &Correct,
    asked: &mut Asked,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let row = asked.work(&given.of)?;
    let catalogue = &row.work.catalogue;
    let OfBoth { printed, price } = &given.both;
    let of = [
        given.is_given::<OfWork>() || printed.is_some(),
        given.is_given::<OfSize>(),
        given.is_given::<OfEdition>() || price.is_some(),
    ];
    if of == [false; 3] {
        return Err(CliError::usage(format!(
            "nothing of {catalogue} to correct was given. Of the work it can be {}, --printed; of \
             its edition {}, --price; of one print, with its number behind {catalogue}, {} or \
             its plan",
            of_work().join(", "),
            options_of::<OfEdition>().join(", "),
            of_print()
        )));
    }
    let [work, size, terms] = of;
    let mut correcting = Correcting::default();
    if work {
        let now = corrected(given, &row.work.what)?;
        correcting.work = Some((row.work.clone(), now));
        let OfWork { catalogue: number, withdraw, bring_back, .. } = &given.work;
        correcting.catalogue = number.clone().map(|number| (catalogue.clone(), number));
        correcting.withdrawn = (*withdraw || *bring_back).then_some(*withdraw);
    }
    if size {
        let (was, mut now) = format(given, asked, &row)?;
        given.size.size.lay_over(&mut now, given.typed.unit())?;
        correcting.sizes.push((was, now));
    }
    if terms {
        let (_, was) = asked.edition(catalogue, None, &given.one)?;
        let now = edition(&given.edition, &was.what);
        let Prices(prices) = match price {
            Some(text) => prices("price", text).map_err(CliError::usage)?,
            None => Prices::default(),
        };
        let tiers = asked.record().tiers(was.id)?;
        correcting.edition = Some(EditionTerms { was, now, tiers, prices });
    }
    let note = given.noted.note();
    let corrected = record::correct(asked.record(), row.work.id, correcting, &note)?;
    if !corrected.any() && !given.json {
        writeln!(streams.out, "{catalogue} is like that already: nothing was changed")?;
    }
    told(given, asked, &corrected.made, streams)
}

/// The work with what was given in place of what was there.
fn corrected(given: &Correct, was: &NewWork) -> Result<NewWork, CliError> {
    let OfWork { text, picture, notes, .. } = &given.work;
    let mut work = was.clone();
    text.lay_over(&mut work);
    if let Some(notes) = notes {
        work.notes.clone_from(notes);
    }
    if let Some(printed) = &given.both.printed {
        let Year(printed) = year("printed", printed).map_err(CliError::usage)?;
        work.printed = printed;
    }
    if let Some(picture) = picture {
        // The file may be as it was and hold another picture: it is read anew.
        work.sha256.clear();
        work.picture = if picture.as_os_str().is_empty() {
            String::new()
        } else {
            absolute(picture)?.to_string_lossy().into_owned()
        };
    }
    Ok(work)
}

/// The format whose sizes are corrected; without an id where the work has none yet.
fn format(
    given: &Correct,
    asked: &Asked,
    row: &WorkRow,
) -> Result<(Option<Format>, NewFormat), CliError> {
    let catalogue = &row.work.catalogue;
    let OfSize { size, format: name } = &given.size;
    if size.image.is_none() && size.sheet.is_none() {
        return Err(CliError::usage(
            "--format says which size to correct, and no new size was given: give \
             --image or --sheet beside it, as in --image 11x15in",
        ));
    }
    let name = name.as_deref();
    let formats = asked.opened.read().formats(row.work.id)?;
    let one_of_many = row.editions.len() < 2 || given.one.edition.is_some();
    let of_edition = match name {
        None if one_of_many && !row.editions.is_empty() => {
            asked.edition(catalogue, None, &given.one)?.1.what.format
        }
        _ => None,
    };
    let wanted = |format: &&Format| match (of_edition, name) {
        (Some(id), _) => format.id == id,
        (None, Some(name)) => format.what.name == name,
        (None, None) => true,
    };
    let found: Vec<&Format> = formats.iter().filter(wanted).collect();
    let called = || -> String {
        let names = formats.iter().map(|format| format!("\"{}\"", format.what.name));
        names.collect::<Vec<_>>().join(", ")
    };
    match found.as_slice() {
        [one] => Ok((Some((*one).clone()), one.what.clone())),
        [] if formats.is_empty() => {
            let name = name.unwrap_or_default().to_owned();
            Ok((None, NewFormat { name, ..NewFormat::default() }))
        }
        [] => Err(CliError::unreadable(format!(
            "{catalogue} is printed in no size called \"{}\": those it has are called {}",
            name.unwrap_or_default(),
            called()
        ))),
        _ => Err(CliError::usage(format!(
            "{catalogue} is printed in {} sizes, called {}: say which one with --format, or \
             with --in its edition",
            formats.len(),
            called()
        ))),
    }
}

/// The edition with what was given in place of what was there; artist's proofs follow size
/// and share.
fn edition(given: &OfEdition, was: &NewEdition) -> NewEdition {
    let OfEdition { counts: Counts { size, proofs, pp, hc, tp, fraction }, roman } = *given;
    let mut new = was.clone();
    if size.is_some() || proofs.is_some() {
        new.size = size.unwrap_or(was.size);
        new.proof_share = proofs.unwrap_or(was.proof_share);
        new.artist = NewEdition::of(new.size, new.proof_share).artist;
    }
    new.printer = pp.unwrap_or(was.printer);
    new.hors_commerce = hc.unwrap_or(was.hors_commerce);
    new.trial = tp.unwrap_or(was.trial);
    new.roman = roman || new.roman && !fraction;
    new
}

/// What it is now.
fn told(
    given: &Correct,
    asked: &mut Asked,
    correction: &Correction,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let called = correction.catalogue.as_deref().unwrap_or(&given.of);
    let WorkRow { work, editions } = asked.work(called)?;
    if given.json {
        let mut told = Vec::new();
        for one in &editions {
            told.push(show::edition_whole(asked, one)?);
        }
        let told = json!({
            "catalogue": work.catalogue, "withdrawn": work.withdrawn, "work": work.what,
            "formats": show::formats(asked, work.id)?, "editions": told,
        });
        writeln!(streams.out, "{told:#}")?;
        return Ok(Exit::Done);
    }
    if correction.work.is_some() || correction.catalogue.is_some() {
        writeln!(streams.out, "{}", work_line(&work))?;
    }
    if let Some(withdrawn) = correction.withdrawn {
        let words = if withdrawn {
            "is withdrawn: it is off the lists, and its history stays. --bring-back undoes it"
        } else {
            "is on the lists again"
        };
        writeln!(streams.out, "{} {words}", work.catalogue)?;
    }
    for (_, what) in &correction.formats {
        let line = size_line(what, given.typed.unit());
        writeln!(streams.out, "{} {line}", work.catalogue)?;
    }
    let touched = correction.edition.as_ref().map(|(id, _)| *id);
    if let Some(id) = touched.or(correction.tiers.first().map(|tier| tier.edition)) {
        let what = asked.record().edition(id)?.what;
        let tiers = asked.record().tiers(id)?;
        let line = edition_line(&what, &tiers);
        writeln!(streams.out, "{} edition {}: {line}", work.catalogue, id.0)?;
    }
    Ok(Exit::Done)
}

fn work_line(work: &Work) -> String {
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
        notes,
        sha256: _,
    } = &work.what;
    let year = |word: &str, year: &Option<i64>| year.map(|year| format!("{word} {year}"));
    let said = |word: &str, text: &str| {
        Some(format!("{word}{text}")).filter(|_| !text.trim().is_empty())
    };
    let parts = [
        said("", maker),
        year("taken", taken),
        year("printed", printed),
        said("", medium),
        said("", process),
        said("", paper),
        said("signed ", signed),
        said("authorised ", authorised),
        said("negative, plate or file: ", master),
        said("other editions: ", others),
        said("picture ", picture),
        said("notes: ", notes),
    ];
    let mut line = format!("{} {title}", work.catalogue);
    for part in parts.into_iter().flatten() {
        line.push_str(", ");
        line.push_str(&part);
    }
    line
}

/// A size in one line.
pub(in super::super) fn size_line(format: &NewFormat, unit: Unit) -> String {
    let size = |size: Size| size.sides_text(|side| side.text(unit)).replace('×', "x");
    let sizes = record::size_in_words(format, size).join(", ");
    let name =
        if format.name.is_empty() { String::new() } else { format!(" \"{}\"", format.name) };
    format!("printed in the size{name}: {sizes} (width x height)")
}

fn edition_line(edition: &NewEdition, tiers: &[Tier]) -> String {
    let prints = if edition.size == 1 { "print" } else { "prints" };
    let mut line = format!("{} {prints}", edition.size);
    for (count, word) in [
        (edition.artist, "artist's proofs"),
        (edition.printer, "printer's proofs"),
        (edition.hors_commerce, "hors commerce"),
        (edition.trial, "trial proofs"),
    ] {
        if count > 0 {
            let word = if count == 1 { word.trim_end_matches('s') } else { word };
            line = format!("{line}, {count} {word}");
        }
    }
    let how = match edition.numerals() {
        Numerals::Roman => "II/V",
        Numerals::Fraction => "2/5",
    };
    line = format!("{line}; proofs are numbered as in {how}");
    // An edition that was made smaller keeps prices of numbers it no longer has.
    for Tier { from, price, .. } in tiers.iter().filter(|tier| tier.from <= edition.size) {
        line = format!("{line}; from {from} on {price}");
    }
    line
}
