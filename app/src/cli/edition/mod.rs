//! `sightedge edition`: what is numbered, where each print is, what is sold.

mod change;
mod correct;
mod given;
mod inscribe;
mod papers;
mod show;
mod whole;

use std::io;
use std::path::PathBuf;

use serde_json::{Value, json};
use sightedge_studio::{
    Edition, Error, Notation, Note, Opened, Print, Record, State, Work, WorkRow, put_back,
};

use super::options::{Known, Options};
use super::outcome::Trouble;
use super::{Exit, Streams, Verb, help};
use crate::state::Keep;
use crate::studio;

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
            "unknown",
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
        flags: &["json", "fraction", "roman", "history", "save", "single"],
    },
    help: help::EDITION,
    run,
};

/// A word and what it does with the words behind it.
type Does = fn(&mut Asked<'_>, &mut Streams<'_>) -> Result<Exit, Trouble>;

const WORDS: [(&str, Does); 10] = [
    ("new", change::new),
    ("issue", change::issue),
    ("list", show::list),
    ("move", change::moved),
    ("correct", correct::correct),
    ("inscribe", inscribe::inscribe),
    ("papers", papers::papers),
    ("export", whole::export),
    ("import", whole::import),
    ("check", whole::check),
];

/// What was asked for, and the record it is asked of.
struct Asked<'a> {
    options: &'a Options,
    /// The words behind the first.
    rest: Vec<String>,
    opened: Opened,
    note: Note,
}

impl Asked<'_> {
    fn record(&mut self) -> &mut dyn Record {
        self.opened.record()
    }

    fn json(&self) -> bool {
        self.options.has("json")
    }

    /// No more words than are wanted.
    fn at_most(&self, most: usize) -> Result<(), Trouble> {
        match self.rest.get(most) {
            None => Ok(()),
            Some(odd) => Err(Trouble::usage(format!(
                "\"{odd}\" is one word too many: values with spaces go in quotes; see \
                 sightedge edition --help"
            ))),
        }
    }

    /// The work of the catalogue number that comes first.
    fn work(&self) -> Result<WorkRow, Trouble> {
        let Some(wanted) = self.rest.first() else {
            return Err(Trouble::usage(
                "a work is wanted, by its catalogue number such as W0012: sightedge edition \
                 list names them",
            ));
        };
        let found = self.opened.read().index()?;
        found.into_iter().find(|row| row.work.catalogue == *wanted).ok_or_else(|| {
            Trouble::unreadable(format!(
                "there is no work {wanted} in {}: sightedge edition list names those there are",
                self.opened.folder().display()
            ))
        })
    }

    /// Its edition: the only one, or the one asked for.
    fn edition(&self) -> Result<(Work, Edition), Trouble> {
        let row = self.work()?;
        let catalogue = &row.work.catalogue;
        let ids = || -> Vec<String> {
            row.editions.iter().map(|one| one.edition.id.0.to_string()).collect()
        };
        let asked = self.options.text("in")?;
        let found = match (asked, row.editions.as_slice()) {
            (None, [one]) => Some(one),
            (None, []) => {
                return Err(Trouble::unreadable(format!(
                    "{catalogue} has no edition: open one with sightedge edition new --of \
                     {catalogue} --size N"
                )));
            }
            (None, _) => {
                return Err(Trouble::usage(format!(
                    "{catalogue} has several editions: say which one with --in {}",
                    ids().join(" or ")
                )));
            }
            (Some(id), all) => all.iter().find(|one| one.edition.id.0.to_string() == id),
        };
        let found = found.ok_or_else(|| {
            Trouble::unreadable(format!(
                "{catalogue} has no edition {}: it has {}",
                asked.unwrap_or_default(),
                ids().join(", ")
            ))
        })?;
        Ok((row.work.clone(), found.edition.clone()))
    }

    /// Where prints are shown, in words.
    fn shows(&self) -> Result<String, Trouble> {
        let shows = self.opened.read().shows()?;
        let names: Vec<&str> = shows.iter().map(|(name, _)| name.as_str()).collect();
        Ok(if names.is_empty() {
            "no print is at a show".to_owned()
        } else {
            format!("prints are at {}", names.join(", "))
        })
    }

    /// The print that holds the number behind the work; `as_in` shows how the whole is typed.
    fn print(&self, as_in: &str) -> Result<(Work, Edition, Print), Trouble> {
        let (work, edition) = self.edition()?;
        let Some(which) = self.rest.get(1) else {
            return Err(Trouble::usage(format!(
                "a number is wanted, as it is written: sightedge edition {as_in}"
            )));
        };
        let named = notation(which)?;
        let of = edition.what.count(named.kind);
        if named.of != 0 && named.of != of && !named.kind.single() {
            return Err(Trouble::usage(format!(
                "\"{which}\" is of another edition: this one's are written {}",
                edition.what.notation(named.kind, named.number)
            )));
        }
        let prints = self.opened.read().prints(edition.id)?;
        let mut held = prints.into_iter().filter(|print| print.live);
        let print = held
            .find(|print| print.kind == named.kind && print.number == named.number)
            .ok_or_else(|| {
                Trouble::unreadable(format!(
                    "{} {which} is not issued: issue it first",
                    work.catalogue
                ))
            })?;
        Ok((work, edition, print))
    }
}

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, Trouble> {
    let names: Vec<_> = WORDS.iter().map(|word| word.0).collect();
    let mut words = Vec::new();
    for word in options.words() {
        let word = word.to_str().ok_or_else(|| {
            Trouble::usage(format!("\"{}\" is no text: type it again", word.display()))
        })?;
        words.push(word.to_owned());
    }
    let wanted = || format!("one of {} is wanted", names.join(", "));
    let Some(first) = words.first() else {
        return Err(Trouble::usage(format!("{}; see sightedge edition --help", wanted())));
    };
    let Some((word, does)) = WORDS.iter().find(|word| word.0 == first) else {
        return Err(Trouble::usage(format!(
            "\"{first}\" is nothing that can be done with editions: {}",
            wanted()
        )));
    };
    let folder = folder(options, *word == "check" && options.has("put-back"))?;
    if *word == "check"
        && let Some(backup) = options.path("put-back")
    {
        return put(&folder, &backup, streams);
    }
    let (opened, told) = studio::opened(&folder)?;
    if let Some(told) = told {
        writeln!(streams.err, "sightedge: {told}")?;
    }
    let date = options.text("date")?.map_or_else(studio::today, ToOwned::to_owned);
    let note = Note::because(&date, options.text("why")?.unwrap_or_default());
    let mut asked = Asked { options, rest: words.split_off(1), opened, note };
    does(&mut asked, streams)
}

