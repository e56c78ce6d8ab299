//! A work, the size it is printed in, its edition.

use serde_json::json;
use sightedge_core::geometry::Size;
use sightedge_core::length::Unit;
use sightedge_service::record::{self, Correcting, EditionTerms};
use sightedge_studio::{
    Correction, Format, NewEdition, NewFormat, NewWork, Numerals, Tier, Work, WorkRow,
};

use super::super::super::measures::Measures;
use super::super::super::options::Options;
use super::super::super::outcome::CliError;
use super::super::super::{Exit, Streams};
use super::super::given::{absolute, number, sizes, tiers, year};
use super::super::{Asked, show};
use super::{EDITION, PRINT, SIZE, WORK, names};

pub(super) fn correct(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let row = asked.work()?;
    let catalogue = &row.work.catalogue;
    let options = asked.options;
    let any = |names: &[&str]| names.iter().any(|name| options.has(name));
    if !any(&WORK) && !any(&SIZE) && !any(&EDITION) {
        return Err(CliError::usage(format!(
            "nothing of {catalogue} to correct was given. Of the work it can be {}; of \
             its edition {}; of one print, with its number behind {catalogue}, {} or its plan",
            names(&[&WORK[..], &SIZE].concat()),
            names(&EDITION),
            names(&PRINT)
        )));
    }
    let mut correcting = Correcting::default();
    if any(&WORK) {
        let now = corrected(options, &row.work.what)?;
        correcting.work = Some((row.work.clone(), now));
    }
    if any(&SIZE) {
        let (was, mut now) = format(asked, &row)?;
        sizes(options, &mut now)?;
        correcting.sizes.push((was, now));
    }
    if any(&EDITION) {
        let (_, was) = asked.edition()?;
        let (now, prices) = (edition(options, &was.what)?, tiers(options)?);
        let tiers = asked.record().tiers(was.id)?;
        correcting.edition = Some(EditionTerms { was, now, tiers, prices });
    }
    let note = asked.note.clone();
    let corrected = record::correct(asked.record(), row.work.id, correcting, &note)?;
    if !corrected.any() && !asked.json() {
        writeln!(streams.out, "{catalogue} is so already: nothing was changed")?;
    }
    told(asked, &corrected.made, streams)
}

/// The work with what was given in the place of what stands.
fn corrected(options: &Options, was: &NewWork) -> Result<NewWork, CliError> {
    let mut work = was.clone();
    for (name, field) in [
        ("title", &mut work.title),
        ("maker", &mut work.maker),
        ("medium", &mut work.medium),
        ("paper", &mut work.paper),
        ("notes", &mut work.notes),
    ] {
        if let Some(given) = options.text(name)? {
            given.clone_into(field);
        }
    }
    year(options, "taken", &mut work.taken)?;
    year(options, "printed", &mut work.printed)?;
    if let Some(text) = options.text("picture")? {
        // The file may be as it was and hold another picture: it is read anew.
        work.sha256.clear();
        work.picture = match text {
            "" => String::new(),
            text => absolute(text.as_ref())?.to_string_lossy().into_owned(),
        };
    }
    Ok(work)
}

/// The format whose sizes are to be put right; without an id where the work has none yet.
fn format(asked: &Asked<'_>, row: &WorkRow) -> Result<(Option<Format>, NewFormat), CliError> {
    let catalogue = &row.work.catalogue;
    let options = asked.options;
    if !options.has("image") && !options.has("sheet") {
        return Err(CliError::usage(
            "--format says which size to correct, and no new size was given: give \
             --image or --sheet beside it, as in --image 11x15in",
        ));
    }
    let name = options.text("format")?;
    let formats = asked.opened.read().formats(row.work.id)?;
    let one_of_many = row.editions.len() < 2 || options.has("in");
    let of_edition = match name {
        None if one_of_many && !row.editions.is_empty() => asked.edition()?.1.what.format,
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

/// The edition with what was given in the place of what stands; artist's proofs follow size
/// and share.
fn edition(options: &Options, was: &NewEdition) -> Result<NewEdition, CliError> {
    options.one_of(&["fraction", "roman"])?;
    let mut new = was.clone();
    if options.has("size") || options.has("proofs") {
        new.size = number(options, "size")?.unwrap_or(was.size);
        new.proof_share = number(options, "proofs")?.unwrap_or(was.proof_share);
        new.artist = NewEdition::of(new.size, new.proof_share).artist;
    }
    for (name, field) in
        [("pp", &mut new.printer), ("hc", &mut new.hors_commerce), ("tp", &mut new.trial)]
    {
        if let Some(count) = number(options, name)? {
            *field = count;
        }
    }
    new.roman = options.has("roman") || new.roman && !options.has("fraction");
    Ok(new)
}

/// What it is now.
fn told(
    asked: &mut Asked<'_>,
    correction: &Correction,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let WorkRow { work, editions } = asked.work()?;
    if asked.json() {
        let mut told = Vec::new();
        for one in &editions {
            told.push(show::edition_whole(asked, one)?);
        }
        let told = json!({
            "catalogue": work.catalogue, "work": work.what,
            "formats": show::formats(asked, work.id)?, "editions": told,
        });
        writeln!(streams.out, "{told:#}")?;
        return Ok(Exit::Done);
    }
    if correction.work.is_some() {
        writeln!(streams.out, "{}", work_line(&work))?;
    }
    for (_, what) in &correction.formats {
        let unit = Measures::of(asked.options, &SIZE)?.unit;
        writeln!(streams.out, "{} {}", work.catalogue, size_line(what, unit))?;
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
    let NewWork { title, maker, taken, printed, medium, paper, picture, notes, sha256: _ } =
        &work.what;
    let year = |word: &str, year: &Option<i64>| year.map(|year| format!("{word} {year}"));
    let said = |word: &str, text: &str| {
        Some(format!("{word}{text}")).filter(|_| !text.trim().is_empty())
    };
    let parts = [
        said("", maker),
        year("taken", taken),
        year("printed", printed),
        said("", medium),
        said("", paper),
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
