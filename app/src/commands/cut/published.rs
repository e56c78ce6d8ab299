//! What checks the solver: published problems, and the proof of its bound.

use std::path::{Path, PathBuf};

use clap::Args;
use sightedge_cutting::report::{CertificateReport, Report};
use sightedge_cutting::{Plan, Problem, instance};

use super::super::outcome::CliError;
use super::super::{Exit, Streams, refusal};
use super::{Cut, sound, timed};

/// Not for the bench, so help leaves it out.
#[derive(Args, Debug)]
pub(super) struct Proof {
    /// A published problem in place of plans: a CSV table
    #[arg(long, value_name = "FILE.csv", hide = true)]
    pub(super) instance: Option<PathBuf>,
    /// Which problem of the table
    #[arg(long, value_name = "NAME", hide = true)]
    name: Option<String>,
    /// Its pieces keep their direction
    #[arg(long, hide = true)]
    no_turn: bool,
    /// Writes the proof of the bound in whole numbers
    #[arg(long, value_name = "FILE", hide = true)]
    certificate: Option<PathBuf>,
}

impl Proof {
    pub(super) fn check(&self) -> Result<(), CliError> {
        if self.instance.is_none() {
            if self.name.is_some() {
                return Err(refusal::needs("name", "instance"));
            }
            if self.no_turn {
                return Err(refusal::needs("no-turn", "instance"));
            }
        }
        Ok(())
    }

    /// Writes the proof of the bound of each plan, where it is asked for.
    pub(super) fn write(&self, plans: &[(&Problem, &Plan)]) -> Result<(), CliError> {
        let Some(path) = &self.certificate else { return Ok(()) };
        let written: Vec<CertificateReport> =
            plans.iter().map(|(problem, plan)| CertificateReport::new(problem, plan)).collect();
        let text = match written.as_slice() {
            [one] => serde_json::to_string_pretty(one),
            all => serde_json::to_string_pretty(all),
        };
        let text = text.map_err(std::io::Error::other)?;
        std::fs::write(path, text).map_err(|error| {
            CliError::unwritten(format!(
                "{} cannot be written: {error}; choose another place",
                path.display()
            ))
        })
    }
}

impl Cut {
    /// Solves a problem of a file in place of plans.
    pub(super) fn published(
        &self,
        file: &Path,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let name = self.proof.name.as_deref().ok_or_else(|| {
            CliError::usage("--instance needs --name: which one of the file's")
        })?;
        let table = std::fs::File::open(file).map_err(|error| {
            CliError::unreadable(format!(
                "{} cannot be read: {error}; check the name",
                file.display()
            ))
        })?;
        let instance::Read { mut problem, bad } =
            instance::read(table, name, !self.proof.no_turn)
                .map_err(|error| CliError::unreadable(error.to_string()))?;
        problem.stages = self.rounds;
        let (plan, took) = timed(&problem, self.seconds);
        sound(&problem, &plan)?;
        self.proof.write(&[(&problem, &plan)])?;
        let mut report = Report::new(&problem, &plan, took, None);
        let refused = bad.iter().map(|row| format!("{row}; it was left out"));
        report.complaints.splice(0..0, refused);
        if self.json {
            let text = serde_json::to_string_pretty(&report).map_err(std::io::Error::other)?;
            writeln!(streams.out, "{text}")?;
        } else {
            writeln!(
                streams.out,
                "{}, cost {}; no plan can cost less than {}{}",
                sheets(report.sheets),
                report.cost,
                report.lower_bound,
                if report.proved { ", so this one is proved" } else { "" }
            )?;
            for complaint in &report.complaints {
                writeln!(streams.err, "sightedge: {complaint}")?;
            }
        }
        let whole = report.missing.is_empty() && bad.is_empty();
        Ok(if whole { Exit::Done } else { Exit::Partly })
    }
}

fn sheets(count: u64) -> String {
    if count == 1 { "1 sheet".to_owned() } else { format!("{count} sheets") }
}
