//! `sightedge mats`: the mats tried round one picture, and which of them is made.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use serde_json::{Value, json};
use sightedge_core::command::{self, Command};
use sightedge_core::date::Date;
use sightedge_core::derived::derive;
use sightedge_core::differences::differences;
use sightedge_core::file::store::{Overwrite, Stamp};
use sightedge_core::geometry::Size;
use sightedge_core::spec::{Choice, Document, Start, Variant, VariantId};

use super::outcome::CliError;
use super::values::{Read, date};
use super::{Exit, Streams, plans};
use sightedge_service::{dates, files};

/// The mats tried round one picture, and which of them is made
#[derive(Args, Debug)]
#[command(after_help = "\
The chosen mat is the one that all other commands take, unless --mat names another. Nothing that
is cut of a mat is cut of its copy.

Examples:
  sightedge mats print.jpg copy First Wide
  sightedge mats print.jpg choose Wide --words \"The calm one\"
  sightedge mats print.jpg list")]
pub(super) struct Mats {
    /// The plan, or the picture it lies beside
    #[arg(value_name = "PLAN")]
    plan: PathBuf,
    #[command(subcommand)]
    what: What,
    /// For other programs
    #[arg(long, global = true)]
    json: bool,
}

/// What is done.
#[derive(Debug, Subcommand)]
enum What {
    /// All mats, and how each differs from the chosen one
    List,
    /// A new mat of the usual size and board
    Add {
        /// What it is called
        #[arg(value_name = "NAME")]
        name: String,
    },
    /// A new mat like another
    Copy {
        /// The mat that is copied
        #[arg(value_name = "MAT")]
        of: String,
        /// What the copy is called
        #[arg(value_name = "NAME")]
        name: String,
    },
    /// Gives a mat another name
    Rename {
        /// What it is called now
        #[arg(value_name = "MAT")]
        mat: String,
        /// What it is called from now on
        #[arg(value_name = "NAME")]
        name: String,
    },
    /// Takes a mat out of the plan
    Remove {
        /// The mat
        #[arg(value_name = "MAT")]
        mat: String,
    },
    /// Marks the mat that is to be made
    Choose {
        /// The mat
        #[arg(value_name = "MAT")]
        mat: String,
        /// What the client said
        #[arg(long, value_name = "TEXT", default_value = "")]
        words: String,
        /// The day it was chosen; without it, today
        #[arg(long, value_name = "YYYY-MM-DD", value_parser = Read(date))]
        date: Option<Date>,
    },
}

impl Mats {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let path = files::meant_by(&self.plan);
        let opened =
            files::open(&path).map_err(|error| CliError::unreadable(error.to_string()))?;
        let (mut document, stamp) = (opened.document, opened.stamp);
        let change = self.change(&document, &path, streams)?;
        if let Some(change) = change {
            command::apply(&mut document, &change)
                .map_err(|refusal| CliError::usage(refusal.to_string()))?;
            self.save(&path, &document, &stamp, streams)?;
        }
        if self.json {
            let all: Result<Vec<Value>, CliError> = document
                .variants
                .iter()
                .map(|variant| one_json(&document, variant, streams))
                .collect();
            let all = json!({ "mats": all?, "choice": choice_json(&document) });
            writeln!(streams.out, "{all:#}")?;
        } else if matches!(self.what, What::List) {
            for variant in &document.variants {
                let line = line(&document, variant, streams)?;
                writeln!(streams.out, "{line}")?;
            }
        }
        Ok(Exit::Done)
    }

    /// The change that is asked for; `None` for a list.
    fn change(
        &self,
        document: &Document,
        path: &std::path::Path,
        streams: &mut Streams<'_>,
    ) -> Result<Option<Command>, CliError> {
        let find = |name: &str| plans::find_mat(document, name, path).map(|variant| variant.id);
        Ok(Some(match &self.what {
            What::List => return Ok(None),
            What::Add { name } => usual(document, name, streams)?,
            What::Copy { of, name } => command::copy_mat(document, find(of)?, name)
                .ok_or_else(|| CliError::unreadable("the plan has no such mat"))?,
            What::Rename { mat, name } => Command::RenameMat(find(mat)?, name.clone()),
            What::Remove { mat } => Command::RemoveMat(find(mat)?),
            What::Choose { mat, words, date } => {
                let when = date.unwrap_or_else(dates::today).to_string();
                let words = words.trim().to_owned();
                Command::Choose(find(mat)?, Some(Choice { when, words }))
            }
        }))
    }

    fn save(
        &self,
        path: &std::path::Path,
        document: &Document,
        stamp: &Stamp,
        streams: &mut Streams<'_>,
    ) -> Result<(), CliError> {
        files::save(path, document, Overwrite::This(stamp))
            .map_err(|error| CliError::unwritten(error.to_string()))?;
        if !self.json {
            writeln!(streams.out, "saved {}", path.display())?;
        }
        Ok(())
    }
}

