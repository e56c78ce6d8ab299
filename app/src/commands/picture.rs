//! `sightedge picture`: the matted picture, face on.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use clap::Args;
use sightedge_core::derived::{Derived, derive};
use sightedge_core::drawing::Drawing;
use sightedge_core::export::raster;
use sightedge_core::material::Tables;
use sightedge_core::plates::{self, Look};
use sightedge_core::spec::WorkId;
use sightedge_pictures::{CancelToken, Limits, Preview, Size, Target, WriteForm, preview};

use super::outcome::CliError;
use super::plans::{OnePlan, Opened};
use super::values::{Read, pixels};
use super::{Exit, Streams, plans};
use sightedge_service::files;

/// Writes a picture of the matted print, seen from the front
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge picture print.jpg --out matted.png --width 640
  sightedge picture print.jpg --frame --out framed.png
  sightedge picture print.jpg --mats all --out mats.png --width 2400")]
pub(super) struct Picture {
    /// The file to write, as in --out matted.png
    #[arg(long, value_name = "FILE.png")]
    out: PathBuf,
    /// Its width in pixels
    #[arg(long, value_name = "PX", value_parser = Read(pixels), default_value = "1600")]
    width: u32,
    /// All mats of the plan side by side at one scale, the pictures in line
    #[arg(long, value_name = "all", value_parser = Read(all), conflicts_with = "mat")]
    mats: Option<()>,
    /// In its frame, where the plan has one
    #[arg(long)]
    frame: bool,
    #[command(flatten)]
    plan: OnePlan,
}

fn all(name: &str, text: &str) -> Result<(), String> {
    match text {
        "all" => Ok(()),
        other => Err(format!(
            "--{name} {other} is not known: give --{name} all for every mat, or --mat NAME for one"
        )),
    }
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
        let drawing = self.drawing(&plan, &*streams.tables()?);
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

    /// The mat that is asked for, or all of them in a row.
    fn drawing(&self, plan: &Opened, tables: &Tables) -> Drawing {
        let document = &plan.document;
        let variants = match self.mats {
            Some(()) => document.variants.iter().collect(),
            None => vec![plan.variant()],
        };
        let figures: Vec<Derived> =
            variants.iter().map(|variant| derive(document, variant, tables)).collect();
        let pieces: Vec<_> = variants
            .iter()
            .zip(&figures)
            .map(|(variant, derived)| {
                let packed = derived.assembly.package.as_ref().filter(|_| self.frame);
                (&variant.mat, &derived.layout.exact, packed)
            })
            .collect();
        let look = Look::default();
        match pieces.as_slice() {
            [(mat, figures, packed)] => plates::finished(mat, figures, *packed, &look),
            row => plates::row(row, &look),
        }
    }
}

/// A picture at just so many pixels, or at its own where it has fewer.
fn shown(path: &Path, width: u32, height: u32) -> Result<raster::Pixels, String> {
    let target = Target::Exact(Size::new(width, height));
    let made = preview(path, target, &Limits::default(), &CancelToken::default())
        .map_err(|error| error.to_string())?;
    Ok(raster::Pixels { width: made.size.width, height: made.size.height, rgba: made.rgba })
}
