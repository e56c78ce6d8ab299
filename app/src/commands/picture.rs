//! `sightedge picture`: the matted picture, face on.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use clap::Args;
use sightedge_core::export::raster;
use sightedge_core::plates::{self, Look};
use sightedge_core::spec::WorkId;
use sightedge_pictures::{CancelToken, Limits, Preview, Size, Target, WriteForm, preview};

use super::outcome::CliError;
use super::plans::OnePlan;
use super::values::{Read, pixels};
use super::{Exit, Streams, plans};
use sightedge_service::files;

/// Writes a picture of the matted print, seen from the front
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge picture print.jpg --out matted.png --width 640")]
pub(super) struct Picture {
    /// The file to write, as in --out matted.png
    #[arg(long, value_name = "FILE.png")]
    out: PathBuf,
    /// Its width in pixels
    #[arg(long, value_name = "PX", value_parser = Read(pixels), default_value = "1600")]
    width: u32,
    #[command(flatten)]
    plan: OnePlan,
}

impl Picture {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let plan = self.plan.open(streams)?;
        let out = &self.out;
        if WriteForm::from_path(out).is_none() {
            return Err(CliError::usage(format!(
                "{} cannot be written: give a name ending in .png",
                out.display()
            )));
        }
        let paths: BTreeMap<WorkId, PathBuf> = plan
            .document
            .works
            .iter()
            .map(|work| (work.id, files::picture_of(&plan.path, &work.picture.path)))
            .collect();
        for path in paths.values() {
            plans::spare(path, out)?;
        }
        let mut trouble = None;
        let mut source = |work, width, height| {
            let path = paths.get(&work)?;
            match shown(path, width, height) {
                Ok(pixels) => Some(pixels),
                Err(words) => {
                    trouble = Some(words);
                    None
                }
            }
        };
        let layout = plan.derived().layout;
        let drawing = plates::front(&plan.variant().mat, &layout.exact, &Look::default());
        let painted = raster::paint(&drawing, self.width, &mut source);
        if let Some(words) = trouble {
            return Err(CliError::unreadable(words));
        }
        let painted = painted.map_err(|error| CliError::usage(error.to_string()))?;
        let size = Size::new(painted.width, painted.height);
        let made = Preview { size, rgba: painted.rgba, picture: size, findings: Vec::new() };
        files::write_picture(out, &made)
            .map_err(|error| CliError::unwritten(error.to_string()))?;
        writeln!(streams.out, "written {}", out.display())?;
        Ok(Exit::Done)
    }
}

/// A picture at just so many pixels, or at its own where it has fewer.
fn shown(path: &Path, width: u32, height: u32) -> Result<raster::Pixels, String> {
    let target = Target::Exact(Size::new(width, height));
    let made = preview(path, target, &Limits::default(), &CancelToken::default())
        .map_err(|error| error.to_string())?;
    Ok(raster::Pixels { width: made.size.width, height: made.size.height, rgba: made.rgba })
}
