//! `sightedge papers`: what goes to the bench, as files.

use sightedge_core::date::Date;
use std::path::{Path, PathBuf};
use std::sync::atomic::AtomicBool;

use sightedge_papers::{Choice, Kind, Outcome, Paper, write_all};

use super::at_bench::{AtBench, Taken};
use super::options::{Known, Options};
use super::outcome::CliError;
use super::{Exit, Streams, Verb, help};
use sightedge_service::files;

pub(super) const VERB: Verb = Verb {
    known: Known {
        verb: "papers",
        values: &["out", "paper", "date", "print", "in", "studio", "variant"],
        flags: &["sheet", "cutter", "template", "steps", "svg", "dxf", "csv"],
    },
    help: help::PAPERS,
    run,
};

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    if options.words().is_empty() {
        options.word("a plan")?;
    }
    let out = options.path("out").ok_or_else(|| {
        CliError::usage("--out is wanted: the folder to write to, as in --out papers")
    })?;
    let mut choice = choice(options)?;
    choice.tables = Some(streams.tables()?.as_ref().clone());
    let mut plans: Vec<PathBuf> = Vec::new();
    for path in options.words().iter().map(Path::new) {
        if path.is_dir() {
            let found = files::plans_in(path).map_err(|error| {
                CliError::unreadable(format!("{} cannot be read: {error}", path.display()))
            })?;
            if found.is_empty() {
                return Err(CliError::unreadable(format!(
                    "{} holds no plan: make one with sightedge new",
                    path.display()
                )));
            }
            plans.extend(found);
        } else {
            plans.push(path.to_owned());
        }
    }
    at_benches(&plans, &mut choice, options, streams)?;
    let mut unsaid = None;
    let mut tell = |outcome: &Outcome| {
        if unsaid.is_none() {
            unsaid = said(outcome, streams).err();
        }
    };
    let stop = AtomicBool::new(false);
    let outcomes = write_all(&plans, &out, &choice, &stop, &mut |step| tell(step.last))
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
/// when its papers are to be written.
fn at_benches(
    plans: &[PathBuf],
    choice: &mut Choice,
    options: &Options,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    if options.has("print") && plans.len() > 1 {
        return Err(CliError::usage(format!(
            "--print names one print, and {} plans are given: name the plan of that print alone",
            plans.len()
        )));
    }
    let bench = AtBench::of(options, streams)?;
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
        if let Some(inscribed) = document.inscribed.filter(|now| had.as_ref() != Some(now)) {
            choice.at_bench.insert(document.id, inscribed);
        }
    }
    Ok(())
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
            for words in &written.told {
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

fn choice(options: &Options) -> Result<Choice, CliError> {
    let mut choice =
        Choice { day_there: sightedge_service::dates::day_of, ..Choice::default() };
    let kinds = [
        ("sheet", Kind::Sheet),
        ("cutter", Kind::Cutter),
        ("template", Kind::Template),
        ("steps", Kind::Steps),
    ];
    let any = VERB.known.flags.iter().any(|flag| options.has(flag));
    if any {
        choice
            .kinds
            .retain(|kind| kinds.iter().any(|(flag, of)| of == kind && options.has(flag)));
        choice.svg = options.has("svg");
        choice.dxf = options.has("dxf");
        choice.csv = options.has("csv");
    }
    choice.paper = match options.text("paper")? {
        None => None,
        Some("a4") => Some(Paper::A4),
        Some("letter") => Some(Paper::Letter),
        Some(other) => {
            return Err(CliError::usage(format!(
                "--paper {other} is none that is known here: a4 or letter is wanted"
            )));
        }
    };
    let date = options.text("date")?.map(str::parse::<Date>).transpose();
    choice.date = date.map_err(|error| CliError::usage(format!("--date {error}")))?;
    choice.variant = options.text("variant")?.map(str::to_owned);
    Ok(choice)
}
