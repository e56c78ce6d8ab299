//! Where prints go, and where those are that were out before the record began.

use serde_json::json;
use sightedge_studio::State;

use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::given::price;
use super::{Asked, print_json, print_line, unpriced, write_print};
use sightedge_service::record::{self, Doing, Going};

/// Where a print goes, as it was given.
fn going(asked: &Asked<'_>, to: State) -> Result<Going, CliError> {
    let text = |name| Ok::<_, CliError>(asked.options.text(name)?.map(ToOwned::to_owned));
    Ok(Going { to, place: text("place")?, buyer: text("buyer")?, price: price(asked.options)? })
}

/// Several prints whose whereabouts were unknown, said in one step; `None` where one is named.
fn located(asked: &mut Asked<'_>, streams: &mut Streams<'_>) -> Result<Option<Exit>, CliError> {
    let several = |text: &&String| text.contains([',', '-']) || text.contains("..");
    let Some(text) = asked.rest.get(1).filter(several).cloned() else { return Ok(None) };
    let numbers = record::numbers(&text).map_err(CliError::usage)?;
    let (work, edition) = asked.edition()?;
    let to = asked.options.text("to")?.and_then(State::of_key).unwrap_or(State::Voided);
    let going = going(asked, to)?;
    let note = asked.note.clone();
    let prints = record::locate(asked.record(), edition.id, &numbers, going, &note)?;
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
    let doing = match to {
        "replaced" => Doing::Replace,
        "voided" => Doing::Void,
        other => {
            let to = State::of_key(other).ok_or_else(|| {
                CliError::usage(format!("--to {other} is nowhere a print can be: {wanted}"))
            })?;
            Doing::Go(going(asked, to)?)
        }
    };
    let question = record::question_before(&doing, &edition, &print);
    if let Some(question) = question.filter(|_| !options.has("yes")) {
        return Err(CliError::usage(format!("{question} Say --yes where it is to be so")));
    }
    let note = asked.note.clone();
    let print = record::change_print(asked.record(), print.id, doing, &note)?;
    unpriced(&edition, &print, streams)?;
    write_print(asked, (&work, &edition, &print), streams)
}
