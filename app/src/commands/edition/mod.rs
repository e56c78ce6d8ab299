//! `sightedge edition`: what is numbered, where each print is, what is sold.

mod asked;
mod begin;
mod correct;
mod folder;
mod given;
mod history;
mod inscribe;
mod issue;
mod moves;
mod printouts;
mod rename;
mod show;
mod whole;

use std::io::{self, Write};
use std::path::PathBuf;

use asked::Asked;
use clap::{Args, Subcommand};
use serde_json::{Value, json};
use sightedge_studio::{Edition, Error, Notation, Print, State, Work, restore};

use super::outcome::CliError;
use super::{Exit, Streams};
use sightedge_service::record;
use sightedge_service::storage::Storage;

pub(super) use folder::none_in;

/// What is numbered, where each print is, what is sold
#[derive(Args, Debug)]
#[command(
    arg_required_else_help = false,
    after_help = "\
Each command has its own --help, as in: sightedge edition issue --help

WORK is a catalogue number such as W0012; NUMBER is as it is written: 3/25, AP II/V. Nothing is
deleted: what is voided or withdrawn keeps its history. AP: artist's proof. PP: printer's proof.
HC: hors commerce, not for sale. BAT: bon à tirer, the print approved for the edition. TP: trial
proof.

Example:
  sightedge edition list"
)]
pub(super) struct Editions {
    #[command(subcommand)]
    word: Word,
    /// Where the record is kept; without it, where the window keeps it
    #[arg(long, value_name = "FOLDER", global = true)]
    record: Option<PathBuf>,
}

/// What is done.
#[derive(Debug, Subcommand)]
enum Word {
    #[command(flatten)]
    OfRecord(OfRecord),
    Folder(folder::Folder),
}

/// What is done with a record.
#[derive(Debug, Subcommand)]
enum OfRecord {
    New(Box<begin::New>),
    Issue(Box<issue::Issue>),
    List(show::List),
    Move(moves::Move),
    RenameShow(rename::RenameShow),
    Correct(Box<correct::Correct>),
    Inscribe(inscribe::Inscribe),
    #[command(alias = "papers")]
    Printouts(Box<printouts::Printouts>),
    Export(whole::Export),
    Import(whole::Import),
    Check(whole::Check),
}

impl OfRecord {
    /// Whether it writes to the record.
    const fn writes(&self) -> bool {
        matches!(
            self,
            Self::New(_)
                | Self::Issue(_)
                | Self::Move(_)
                | Self::RenameShow(_)
                | Self::Correct(_)
                | Self::Import(_)
        )
    }

    /// Whether it may begin a record: only what adds a work does, for a folder that is mistyped
    /// holds none.
    const fn begins(&self) -> bool {
        matches!(self, Self::New(_) | Self::Import(_))
    }

    fn run(&self, asked: &mut Asked, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        match self {
            Self::New(new) => new.run(asked, streams),
            Self::Issue(issue) => issue.run(asked, streams),
            Self::List(list) => list.run(asked, streams),
            Self::Move(moved) => moved.run(asked, streams),
            Self::RenameShow(rename) => rename.run(asked, streams),
            Self::Correct(correct) => correct.run(asked, streams),
            Self::Inscribe(inscribe) => inscribe.run(asked, streams),
            Self::Printouts(printouts) => printouts.run(asked, streams),
            Self::Export(export) => export.run(asked, streams),
            Self::Import(import) => import.run(asked, streams),
            Self::Check(check) => check.run(asked, streams),
        }
    }
}

