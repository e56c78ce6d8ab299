//! What goes with a print, as PDF: labels, a certificate, the lists of a show.

use std::path::{Path, PathBuf};

use clap::Args;
use sightedge_core::date::Date;
use sightedge_core::length::Length;
use sightedge_papers::{Grid, Paper, StudioPaper};

use super::super::lengths::Measure;
use super::super::outcome::CliError;
use super::super::plans::OneMat;
use super::super::values::Read;
use super::super::{Exit, Streams};
use super::Asked;
use super::given::OneEdition;
use sightedge_studio::{Print, State};

use sightedge_service::record::at_bench::Prints;
use sightedge_service::record::printouts::{
    Labels, Measure as Side, Wanted, Whole, pieces, write,
};
use sightedge_service::record::{sums_in_words, sums_of, today};

/// Label and certificate of a print; prices, labels and lists of a show
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  sightedge edition printouts W0001 1/25 --out printouts
  sightedge edition printouts --show \"Harbour Hall\" --out printouts --sheet-of letter")]
pub(super) struct Printouts {
    /// Its catalogue number, with the number of the print behind it; of a plan,
    /// the print that it has at the bench
    #[arg(
        value_name = "WORK|PLAN",
        required_unless_present = "show",
        conflicts_with = "show",
        verbatim_doc_comment
    )]
    of: Option<String>,
    /// As it is written
    #[arg(value_name = "NUMBER")]
    number: Option<String>,
    /// The folder to write to, as in --out printouts
    #[arg(long, value_name = "FOLDER")]
    out: PathBuf,
    /// Prices, wall labels, labels for the backing and the list of what is
    /// left at this show
    #[arg(long, value_name = "NAME", verbatim_doc_comment)]
    show: Option<String>,
    /// The day written on the printouts; without it, today
    #[arg(long, value_name = "DAY")]
    date: Option<String>,
    #[command(flatten)]
    one: OneEdition,
    #[command(flatten)]
    mat: OneMat,
    #[command(flatten)]
    labels: LabelOptions,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "The labels, in mm; on letter in inches")]
struct LabelOptions {
    /// The sheets they are printed on
    #[arg(long, value_name = "a4|letter", value_parser = Read(sheet), default_value = "a4")]
    sheet_of: Paper,
    /// Columns x rows of labels
    #[arg(long, value_name = "2x4", value_parser = Read(grid))]
    grid: Option<Columns>,
    /// The size of one label
    #[arg(long, value_name = "WxH")]
    label: Option<Measure>,
    /// Where the first one lies on the sheet; without it, all in the middle
    #[arg(long, value_name = "LEFTxTOP")]
    margin: Option<Measure>,
    /// How far they are apart; without it, touching
    #[arg(long, value_name = "WxH")]
    gap: Option<Measure>,
    /// Each label on a page of its own size
    #[arg(long)]
    single: bool,
}

/// Columns and rows.
#[derive(Clone, Copy, Debug)]
struct Columns(u32, u32);

fn grid(name: &str, text: &str) -> Result<Columns, String> {
    let read = |text: &str| text.trim().parse::<u32>().ok();
    let parts = text.split_once('x');
    let columns = parts.and_then(|(columns, rows)| Some(Columns(read(columns)?, read(rows)?)));
    columns.ok_or_else(|| {
        format!("--{name} {text} is not columns x rows of labels: try --{name} 2x4")
    })
}

fn sheet(name: &str, text: &str) -> Result<Paper, String> {
    Paper::read(text).map_err(|wrong| format!("--{name}: {wrong}"))
}

