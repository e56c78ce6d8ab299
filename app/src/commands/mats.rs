//! `sightedge mats`: the mats tried round one picture, and which of them is made.

use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::{Value, json};
use sightedge_core::command::{self, Command};
use sightedge_core::date::Date;
use sightedge_core::derived::derive;
use sightedge_core::differences::differences;
use sightedge_core::file::store::{Overwrite, Stamp};
use sightedge_core::finding::Severity;
use sightedge_core::geometry::Size;
use sightedge_core::spec::{Choice, Document, Start, Variant, VariantId};

use super::outcome::CliError;
use super::values::{Read, date};
use super::{Exit, Streams, plans};
use sightedge_service::{dates, files};

/// The mats tried round one picture, and which of them is made
#[derive(Args, Debug)]
#[command(after_help = "\
What is done with the mats:
  list             all of them, and how each differs from the chosen one
  add NAME         a new mat of the usual size and board
  copy MAT NAME    a new mat like another; nothing that is cut of a mat is cut of its copy
  rename MAT NAME  another name
  remove MAT       takes it out of the plan
  choose MAT       marks the one that is made: all other commands take it, unless --mat names
                   another

Examples:
  sightedge mats print.jpg copy First Wide
  sightedge mats print.jpg choose Wide --words \"The calm one\"
  sightedge mats print.jpg list")]
pub(super) struct Mats {
    /// The plan, or the picture it lies beside
    #[arg(value_name = "PLAN")]
    plan: PathBuf,
    /// list, add, copy, rename, remove or choose
    #[arg(value_name = "WHAT", value_parser = Read(what))]
    what: What,
    /// The mats, by name
    #[arg(value_name = "MAT|NAME")]
    names: Vec<String>,
    /// With choose: what the client said
    #[arg(long, value_name = "TEXT")]
    words: Option<String>,
    /// With choose: the day it was chosen; without it, today
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = Read(date))]
    date: Option<Date>,
    /// For other programs
    #[arg(long)]
    json: bool,
}

/// What is done.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum What {
    List,
    Add,
    Copy,
    Rename,
    Remove,
    Choose,
}

impl What {
    const ALL: [(Self, &str); 6] = [
        (Self::List, "list"),
        (Self::Add, "add"),
        (Self::Copy, "copy"),
        (Self::Rename, "rename"),
        (Self::Remove, "remove"),
        (Self::Choose, "choose"),
    ];

    fn key(self) -> &'static str {
        Self::ALL.iter().find(|(what, _)| *what == self).map_or("", |(_, key)| key)
    }
}

fn what(_: &str, text: &str) -> Result<What, String> {
    let found = What::ALL.iter().find(|(_, key)| *key == text);
    found.map(|(what, _)| *what).ok_or_else(|| {
        let keys = What::ALL.map(|(_, key)| key).join(", ");
        format!("\"{text}\" is not done with mats: use one of {keys}")
    })
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
        } else if self.what == What::List {
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
        path: &Path,
        streams: &mut Streams<'_>,
    ) -> Result<Option<Command>, CliError> {
        if self.what != What::Choose && (self.words.is_some() || self.date.is_some()) {
            return Err(CliError::usage(
                "--words and --date go with choose: leave them out, or choose a mat",
            ));
        }
        let find = |name: &str| plans::find_mat(document, name, path).map(|variant| variant.id);
        let names: Vec<&str> = self.names.iter().map(String::as_str).collect();
        let change = match (self.what, names.as_slice()) {
            (What::List, []) => return Ok(None),
            (What::Add, [name]) => usual(document, name, streams)?,
            (What::Copy, [of, name]) => command::copy_mat(document, find(of)?, name)
                .ok_or_else(|| CliError::unreadable("the plan has no such mat: list them"))?,
            (What::Rename, [mat, name]) => Command::RenameMat(find(mat)?, (*name).to_owned()),
            (What::Remove, [mat]) => Command::RemoveMat(find(mat)?),
            (What::Choose, [mat]) => {
                let when = self.date.unwrap_or_else(dates::today).to_string();
                let words = self.words.as_deref().unwrap_or_default().trim().to_owned();
                Command::Choose(find(mat)?, Some(Choice { when, words }))
            }
            (what, _) => {
                let takes = match what {
                    What::List => "no name",
                    What::Add => "the new mat's name",
                    What::Copy => "the mat to copy and the copy's name",
                    What::Rename => "the mat and its new name",
                    What::Remove | What::Choose => "the mat's name",
                };
                return Err(CliError::usage(format!(
                    "{} takes {takes}, and {} given; a name of several words goes in quotes",
                    what.key(),
                    match names.len() {
                        0 => "none was".to_owned(),
                        1 => "one was".to_owned(),
                        count => format!("{count} were"),
                    }
                )));
            }
        };
        Ok(Some(change))
    }

    fn save(
        &self,
        path: &Path,
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
            .map(Severity::key),
    }))
}

/// A line of the list, and another where the mat differs from the chosen one.
fn line(
    document: &Document,
    variant: &Variant,
    streams: &mut Streams<'_>,
) -> Result<String, CliError> {
    let derived = derive(document, variant, &*streams.tables()?);
    let outer = extent(document, derived.layout.bench.outer);
    let worst = derived.findings.iter().map(|found| found.severity).max();
    let worst = worst.filter(|worst| *worst > Severity::Note);
    let worst = worst.map_or_else(String::new, |worst| format!(", {}", worst.name()));
    let chosen = match (&document.choice, variant.id == document.chosen) {
        (_, false) => String::new(),
        (None, true) => ", chosen".to_owned(),
        (Some(Choice { when, words }), true) if words.is_empty() => format!(", chosen {when}"),
        (Some(Choice { when, words }), true) => format!(", chosen {when}: “{words}”"),
    };
    let differs = from_chosen(document, variant);
    let differs =
        if differs.is_empty() { String::new() } else { format!("\n  {}", differs.join("; ")) };
    Ok(format!("{}: mat {outer}{worst}{chosen}{differs}", variant.name))
}

fn from_chosen(document: &Document, variant: &Variant) -> Vec<String> {
    let chosen = document.chosen().filter(|chosen| chosen.id != variant.id);
    chosen.map_or_else(Vec::new, |chosen| differences(document, &variant.mat, &chosen.mat))
}

fn extent(document: &Document, size: Size) -> String {
    size.extent_text(|side| side.text(document.unit))
}
