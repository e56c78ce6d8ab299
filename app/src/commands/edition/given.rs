//! What several commands of `edition` take alike.

use std::path::{Path, PathBuf};

use clap::Args;
use sightedge_core::length::Unit;
use sightedge_core::spec::Document;
use sightedge_service::record::{self, PlanOfPrint};
use sightedge_studio::{NewFormat, NewWork, Note, Price};

use super::super::Streams;
use super::super::lengths::{Lengths, Measure};
use super::super::outcome::CliError;
use super::super::plans::OneMat;
use super::super::values::Read;

/// When something is done, and why.
#[derive(Args, Debug)]
pub(super) struct Noted {
    /// The day, for the history; without it, today
    #[arg(long, value_name = "DAY")]
    date: Option<String>,
    /// Why, for the history
    #[arg(long, value_name = "TEXT")]
    why: Option<String>,
}

impl Noted {
    pub(super) fn note(&self) -> Note {
        let date = self.date.clone().unwrap_or_else(record::today);
        Note::because(&date, self.why.as_deref().unwrap_or_default())
    }
}

/// One edition of several of a work.
#[derive(Args, Debug)]
pub(super) struct OneEdition {
    /// One edition of several of the work
    #[arg(long = "in", value_name = "ID")]
    pub(super) edition: Option<String>,
}

/// What a work is.
#[derive(Args, Debug)]
pub(super) struct WorkText {
    /// What it is called
    #[arg(long, value_name = "T")]
    pub(super) title: Option<String>,
    /// Who made it
    #[arg(long, value_name = "M")]
    maker: Option<String>,
    /// The year in which it was taken
    #[arg(long, value_name = "Y", value_parser = Read(year))]
    taken: Option<Year>,
    /// What it is made with, as in "pigment print"
    #[arg(long, value_name = "M")]
    medium: Option<String>,
    /// How it is made, as in "inkjet with pigments" or photogravure
    #[arg(long, value_name = "TEXT", help_heading = "For the certificate")]
    process: Option<String>,
    /// What it is printed on
    #[arg(long, value_name = "P")]
    paper: Option<String>,
    /// How and where prints are signed
    #[arg(long, value_name = "TEXT", help_heading = "For the certificate")]
    signed: Option<String>,
    /// Who authorised the edition: the artist, or the estate
    #[arg(long, value_name = "TEXT", help_heading = "For the certificate")]
    authorised: Option<String>,
    /// What becomes of the negative, plate or file
    #[arg(long, value_name = "TEXT", help_heading = "For the certificate")]
    negative: Option<String>,
    /// Editions of the picture that are not in this record
    #[arg(long, value_name = "TEXT", help_heading = "For the certificate")]
    other_editions: Option<String>,
}

impl WorkText {
    /// Lays what was typed over `work`.
    pub(super) fn lay_over(&self, work: &mut NewWork) {
        let Self {
            title,
            maker,
            taken,
            medium,
            process,
            paper,
            signed,
            authorised,
            negative,
            other_editions,
        } = self;
        for (given, field) in [
            (title, &mut work.title),
            (maker, &mut work.maker),
            (medium, &mut work.medium),
            (process, &mut work.process),
            (paper, &mut work.paper),
            (signed, &mut work.signed),
            (authorised, &mut work.authorised),
            (negative, &mut work.master),
            (other_editions, &mut work.others),
        ] {
            if let Some(given) = given {
                field.clone_from(given);
            }
        }
        if let Some(Year(year)) = taken {
            work.taken = *year;
        }
    }
}

/// The size in which a work is printed.
#[derive(Args, Debug)]
pub(super) struct SizeText {
    /// The printed area
    #[arg(long, value_name = "WxH")]
    pub(super) image: Option<Measure>,
    /// The paper
    #[arg(long, value_name = "WxH")]
    pub(super) sheet: Option<Measure>,
}

