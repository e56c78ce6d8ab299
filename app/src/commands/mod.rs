//! The commands: the whole job without a display.

mod as_cut;
mod at_bench;
mod check;
mod cli;
mod cut;
mod edition;
mod figures;
mod hinges;
mod lengths;
mod licences;
mod new;
mod outcome;
mod package;
mod picture;
mod plans;
mod preview;
mod printouts;
mod refusal;
mod steps;
mod typed;
mod values;

use std::ffi::OsString;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Arc;

use cli::{Asked, Command};
use outcome::CliError;
use sightedge_core::material::Tables;

use sightedge_service::storage::Storage;

pub use cli::command;
pub use outcome::Exit;

/// Where a command writes.
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

/// Runs the program with the arguments of its process.
pub fn main() -> ExitCode {
    let arguments: Vec<OsString> = std::env::args_os().skip(1).collect();
    let (mut out, mut err) = (std::io::stdout().lock(), std::io::stderr().lock());
    run(&arguments, &mut out, &mut err).code()
}

/// Runs a command on `arguments`, the program's own name left out, and says how it ended.
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
    // Not for people: the window decodes each picture in a process of its own.
    let first = arguments.first().and_then(|first| first.to_str());
    if first == Some(crate::window::workers::DECODER) {
        sightedge_pictures::job::serve(&mut std::io::stdin().lock(), &mut streams.out)?;
        return Ok(Exit::Done);
    }
    let cli = match cli::read(arguments)? {
        Asked::Run(cli) => cli,
        Asked::Show(text) => {
            writeln!(streams.out, "{}", text.trim_end())?;
            return Ok(Exit::Done);
        }
    };
    if cli.licences {
        licences::write(streams.out)?;
        return Ok(Exit::Done);
    }
    match cli.command {
        None => window(cli.files),
        Some(Command::New(new)) => new.run(streams),
        Some(Command::Figures(figures)) => figures.run(streams),
        Some(Command::Check(check)) => check.run(streams),
        Some(Command::Hinges(hinges)) => hinges.run(streams),
        Some(Command::Package(package)) => package.run(streams),
        Some(Command::Steps(steps)) => steps.run(streams),
        Some(Command::AsCut(as_cut)) => as_cut.run(streams),
        Some(Command::Picture(picture)) => picture.run(streams),
        Some(Command::Printouts(printouts)) => printouts.run(streams),
        Some(Command::Preview(preview)) => preview.run(streams),
        Some(Command::Cut(cut)) => cut.run(streams),
        Some(Command::Edition(edition)) => edition.run(streams),
    }
}
