//! Corrections of a work, its edition or one print, each a new entry.

mod print;
mod work;

use std::path::PathBuf;

use clap::Args;
use sightedge_studio::State;

pub(super) use work::size_line;

use super::super::outcome::CliError;
use super::super::plans::OneMat;
use super::super::typed::AsTyped;
use super::super::values::Read;
use super::super::{Exit, Streams};
use super::Asked;
use super::given::{Counts, Noted, OneEdition, SizeText, WorkText};

/// Corrects a work, its edition or one print; withdraws a work
#[derive(Args, Debug)]
#[command(after_help = "\
What is not given stays; \"\" clears.

Examples:
  sightedge edition correct W0001 --medium \"pigment print\" --taken 2021
  sightedge edition correct W0001 1/25 --matted 2025-11-30
  sightedge edition correct W0002 --withdraw --why \"entered twice\"")]
pub(super) struct Correct {
    // The first field: it looks at options that the fields below it take away.
    #[command(flatten)]
    typed: AsTyped,
    /// Its catalogue number
    #[arg(value_name = "WORK")]
    of: String,
    /// Of this one print, as it is written; without it, of the work and its edition
    #[arg(value_name = "NUMBER")]
    one_print: Option<String>,
    /// The plan that the print goes with
    #[arg(value_name = "PLAN")]
    plan: Option<PathBuf>,
    #[command(flatten)]
    one: OneEdition,
    #[command(flatten)]
    noted: Noted,
    /// For other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    mat: OneMat,
    #[command(flatten)]
    work: OfWork,
    #[command(flatten)]
    size: OfSize,
    #[command(flatten)]
    edition: OfEdition,
    #[command(flatten)]
    print: OfPrint,
    #[command(flatten)]
    both: OfBoth,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "Of the work")]
struct OfWork {
    #[command(flatten)]
    text: WorkText,
    /// Its picture
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// Your own notes
    #[arg(long, value_name = "TEXT")]
    notes: Option<String>,
    /// Its catalogue number; needs --why
    #[arg(long, value_name = "C")]
    catalogue: Option<String>,
    /// Entered by mistake: off the lists; needs --why
    #[arg(long, conflicts_with = "bring_back")]
    withdraw: bool,
    /// Withdrawn by mistake: on the lists again
    #[arg(long)]
    bring_back: bool,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "Of the size it is printed in")]
struct OfSize {
    #[command(flatten)]
    size: SizeText,
    /// Which one of several sizes
    #[arg(long, value_name = "NAME")]
    format: Option<String>,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "Of its edition, until a print is issued")]
struct OfEdition {
    #[command(flatten)]
    counts: Counts,
    /// Proofs are numbered as in II/V
    #[arg(long, conflicts_with = "fraction")]
    roman: bool,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "Of one print")]
struct OfPrint {
    /// Where it is: studio, show, sold, returned, unknown or destroyed
    #[arg(long, value_name = "STATE", value_parser = Read(print::state))]
    to: Option<State>,
    /// Which show or gallery
    #[arg(long, value_name = "NAME")]
    place: Option<String>,
    /// Who has it
    #[arg(long, value_name = "TEXT")]
    buyer: Option<String>,
    /// The day it was matted
    #[arg(long, value_name = "DAY")]
    matted: Option<String>,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "Of a work or of one print")]
struct OfBoth {
    /// Of a work the year it is printed in, of one print the day
    #[arg(long, value_name = "Y|DAY")]
    printed: Option<String>,
    /// What prints to come cost from a number on; of one print what it costs
    #[arg(long, value_name = "N:P,N:P|P")]
    price: Option<String>,
}

impl Correct {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        match &self.one_print {
            None => {
                if let Some(name) = self.typed.first_of(&options_of::<OfPrint>()) {
                    return Err(CliError::usage(format!(
                        "{name} is for one print, and no number is given: put it behind the work, \
                         as in sightedge edition correct W0012 3/25 {name}"
                    )));
                }
                work::correct(self, asked, streams)
            }
            Some(number) => {
                let of_all = [of_work(), options_of::<OfEdition>()].concat();
                if let Some(name) = self.typed.first_of(&of_all) {
                    return Err(CliError::usage(format!(
                        "{name} is for the work or its edition, not for {number} alone: leave the \
                         number out"
                    )));
                }
                print::correct(self, number, asked, streams)
            }
        }
    }

    fn is_given<A: Args>(&self) -> bool {
        self.typed.first_of(&options_of::<A>()).is_some()
    }
}

/// The options of a part of the command, with their dashes.
fn options_of<A: Args>() -> Vec<String> {
    let part = A::augment_args(clap::Command::new("part"));
    let names = part.get_arguments().filter_map(clap::Arg::get_long);
    names.map(|name| format!("--{name}")).collect()
}

/// Those of the work and its size.
fn of_work() -> Vec<String> {
    [options_of::<OfWork>(), options_of::<OfSize>()].concat()
}

/// Those of one print, as they are named to a person.
fn of_print() -> String {
    [options_of::<OfPrint>(), options_of::<OfBoth>()].concat().join(", ")
}
