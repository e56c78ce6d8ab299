//! The whole record out and in again, and whether it is whole.

use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::{Value, json};
use sightedge_studio::{Backup, Dump, exchange};

use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::Asked;
use sightedge_service::{files, wording};

/// The whole record: a file or CSV tables
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge edition export record.ron")]
pub(super) struct Export {
    /// A file that ends in .ron, or a folder for CSV tables
    #[arg(value_name = "FILE.ron|FOLDER")]
    to: PathBuf,
    /// Write over what is there
    #[arg(long)]
    replace: bool,
    /// For other programs
    #[arg(long)]
    json: bool,
}

/// The same into an empty studio
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge edition import record.ron --record second")]
pub(super) struct Import {
    /// A file that ends in .ron, or a folder of CSV tables
    #[arg(value_name = "FILE.ron|FOLDER")]
    from: PathBuf,
    /// For other programs
    #[arg(long)]
    json: bool,
}

/// Whether record and backups are whole
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge edition check")]
pub(super) struct Check {
    /// Restore this backup, where the record is damaged
    #[arg(long, value_name = "FILE")]
    pub(super) put_back: Option<PathBuf>,
    /// For other programs
    #[arg(long)]
    json: bool,
}

/// Whether `path` is a folder of tables, and no file.
fn is_of_tables(path: &Path) -> Result<bool, CliError> {
    let ending = path.extension().filter(|_| !path.is_dir());
    if ending.is_some_and(|ending| ending != "ron") {
        return Err(CliError::usage(format!(
            "{} is no place for a record: name a file that ends in .ron, or a folder for CSV \
             tables",
            path.display()
        )));
    }
    Ok(ending.is_none())
}

fn write(path: &Path, text: &str) -> Result<(), CliError> {
    // Whole or not at all: an export may be all that is left of a record one day.
    files::write_whole(path, text.as_bytes()).map_err(|error| {
        CliError::unwritten(format!(
            "{} cannot be written: {error}; choose another place",
            path.display()
        ))
    })
}

impl Export {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let path = &self.to;
        let tables = is_of_tables(path)?;
        let dump = asked.record().dump()?;
        let files = if tables {
            exchange::TABLES.iter().map(|name| path.join(name)).collect()
        } else {
            vec![path.clone()]
        };
        if let Some(there) = files.iter().find(|file| file.exists())
            && !self.replace
        {
            return Err(CliError::usage(format!(
                "{} is there already, and nothing is written over it unasked: choose another name, or \
             say --replace",
                there.display()
            )));
        }
        if tables {
            std::fs::create_dir_all(path).map_err(|error| {
                CliError::unwritten(format!("{} cannot be made: {error}", path.display()))
            })?;
            for (name, text) in exchange::to_csv(&dump)? {
                write(&path.join(name), &text)?;
            }
        } else {
            write(path, &exchange::to_ron(&dump)?)?;
        }
        told(&dump, "written", path, self.json, streams)
    }
}

fn told(
    dump: &Dump,
    done: &str,
    path: &Path,
    json: bool,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let (works, prints) = (dump.works.len(), dump.prints.len());
    if json {
        let told = json!({
            "file": path.display().to_string(), "works": works, "prints": prints,
        });
        writeln!(streams.out, "{told:#}")?;
    } else {
        let works = wording::count(works, "work");
        let prints = wording::count(prints, "print");
        writeln!(streams.out, "{done} {}: {works}, {prints}", path.display())?;
    }
    Ok(Exit::Done)
}

impl Import {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let path = &self.from;
        let tables = is_of_tables(path)?;
        let read = |path: &Path| {
            std::fs::read_to_string(path).map_err(|error| {
                sightedge_studio::Error::Unreadable(format!(
                    "{} cannot be read: {error}; check the name",
                    path.display()
                ))
            })
        };
        let dump = if tables {
            exchange::from_csv(|name| read(&path.join(name)))?
        } else {
            exchange::from_ron(&read(path)?, &path.display().to_string())?
        };
        asked.record().fill(&dump)?;
        told(&dump, "brought in", path, self.json, streams)
    }
}

/// How far back one can go beyond the newest of `backups`, the oldest of which comes first.
fn older(backups: &[Backup]) -> Option<String> {
    let (_, older) = backups.split_last()?;
    match older {
        [] => None,
        [one] => Some(format!("One older backup, of {}, is beside it", one.day)),
        [first, ..] => Some(format!(
            "{} older backups are beside it, back to {}; --json names them",
            older.len(),
            first.day
        )),
    }
}

impl Check {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let wrong = asked.record().check()?;
        let backups = sightedge_studio::backups(asked.opened.folder());
        let newest = backups.last().map(|backup| backup.file.display().to_string());
        if self.json {
            let all = backups.iter().rev();
            let all: Vec<Value> = all
                .map(|one| json!({ "day": one.day, "file": one.file.display().to_string() }))
                .collect();
            let told = json!({
                "file": asked.opened.file().display().to_string(),
                "wrong": wrong,
                "newest_backup": newest,
                "backups": all,
            });
            writeln!(streams.out, "{told:#}")?;
            return Ok(if wrong.is_empty() { Exit::Done } else { Exit::Fault });
        }
        if wrong.is_empty() {
            writeln!(streams.out, "The record is whole: {}", asked.opened.file().display())?;
        }
        for line in &wrong {
            writeln!(streams.out, "Fault: {line}")?;
        }
        match newest {
            Some(newest) if wrong.is_empty() => {
                writeln!(streams.out, "The newest backup: {newest}")?;
            }
            Some(newest) => {
                writeln!(
                    streams.out,
                    "Restore the newest backup: sightedge edition check --put-back \"{newest}\""
                )?;
            }
            None => {}
        }
        if let Some(older) = older(&backups) {
            writeln!(streams.out, "{older}")?;
        }
        Ok(if wrong.is_empty() { Exit::Done } else { Exit::Fault })
    }
}
