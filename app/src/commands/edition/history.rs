//! What happened to a work and all that belongs to it.

use serde_json::{Value, json};
use sightedge_core::length::Unit;
use sightedge_studio::{Entry, Kind, Subject, WorkRow};

use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::Asked;
use sightedge_service::record;

/// What happened to a work, its sizes, its editions and its prints.
pub(super) fn tell(
    asked: &mut Asked,
    row: &WorkRow,
    json: bool,
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
    if json {
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
