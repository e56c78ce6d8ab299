//! `sightedge edition`: what is numbered, where each print is, what is sold.

mod asked;
mod change;
mod correct;
mod folder;
mod given;
mod inscribe;
mod moves;
mod papers;
mod show;
mod whole;

use std::io;
use std::path::PathBuf;

use asked::Asked;
use serde_json::{Value, json};
use sightedge_studio::{Edition, Error, Notation, Note, Print, State, Work, restore};

use super::options::{Known, Options};
use super::outcome::CliError;
use super::{Exit, Streams, Verb, help};
use sightedge_service::record;
use sightedge_service::storage::Storage;

pub(super) use folder::none_in;

/// What is numbered, where each print is, what is sold
#[derive(Debug, clap::Args)]
#[command(disable_help_flag = true)]
pub(super) struct EditionArguments {
    /// A word, what it is done with and its options
    #[arg(trailing_var_arg = true, allow_hyphen_values = true, hide = true)]
    arguments: Vec<std::ffi::OsString>,
}

impl EditionArguments {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let options = Options::read(VERB.known, &self.arguments)?;
        if options.wants_help() {
            let word = options.words().first().and_then(|word| word.to_str());
            writeln!(streams.out, "{}", help::about(VERB.help, word))?;
            return Ok(Exit::Done);
        }
        (VERB.run)(&options, streams)
    }
}

pub(super) const VERB: Verb = Verb {
    known: Known {
        verb: "edition",
        values: &[
            "studio",
            "title",
            "maker",
            "taken",
            "printed",
            "medium",
            "paper",
            "catalogue",
            "size",
            "proofs",
            "pp",
            "hc",
            "tp",
            "of",
            "format",
            "image",
            "sheet",
            "out",
            "issued",
            "sold",
            "price",
            "number",
            "kind",
            "matted",
            "search",
            "show",
            "to",
            "place",
            "buyer",
            "put-back",
            "in",
            "date",
            "why",
            "front",
            "behind",
            "back",
            "stands",
            "grid",
            "label",
            "sheet-of",
            "gap",
            "margin",
            "variant",
            "picture",
            "notes",
        ],
        flags: &["json", "fraction", "roman", "history", "save", "single", "replace", "yes"],
    },
    help: help::EDITION,
    run,
};

/// A word and what it does with the words behind it.
type Does = fn(&mut Asked<'_>, &mut Streams<'_>) -> Result<Exit, CliError>;

/// Each word, and whether it writes to the record.
const WORDS: [(&str, bool, Does); 10] = [
    ("new", true, change::new),
    ("issue", true, change::issue),
    ("list", false, show::list),
    ("move", true, moves::moved),
    ("correct", true, correct::correct),
    ("inscribe", false, inscribe::inscribe),
    ("papers", false, papers::papers),
    ("export", false, whole::export),
    ("import", true, whole::import),
    ("check", false, whole::check),
];

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let names = WORDS.iter().map(|word| word.0);
    let names: Vec<_> = names.chain(["folder"]).collect();
    let mut words = Vec::new();
    for word in options.words() {
        let word = word.to_str().ok_or_else(|| {
            CliError::usage(format!("\"{}\" is no text: type it again", word.display()))
        })?;
        words.push(word.to_owned());
    }
    let wanted = || format!("one of {} is wanted", names.join(", "));
    let Some(first) = words.first() else {
        return Err(CliError::usage(format!("{}; see sightedge edition --help", wanted())));
    };
    if first == "folder" {
        return folder::folder(&words.split_off(1), options, streams);
    }
    let Some((word, writes, does)) = WORDS.iter().find(|word| word.0 == first) else {
        return Err(CliError::usage(format!(
            "\"{first}\" is nothing that can be done with editions: {}",
            wanted()
        )));
    };
    let putting_back = *word == "check" && options.has("put-back");
    let folder = folder_of(options, putting_back, streams.storage)?;
    if *word == "check"
        && let Some(backup) = options.path("put-back")
    {
        return put(&folder, &backup, streams);
    }
    // Only what adds a work begins a record: a folder that is mistyped holds none.
    let begins = matches!(*word, "new" | "import");
    if !begins && !record::is_record(&folder) {
        let looked = *word == "list" && words.len() == 1 && !options.has("show");
        if !looked || options.has("studio") {
            return Err(none_in(&folder));
        }
        return show::nothing(options, streams);
    }
    let (opened, told) = record::opened(&folder)?;
    if let Some(told) = told {
        writeln!(streams.err, "sightedge: {told}")?;
    }
    let date = options.text("date")?.map_or_else(record::today, ToOwned::to_owned);
    let note = Note::because(&date, options.text("why")?.unwrap_or_default());
    let mut asked = Asked { options, rest: words.split_off(1), opened, note };
    let ended = does(&mut asked, streams);
    // What failed midway may have written, too.
    if *writes && let Err(error) = asked.opened.back_up_change(&record::today()) {
        writeln!(streams.err, "sightedge: {}", record::not_backed_up(&error))?;
    }
    ended
}

/// The folder of the record: the one that is given, else that of the window.
fn folder_of(
    options: &Options,
    putting_back: bool,
    storage: &Storage,
) -> Result<PathBuf, CliError> {
    if let Some(folder) = options.path("studio") {
        return Ok(folder);
    }
    let home = record::Home::of(storage).map_err(|lost| folder::lost(&lost))?;
    if !putting_back {
        home.there().map_err(|lost| folder::lost(&lost))?;
    }
    Ok(home.folder)
}

fn put(
    folder: &std::path::Path,
    backup: &std::path::Path,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    if sightedge_studio::open(folder, &record::today()).is_ok() {
        return Err(CliError::usage(format!(
            "the record in {} is whole, and a damaged one is wanted: nothing was put back. To go \
             back to {} all the same, move the record's file elsewhere first",
            folder.display(),
            backup.display()
        )));
    }
    let kept: PathBuf = restore(folder, backup, &record::today())?;
    writeln!(streams.out, "put back {}{}", backup.display(), record::kept_as(&kept))?;
    Ok(Exit::Done)
}

impl From<Error> for CliError {
    fn from(error: Error) -> Self {
        let words = error.to_string();
        match error {
            Error::Refused(_) | Error::Network { .. } => Self::usage(words),
            Error::Damaged { backup: Some(backup), .. } => Self::unreadable(format!(
                "{words}: sightedge edition check --put-back {}. Older ones lie beside it",
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
    asked: &Asked<'_>,
    (work, edition, print): (&Work, &Edition, &Print),
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    if asked.json() {
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
    format!("{notation:<12}{}", record::told_of(&print.now).join(", "))
}

/// Says where a print is sold for nobody knows how much: the sums leave it out. Who bought it
/// may wish to be unnamed.
fn unpriced(edition: &Edition, print: &Print, streams: &mut Streams<'_>) -> io::Result<()> {
    if print.now.state == State::Sold && print.now.price.is_none() {
        writeln!(
            streams.err,
            "sightedge: {} is sold without a price; --price notes it",
            edition.what.notation(print.kind, print.number)
        )?;
    }
    Ok(())
}

/// The kind and number that a text such as `3/25`, `3` or `AP II` names.
fn notation(text: &str) -> Result<Notation, CliError> {
    Notation::read(text).map(|read| read.0).ok_or_else(|| {
        CliError::usage(format!(
            "\"{text}\" is no number of an edition, which count from 1 to its size: try 3/25, 3, \
             \"AP II/V\" or BAT"
        ))
    })
}
