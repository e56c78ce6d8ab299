//! New works and editions.

use std::path::PathBuf;

use clap::Args;
use serde_json::json;
use sightedge_studio::{NewEdition, NewFormat, NewWork, PROOF_SHARE, WorkRef, WorkRow};

use super::super::outcome::CliError;
use super::super::plans::OneMat;
use super::super::refusal::needs;
use super::super::typed::AsTyped;
use super::super::values::Read;
use super::super::{Exit, Streams};
use super::Asked;
use super::correct::size_line;
use super::given::{Counts, Noted, Prices, SizeText, WorkText, Year, plan, prices, year};
use sightedge_service::record::{self, Registering};

/// A work and its edition, or another size of a work
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  sightedge edition new print.jpg --title \"Slack water\" --size 25 --price \"1:800 EUR,11:1200\"
  sightedge edition new --of W0001 --format large --image 16x20in --sheet 20x24in
  sightedge edition new --title \"Long ebb\" --size 5")]
pub(super) struct New {
    // The first field: it looks at options that the fields below it take away.
    #[command(flatten)]
    typed: AsTyped,
    /// Title, sizes and paper are taken from it
    #[arg(value_name = "PLAN")]
    plan: Option<PathBuf>,
    #[command(flatten)]
    noted: Noted,
    /// For other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    mat: OneMat,
    #[command(flatten, next_help_heading = "The work")]
    work: WorkText,
    /// The year in which it is printed
    #[arg(long, value_name = "Y", value_parser = Read(year))]
    printed: Option<Year>,
    /// Its catalogue number; without it, the next one
    #[arg(long, value_name = "C")]
    catalogue: Option<String>,
    /// Or: another size of this work; with --size it is counted apart
    #[arg(long, value_name = "WORK", conflicts_with_all = [
        "title", "maker", "taken", "printed", "medium", "process", "paper", "signed",
        "authorised", "negative", "other_editions", "catalogue",
    ])]
    of: Option<String>,
    #[command(flatten, next_help_heading = "The size it is printed in")]
    size: SizeText,
    /// What this size is called
    #[arg(long, value_name = "NAME")]
    format: Option<String>,
    #[command(flatten, next_help_heading = "The edition")]
    counts: Counts,
    /// What prints cost from a number on, as in 1:800 EUR,11:1200 EUR
    #[arg(long, value_name = "N:P,N:P", value_parser = Read(prices))]
    price: Option<Prices>,
    /// Numbers issued before the record began, location unknown
    #[arg(long, value_name = "A..B", value_parser = Read(issued))]
    issued: Option<Issued>,
    /// Those of them that are sold
    #[arg(long, value_name = "N,N..N", value_parser = Read(sold))]
    sold: Option<Sold>,
}

/// The first and the last number issued before the record began.
#[derive(Clone, Copy, Debug)]
struct Issued(u32, u32);

fn issued(name: &str, text: &str) -> Result<Issued, String> {
    let (from, to) = text.split_once("..").unwrap_or(("1", text));
    match (from.trim().parse(), to.trim().parse()) {
        (Ok(from), Ok(to)) => Ok(Issued(from, to)),
        _ => Err(format!(
            "--{name} {text} names no numbers: try --{name} 1..47, those issued before"
        )),
    }
}

/// The numbers that are sold.
#[derive(Clone, Debug)]
struct Sold(Vec<u32>);

fn sold(name: &str, text: &str) -> Result<Sold, String> {
    record::numbers(text).map(Sold).map_err(|wrong| format!("--{name}: {wrong}"))
}

