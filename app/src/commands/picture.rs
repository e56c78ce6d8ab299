//! `sightedge picture`: the matted picture, face on.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use sightedge_core::export::raster;
use sightedge_core::plates::{self, Look};
use sightedge_core::spec::WorkId;
use sightedge_pictures::{CancelToken, Limits, Preview, Size, Target, WriteForm, preview};

use super::options::{Known, Options};
use super::outcome::CliError;
use super::preview::pixels;
use super::{Exit, Streams, Verb, help, plans};
use sightedge_service::files;

pub(super) const VERB: Verb = Verb {
    known: Known { verb: "picture", values: &["out", "width", "variant"], flags: &[] },
    help: help::PICTURE,
    run,
};

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let plan = plans::open(&options.word("a plan")?, options, streams)?;
    let out = options.path("out").ok_or_else(|| {
        CliError::usage("--out is wanted: the file to write, as in --out matted.png")
    })?;
    if WriteForm::from_path(&out).is_none() {
        return Err(CliError::usage(format!(
            "{} is no file that is written here: a name ending in .png is wanted",
            out.display()
        )));
    }
    let width = pixels(options, "width", 1600)?;
    let paths: BTreeMap<WorkId, PathBuf> = plan
        .document
        .works
        .iter()
        .map(|work| (work.id, files::picture_of(&plan.path, &work.picture.path)))
        .collect();
    for path in paths.values() {
        plans::spare(path, &out)?;
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
    let painted = raster::paint(&drawing, width, &mut source);
    if let Some(words) = trouble {
        return Err(CliError::unreadable(words));
    }
    let painted = painted.map_err(|error| CliError::usage(error.to_string()))?;
    let size = Size::new(painted.width, painted.height);
    let made = Preview { size, rgba: painted.rgba, picture: size, findings: Vec::new() };
    files::write_picture(&out, &made)
        .map_err(|error| CliError::unwritten(error.to_string()))?;
    writeln!(streams.out, "written {}", out.display())?;
    Ok(Exit::Done)
}

/// A picture at just so many pixels, or at its own where it has fewer.
fn shown(path: &Path, width: u32, height: u32) -> Result<raster::Pixels, String> {
    let target = Target::Exact(Size::new(width, height));
    let made = preview(path, target, &Limits::default(), &CancelToken::default())
        .map_err(|error| error.to_string())?;
    Ok(raster::Pixels { width: made.size.width, height: made.size.height, rgba: made.rgba })
}
