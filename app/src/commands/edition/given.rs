//! What several words read alike from what was typed.

use std::path::{Path, PathBuf};

use sightedge_core::spec::Document;
use sightedge_studio::{Money, NewFormat, Record, Work};

use super::super::Streams;
use super::super::measures::Measures;
use super::super::options::Options;
use super::super::outcome::CliError;
use super::super::plans;

/// The currency of a price that names none.
const CURRENCY: &str = "currency";

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

/// A price; the currency of the last one is that of the next without.
pub(super) fn price(record: &mut dyn Record, text: &str) -> Result<Money, CliError> {
    let usual = record.setting(CURRENCY)?.unwrap_or_else(|| "EUR".to_owned());
    let money = Money::read(text, &usual).map_err(CliError::usage)?;
    if money.currency != usual {
        record.set(CURRENCY, &money.currency)?;
    }
    Ok(money)
}

/// What prints of an edition of `size` cost, each from a number on.
pub(super) fn tiers(
    options: &Options,
    size: u32,
    record: &mut dyn Record,
) -> Result<Vec<(u32, Money)>, CliError> {
    let mut tiers: Vec<(u32, Money)> = Vec::new();
    for tier in options.text("price")?.iter().flat_map(|text| text.split(',')) {
        let (from, text) = tier.split_once(':').unwrap_or(("1", tier));
        let from = from.trim().parse::<u32>().ok().filter(|from| (1..=size).contains(from));
        let from = from.ok_or_else(|| {
            CliError::usage(format!(
                "--price {tier} begins at no number of the edition, which has 1 to {size}: try \
                 1:800 EUR,11:1200 EUR"
            ))
        })?;
        if tiers.iter().any(|(other, _)| *other == from) {
            return Err(CliError::usage(format!(
                "--price says twice what prints cost from number {from} on: say it once, as in \
                 1:800 EUR,11:1200 EUR; cents stand behind a point, as in 800.50"
            )));
        }
        tiers.push((from, price(record, text)?));
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

/// A plan of another picture is not for a print of this work.
pub(super) fn of_work(work: &Work, document: &Document) -> Result<(), CliError> {
    let picture = document.works.first().map(|work| work.picture.sha256.as_str());
    let (own, picture) = (work.what.sha256.as_str(), picture.unwrap_or_default());
    if own.is_empty() || picture.is_empty() || own == picture {
        return Ok(());
    }
    Err(CliError::usage(format!(
        "the plan is of another picture, and one of {}, {}, is wanted: choose its plan, or \
         correct the work with --picture",
        work.catalogue, work.what.title
    )))
}