/// The folder of the record: the one that is given, else that of the window.
fn folder(options: &Options, putting_back: bool) -> Result<PathBuf, Trouble> {
    if let Some(folder) = options.path("studio") {
        return Ok(folder);
    }
    let home = studio::Home::of(&Keep::usual())
        .map_err(|words| Trouble::usage(format!("{words} Give one with --studio FOLDER.")))?;
    if !putting_back {
        home.there().map_err(|lost| Trouble::usage(format!("{lost} with --studio FOLDER")))?;
    }
    Ok(home.folder)
}

fn put(
    folder: &std::path::Path,
    backup: &std::path::Path,
    streams: &mut Streams<'_>,
) -> Result<Exit, Trouble> {
    let kept: PathBuf = put_back(folder, backup, &studio::today())?;
    writeln!(
        streams.out,
        "put back {}; what was damaged is kept as {}",
        backup.display(),
        kept.display()
    )?;
    Ok(Exit::Done)
}

impl From<Error> for Trouble {
    fn from(error: Error) -> Self {
        let words = error.to_string();
        match error {
            Error::Refused(_) | Error::Network { .. } => Self::usage(words),
            Error::Missing(_)
            | Error::Damaged { .. }
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

/// A print in one line.
fn print_line(edition: &Edition, print: &Print) -> String {
    let now = &print.now;
    let mut line =
        format!("{:<12}{}", edition.what.notation(print.kind, print.number), now.state.name());
    if now.state == State::Show {
        line.push_str(": ");
        line.push_str(&now.place);
    }
    for more in [now.price.as_ref().map(ToString::to_string), Some(now.buyer.clone())] {
        if let Some(more) = more.filter(|more| !more.is_empty()) {
            line.push_str(", ");
            line.push_str(&more);
        }
    }
    line
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
fn notation(text: &str) -> Result<Notation, Trouble> {
    Notation::read(text).map(|read| read.0).ok_or_else(|| {
        Trouble::usage(format!(
            "\"{text}\" is no number of an edition, which count from 1 to its size: try 3/25, 3, \
             \"AP II/V\" or BAT"
        ))
    })
}