/// Adds the mat that a new plan of the same print would have.
fn usual(
    document: &Document,
    name: &str,
    streams: &mut Streams<'_>,
) -> Result<Command, CliError> {
    let none = || CliError::unreadable("the plan has no picture: make a new plan of one");
    let work = document.works.first().ok_or_else(none)?;
    let start = Start {
        id: document.id.clone(),
        unit: document.unit,
        picture: work.picture.clone(),
        sheet: work.sheet,
        image: work.image,
    };
    let fresh = start.plan(&*streams.tables()?);
    let mut mat = fresh.variants.into_iter().next().ok_or_else(none)?.mat;
    for opening in &mut mat.openings {
        opening.work = work.id;
    }
    Ok(command::new_mat(document, name, mat))
}

/// Where the choice stands, for other programs.
fn choice_json(document: &Document) -> Value {
    document.choice.as_ref().map_or(Value::Null, |choice| {
        json!({ "mat": name_of(document, document.chosen), "when": choice.when,
                "words": choice.words })
    })
}

fn name_of(document: &Document, id: VariantId) -> &str {
    document.variant(id).map_or("", |variant| variant.name.as_str())
}

fn one_json(
    document: &Document,
    variant: &Variant,
    streams: &mut Streams<'_>,
) -> Result<Value, CliError> {
    let derived = derive(document, variant, &*streams.tables()?);
    let outer = derived.layout.bench.outer;
    Ok(json!({
        "name": variant.name,
        "chosen": variant.id == document.chosen,
        "outer_mm": [outer.width.to_mm(), outer.height.to_mm()],
        "outer_text": extent(document, outer),
        "differs": from_chosen(document, variant),
        "worst": derived.findings.iter().map(|found| found.severity).max()
            .map(sightedge_core::finding::Severity::key),
    }))
}

/// A line of the list.
fn line(
    document: &Document,
    variant: &Variant,
    streams: &mut Streams<'_>,
) -> Result<String, CliError> {
    let derived = derive(document, variant, &*streams.tables()?);
    let mut line =
        format!("{}: mat {}", variant.name, extent(document, derived.layout.bench.outer));
    let worst = derived.findings.iter().map(|found| found.severity).max();
    if let Some(worst) = worst.filter(|worst| *worst > sightedge_core::finding::Severity::Note)
    {
        line += &format!(", {}", worst.name());
    }
    if variant.id == document.chosen {
        line += ", chosen";
        if let Some(choice) = &document.choice {
            line += &format!(" {}", choice.when);
            if !choice.words.is_empty() {
                line += &format!(": “{}”", choice.words);
            }
        }
    }
    let differs = from_chosen(document, variant);
    if !differs.is_empty() {
        line += &format!("\n  {}", differs.join("; "));
    }
    Ok(line)
}

fn from_chosen(document: &Document, variant: &Variant) -> Vec<String> {
    let chosen = document.chosen().filter(|chosen| chosen.id != variant.id);
    chosen.map_or_else(Vec::new, |chosen| differences(document, &variant.mat, &chosen.mat))
}

fn extent(document: &Document, size: Size) -> String {
    size.extent_text(|side| side.text(document.unit))
}
