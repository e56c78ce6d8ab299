//! New works and editions, prints issued.

use std::path::Path;

use serde_json::json;
use sightedge_studio::{Choice, Kind, NewEdition, NewFormat, NewWork, Note, WorkRef, WorkRow};

use super::super::measures::Measures;
use super::super::options::Options;
use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::correct::size_line;
use super::given::{number, plan, plan_of_print, price, sizes, tiers, year};
use super::{Asked, write_print};
use sightedge_service::record::{self, Issuing, Registering};

pub(super) fn new(asked: &mut Asked<'_>, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    asked.at_most(1)?;
    let options = asked.options;
    let from_plan = match asked.rest.first() {
        Some(path) => Some(plan(Path::new(path), options, streams)?),
        None => None,
    };
    let (mut work, mut format) = match &from_plan {
        Some((document, path)) => record::of_plan(document, Some(path)),
        None => Default::default(),
    };
    for (name, field) in [
        ("title", &mut work.title),
        ("maker", &mut work.maker),
        ("medium", &mut work.medium),
        ("paper", &mut work.paper),
        ("format", &mut format.name),
    ] {
        if let Some(given) = options.text(name)? {
            given.clone_into(field);
        }
    }
    year(options, "taken", &mut work.taken)?;
    year(options, "printed", &mut work.printed)?;
    sizes(options, &mut format)?;
    let share = number(options, "proofs")?.unwrap_or(sightedge_studio::PROOF_SHARE);
    let had = match options.text("of")? {
        Some(catalogue) => Some(asked.called(catalogue)?),
        None => None,
    };
    let note = asked.note.clone();
    let size: u32 = match (number(options, "size")?, &had) {
        (Some(size), _) => size,
        (None, Some(row)) => return another_size(asked, row, &format, &note, streams),
        (None, None) => {
            return Err(CliError::usage(
                "how many prints will there be? Give --size, as in --size 25",
            ));
        }
    };
    let given = |name| Ok::<u32, CliError>(number(options, name)?.unwrap_or(0));
    let edition = NewEdition {
        printer: given("pp")?,
        hors_commerce: given("hc")?,
        trial: given("tp")?,
        roman: !options.has("fraction"),
        ..NewEdition::of(size, share)
    };
    let out = taken_over(options)?;
    let prices = tiers(options)?;
    let of_work = if let Some(row) = had {
        WorkRef::Existing(row.work.id)
    } else {
        alike(asked, &work, streams)?;
        WorkRef::New(Box::new(work), options.text("catalogue")?.map(ToOwned::to_owned))
    };
    // Only what is counted by its size is bound to it.
    let alone = by_format(options);
    let beginning =
        Registering { work: of_work, format, alone, edition: Some(edition), prices, out };
    let (id, edition) = record::register(asked.record(), beginning, &note)?;
    let catalogue = asked.record().work(id)?.catalogue;
    if asked.json() {
        let told = json!({
            "catalogue": catalogue, "work": id.0, "edition": edition.map(|edition| edition.0),
        });
        writeln!(streams.out, "{told:#}")?;
    } else if let Some(edition) = edition {
        let what = asked.record().edition(edition)?.what;
        writeln!(
            streams.out,
            "{catalogue}: an edition of {} and {} artist's {}",
            what.size,
            what.artist,
            if what.artist == 1 { "proof" } else { "proofs" },
        )?;
    }
    Ok(Exit::Done)
}

/// Another size of the one edition that counts all sizes of a work.
fn another_size(
    asked: &mut Asked<'_>,
    row: &WorkRow,
    format: &NewFormat,
    note: &Note,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let catalogue = &row.work.catalogue;
    if !row.editions.iter().any(|one| one.edition.what.format.is_none()) {
        return Err(CliError::usage(format!(
            "no edition of {catalogue} counts all its sizes: how many prints will there be in \
             this size? Give --size, as in --size 25"
        )));
    }
    for own in ["proofs", "pp", "hc", "tp", "fraction", "issued", "price"] {
        asked.options.needs(own, "size")?;
    }
    let unit = Measures::of(asked.options, &["image", "sheet"])?.unit;
    let beginning = Registering {
        work: WorkRef::Existing(row.work.id),
        format: format.clone(),
        alone: false,
        edition: None,
        prices: Vec::new(),
        out: None,
    };
    record::register(asked.record(), beginning, note)?;
    if asked.json() {
        let told = json!({ "catalogue": catalogue, "work": row.work.id.0, "edition": null });
        writeln!(streams.out, "{told:#}")?;
    } else {
        writeln!(
            streams.out,
            "{catalogue}: also {}, in the edition there is",
            size_line(format, unit)
        )?;
    }
    Ok(Exit::Done)
}

/// Says where there is a work of the same title and maker: it may be another size of that.
fn alike(
    asked: &mut Asked<'_>,
    work: &NewWork,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    let same = |one: &str, other: &str| one.trim().eq_ignore_ascii_case(other.trim());
    let mut rows = asked.record().index()?.into_iter().map(|row| row.work);
    let found = rows.find(|there| {
        same(&there.what.title, &work.title) && same(&there.what.maker, &work.maker)
    });
    if let Some(there) = found {
        writeln!(
            streams.err,
            "sightedge: {0} has this title and maker, too; another size of one work is made with \
             --of {0}",
            there.catalogue
        )?;
    }
    Ok(())
}

fn by_format(options: &Options) -> bool {
    options.has("format")
}

type Out = (u32, u32, Vec<u32>);

fn taken_over(options: &Options) -> Result<Option<Out>, CliError> {
    options.needs("sold", "issued")?;
    let Some(text) = options.text("issued")? else { return Ok(None) };
    let range = text.split_once("..").unwrap_or(("1", text));
    let (from, to) = (range.0.trim().parse(), range.1.trim().parse());
    let (Ok(from), Ok(to)) = (from, to) else {
        return Err(CliError::usage(format!(
            "--issued {text} names no numbers: try --issued 1..47, those that are out already"
        )));
    };
    let sold = record::numbers(options.text("sold")?.unwrap_or_default());
    let sold = sold.map_err(|wrong| CliError::usage(format!("--sold: {wrong}")))?;
    Ok(Some((from, to, sold)))
}

pub(super) fn issue(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    asked.at_most(2)?;
    let (work, edition) = asked.edition()?;
    let options = asked.options;
    let kind = match options.text("kind")? {
        None => Kind::Numbered,
        Some(key) => Kind::of_key(key).ok_or_else(|| {
            CliError::usage(format!(
                "--kind {key} is no kind of print: numbered, ap, pp, hc, bat or tp is wanted"
            ))
        })?,
    };
    let choice = number(options, "number")?.map_or(Choice::Next, Choice::Number);
    let plan = match asked.rest.get(1) {
        Some(path) => Some(plan_of_print(Path::new(path), options, streams)?),
        None => None,
    };
    let issuing = Issuing {
        plan,
        price: price(options)?,
        printed: options.text("printed")?.unwrap_or_default().to_owned(),
        matted: options.text("matted")?.unwrap_or_default().to_owned(),
        ..Issuing::of(edition.id, kind, choice)
    };
    let note = asked.note.clone();
    let issued = record::issue(asked.record(), issuing, &note)?;
    if issued.other_size {
        writeln!(
            streams.err,
            "sightedge: the plan is of another size than this edition, whose size is noted"
        )?;
    }
    write_print(asked, (&work, &edition, &issued.print), streams)
}
