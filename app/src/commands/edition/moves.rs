//! Where prints go, and where those are that were out before the record began.

use serde_json::json;
use sightedge_studio::{Change, State};

use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::given::price;
use super::{Asked, print_json, print_line, unpriced, write_print};
use sightedge_service::record;

/// Several prints whose whereabouts were unknown, said in one step; `None` where one is named.
fn located(asked: &mut Asked<'_>, streams: &mut Streams<'_>) -> Result<Option<Exit>, CliError> {
    let several = |text: &&String| text.contains([',', '-']) || text.contains("..");
    let Some(text) = asked.rest.get(1).filter(several).cloned() else { return Ok(None) };
    let numbers = record::numbers(&text).map_err(CliError::usage)?;
    let (work, edition) = asked.edition()?;
    let options = asked.options;
    let to = options.text("to")?.unwrap_or_default();
    let to = State::of_key(to).filter(|to| *to != State::Voided).ok_or_else(|| {
        CliError::usage(
            "several numbers were named, so --to says where they are: studio, show, sold, \
             returned or destroyed; void or replace one at a time",
        )
    })?;
    if options.has("price") {
        return Err(CliError::usage(
            "--price is of one print: move several without it, then correct each with its price",
        ));
    }
    let change = record::moving(
        asked.opened.read(),
        to,
        options.text("place")?,
        options.text("buyer")?,
        None,
    )?;
    let note = asked.note.clone();
    let prints = asked.record().locate(edition.id, &numbers, &change, &note)?;
    if asked.json() {
        let told: Vec<_> = prints.iter().map(|print| print_json(&edition, print)).collect();
        writeln!(streams.out, "{:#}", json!(told))?;
    } else {
        let title = &work.what.title;
        for print in &prints {
            let line = print_line(&edition, print);
            writeln!(streams.out, "{} {title}: {line}", work.catalogue)?;
        }
    }
    Ok(Some(Exit::Done))
}

pub(super) fn moved(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    asked.at_most(2)?;
    if let Some(ended) = located(asked, streams)? {
        return Ok(ended);
    }
    let (work, edition, print) = asked.print("move W0012 3/25 --to sold")?;
    let options = asked.options;
    let wanted = "name studio, show, sold, returned, destroyed, voided or replaced";
    let to = options.text("to")?.ok_or_else(|| CliError::usage(format!("--to: {wanted}")))?;
    let money = match options.text("price")? {
        Some(text) => Some(price(asked.record(), text)?),
        None => None,
    };
    let note = asked.note.clone();
    let print = match to {
        "replaced" => asked.record().replace(print.id, &note)?,
        "voided" => asked.record().change(print.id, &Change::Void, &note)?,
        other => {
            let to = State::of_key(other).ok_or_else(|| {
                CliError::usage(format!("--to {other} is nowhere a print can be: {wanted}"))
            })?;
            let (place, buyer) = (options.text("place")?, options.text("buyer")?);
            let change = record::moving(asked.opened.read(), to, place, buyer, money)?;
            asked.record().change(print.id, &change, &note)?
        }
    };
    unpriced(&edition, &print, streams)?;
    write_print(asked, (&work, &edition, &print), streams)
}
