//! What goes with a print, as PDF: labels, a certificate, the lists of a show.

use std::path::{Path, PathBuf};

use sightedge_core::date::Date;
use sightedge_core::length::{Length, parse_pair};
use sightedge_papers::{Grid, Paper, StudioPaper};

use super::super::outcome::CliError;
use super::super::{Exit, Streams, plans};
use super::Asked;
use sightedge_studio::{Print, State};

use sightedge_service::record::at_bench::Prints;
use sightedge_service::record::printouts::{Labels, Measure, Wanted, Whole, pieces, write};
use sightedge_service::record::{sums_in_words, sums_of};

pub(super) fn papers(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    asked.at_most(2)?;
    let options = asked.options;
    let out = options.path("out").ok_or_else(|| {
        CliError::usage("no folder to write to was given: add one, as in --out papers")
    })?;
    let sheet = match options.text("sheet-of")? {
        None | Some("a4") => Paper::A4,
        Some("letter") => Paper::Letter,
        Some(other) => {
            return Err(CliError::usage(format!(
                "--sheet-of {other} is not known: give a4 or letter"
            )));
        }
    };
    let show = options.text("show")?.map(ToOwned::to_owned);
    let found = match &show {
        Some(show) => asked.record().at_show(show)?,
        None => match plan(asked) {
            Some(path) => vec![of_plan(asked, &path, streams)?],
            None => vec![asked.print("papers W0012 3/25 --out papers, or --show NAME")?],
        },
    };
    if let Some((work, edition, print)) = found.iter().find(|one| is_gone(&one.2)) {
        return Err(CliError::usage(format!(
            "{} {} is {}, and no paper goes with it: replace or issue it first, or correct the \
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
    let labels = labels(asked, sheet)?;
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
    let date: Date =
        asked.note.at.parse().map_err(|error| CliError::usage(format!("{error}")))?;
    let pieces = pieces(asked.record(), &found)?;
    let wanted = Wanted { of, kinds, sheet, date, out };
    let written = write(&wanted, &pieces).map_err(CliError::unwritten)?;
    for told in written.told {
        writeln!(streams.err, "sightedge: {told}")?;
    }
    for file in written.files {
        writeln!(streams.out, "written {}", file.display())?;
    }
    Ok(Exit::Done)
}

/// The plan that is named in the place of a work and a number.
fn plan(asked: &Asked<'_>) -> Option<PathBuf> {
    match asked.rest.as_slice() {
        [word] => Some(PathBuf::from(word)).filter(|path| path.is_file()),
        _ => None,
    }
}

/// The print that a plan has at the bench, else the one that is proposed.
fn of_plan(
    asked: &Asked<'_>,
    path: &Path,
    streams: &mut Streams<'_>,
) -> Result<Whole, CliError> {
    let opened = plans::open(path, asked.options, streams)?;
    let mut prints = Prints::of(asked.opened.read(), &opened.document)?;
    if let Some(edition) = asked.options.text("in")? {
        prints = prints.in_edition(edition).map_err(CliError::usage)?;
    }
    let own = prints
        .one_at_bench(&opened.document)
        .map_err(|several| CliError::usage(several.to_string()))?;
    let found = own.or_else(|| prints.proposed());
    found.cloned().ok_or_else(|| {
        CliError::unreadable(format!(
            "{} has no print at the bench and none in the studio that is to be matted: name the \
             work and the number, as in W0012 3/25",
            opened.path.display()
        ))
    })
}

fn is_gone(print: &Print) -> bool {
    !print.live || print.now.state == State::Destroyed
}

/// Labels as they are asked for: without a margin, in the middle of the sheet.
fn labels(asked: &Asked<'_>, sheet: Paper) -> Result<StudioPaper, CliError> {
    let options = asked.options;
    let unit = sheet.unit();
    let pair = |name: &str| -> Result<Option<(Length, Length)>, CliError> {
        let text = options.text(name)?;
        text.map(|text| {
            parse_pair(text, unit)
                .map_err(|error| CliError::usage(format!("--{name}: {error}")))
        })
        .transpose()
    };
    let mut labels = Labels::usual(sheet);
    labels.single = options.has("single");
    if let Some(text) = options.text("grid")? {
        let parts = text.split_once('x');
        let read = |text: &str| text.trim().parse::<u32>().ok();
        let read = parts.and_then(|(columns, rows)| Some((read(columns)?, read(rows)?)));
        (labels.columns, labels.rows) = read.ok_or_else(|| {
            CliError::usage(format!(
                "--grid {text} is no grid of labels: try --grid 2x4, columns x rows"
            ))
        })?;
    }
    let mut set = |which: [Measure; 2], (one, other): (Length, Length)| {
        labels.set(which[0], one);
        labels.set(which[1], other);
    };
    if let Some(size) = pair("label")? {
        set([Measure::Width, Measure::Height], size);
    }
    let gap = pair("gap")?;
    if let Some(gap) = gap {
        set([Measure::Across, Measure::Down], gap);
    }
    if let Some(margin) = pair("margin")? {
        set([Measure::Left, Measure::Top], margin);
    } else if !labels.single {
        let grid = Grid {
            columns: labels.columns,
            rows: labels.rows,
            width: labels.get(Measure::Width),
            height: labels.get(Measure::Height),
            left: Length::ZERO,
            top: Length::ZERO,
            across: labels.get(Measure::Across),
            down: labels.get(Measure::Down),
        };
        let grid = grid.centred_on(sheet);
        labels.set(Measure::Left, grid.left.max(Length::ZERO));
        labels.set(Measure::Top, grid.top.max(Length::ZERO));
    }
    labels.paper(sheet, unit).map_err(CliError::usage)
}
