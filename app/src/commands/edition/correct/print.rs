//! One print: where it is, who has it, what it cost, its days and its plan.

use std::path::Path;

use sightedge_studio::{Change, Edition, Print, PrintDetails, State};

use super::super::super::outcome::CliError;
use super::super::super::{Exit, Streams};
use super::super::given::{of_work, plan, price};
use super::super::{Asked, print_json, print_line, unpriced};
use super::{PRINT, given, names};
use sightedge_service::record;

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
    let mut stock = corrected(asked, &print)?;
    match path.as_deref() {
        Some("") => (stock.plan, stock.plan_file) = (String::new(), String::new()),
        Some(path) => {
            let (document, path) = plan(Path::new(path), asked.options, streams)?;
            of_work(&work, &document)?;
            stock.plan.clone_from(&document.id);
            stock.plan_file = path.to_string_lossy().into_owned();
            let formats = asked.opened.read().formats(work.id)?;
            let (_, size) = record::of_plan(&document, Some(&path));
            stock.format = record::same_size(&formats, &size).or(stock.format);
        }
        None => {}
    }
    let same = stock == print.now;
    let now = if same {
        print.clone()
    } else {
        let note = asked.note.clone();
        asked.record().change(print.id, &Change::Correct(Box::new(stock)), &note)?
    };
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

/// The print with what was given in the place of what stands.
fn corrected(asked: &mut Asked<'_>, print: &Print) -> Result<PrintDetails, CliError> {
    let options = asked.options;
    let mut stock = print.now.clone();
    if let Some(to) = options.text("to")? {
        stock.state = state(to)?;
        // What was never at the show is not said to be at its place; what was sold there is.
        let stays = matches!(stock.state, State::Show | State::Sold);
        if print.now.state == State::Show && !stays {
            stock.place.clear();
        }
    }
    for (name, field) in [("place", &mut stock.place), ("buyer", &mut stock.buyer)] {
        if let Some(given) = options.text(name)? {
            given.clone_into(field);
        }
    }
    for (name, field) in [("printed", &mut stock.printed), ("matted", &mut stock.matted)] {
        let Some(given) = options.text(name)? else { continue };
        if given.parse::<i32>().is_ok() {
            return Err(CliError::usage(format!(
                "--{name} {given} is a year, and of one print the day is wanted, as in \
                 2025-11-30: leave the number out for the year in which the work is printed"
            )));
        }
        given.clone_into(field);
    }
    match options.text("price")? {
        Some("") => stock.price = None,
        Some(text) => stock.price = Some(price(asked.record(), text)?),
        None => {}
    }
    Ok(stock)
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
