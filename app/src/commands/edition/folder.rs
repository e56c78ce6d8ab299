//! `sightedge edition folder`: where the record is kept, told and chosen.

use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::json;

use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::given::absolute;
use sightedge_service::record::{self, Home, Lost};

/// What stands for the folder that is usual on this system.
const USUAL: &str = "usual";

/// That there is no telling where the record is, and how the person says it.
pub(super) fn lost(lost: &Lost) -> CliError {
    CliError::usage(format!(
        "{lost}: sightedge edition folder FOLDER, or edition folder {USUAL}; for this once, \
         --record FOLDER"
    ))
}

/// Where the record is kept; with a folder, from now on there
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge edition folder")]
pub(super) struct Folder {
    /// A folder that holds a record, or usual for the one that is usual on this system
    #[arg(value_name = "FOLDER|usual")]
    to: Option<PathBuf>,
    /// For other programs
    #[arg(long)]
    json: bool,
}

impl Folder {
    pub(super) fn run(
        &self,
        studio: Option<&Path>,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        if studio.is_some() {
            return Err(CliError::usage(
                "edition folder says where the record is kept from now on, and --record is for once: \
             leave out --record",
            ));
        }
        if let Some(to) = &self.to {
            return choose(Some(to.as_path()).filter(|to| *to != Path::new(USUAL)), streams);
        }
        let home = Home::of(streams.storage).and_then(|home| home.there().map(|()| home));
        let home = home.map_err(|gone| lost(&gone))?;
        let there = record::is_record(&home.folder);
        if self.json {
            let told = json!({ "folder": home.folder, "chosen": home.chosen, "there": there });
            writeln!(streams.out, "{told:#}")?;
        } else {
            let none = if there { "" } else { ": none is begun yet" };
            writeln!(streams.out, "The record is kept in {}{none}", home.folder.display())?;
        }
        Ok(Exit::Done)
    }
}

/// Keeps the record in that folder from now on; without one, in the usual folder.
fn choose(to: Option<&Path>, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let to: Option<PathBuf> = to.map(absolute).transpose()?;
    // The window begins one where there is none; a folder that is mistyped here begins none.
    if let Some(to) = to.as_deref().filter(|to| !record::is_record(to)) {
        return Err(none_in(to));
    }
    let (home, _, said) = Home::choose(streams.storage, to.as_deref())?;
    if let Some(said) = said {
        writeln!(streams.err, "sightedge: {said}")?;
    }
    writeln!(streams.out, "The record is kept in {}", home.folder.display())?;
    Ok(Exit::Done)
}

/// That a folder holds no record, and how one is begun.
pub(in crate::commands) fn none_in(folder: &Path) -> CliError {
    CliError::unreadable(format!(
        "there is no record in {}: check the folder's name, or begin one there with sightedge \
         edition new --record FOLDER",
        folder.display()
    ))
}
