//! What goes with a print, as PDF: labels, a certificate, the lists of a show.

use std::path::PathBuf;

use sightedge_core::catalogue::{Order, dimensions};
use sightedge_core::length::{Length, Unit, parse_pair};
use sightedge_papers::{Date, Grid, Paper, Piece, StudioPaper, Templates, lay_out_studio};
use sightedge_studio::{Edition, Format, Print, Work};

use super::super::outcome::Trouble;
use super::super::{Exit, Streams};
use super::{Asked, notation};
use crate::studio;

/// Common practice; storage of prints by ISO 18920.
const CARE: &str = "Keep out of the sun, at 30 to 50 % relative humidity, away from outer walls. \
                    Open the frame only where it is clean and dry.";

pub(super) fn papers(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, Trouble> {
    asked.at_most(2)?;
    let options = asked.options;
    let out = options.path("out").ok_or_else(|| {
        Trouble::usage("--out is wanted: the folder to write to, as in --out papers")
    })?;
    let paper = match options.text("sheet-of")? {
        None | Some("a4") => Paper::A4,
        Some("letter") => Paper::Letter,
        Some(other) => {
            return Err(Trouble::usage(format!(
                "--sheet-of {other} is none that is known here: a4 or letter is wanted"
            )));
        }
    };
    let show = options.text("show")?.map(ToOwned::to_owned);
    let found = match &show {
        Some(show) => {
            let mut found = Vec::new();
            for (work, edition, print) in asked.record().at_show(show)? {
                found.push((work, edition, print));
            }
            found
        }
        None => vec![one(asked)?],
    };
    if found.is_empty() {
        return Err(Trouble::usage("nothing is there: sightedge edition list names the shows"));
    }
    let mut pieces = Vec::new();
    for (work, edition, print) in &found {
        let formats = asked.record().formats(work.id)?;
        pieces.push(piece(work, edition, print, &formats));
    }
    let kinds = match show {
        Some(show) => vec![
            ("prices", StudioPaper::Prices(show.clone())),
            ("wall-labels", StudioPaper::Wall),
            ("labels", StudioPaper::Labels(grid(asked, paper)?)),
            ("consignment", StudioPaper::Consignment(show)),
        ],
        None => vec![
            ("label", StudioPaper::Labels(grid(asked, paper)?)),
            ("certificate", StudioPaper::Certificate),
        ],
    };
    let date: Date =
        asked.note.at.parse().map_err(|error| Trouble::usage(format!("{error}")))?;
    std::fs::create_dir_all(&out).map_err(|error| {
        Trouble::unwritten(format!("{} cannot be made: {error}", out.display()))
    })?;
    let unset = |error: sightedge_papers::PapersError| Trouble::unwritten(error.to_string());
    for (name, kind) in kinds {
        let laid = lay_out_studio(&kind, &pieces, paper, date, &Templates::default())
            .map_err(unset)?;
        for told in laid.told() {
            writeln!(streams.err, "sightedge: {told}")?;
        }
        let of: String = pieces[0]
            .catalogue
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
            .take(40)
            .collect();
        let file: PathBuf = out.join(format!("{of}-{name}.pdf"));
        std::fs::write(&file, laid.pdf().map_err(unset)?).map_err(|error| {
            Trouble::unwritten(format!(
                "{} cannot be written: {error}; choose another place",
                file.display()
            ))
        })?;
        writeln!(streams.out, "written {}", file.display())?;
    }
    Ok(Exit::Done)
}

fn one(asked: &mut Asked<'_>) -> Result<(Work, Edition, Print), Trouble> {
    let (work, edition) = asked.edition()?;
    let Some(which) = asked.rest.get(1).cloned() else {
        return Err(Trouble::usage(
            "a number is wanted, as in sightedge edition papers W0012 3/25 --out papers, or \
             --show NAME",
        ));
    };
    let named = notation(&which)?;
    let prints = asked.record().prints(edition.id)?;
    let print = prints
        .into_iter()
        .find(|print| print.live && print.kind == named.kind && print.number == named.number);
    let print = print.ok_or_else(|| {
        Trouble::usage(format!("{} {which} is not issued: issue it first", work.catalogue))
    })?;
    Ok((work, edition, print))
}

fn grid(asked: &Asked<'_>, paper: Paper) -> Result<Grid, Trouble> {
    let options = asked.options;
    let (columns, rows) = match options.text("grid")? {
        None => (2, 4),
        Some(text) => {
            let parts = text.split_once('x');
            let read = |text: &str| text.trim().parse::<u32>().ok().filter(|n| *n <= 20);
            parts.and_then(|(columns, rows)| Some((read(columns)?, read(rows)?))).ok_or_else(
                || {
                    Trouble::usage(format!(
                        "--grid {text} is no grid of labels: try --grid 2x4, columns x rows"
                    ))
                },
            )?
        }
    };
    let (width, height) = match options.text("label")? {
        None => (Length::mm(90), Length::mm(60)),
        Some(text) => parse_pair(text, Unit::Millimetre)
            .map_err(|error| Trouble::usage(format!("--label: {error}")))?,
    };
    Grid::centred(columns, rows, [width, height], paper).ok_or_else(|| {
        Trouble::usage(format!(
            "{columns} × {rows} labels of {} × {} do not fit the sheet, or are smaller than \
             40 × 25 mm: take fewer, or others",
            width.text(Unit::Millimetre),
            height.text(Unit::Millimetre)
        ))
    })
}

fn piece(work: &Work, edition: &Edition, print: &Print, formats: &[Format]) -> Piece {
    let what = &work.what;
    let years = [what.taken, what.printed.filter(|year| Some(*year) != what.taken)];
    let years: Vec<String> = years.iter().flatten().map(ToString::to_string).collect();
    let format = print.now.format.or(edition.what.format);
    let format = formats.iter().find(|one| Some(one.id) == format).or(formats.first());
    let size = format.map(|format| format.what.image()).filter(|size| size.is_positive());
    let dimensions =
        size.map(|size| dimensions(&[size.height, size.width], Order::CentimetresFirst));
    let medium: Vec<&str> = [what.medium.as_str(), what.paper.as_str()]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    Piece {
        catalogue: work.catalogue.clone(),
        title: what.title.clone(),
        maker: what.maker.clone(),
        year: years.join(", printed "),
        medium: medium.join(", "),
        dimensions: dimensions.unwrap_or_default(),
        edition: edition.what.notation(print.kind, print.number),
        price: print.now.price.as_ref().map(ToString::to_string).unwrap_or_default(),
        care: CARE.to_owned(),
        digest: studio::digest(work, edition, print),
    }
}
