//! One print: where it is, who has it, what it cost, its days and its plan.

use std::path::Path;

use sightedge_studio::{Edition, Print, PrintDetails, State};

use super::super::super::outcome::CliError;
use super::super::super::{Exit, Streams};
use super::super::given::{plan_of_print, price};
use super::super::{Asked, print_json, print_line, unpriced};
use super::{PRINT, given, names};
use sightedge_service::record::{self, PrintCorrection};

pub(super) fn correct(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let (work, edition, print) = asked.print("correct W0012 3/25 --to studio")?;
    let path = asked.rest.get(2).cloned();
    let notation = edition.what.notation(print.kind, print.number);
    if path.is_none() && given(asked.options).next().is_none() {
        return Err(CliError::usage(format!(
            "nothing of {} {notation} to correct was given: it can be {} or its plan, \
             behind the number",
            work.catalogue,
            names(&PRINT)
        )));
    }
    let correction = PrintCorrection {
        plan: match path.as_deref() {
            Some("") => Some(None),
            Some(path) => Some(Some(plan_of_print(Path::new(path), asked.options, streams)?)),
            None => None,
        },
        ..corrected(asked)?
    };
    let note = asked.note.clone();
    let now = record::correct_print(asked.record(), &print, correction, &note)?;
    let same = now == print;
    let sold = |print: &Print| print.now.state == State::Sold;
    let keeps = !now.now.buyer.is_empty() && !asked.options.has("buyer");
    if sold(&print) && !sold(&now) && keeps {
        writeln!(
            streams.err,
            "sightedge: {notation} is not sold and keeps the buyer {}; --buyer \"\" clears it",
            now.now.buyer
        )?;
    }
    if asked.options.has("to") || asked.options.has("price") {
        unpriced(&edition, &now, streams)?;
    }
    if asked.json() {
        writeln!(streams.out, "{:#}", print_json(&edition, &now))?;
        return Ok(Exit::Done);
    }
    if same {
        writeln!(
            streams.out,
            "{} {notation} is so already: nothing was changed",
            work.catalogue
        )?;
    }
    let line = line(&edition, &now);
    writeln!(streams.out, "{} {}: {line}", work.catalogue, work.what.title)?;
    Ok(Exit::Done)
}

/// What was given of the print itself.
fn corrected(asked: &Asked<'_>) -> Result<PrintCorrection, CliError> {
    let options = asked.options;
    let text = |name| Ok::<_, CliError>(options.text(name)?.map(ToOwned::to_owned));
    for name in ["printed", "matted"] {
        let Some(given) = options.text(name)? else { continue };
        if given.parse::<i32>().is_ok() {
            return Err(CliError::usage(format!(
                "--{name} {given} is a year, and of one print the day is wanted, as in \
                 2025-11-30: leave the number out for the year in which the work is printed"
            )));
        }
    }
    Ok(PrintCorrection {
        state: options.text("to")?.map(state).transpose()?,
        place: text("place")?,
        buyer: text("buyer")?,
        price: match options.text("price")? {
            Some("") => Some(None),
            _ => price(options)?.map(Some),
        },
        printed: text("printed")?,
        matted: text("matted")?,
        ..PrintCorrection::default()
    })
}

fn state(to: &str) -> Result<State, CliError> {
    if to == "voided" || to == "replaced" {
        return Err(CliError::usage(format!(
            "--to {to} gives the number to another print, which is no correction: put right \
             where this one is, and then sightedge edition move WORK NUMBER --to {to}"
        )));
    }
    State::of_key(to).ok_or_else(|| {
        CliError::usage(format!(
            "--to {to} is nowhere a print can be: name studio, show, sold, returned, unknown or \
             destroyed"
        ))
    })
}

/// All that is said of it.
fn line(edition: &Edition, print: &Print) -> String {
    let PrintDetails { state, place, printed, matted, plan_file, .. } = &print.now;
    let mut line = print_line(edition, print);
    let place = if *state == State::Show { "" } else { place.as_str() };
    for (word, text) in
        [("place", place), ("printed", printed), ("matted", matted), ("plan", plan_file)]
    {
        if !text.is_empty() {
            line = format!("{line}, {word} {text}");
        }
    }
    line
}
