//! `sightedge printouts`: what goes to the bench, as files.

use std::path::PathBuf;
use std::sync::atomic::AtomicBool;

use clap::Args;
use sightedge_core::date::Date;
use sightedge_papers::{Choice, Kind, Outcome, Paper, write_all};

use super::at_bench::{Taken, WhichPrint};
use super::outcome::CliError;
use super::plans::{OneMat, gathered};
use super::values::{Read, date};
use super::{Exit, Streams};
use sightedge_service::files;

/// Writes the pages and drawings for the bench
#[derive(Args, Debug)]
#[command(after_help = "\
Files are named after the picture, as in slack-water-plan.pdf, and replace only those of the
same plan. Given a FOLDER, every plan in it. A plan that fails is named and
the others go on: the exit code is then 6.

Example:
  sightedge printouts print.jpg --out printouts --sheet --cutter --paper a4")]
pub(super) struct Printouts {
    /// The plans, or folders of plans
    #[arg(value_name = "PLAN|FOLDER", required = true)]
    plans: Vec<PathBuf>,
    /// The folder to write to (made where it is missing), as in --out printouts
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    #[command(flatten)]
    print: WhichPrint,
    /// Without it, letter for plans in inches and A4 for those in millimetres
    #[arg(long, value_name = "a4|letter", value_parser = Read(paper))]
    paper: Option<Paper>,
    /// The date on the printouts; without it, the one saved in the plan
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = Read(date))]
    date: Option<Date>,
    #[command(flatten)]
    mat: OneMat,
    // The last field, for its heading goes for all that comes after it.
    #[command(flatten)]
    kinds: Kinds,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "What to write; without any of these, all of them")]
#[expect(clippy::struct_excessive_bools, reason = "each is asked for by an option of its own")]
struct Kinds {
    /// The plan sheet: picture, drawing, section, every figure
    #[arg(long)]
    sheet: bool,
    /// The cutter's card: blanks and stops from the back, layer by layer
    #[arg(long)]
    cutter: bool,
    /// True-size templates for the sheet's place, hinges and corners
    #[arg(long)]
    template: bool,
    /// The steps at the bench, to tick off
    #[arg(long)]
    steps: bool,
    /// What to buy, as PDF and CSV: mouldings, glazing, boards, hardware; of several
    /// plans one list
    #[arg(long, verbatim_doc_comment)]
    order: bool,
    /// The mats side by side in their frames, for the client: nothing that is cut
    #[arg(long)]
    client: bool,
    /// The cut drawing as SVG, in millimetres
    #[arg(long)]
    svg: bool,
    /// The cut drawing as DXF, a file for newer machines and one for older
    #[arg(long)]
    dxf: bool,
    /// The cut list
    #[arg(long)]
    csv: bool,
}

fn paper(name: &str, text: &str) -> Result<Paper, String> {
    Paper::read(text).map_err(|wrong| format!("--{name}: {wrong}"))
}

impl Printouts {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let mut choice = self.choice();
        choice.tables = Some(streams.tables()?.as_ref().clone());
        let plans = gathered(&self.plans)?;
        self.at_benches(&plans, &mut choice, streams)?;
        let mut unsaid = None;
        let mut tell = |outcome: &Outcome| {
            if unsaid.is_none() {
                unsaid = said(outcome, streams).err();
            }
        };
        let stop = AtomicBool::new(false);
        let outcomes =
            write_all(&plans, &self.out, &choice, &stop, &mut |step| tell(step.last))
                .map_err(|error| CliError::unwritten(error.to_string()))?;
        if let Some(error) = unsaid {
            return Err(error.into());
        }
        let failed = outcomes.iter().filter_map(|outcome| outcome.ended.as_ref().err());
        let worst = failed.map(exit).max().unwrap_or(Exit::Done);
        let all = outcomes.iter().all(|outcome| outcome.ended.is_err());
        Ok(if all || worst == Exit::Done { worst } else { Exit::Partly })
    }

    /// Which print each plan has at the bench. A plan that cannot be read is reported later,
    /// when its printouts are to be written.
    fn at_benches(
        &self,
        plans: &[PathBuf],
        choice: &mut Choice,
        streams: &mut Streams<'_>,
    ) -> Result<(), CliError> {
        if self.print.print.is_some() && plans.len() > 1 {
            return Err(CliError::usage(format!(
                "--print names one print, and {} plans are given: name the plan of that print alone",
                plans.len()
            )));
        }
        let bench = self.print.find(streams)?;
        for plan in plans {
            let Ok(opened) = files::open(&files::meant_by(plan)) else { continue };
            let mut document = opened.document;
            let had = document.inscribed.clone();
            let Taken { finding, .. } = bench.take(&mut document, streams)?;
            if let Some(finding) = finding {
                writeln!(
                    streams.err,
                    "{}: {}: {}",
                    plan.display(),
                    finding.severity.name(),
                    finding.message
                )?;
            }
            if let Some(inscribed) = document.inscribed.filter(|now| had.as_ref() != Some(now))
            {
                choice.at_bench.insert(document.id, inscribed);
            }
        }
        Ok(())
    }

    fn choice(&self) -> Choice {
        let mut choice =
            Choice { day_there: sightedge_service::dates::day_of, ..Choice::default() };
        let Kinds { sheet, cutter, template, steps, order, client, svg, dxf, csv } = self.kinds;
        if sheet || cutter || template || steps || order || client || svg || dxf || csv {
            choice.kinds.retain(|kind| match kind {
                Kind::Sheet => sheet,
                Kind::Cutter => cutter,
                Kind::Template => template,
                Kind::Steps => steps,
                Kind::Order => order,
                Kind::Client => client,
            });
            (choice.svg, choice.dxf, choice.csv) = (svg, dxf, csv);
        }
        choice.paper = self.paper;
        choice.date.clone_from(&self.date);
        choice.variant.clone_from(&self.mat.mat);
        choice
    }
}

fn exit(error: &sightedge_papers::PapersError) -> Exit {
    match error {
        sightedge_papers::PapersError::Plan(_) => Exit::Unreadable,
        _ => Exit::Unwritten,
    }
}

fn said(outcome: &Outcome, streams: &mut Streams<'_>) -> std::io::Result<()> {
    match &outcome.ended {
        Ok(written) => {
            for words in &written.notes {
                writeln!(streams.err, "{}: {words}", outcome.plan.display())?;
            }
            for file in &written.files {
                writeln!(streams.out, "written {}", file.display())?;
            }
        }
        Err(error) => {
            writeln!(streams.err, "sightedge: {error}")?;
        }
    }
    Ok(())
}