impl Printouts {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let found = self.found(asked, streams)?;
        let (sheet, show) = (self.labels.sheet_of, self.show.clone());
        if let Some((work, edition, print)) = found.iter().find(|one| is_gone(&one.2)) {
            return Err(CliError::usage(format!(
                "{} {} is {}, so it has no printouts: replace or issue it first, or correct the \
             record",
                work.catalogue,
                edition.what.notation(print.kind, print.number),
                print.now.state.name()
            )));
        }
        let Some((work, edition, print)) = found.first() else {
            let show = show.unwrap_or_default();
            return Err(CliError::unreadable(format!(
                "nothing is at {show}; give another show: {}",
                asked.shows()?
            )));
        };
        let of = show.clone().unwrap_or_else(|| {
            format!("{} {}", work.catalogue, edition.what.notation(print.kind, print.number))
        });
        let labels = self.labels.paper()?;
        let kinds = match show {
            Some(show) => vec![
                StudioPaper::Prices(show.clone()),
                StudioPaper::Wall,
                labels,
                StudioPaper::Consignment {
                    place: show,
                    sums: sums_in_words(&sums_of(found.iter().map(|one| &one.2))),
                },
            ],
            None => vec![labels, StudioPaper::Certificate],
        };
        let date = self.date.clone().unwrap_or_else(today);
        let date: Date = date.parse().map_err(|error| CliError::usage(format!("{error}")))?;
        let pieces = pieces(asked.record(), &found, sheet.unit())?;
        let out = self.out.clone();
        let house = streams.storage.settings().studio;
        let wanted = Wanted { of, kinds, sheet, date, out, house };
        let written = write(&wanted, &pieces).map_err(CliError::unwritten)?;
        for told in written.told {
            writeln!(streams.err, "sightedge: {told}")?;
        }
        for file in written.files {
            writeln!(streams.out, "written {}", file.display())?;
        }
        Ok(Exit::Done)
    }

    /// The prints that printouts are asked for.
    fn found(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Vec<Whole>, CliError> {
        let of = match (&self.show, &self.of) {
            (Some(show), _) => return Ok(asked.record().at_show(show)?),
            (None, of) => of.as_deref().unwrap_or_default(),
        };
        Ok(vec![match &self.number {
            Some(number) => asked.print(of, number, &self.one)?,
            None if Path::new(of).is_file() => self.of_plan(Path::new(of), asked, streams)?,
            None => {
                return Err(CliError::usage(
                    "give the number of the print, as in sightedge edition printouts W0012 3/25 --out \
                     printouts, or --show NAME",
                ));
            }
        }])
    }

    /// The print that a plan has at the bench, else the one that is proposed.
    fn of_plan(
        &self,
        path: &Path,
        asked: &Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Whole, CliError> {
        let opened = self.mat.open(path, streams)?;
        let mut prints = Prints::of(asked.opened.read(), &opened.document)?;
        if let Some(edition) = &self.one.edition {
            prints = prints.in_edition(edition).map_err(CliError::usage)?;
        }
        let own = prints
            .one_at_bench(&opened.document)
            .map_err(|several| CliError::usage(several.to_string()))?;
        let found = own.or_else(|| prints.proposed());
        found.cloned().ok_or_else(|| {
        CliError::unreadable(format!(
            "{} has no print at the bench, and no print in the studio waits for its mat: name \
             the work and the number, as in W0012 3/25",
            opened.path.display()
        ))
    })
    }
}

fn is_gone(print: &Print) -> bool {
    !print.live || print.now.state == State::Destroyed
}

impl LabelOptions {
    /// Labels as they are asked for: without a margin, in the middle of the sheet.
    fn paper(&self) -> Result<StudioPaper, CliError> {
        let sheet = self.sheet_of;
        let unit = sheet.unit();
        let pair = |typed: Option<&Measure>| typed.map(|typed| typed.pair(unit)).transpose();
        let mut labels = Labels::usual(sheet);
        labels.single = self.single;
        if let Some(Columns(columns, rows)) = self.grid {
            (labels.columns, labels.rows) = (columns, rows);
        }
        let mut set = |which: [Side; 2], (one, other): (Length, Length)| {
            labels.set(which[0], one);
            labels.set(which[1], other);
        };
        if let Some(size) = pair(self.label.as_ref())? {
            set([Side::Width, Side::Height], size);
        }
        if let Some(gap) = pair(self.gap.as_ref())? {
            set([Side::Across, Side::Down], gap);
        }
        if let Some(margin) = pair(self.margin.as_ref())? {
            set([Side::Left, Side::Top], margin);
        } else if !labels.single {
            let grid = Grid {
                columns: labels.columns,
                rows: labels.rows,
                width: labels.get(Side::Width),
                height: labels.get(Side::Height),
                left: Length::ZERO,
                top: Length::ZERO,
                across: labels.get(Side::Across),
                down: labels.get(Side::Down),
            };
            let grid = grid.centred_on(sheet);
            labels.set(Side::Left, grid.left.max(Length::ZERO));
            labels.set(Side::Top, grid.top.max(Length::ZERO));
        }
        labels.paper(sheet, unit).map_err(CliError::usage)
    }
}
