//! One print: where it is, who has it, what it cost, its days and its plan.

use sightedge_studio::{Edition, Print, PrintDetails, State};

use super::super::super::outcome::CliError;
use super::super::super::{Exit, Streams};
use super::super::given::{plan_of_print, price};
use super::super::{Asked, print_json, print_line, unpriced};
use super::{Correct, OfBoth, OfPrint, of_print};
use sightedge_service::record::{self, PrintCorrection};

pub(super) fn correct(
    given: &Correct,
    number: &str,
    asked: &mut Asked,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let (work, edition, print) = asked.print(&given.of, number, &given.one)?;
    let notation = edition.what.notation(print.kind, print.number);
    let any = given.is_given::<OfPrint>() || given.is_given::<OfBoth>();
    if given.plan.is_none() && !any {
        return Err(CliError::usage(format!(
            "nothing of {} {notation} to correct was given: it can be {} or its plan, behind the \
             number",
            work.catalogue,
            of_print()
        )));
    }
    let plan = match given.plan.as_deref() {
        Some(path) if path.as_os_str().is_empty() => Some(None),
        Some(path) => Some(Some(plan_of_print(path, &given.mat, streams)?)),
        None => None,
    };
    let correction = PrintCorrection { plan, ..corrected(given)? };
    let note = given.noted.note();
    let now = record::correct_print(asked.record(), &print, correction, &note)?;
    let same = now == print;
    let sold = |print: &Print| print.now.state == State::Sold;
    let keeps = !now.now.buyer.is_empty() && given.print.buyer.is_none();
    if sold(&print) && !sold(&now) && keeps {
        writeln!(
            streams.err,
            "sightedge: {notation} is not sold and keeps the buyer {}; --buyer \"\" clears it",
            now.now.buyer
        )?;
    }
    if given.print.to.is_some() || given.both.price.is_some() {
        unpriced(&edition, &now, streams)?;
    }
    if given.json {
        writeln!(streams.out, "{:#}", print_json(&edition, &now))?;
        return Ok(Exit::Done);
    }
    if same {
        writeln!(
            streams.out,
            "{} {notation} is like that already: nothing was changed",
            work.catalogue
        )?;
    }
    let line = line(&edition, &now);
    writeln!(streams.out, "{} {}: {line}", work.catalogue, work.what.title)?;
    Ok(Exit::Done)
}

/// What was given of the print itself.
fn corrected(given: &Correct) -> Result<PrintCorrection, CliError> {
    let (OfPrint { to, place, buyer, matted }, OfBoth { printed, price: cost }) =
        (&given.print, &given.both);
    for (name, day) in [("printed", printed), ("matted", matted)] {
        let Some(day) = day.as_ref().filter(|day| day.parse::<i32>().is_ok()) else { continue };
        return Err(CliError::usage(format!(
            "--{name} {day} is a year, and one print has a day, as in 2025-11-30: leave the \
             number out to give the year in which the work is printed"
        )));
    }
    let cost = match cost.as_deref() {
        None => None,
        Some("") => Some(None),
        Some(text) => Some(Some(price("price", text).map_err(CliError::usage)?)),
    };
    Ok(PrintCorrection {
        state: *to,
        place: place.clone(),
        buyer: buyer.clone(),
        price: cost,
        printed: printed.clone(),
        matted: matted.clone(),
        ..PrintCorrection::default()
    })
}

pub(super) fn state(name: &str, to: &str) -> Result<State, String> {
    if to == "voided" || to == "replaced" {
        return Err(format!(
            "--{name} {to} gives the number to another print, which is no correction: correct \
             where this one is, then sightedge edition move WORK NUMBER --{name} {to}"
        ));
    }
    State::of_key(to).ok_or_else(|| {
        format!(
            "--{name} {to} is no place for a print: use studio, show, sold, returned, unknown or \
             destroyed"
        )
    })
}

/// All that is known of it.
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