impl Editions {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        match &self.word {
            Word::Folder(folder) => folder.run(self.record.as_deref(), streams),
            Word::OfRecord(word) => self.of_record(word, streams),
        }
    }

    fn of_record(&self, word: &OfRecord, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        if let OfRecord::List(list) = word {
            list.check()?;
        }
        let put_back = match word {
            OfRecord::Check(check) => check.put_back.as_deref(),
            _ => None,
        };
        let folder = self.folder(put_back.is_some(), streams.storage)?;
        if let Some(backup) = put_back {
            return put(&folder, backup, streams);
        }
        if !word.begins() && !record::is_record(&folder) {
            return match word {
                OfRecord::List(list) if list.is_of_all() && self.record.is_none() => {
                    list.nothing(streams)
                }
                _ => Err(none_in(&folder)),
            };
        }
        record::when_waiting(|| {
            // Written past `streams`: it is lent to the command that waits.
            let told = "sightedge: another window or program is writing to the record; waiting";
            writeln!(io::stderr(), "{told}").unwrap_or_default();
        });
        let (opened, told) = record::opened(&folder)?;
        if let Some(told) = told {
            writeln!(streams.err, "sightedge: {told}")?;
        }
        let mut asked = Asked { opened };
        let ended = word.run(&mut asked, streams);
        // What failed midway may have written, too.
        if word.writes()
            && let Err(error) = asked.opened.back_up_change(&record::today())
        {
            writeln!(streams.err, "sightedge: {}", record::not_backed_up(&error))?;
        }
        ended
    }

    /// The folder of the record: the one that is given, else that of the window.
    fn folder(&self, putting_back: bool, storage: &Storage) -> Result<PathBuf, CliError> {
        if let Some(folder) = &self.record {
            return Ok(folder.clone());
        }
        let home = record::Home::of(storage).map_err(|lost| folder::lost(&lost))?;
        if !putting_back {
            home.there().map_err(|lost| folder::lost(&lost))?;
        }
        Ok(home.folder)
    }
}

fn put(
    folder: &std::path::Path,
    backup: &std::path::Path,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    if sightedge_studio::open(folder, &record::today()).is_ok() {
        return Err(CliError::usage(format!(
            "the record in {} is not damaged: nothing was restored. To go back to {} all the \
             same, move the record's file elsewhere first",
            folder.display(),
            backup.display()
        )));
    }
    let kept: PathBuf = restore(folder, backup, &record::today())?;
    writeln!(streams.out, "restored {}{}", backup.display(), record::kept_as(&kept))?;
    Ok(Exit::Done)
}

impl From<Error> for CliError {
    fn from(error: Error) -> Self {
        let words = error.to_string();
        match error {
            Error::Refused(_) | Error::Network { .. } => Self::usage(words),
            Error::Damaged { backup: Some(backup), .. } => Self::unreadable(format!(
                "{words}: sightedge edition check --put-back {}. Older ones are beside it",
                backup.display()
            )),
            Error::Missing(_)
            | Error::Damaged { .. }
            | Error::NeverReleased { .. }
            | Error::Newer { .. }
            | Error::Unreadable(_) => Self::unreadable(words),
            Error::Folder { .. } | Error::Full(_) | Error::Busy(_) | Error::System { .. } => {
                Self::unwritten(words)
            }
        }
    }
}

/// A print as other programs read it.
fn print_json(edition: &Edition, print: &Print) -> Value {
    let now = &print.now;
    json!({
        "id": print.id.0,
        "edition": print.edition.0,
        "notation": edition.what.notation(print.kind, print.number),
        "kind": print.kind.key(),
        "number": print.number,
        "live": print.live,
        "replaces": print.replaces.map(|print| print.0),
        "state": now.state.key(),
        "place": now.place,
        "printed": now.printed,
        "matted": now.matted,
        "plan": now.plan_file,
        "price": now.price.as_ref().map(ToString::to_string),
        "buyer": now.buyer,
    })
}

/// What came of a change of a print, in a line or for other programs.
fn write_print(
    json: bool,
    (work, edition, print): (&Work, &Edition, &Print),
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    if json {
        writeln!(streams.out, "{:#}", print_json(edition, print))?;
    } else {
        let line = print_line(edition, print);
        writeln!(streams.out, "{} {}: {line}", work.catalogue, work.what.title)?;
    }
    Ok(Exit::Done)
}

/// A print in one line.
fn print_line(edition: &Edition, print: &Print) -> String {
    let notation = edition.what.notation(print.kind, print.number);
    format!("{notation:<12}{}", record::details_in_words(&print.now).join(", "))
}

/// Says where a print is sold for nobody knows how much: the sums leave it out. Who bought it
/// may wish to be unnamed.
fn unpriced(edition: &Edition, print: &Print, streams: &mut Streams<'_>) -> io::Result<()> {
    if print.now.state == State::Sold && print.now.price.is_none() {
        writeln!(
            streams.err,
            "sightedge: {} is sold without a price; add it with --price",
            edition.what.notation(print.kind, print.number)
        )?;
    }
    Ok(())
}

/// The kind and number that a text such as `3/25`, `3` or `AP II` names.
fn notation(text: &str) -> Result<Notation, CliError> {
    Notation::read(text).map(|read| read.0).ok_or_else(|| {
        CliError::usage(format!(
            "\"{text}\" is no number of an edition, which run from 1 to its size: try 3/25, 3, \
             \"AP II/V\" or BAT"
        ))
    })
}
