//! The whole record out and in again, and whether it is whole.

use std::path::Path;

use serde_json::{Value, json};
use sightedge_studio::{Backup, Dump, exchange};

use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::Asked;
use sightedge_service::{files, wording};

/// The file or folder behind the word, and whether it is a folder of tables.
fn target(asked: &Asked<'_>) -> Result<(std::path::PathBuf, bool), CliError> {
    asked.at_most(1)?;
    let Some(path) = asked.rest.first() else {
        return Err(CliError::usage(
            "a file that ends in .ron, or a folder for CSV tables, is wanted",
        ));
    };
    let path = std::path::PathBuf::from(path);
    let ending = path.extension().filter(|_| !path.is_dir());
    let tables = ending.is_none();
    if ending.is_some_and(|ending| ending != "ron") {
        return Err(CliError::usage(format!(
            "{} is no place for a record: a file that ends in .ron, or a folder for CSV tables, is \
             wanted",
            path.display()
        )));
    }
    Ok((path, tables))
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

pub(super) fn export(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let (path, tables) = target(asked)?;
    let dump = asked.record().dump()?;
    let files = if tables {
        exchange::TABLES.iter().map(|name| path.join(name)).collect()
    } else {
        vec![path.clone()]
    };
    if let Some(there) = files.iter().find(|file| file.exists())
        && !asked.options.has("replace")
    {
        return Err(CliError::usage(format!(
            "{} is there already, and nothing is written over it unasked: choose another name, or \
             say --replace",
            there.display()
        )));
    }
    if tables {
        std::fs::create_dir_all(&path).map_err(|error| {
            CliError::unwritten(format!("{} cannot be made: {error}", path.display()))
        })?;
        for (name, text) in exchange::to_csv(&dump)? {
            write(&path.join(name), &text)?;
        }
    } else {
        write(&path, &exchange::to_ron(&dump)?)?;
    }
    told(&dump, "written", &path, asked.json(), streams)
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

pub(super) fn import(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let (path, tables) = target(asked)?;
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
        exchange::from_ron(&read(&path)?, &path.display().to_string())?
    };
    asked.record().fill(&dump)?;
    told(&dump, "brought in", &path, asked.json(), streams)
}

/// How far back one can go beyond the newest of `backups`, the oldest of which comes first.
fn older(backups: &[Backup]) -> Option<String> {
    let (_, older) = backups.split_last()?;
    match older {
        [] => None,
        [one] => Some(format!("One older backup, of {}, lies beside it", one.day)),
        [first, ..] => Some(format!(
            "{} older backups lie beside it, back to {}; --json names them",
            older.len(),
            first.day
        )),
    }
}

pub(super) fn check(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    asked.at_most(0)?;
    let wrong = asked.record().check()?;
    let backups = sightedge_studio::backups(asked.opened.folder());
    let newest = backups.last().map(|backup| backup.file.display().to_string());
    if asked.json() {
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
        return Ok(if wrong.is_empty() { Exit::Done } else { Exit::Stop });
    }
    if wrong.is_empty() {
        writeln!(streams.out, "The record is whole: {}", asked.opened.file().display())?;
    }
    for line in &wrong {
        writeln!(streams.out, "Stop: {line}")?;
    }
    match newest {
        Some(newest) if wrong.is_empty() => {
            writeln!(streams.out, "The newest backup: {newest}")?;
        }
        Some(newest) => {
            writeln!(
                streams.out,
                "Put the newest backup back: sightedge edition check --put-back \"{newest}\""
            )?;
        }
        None => {}
    }
    if let Some(older) = older(&backups) {
        writeln!(streams.out, "{older}")?;
    }
    Ok(if wrong.is_empty() { Exit::Done } else { Exit::Stop })
}