impl New {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        if self.sold.is_some() && self.issued.is_none() {
            return Err(needs("sold", "issued"));
        }
        let (mut work, mut format) = match &self.plan {
            Some(path) => {
                let (document, path) = plan(path, &self.mat, streams)?;
                record::of_plan(&document, Some(&path))
            }
            None => Default::default(),
        };
        self.work.lay_over(&mut work);
        if let Some(Year(year)) = self.printed {
            work.printed = year;
        }
        if let Some(name) = &self.format {
            format.name.clone_from(name);
        }
        self.size.lay_over(&mut format, self.typed.unit())?;
        let had = self.of.as_deref().map(|catalogue| asked.work(catalogue)).transpose()?;
        let size = match (self.counts.size, &had) {
            (Some(size), _) => size,
            (None, Some(row)) => return self.another_size(asked, row, format, streams),
            (None, None) => {
                return Err(CliError::usage(
                    "how many prints will there be? Give --size, as in --size 25",
                ));
            }
        };
        let Counts { proofs, pp, hc, tp, fraction, .. } = self.counts;
        let edition = NewEdition {
            printer: pp.unwrap_or(0),
            hors_commerce: hc.unwrap_or(0),
            trial: tp.unwrap_or(0),
            roman: !fraction,
            ..NewEdition::of(size, proofs.unwrap_or(PROOF_SHARE))
        };
        let of_work = if let Some(row) = had {
            WorkRef::Existing(row.work.id)
        } else {
            alike(asked, &work, streams)?;
            WorkRef::New(Box::new(work), self.catalogue.clone())
        };
        let sold = self.sold.as_ref().map_or(Vec::new(), |sold| sold.0.clone());
        let beginning = Registering {
            work: of_work,
            format,
            // Only what is counted by its size is bound to it.
            alone: self.format.is_some(),
            edition: Some(edition),
            prices: self.price.clone().unwrap_or_default().0,
            out: self.issued.map(|Issued(from, to)| (from, to, sold)),
        };
        let (id, edition) = record::register(asked.record(), beginning, &self.noted.note())?;
        let catalogue = asked.record().work(id)?.catalogue;
        if self.json {
            let told = json!({
                "catalogue": catalogue, "work": id.0,
                "edition": edition.map(|edition| edition.0),
            });
            writeln!(streams.out, "{told:#}")?;
        } else if let Some(edition) = edition {
            let what = asked.record().edition(edition)?.what;
            writeln!(
                streams.out,
                "{catalogue}: an edition of {} and {} artist's {}",
                what.size,
                what.artist,
                if what.artist == 1 { "proof" } else { "proofs" },
            )?;
        }
        Ok(Exit::Done)
    }

    /// Another size of the one edition that counts all sizes of a work.
    fn another_size(
        &self,
        asked: &mut Asked,
        row: &WorkRow,
        format: NewFormat,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let catalogue = &row.work.catalogue;
        if !row.editions.iter().any(|one| one.edition.what.format.is_none()) {
            return Err(CliError::usage(format!(
                "no edition of {catalogue} counts all its sizes: how many prints will there be \
                 in this size? Give --size, as in --size 25"
            )));
        }
        let Counts { size: _, proofs, pp, hc, tp, fraction } = self.counts;
        for (given, option) in [
            (proofs.is_some(), "proofs"),
            (pp.is_some(), "pp"),
            (hc.is_some(), "hc"),
            (tp.is_some(), "tp"),
            (fraction, "fraction"),
            (self.issued.is_some(), "issued"),
            (self.price.is_some(), "price"),
        ] {
            if given {
                return Err(needs(option, "size"));
            }
        }
        let words = size_line(&format, self.typed.unit());
        let beginning = Registering {
            work: WorkRef::Existing(row.work.id),
            format,
            alone: false,
            edition: None,
            prices: Vec::new(),
            out: None,
        };
        record::register(asked.record(), beginning, &self.noted.note())?;
        if self.json {
            let told =
                json!({ "catalogue": catalogue, "work": row.work.id.0, "edition": null });
            writeln!(streams.out, "{told:#}")?;
        } else {
            writeln!(streams.out, "{catalogue}: also {words}, in the edition there is")?;
        }
        Ok(Exit::Done)
    }
}

/// Says where there is a work of the same title and maker: it may be another size of that.
fn alike(asked: &mut Asked, work: &NewWork, streams: &mut Streams<'_>) -> Result<(), CliError> {
    let same = |one: &str, other: &str| one.trim().eq_ignore_ascii_case(other.trim());
    let mut rows = asked.record().index()?.into_iter().map(|row| row.work);
    let found = rows.find(|there| {
        same(&there.what.title, &work.title) && same(&there.what.maker, &work.maker)
    });
    if let Some(there) = found {
        writeln!(
            streams.err,
            "sightedge: {0} has this title and maker, too; another size of one work is made with \
             --of {0}",
            there.catalogue
        )?;
    }
    Ok(())
}