impl SizeText {
    /// Lays what was typed over `format`; bare numbers are in `unit`.
    pub(super) fn lay_over(&self, format: &mut NewFormat, unit: Unit) -> Result<(), CliError> {
        let lengths = Lengths { unit };
        if let Some(image) = lengths.size(self.image.as_ref())? {
            (format.image_w, format.image_h) = (image.width.units(), image.height.units());
        }
        if let Some(sheet) = lengths.size(self.sheet.as_ref())? {
            (format.sheet_w, format.sheet_h) = (sheet.width.units(), sheet.height.units());
        }
        Ok(())
    }
}

/// How many prints and proofs there are in an edition.
#[derive(Args, Debug)]
pub(super) struct Counts {
    /// How many prints; fixed by the first one that is issued
    #[arg(long, value_name = "N", value_parser = Read(number))]
    pub(super) size: Option<u32>,
    /// Artist's proofs, at most; without it, 10
    #[arg(long, value_name = "PERCENT", value_parser = Read(number))]
    pub(super) proofs: Option<u32>,
    /// Printer's proofs
    #[arg(long, value_name = "N", value_parser = Read(number))]
    pub(super) pp: Option<u32>,
    /// Proofs hors commerce
    #[arg(long, value_name = "N", value_parser = Read(number))]
    pub(super) hc: Option<u32>,
    /// Trial proofs
    #[arg(long, value_name = "N", value_parser = Read(number))]
    pub(super) tp: Option<u32>,
    /// Proofs are numbered as in 2/5 instead of II/V
    #[arg(long)]
    pub(super) fraction: bool,
}

pub(super) fn number(name: &str, text: &str) -> Result<u32, String> {
    text.trim().parse().map_err(|_| {
        // The number that is meant, where one is written as on the print.
        let like = text.split('/').next().filter(|part| part.parse::<u32>().is_ok());
        let like = like.unwrap_or("25");
        format!("--{name} {text} is no whole number: try --{name} {like}")
    })
}

/// A year, or none where the text is empty.
#[derive(Clone, Copy, Debug)]
pub(super) struct Year(pub(super) Option<i64>);

pub(super) fn year(name: &str, text: &str) -> Result<Year, String> {
    let read = text.trim().parse().ok().filter(|_| text.trim().len() == 4);
    if read.is_none() && !text.trim().is_empty() {
        let day = if name == "printed" {
            ". A work has a year; the day on which one print was printed goes with its number"
        } else {
            ""
        };
        return Err(format!(
            "--{name} {text} is no year: give four figures, as in --{name} 2021{day}"
        ));
    }
    Ok(Year(read))
}

/// A price; its currency may be left open.
pub(super) fn price(_: &str, text: &str) -> Result<Price, String> {
    Price::read(text)
}

/// What prints of an edition cost, each from a number on.
#[derive(Clone, Debug, Default)]
pub(super) struct Prices(pub(super) Vec<(u32, Price)>);

pub(super) fn prices(name: &str, text: &str) -> Result<Prices, String> {
    let one = |tier: &str| {
        let (from, price) = tier.split_once(':').unwrap_or(("1", tier));
        let from = from.trim().parse().map_err(|_| {
            format!(
                "--{name} {tier} begins at no number of the edition: try 1:800 EUR,11:1200 EUR"
            )
        })?;
        Ok((from, Price::read(price)?))
    };
    text.split(',').map(one).collect::<Result<_, String>>().map(Prices)
}

/// A plan, and where it is from whatever folder it is asked for later.
pub(super) fn plan(
    path: &Path,
    mat: &OneMat,
    streams: &mut Streams<'_>,
) -> Result<(Document, PathBuf), CliError> {
    let plan = mat.open(path, streams)?;
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
    mat: &OneMat,
    streams: &mut Streams<'_>,
) -> Result<PlanOfPrint, CliError> {
    let (document, path) = plan(path, mat, streams)?;
    Ok(PlanOfPrint::of(&document, &path))
}
