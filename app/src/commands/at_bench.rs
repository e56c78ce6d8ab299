//! Which print of a plan lies at the bench: the one that is asked for, else the plan's, else the
//! one that is proposed.

use std::path::{Path, PathBuf};

use clap::Args;
use sightedge_core::finding::Finding;
use sightedge_core::spec::{Document, Lettering};
use sightedge_core::steps::at_the_bench as which;
use sightedge_studio::Opened;

use super::Streams;
use super::outcome::CliError;
use sightedge_service::record::at_bench::{Prints, number, record_there, taken, typed};
use sightedge_service::record::{is_record, opened};

/// Which print of a plan lies at the bench, and the record that knows it.
#[derive(Args, Debug)]
pub(super) struct WhichPrint {
    /// Which print, as in 3/25; if not given, the one the plan has at the bench,
    /// or else the lowest number in the studio that is not yet matted
    #[arg(long, value_name = "NUMBER", verbatim_doc_comment)]
    pub(super) print: Option<String>,
    /// Which edition, where two editions of the plan have that number
    #[arg(long = "in", value_name = "ID")]
    edition: Option<String>,
    /// Folder of the record; if not given, the window's record
    #[arg(long, value_name = "FOLDER")]
    record: Option<PathBuf>,
}

impl WhichPrint {
    pub(super) fn find(&self, streams: &mut Streams<'_>) -> Result<AtBench<'_>, CliError> {
        AtBench::of(Some(self), self.record.as_deref(), streams)
    }
}

/// The record that is asked for the prints of plans.
pub(super) struct AtBench<'a> {
    record: Option<Opened>,
    usual: Lettering,
    /// The number that was asked for.
    print: Option<&'a str>,
    /// The edition that was asked for.
    edition: Option<&'a str>,
}

/// The record in the folder that is given, else that of the window; why it cannot be read.
fn record(
    studio: Option<&Path>,
    streams: &Streams<'_>,
) -> Result<Result<Option<Opened>, String>, CliError> {
    let Some(folder) = studio else { return Ok(record_there(streams.storage)) };
    if !is_record(folder) {
        return Err(super::edition::none_in(folder));
    }
    Ok(Ok(Some(opened(folder)?.0)))
}

/// The print at the bench of one plan.
#[derive(Debug, Default)]
pub(super) struct Taken {
    /// It and where it is, in words; `None` where the plan has no print.
    pub(super) print: Option<String>,
    /// What is to be known of it.
    pub(super) finding: Option<Finding>,
}

impl<'a> AtBench<'a> {
    /// Looks for the record. A record that cannot be read is reported, and is an error only with
    /// `--print`.
    pub(super) fn of(
        which: Option<&'a WhichPrint>,
        studio: Option<&Path>,
        streams: &mut Streams<'_>,
    ) -> Result<Self, CliError> {
        let print = which.and_then(|which| which.print.as_deref());
        let record = match record(studio, streams)? {
            Ok(record) => record,
            Err(why) if print.is_some() => return Err(CliError::unreadable(why)),
            Err(why) => {
                let words = "the print at the bench could not be looked up";
                writeln!(streams.err, "sightedge: {words}: {why}")?;
                None
            }
        };
        let usual = streams.storage.settings().words.lettering();
        let edition = which.and_then(|which| which.edition.as_deref());
        Ok(Self { record, usual, print, edition })
    }

    fn prints(&self, document: &Document) -> Result<Prints, CliError> {
        let Some(record) = &self.record else { return Ok(Prints::default()) };
        let prints = Prints::of(record.read(), document)?;
        match self.edition {
            Some(edition) => prints.in_edition(edition).map_err(CliError::usage),
            None => Ok(prints),
        }
    }

    /// What is to be known of the plan's own print.
    pub(super) fn finding(&self, document: &Document) -> Result<Option<Finding>, CliError> {
        Ok(self.prints(document)?.finding(document, &self.usual))
    }

    /// Lays the print on the bench of a plan. What is written on it follows; nothing is saved.
    pub(super) fn take(
        &self,
        document: &mut Document,
        streams: &mut Streams<'_>,
    ) -> Result<Taken, CliError> {
        let prints = self.prints(document)?;
        if let Some(asked) = self.print {
            let made = if self.record.is_none() {
                typed(document, asked, &self.usual).map_err(CliError::usage)?
            } else {
                let one = prints
                    .named(asked)
                    .map_err(|unnamed| CliError::usage(unnamed.to_string()))?;
                taken(document, one, &self.usual)
            };
            document.inscribed = Some(made);
        } else if let Some(made) = prints.followed(document) {
            document.inscribed = Some(made);
        } else if (which(document).is_none() || self.edition.is_some())
            && prints.at_bench(document).is_none()
            && let Some(next) = prints.proposed()
        {
            writeln!(
                streams.err,
                "sightedge: {} is taken as the print at the bench, the lowest number in the \
                 studio that is not yet matted; choose another with --print NUMBER",
                number(next)
            )?;
            document.inscribed = Some(taken(document, next, &self.usual));
        }
        let number = || document.inscribed.as_ref().map(|own| own.recorded.number());
        let print = match prints.one_at_bench(document) {
            Ok(Some(one)) => Some(prints.told(one)),
            Ok(None) => number(),
            Err(several) => {
                writeln!(streams.err, "sightedge: {several}")?;
                number()
            }
        };
        let print = print.filter(|words| !words.is_empty());
        Ok(Taken { print, finding: prints.finding(document, &self.usual) })
    }
}
