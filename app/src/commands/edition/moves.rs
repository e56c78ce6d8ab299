//! Where prints go, one or several at once.

use clap::Args;
use serde_json::json;
use sightedge_studio::{Price, State};

use super::super::outcome::CliError;
use super::super::values::Read;
use super::super::{Exit, Streams};
use super::given::{Noted, OneEdition, price};
use super::{Asked, print_json, print_line, unpriced, write_print};
use sightedge_service::record::{self, Doing, Going};

/// Where prints go: to a show or a buyer, back, or out of the edition
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  sightedge edition move W0001 1,2 --to show --place Harbour
  sightedge edition move W0001 1/25 --to sold --buyer \"B. of Ostmere\" --price \"800 EUR\"")]
pub(super) struct Move {
    /// Its catalogue number
    #[arg(value_name = "WORK")]
    work: String,
    /// As it is written; 1..40,42: all of these at once, or none
    #[arg(value_name = "NUMBER")]
    number: String,
    /// Where it goes: studio, show, sold, returned, destroyed, voided or replaced
    #[arg(long, value_name = "STATE", value_parser = Read(goal))]
    to: Goal,
    /// Which show or gallery
    #[arg(long, value_name = "NAME")]
    place: Option<String>,
    /// Who has it
    #[arg(long, value_name = "TEXT")]
    buyer: Option<String>,
    /// What it costs, or was sold for; of several, each
    #[arg(long, value_name = "P", value_parser = Read(price))]
    price: Option<Price>,
    /// With --to replaced: a new print gets the number, which cannot be undone
    #[arg(long)]
    yes: bool,
    #[command(flatten)]
    one: OneEdition,
    #[command(flatten)]
    noted: Noted,
    /// For other programs
    #[arg(long)]
    json: bool,
}

/// What becomes of a print.
#[derive(Clone, Copy, Debug)]
enum Goal {
    Go(State),
    Void,
    Replace,
}

fn goal(name: &str, text: &str) -> Result<Goal, String> {
    match text {
        "replaced" => Ok(Goal::Replace),
        "voided" => Ok(Goal::Void),
        other => State::of_key(other).map(Goal::Go).ok_or_else(|| {
            format!(
                "--{name} {other} is no place for a print: use studio, show, sold, returned, \
                 destroyed, voided or replaced"
            )
        }),
    }
}

impl Move {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        if self.number.contains([',', '-']) || self.number.contains("..") {
            return self.several(asked, streams);
        }
        let (work, edition, print) = asked.print(&self.work, &self.number, &self.one)?;
        let doing = match self.to {
            Goal::Replace => Doing::Replace,
            Goal::Void => Doing::Void,
            Goal::Go(to) => Doing::Go(self.going(to)),
        };
        let question = record::question_before(&doing, &edition, &print);
        if let Some(question) = question.filter(|_| !self.yes) {
            return Err(CliError::usage(format!("{question} Add --yes to do it")));
        }
        let note = self.noted.note();
        let print = record::change_print(asked.record(), print.id, doing, &note)?;
        unpriced(&edition, &print, streams)?;
        write_print(self.json, (&work, &edition, &print), streams)
    }

    fn going(&self, to: State) -> Going {
        let (place, buyer, price) = (&self.place, &self.buyer, &self.price);
        Going { to, place: place.clone(), buyer: buyer.clone(), price: price.clone() }
    }

    /// Several prints in one step.
    fn several(&self, asked: &mut Asked, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let numbers = record::numbers(&self.number).map_err(CliError::usage)?;
        let (work, edition) = asked.edition(&self.work, Some(&self.number), &self.one)?;
        let to = match self.to {
            Goal::Go(to) => to,
            Goal::Void | Goal::Replace => State::Voided,
        };
        let note = self.noted.note();
        let going = self.going(to);
        let held = record::holding(asked.record(), edition.id, &numbers)?;
        let prints = record::several(asked.record(), &held, going, &note)?;
        if self.json {
            let told: Vec<_> = prints.iter().map(|print| print_json(&edition, print)).collect();
            writeln!(streams.out, "{:#}", json!(told))?;
        } else {
            let title = &work.what.title;
            for print in &prints {
                let line = print_line(&edition, print);
                writeln!(streams.out, "{} {title}: {line}", work.catalogue)?;
            }
        }
        Ok(Exit::Done)
    }
}
