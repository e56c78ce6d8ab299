//! What there is: works, the prints of one, a show, what happened.

use serde_json::{Value, json};
use sightedge_core::length::Unit;
use sightedge_studio::{
    Edition, EditionRow, Entry, Kind, State, Subject, Totals, Work, WorkId, WorkRow,
};

use super::super::options::Options;
use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::{Asked, print_json, print_line};
use sightedge_service::record;

const NOTHING: &str = "Nothing here yet: sightedge edition new adds a work.";

/// The list where no record is begun yet; looking begins none.
pub(super) fn nothing(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    if options.has("json") {
        writeln!(streams.out, "{:#}", json!({ "works": [], "sums": [] }))?;
    } else {
        writeln!(streams.out, "{NOTHING}")?;
    }
    Ok(Exit::Done)
}

pub(super) fn list(asked: &mut Asked<'_>, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    asked.at_most(1)?;
    if let Some(show) = asked.options.text("show")? {
        return at_show(asked, show, streams);
    }
    if !asked.rest.is_empty() {
        return one(asked, streams);
    }
    let search = record::sought(asked.options.text("search")?.unwrap_or_default());
    let held = match search.as_str() {
        "" => Vec::new(),
        search => asked.record().held_by(search)?,
    };
    let all = asked.record().index()?;
    let at = record::found(&all, &search, &held);
    let found: Vec<&WorkRow> = at.into_iter().filter_map(|at| all.get(at)).collect();
    let sums = asked.record().sums()?;
    if asked.json() {
        let works: Vec<Value> = found.iter().map(|row| row_json(row)).collect();
        writeln!(streams.out, "{:#}", json!({ "works": works, "sums": sums }))?;
        return Ok(Exit::Done);
    }
    if found.is_empty() {
        if search.is_empty() {
            writeln!(streams.out, "{NOTHING}")?;
        } else {
            writeln!(streams.out, "No work is called or held so: {search}.")?;
        }
    }
    for row in &found {
        let what = &row.work.what;
        let by = if what.maker.is_empty() { "" } else { ", " };
        writeln!(streams.out, "{:<8}{}{by}{}", row.work.catalogue, what.title, what.maker)?;
        for one in &row.editions {
            writeln!(
                streams.out,
                "        edition {}: {}",
                one.edition.id.0,
                counts(&one.edition, one.totals)
            )?;
        }
    }
    // They are of all works.
    for line in record::sums_in_words(&sums).iter().filter(|_| search.is_empty()) {
        writeln!(streams.out, "{line}")?;
    }
    Ok(Exit::Done)
}

fn counts(edition: &Edition, totals: Totals) -> String {
    let mut told = format!("{} of {} issued", totals.issued, edition.what.size);
    for (count, what) in [
        (totals.proofs, if totals.proofs == 1 { "proof" } else { "proofs" }),
        (totals.studio, State::Studio.name()),
        (totals.show, State::Show.name()),
        (totals.sold, State::Sold.name()),
        (totals.unknown, State::Unknown.name()),
        (totals.destroyed, State::Destroyed.name()),
    ] {
        if count > 0 {
            told = format!("{told}, {count} {what}");
        }
    }
    told
}

fn row_json(row: &WorkRow) -> Value {
    json!({
        "catalogue": row.work.catalogue,
        "work": row.work.what,
        "editions": row.editions.iter().map(edition_json).collect::<Vec<_>>(),
    })
}

fn edition_json(row: &EditionRow) -> Value {
    let EditionRow { edition, totals } = row;
    let what = &edition.what;
    json!({
        "id": edition.id.0,
        "size": what.size,
        "proof_share": what.proof_share,
        "artists_proofs": what.artist,
        "printers_proofs": what.printer,
        "hors_commerce": what.hors_commerce,
        "trial_proofs": what.trial,
        "numerals": what.numerals().key(),
        "totals": totals,
    })
}

/// An edition and what its prints cost from a number on.
pub(super) fn edition_whole(asked: &Asked<'_>, row: &EditionRow) -> Result<Value, CliError> {
    let tiers = asked.opened.read().tiers(row.edition.id)?;
    let mut told = edition_json(row);
    told["prices"] = tiers
        .iter()
        .map(|tier| json!({ "from": tier.from, "price": tier.price.to_string() }))
        .collect();
    Ok(told)
}

/// The sizes in which a work is printed; 0 where nothing is known.
pub(super) fn formats(asked: &Asked<'_>, work: WorkId) -> Result<Value, CliError> {
    let formats = asked.opened.read().formats(work)?;
    let told = formats.iter().map(|format| {
        let (image, sheet) = (format.what.image(), format.what.sheet());
        json!({
            "id": format.id.0,
            "name": format.what.name,
            "image_width_mm": image.width.to_mm(),
            "image_height_mm": image.height.to_mm(),
            "sheet_width_mm": sheet.width.to_mm(),
            "sheet_height_mm": sheet.height.to_mm(),
        })
    });
    Ok(told.collect())
}

