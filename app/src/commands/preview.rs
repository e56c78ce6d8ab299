//! `sightedge preview`: a picture in its true colours at a smaller size.

use std::path::PathBuf;

use clap::Args;
use sightedge_pictures::{CancelToken, Limits, Target, preview};

use super::outcome::CliError;
use super::values::{Read, pixels};
use super::{Exit, Streams, plans};
use sightedge_service::files;

/// Writes a smaller copy of a picture in its true colours
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge preview print.jpg --out small.png --size 800")]
pub(super) struct Preview {
    /// The picture, which is never changed
    #[arg(value_name = "PICTURE")]
    picture: PathBuf,
    /// The file to write, .png or .ppm, as in --out small.png
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Its longer side in pixels; never enlarged
    #[arg(long, value_name = "PX", value_parser = Read(pixels), default_value = "2048")]
    size: u32,
}

impl Preview {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        plans::spare(&self.picture, &self.out)?;
        let target = Target::Longest(self.size);
        let made = preview(&self.picture, target, &Limits::default(), &CancelToken::default())
            .map_err(|error| CliError::unreadable(error.to_string()))?;
        for finding in &made.findings {
            writeln!(streams.err, "{}", finding.message())?;
        }
        files::write_picture(&self.out, &made)
            .map_err(|error| CliError::unwritten(error.to_string()))?;
        Ok(Exit::Done)
    }
}
