//! The headless verbs: the whole job without a display.

mod as_cut;
mod at_bench;
mod check;
mod cut;
mod edition;
mod figures;
mod help;
mod hinges;
mod measures;
mod new;
mod new_behind;
mod options;
mod outcome;
mod package;
mod papers;
mod picture;
mod plans;
mod preview;
mod steps;

use std::ffi::OsString;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;

use options::{Known, Options};
use outcome::CliError;
use sightedge_core::material::Tables;

use sightedge_service::storage::Storage;

pub use outcome::Exit;

/// Where a verb writes.
struct Streams<'a> {
    out: &'a mut dyn Write,
    err: &'a mut dyn Write,
    storage: &'a Storage,
    tables: Option<Arc<Tables>>,
}

impl Streams<'_> {
    /// The program's tables with the person's own laid over them; said once, where their own
    /// cannot be used.
    fn tables(&mut self) -> std::io::Result<Arc<Tables>> {
        if let Some(tables) = &self.tables {
            return Ok(Arc::clone(tables));
        }
        let (_, tables, trouble) = self.storage.tables();
        if let Some(words) = trouble {
            writeln!(self.err, "sightedge: {words}")?;
        }
        Ok(Arc::clone(self.tables.insert(Arc::new(tables))))
    }

    /// The same where a plan is begun from them, which would be another one without the
    /// person's own.
    fn sound_tables(&mut self) -> Result<Arc<Tables>, CliError> {
        let (_, tables, trouble) = self.storage.tables();
        match trouble {
            Some(words) => Err(CliError::unreadable(words)),
            None => Ok(Arc::clone(self.tables.insert(Arc::new(tables)))),
        }
    }
}

/// A headless verb.
struct Verb {
    known: Known,
    help: &'static str,
    run: fn(&Options, &mut Streams<'_>) -> Result<Exit, CliError>,
}

const VERBS: &[&Verb] = &[
    &new::VERB,
    &figures::VERB,
    &check::VERB,
    &hinges::VERB,
    &package::VERB,
    &steps::VERB,
    &as_cut::VERB,
    &picture::VERB,
    &papers::VERB,
    &preview::VERB,
    &cut::VERB,
    &edition::VERB,
];

/// Runs the program with the arguments of its process.
pub fn main() -> ExitCode {
    let arguments: Vec<OsString> = std::env::args_os().skip(1).collect();
    let (mut out, mut err) = (std::io::stdout().lock(), std::io::stderr().lock());
    run(&arguments, &mut out, &mut err).code()
}

/// Runs a verb on `arguments`, the program's own name left out, and says how it ended.
pub fn run(arguments: &[OsString], out: &mut dyn Write, err: &mut dyn Write) -> Exit {
    run_with(&Storage::usual(), arguments, out, err)
}

/// The same with the person's own tables from `keep`.
pub fn run_with(
    storage: &Storage,
    arguments: &[OsString],
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Exit {
    let mut streams = Streams { out, err, storage, tables: None };
    match dispatch(arguments, &mut streams) {
        Ok(exit) => exit,
        Err(trouble) => {
            if trouble.words.is_empty() {
                return trouble.exit;
            }
            // Nothing is left to do where even the complaint cannot be written.
            if writeln!(streams.err, "sightedge: {}", trouble.words).is_err() {
                return Exit::Unwritten.max(trouble.exit);
            }
            trouble.exit
        }
    }
}

fn window(files: Vec<PathBuf>) -> Result<Exit, CliError> {
    crate::window::run::run(files)
        .map(|()| Exit::Done)
        .map_err(|words| CliError { exit: Exit::Unwritten, words })
}

fn dispatch(arguments: &[OsString], streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let Some((first, rest)) = arguments.split_first() else {
        return window(Vec::new());
    };
    match first.to_str() {
        Some("--help" | "-h" | "help") => {
            writeln!(streams.out, "{}", help::ALL.trim())?;
            return Ok(Exit::Done);
        }
        // Not for people: the window decodes each picture in a process of its own.
        Some(crate::window::workers::DECODER) => {
            sightedge_pictures::job::serve(&mut std::io::stdin().lock(), &mut streams.out)?;
            return Ok(Exit::Done);
        }
        Some("--version" | "-V") => {
            writeln!(streams.out, "sightedge {}", env!("CARGO_PKG_VERSION"))?;
            return Ok(Exit::Done);
        }
        _ => {}
    }
    let verb = VERBS.iter().find(|verb| first.to_str() == Some(verb.known.verb));
    let Some(verb) = verb else {
        // No verb, but files: they are opened in the window.
        let no_file = |argument: &&OsString| !Path::new(argument).is_file();
        let Some(odd) = arguments.iter().find(no_file) else {
            return window(arguments.iter().map(PathBuf::from).collect());
        };
        let names: Vec<_> = VERBS.iter().map(|verb| verb.known.verb).collect();
        return Err(CliError::usage(format!(
            "\"{}\" is neither a file nor anything this program does: one of {} is wanted, or \
             --help",
            odd.display(),
            names.join(", ")
        )));
    };
    let options = Options::read(verb.known, rest)?;
    if options.wants_help() {
        let word = options.words().first().and_then(|word| word.to_str());
        writeln!(streams.out, "{}", help::about(verb.help, word))?;
        return Ok(Exit::Done);
    }
    (verb.run)(&options, streams)
}