fn one(asked: &mut Asked<'_>, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let mut row = asked.work()?;
    if asked.options.has("history") {
        return history(asked, &row, streams);
    }
    if asked.options.has("in") {
        let only = asked.edition()?.1.id;
        row.editions.retain(|one| one.edition.id == only);
    }
    let mut lists = Vec::new();
    for one in &row.editions {
        let prints = asked.record().prints(one.edition.id)?;
        if asked.json() {
            let prints: Vec<Value> =
                prints.iter().map(|print| print_json(&one.edition, print)).collect();
            let mut told = edition_whole(asked, one)?;
            told["prints"] = prints.into();
            lists.push(told);
            continue;
        }
        writeln!(
            streams.out,
            "{} {}, edition {}: {}",
            row.work.catalogue,
            row.work.what.title,
            one.edition.id.0,
            counts(&one.edition, one.totals)
        )?;
        for print in prints.iter().filter(|print| print.live) {
            writeln!(streams.out, "  {}", print_line(&one.edition, print))?;
        }
    }
    if asked.json() {
        let told = json!({
            "catalogue": row.work.catalogue, "work": row.work.what,
            "formats": formats(asked, row.work.id)?, "editions": lists,
        });
        writeln!(streams.out, "{told:#}")?;
    }
    Ok(Exit::Done)
}

fn history(
    asked: &mut Asked<'_>,
    row: &WorkRow,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let mut entries = asked.record().history(Subject::Work(row.work.id))?;
    for format in asked.record().formats(row.work.id)? {
        entries.extend(asked.record().history(Subject::Format(format.id))?);
    }
    for one in &row.editions {
        entries.extend(asked.record().history(Subject::Edition(one.edition.id))?);
        for print in asked.record().prints(one.edition.id)? {
            entries.extend(asked.record().history(Subject::Print(print.id))?);
        }
    }
    entries.sort_by_key(|entry| entry.id);
    if asked.json() {
        writeln!(streams.out, "{:#}", json!(entries))?;
        return Ok(Exit::Done);
    }
    for (at, entry) in entries.iter().enumerate() {
        let why =
            if entry.why.is_empty() { String::new() } else { format!(" ({})", entry.why) };
        let of = called(row, entry);
        // A size that is no fraction of an inch is told in millimetres.
        let words = record::entry_in_words(&entries, at, Unit::Inch);
        writeln!(streams.out, "{}  {of}: {words}{why}", entry.at)?;
    }
    Ok(Exit::Done)
}

/// What an entry is about.
fn called(row: &WorkRow, entry: &Entry) -> String {
    let id = entry.subject_id;
    match entry.subject.as_str() {
        "work" => row.work.catalogue.clone(),
        "format" => format!("size {id}"),
        "tier" => format!("prices of edition {id}"),
        "print" => {
            let value: Value = serde_json::from_str(&entry.payload).unwrap_or_default();
            let kind = value["kind"].as_str().and_then(Kind::of_key).unwrap_or(Kind::Numbered);
            let number = value["number"].as_u64().unwrap_or_default();
            match kind {
                Kind::Numbered => format!("number {number}"),
                kind => format!("{} {number}", kind.key().to_uppercase()),
            }
        }
        subject => format!("{subject} {id}"),
    }
}

fn at_show(
    asked: &mut Asked<'_>,
    show: &str,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let found = asked.record().at_show(show)?;
    if found.is_empty() {
        return Err(CliError::unreadable(format!("nothing is at {show}: {}", asked.shows()?)));
    }
    if asked.json() {
        let told: Vec<Value> = found
            .iter()
            .map(|(work, edition, print)| {
                json!({
                    "catalogue": work.catalogue,
                    "title": work.what.title,
                    "maker": work.what.maker,
                    "print": print_json(edition, print),
                })
            })
            .collect();
        writeln!(streams.out, "{:#}", json!({ "show": show, "prints": told }))?;
        return Ok(Exit::Done);
    }
    for (work, edition, print) in &found {
        let Work { catalogue, what, .. } = work;
        let by = if what.maker.is_empty() { "" } else { ", " };
        let price = print.now.price.as_ref().map(ToString::to_string).unwrap_or_default();
        let sold = if print.now.state == State::Sold { "  sold" } else { "" };
        writeln!(
            streams.out,
            "{catalogue:<8}{}{by}{}  {}  {price}{sold}",
            what.title,
            what.maker,
            edition.what.notation(print.kind, print.number)
        )?;
    }
    Ok(Exit::Done)
}
