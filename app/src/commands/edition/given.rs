//! What several words read alike from what was typed.

use std::path::{Path, PathBuf};

use sightedge_core::spec::Document;
use sightedge_service::record::PlanOfPrint;
use sightedge_studio::{NewFormat, Price};

use super::super::Streams;
use super::super::measures::Measures;
use super::super::options::Options;
use super::super::outcome::CliError;
use super::super::plans;

pub(super) fn number<T: std::str::FromStr>(
    options: &Options,
    name: &str,
) -> Result<Option<T>, CliError> {
    let Some(text) = options.text(name)? else { return Ok(None) };
    text.trim().parse().map(Some).map_err(|_| {
        // The number that is meant, where one is written as on the print.
        let like = text.split('/').next().filter(|part| part.parse::<u32>().is_ok());
        let like = like.unwrap_or("25");
        CliError::usage(format!(
            "--{name} {text} is no whole number from 0 up: try --{name} {like}"
        ))
    })
}

/// Sets the year that was given; an empty text says none.
pub(super) fn year(
    options: &Options,
    name: &str,
    year: &mut Option<i64>,
) -> Result<(), CliError> {
    let Some(text) = options.text(name)? else { return Ok(()) };
    let read = text.trim().parse().ok().filter(|_| text.trim().len() == 4);
    if read.is_none() && !text.trim().is_empty() {
        let day = if name == "printed" {
            ": of a work the year counts; the day on which one print was printed is noted with \
             its number"
        } else {
            ""
        };
        return Err(CliError::usage(format!(
            "--{name} {text} is no year: four figures are wanted, as in --{name} 2021{day}"
        )));
    }
    *year = read;
    Ok(())
}

/// A plan, and where it lies from whatever folder it is asked for later.
pub(super) fn plan(
    path: &Path,
    options: &Options,
    streams: &mut Streams<'_>,
) -> Result<(Document, PathBuf), CliError> {
    let plan = plans::open(path, options, streams)?;
    Ok((plan.document, absolute(&plan.path)?))
}

/// Where a file is from any folder; links in it stay as they are.
pub(super) fn absolute(path: &Path) -> Result<PathBuf, CliError> {
    std::path::absolute(path).map_err(|error| {
        CliError::unreadable(format!(
            "{} cannot be found from here: {error}; give its whole path",
            path.display()
        ))
    })
}

/// The plan that a print goes with.
pub(super) fn plan_of_print(
    path: &Path,
    options: &Options,
    streams: &mut Streams<'_>,
) -> Result<PlanOfPrint, CliError> {
    let (document, path) = plan(path, options, streams)?;
    Ok(PlanOfPrint::of(&document, &path))
}

/// The price that was given.
pub(super) fn price(options: &Options) -> Result<Option<Price>, CliError> {
    options.text("price")?.map(Price::read).transpose().map_err(CliError::usage)
}

/// What prints of an edition cost, each from a number on.
pub(super) fn tiers(options: &Options) -> Result<Vec<(u32, Price)>, CliError> {
    let mut tiers = Vec::new();
    for tier in options.text("price")?.iter().flat_map(|text| text.split(',')) {
        let (from, text) = tier.split_once(':').unwrap_or(("1", tier));
        let from = from.trim().parse().map_err(|_| {
            CliError::usage(format!(
                "--price {tier} begins at no number of the edition: try 1:800 EUR,11:1200 EUR"
            ))
        })?;
        tiers.push((from, Price::read(text).map_err(CliError::usage)?));
    }
    Ok(tiers)
}

/// Lays the sizes that were typed over `format`.
pub(super) fn sizes(options: &Options, format: &mut NewFormat) -> Result<(), CliError> {
    let measures = Measures::of(options, &["image", "sheet"])?;
    if let Some(image) = measures.size("image")? {
        (format.image_w, format.image_h) = (image.width.units(), image.height.units());
    }
    if let Some(sheet) = measures.size("sheet")? {
        (format.sheet_w, format.sheet_h) = (sheet.width.units(), sheet.height.units());
    }
    Ok(())
}
