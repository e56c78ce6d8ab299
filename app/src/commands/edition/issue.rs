//! Prints issued.

use std::path::PathBuf;

use clap::Args;
use sightedge_studio::{Choice, Kind, Price};

use super::super::outcome::CliError;
use super::super::plans::OneMat;
use super::super::values::Read;
use super::super::{Exit, Streams};
use super::given::{Noted, OneEdition, number, plan_of_print, price};
use super::{Asked, write_print};
use sightedge_service::record::{self, Issuing};

/// The next number of an edition, or another free one
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  sightedge edition issue W0001 print.jpg --printed 2025-11-20
  sightedge edition issue W0001 --number 2")]
pub(super) struct Issue {
    /// Its catalogue number, such as W0012: sightedge edition list names them
    #[arg(value_name = "WORK")]
    work: String,
    /// The plan that the print goes with
    #[arg(value_name = "PLAN")]
    plan: Option<PathBuf>,
    /// Another number than the next one
    #[arg(long, value_name = "N", value_parser = Read(number))]
    number: Option<u32>,
    /// A proof: ap, pp, hc, bat or tp; without it, a numbered print
    #[arg(long, value_name = "KIND", value_parser = Read(kind))]
    kind: Option<Kind>,
    /// The day it was printed
    #[arg(long, value_name = "DAY")]
    printed: Option<String>,
    /// The day it was matted
    #[arg(long, value_name = "DAY")]
    matted: Option<String>,
    /// What it costs; without it, what its number costs
    #[arg(long, value_name = "P", value_parser = Read(price))]
    price: Option<Price>,
    #[command(flatten)]
    one: OneEdition,
    #[command(flatten)]
    noted: Noted,
    /// For other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    mat: OneMat,
}

fn kind(name: &str, text: &str) -> Result<Kind, String> {
    Kind::of_key(text).ok_or_else(|| {
        format!("--{name} {text} is no kind of print: use numbered, ap, pp, hc, bat or tp")
    })
}

impl Issue {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let (work, edition) = asked.edition(&self.work, None, &self.one)?;
        let plan = self.plan.as_deref();
        let plan = plan.map(|path| plan_of_print(path, &self.mat, streams)).transpose()?;
        let choice = self.number.map_or(Choice::Next, Choice::Number);
        let issuing = Issuing {
            plan,
            price: self.price.clone(),
            printed: self.printed.clone().unwrap_or_default(),
            matted: self.matted.clone().unwrap_or_default(),
            ..Issuing::of(edition.id, self.kind.unwrap_or(Kind::Numbered), choice)
        };
        let issued = record::issue(asked.record(), issuing, &self.noted.note())?;
        if issued.other_size {
            writeln!(
                streams.err,
                "sightedge: the plan is of another size than this edition, whose size is noted"
            )?;
        }
        write_print(self.json, (&work, &edition, &issued.print), streams)
    }
}
