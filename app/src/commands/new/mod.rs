//! `sightedge new`: from a picture and a few measures to a saved plan.

mod assembly;
mod board;
mod options;

use std::path::Path;

use sightedge_core::file::store::Overwrite;
use sightedge_core::geometry::{Point, Rect, Sides, Size};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Tables;
use sightedge_core::spec::{
    Assembly, Bevel, Document, InHand, Layer, LayerId, Mat, Picture, Placement, Ruler, Start,
    WindowBy, margins,
};
use sightedge_core::weight::Weights;

use super::lengths::{Area, Lengths, MOST};
use super::outcome::CliError;
use super::{Exit, Streams, check, plans, values};
use sightedge_service::{files, picture_facts};

pub(super) use options::New;

impl New {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        self.check()?;
        let unit = self.plan.unit.or(self.typed.first_unit);
        let lengths = Lengths { unit: unit.unwrap_or_default() };
        let mut said = Vec::new();
        let tables = streams.sound_tables()?;
        let wants = Wants::read(self, lengths, &tables, &mut said)?;
        let picture = &self.picture;
        let plan = self.plan.save.clone().unwrap_or_else(|| files::plan_of(picture));
        plans::spare(picture, &plan)?;
        let replace = self.plan.replace;
        if !replace && plan.exists() {
            return Err(CliError::unwritten(format!(
                "{} already exists: add --replace to write over it (the old one is kept as a \
                 backup), or --save FILE to write elsewhere",
                plan.display()
            )));
        }

        if unit.is_none() {
            said.push(
                "no unit was given, so lengths are in inches (use --unit mm for millimetres)"
                    .to_owned(),
            );
        }
        let document = document(picture, &plan, (lengths.unit, &tables), &wants, &mut said)?;

        let over = if replace { Overwrite::Anything } else { Overwrite::Nothing };
        files::save(&plan, &document, over)
            .map_err(|error| CliError::unwritten(error.to_string()))?;

        for words in said {
            writeln!(streams.out, "{words}")?;
        }
        writeln!(streams.out, "saved {}", plan.display())?;
        check::print(&document, streams)?;
        Ok(Exit::Done)
    }
}

/// What was asked for, read and found to be sizes and lengths.
struct Wants {
    sheet: Option<Size>,
    image: Option<Area>,
    image_at: Option<Point>,
    outer: Option<Size>,
    border: Option<Sides<Length>>,
    window: Option<Size>,
    overlap: Option<Sides<Length>>,
    reveal: Option<Sides<Length>>,
    placement: Placement,
    undermats: Vec<Length>,
    thickness: Option<Length>,
    exhibition: bool,
    weights: Option<Weights>,
    ruler: Ruler,
    assembly: Assembly,
}

impl Wants {
    fn read(
        new: &New,
        lengths: Lengths,
        tables: &Tables,
        said: &mut Vec<String>,
    ) -> Result<Self, CliError> {
        let New { print, window, board, plan, .. } = new;
        let undermats = lengths.list(board.undermat.as_ref())?;
        if undermats.len() >= Mat::MOST_LAYERS {
            return Err(CliError::usage(format!(
                "--undermat has {} offsets: give at most {}, one for each undermat",
                undermats.len(),
                Mat::MOST_LAYERS - 1
            )));
        }
        let thickness = lengths.length(board.thickness.as_ref())?;
        if let Some(thickness) = thickness
            && !thickness.is_positive()
        {
            return Err(CliError::usage(format!(
                "--thickness {} is not a board's thickness: give one above zero, as in .060in",
                thickness.text(lengths.unit)
            )));
        }
        let assembly = assembly::read(new, lengths, tables, said)?;
        let outer = lengths.size(board.outer.as_ref())?;
        Ok(Self {
            sheet: lengths.size(print.sheet.as_ref())?,
            image: lengths.area(print.image.as_ref())?,
            image_at: lengths.place(print.image_at.as_ref())?,
            // A frame in hand gives the size, unless another is asked for.
            outer: outer.or_else(|| assembly::outer(&assembly, lengths.unit)),
            border: lengths.sides(board.border.as_ref())?,
            window: lengths.size(board.window.as_ref())?,
            overlap: lengths.sides(window.overlap.as_ref())?,
            reveal: lengths.sides(window.reveal.as_ref())?,
            placement: board::placement(board, lengths)?,
            undermats,
            thickness,
            exhibition: board.exhibition,
            weights: plan.weights,
            ruler: values::ruler(plan.ruler.as_deref(), lengths.unit)?,
            assembly,
        })
    }
}

fn document(
    picture: &Path,
    plan: &Path,
    (unit, tables): (Unit, &Tables),
    wants: &Wants,
    said: &mut Vec<String>,
) -> Result<Document, CliError> {
    let facts = picture_facts::facts(picture).map_err(CliError::unreadable)?;
    let sheet = match (wants.sheet, facts.print_size()) {
        (Some(sheet), _) => sheet,
        (None, Some(size)) if size.long() > MOST => {
            return Err(CliError::usage(format!(
                "{} gives a resolution at which it would be {} long, which is more than 100 \
                 m: give the paper's size, as in --sheet 13x19in",
                picture.display(),
                size.long().text(unit)
            )));
        }
        (None, Some(size)) => {
            said.push(format!(
                "no --sheet was given, so it is {} × {}, from the picture's pixels and \
                 resolution",
                size.width.text(unit),
                size.height.text(unit)
            ));
            size
        }
        (None, None) => {
            return Err(CliError::usage(format!(
                "{} gives no resolution, so its printed size is unknown: give the paper's \
                 size, as in --sheet 13x19in",
                picture.display()
            )));
        }
    };
    let printed = facts.picture(picture, plan).map_err(CliError::unreadable)?;
    let area = wants.image.and_then(|area| sides(area, &printed, unit, said));
    let image = match (area, wants.image_at) {
        (None, _) => Rect::at_origin(sheet),
        (Some(size), Some(at)) => Rect::new(at, size),
        (Some(size), None) => {
            let (x, _) = (sheet.width - size.width).halves();
            let (y, _) = (sheet.height - size.height).halves();
            Rect::new(Point::new(x, y), size)
        }
    };
    let start = Start {
        id: picture_facts::plan_id(&facts.sha256, plan),
        unit,
        picture: printed,
        sheet,
        image,
    };
    let mut document = start.plan(tables);
    document.weights = wants.weights;
    document.ruler = wants.ruler;
    let margins = margins(sheet, image);
    shape(&mut document.variants[0].mat, wants, margins, image.size);
    document.variants[0].mat.board_by = board::fixing(&document, wants, tables, said);
    Ok(document)
}

/// Both sides of the printed area. One that follows from the other is exact, as a printer makes
/// it, and is added to `said`; `None` where it cannot follow, as a picture of no size has no proportion.
fn sides(area: Area, picture: &Picture, unit: Unit, said: &mut Vec<String>) -> Option<Size> {
    let (size, which) = match area {
        Area::Both(size) => return Some(size),
        Area::Width(width) => (Size::new(width, picture.height_at(width)?), "height"),
        Area::Height(height) => (Size::new(picture.width_at(height)?, height), "width"),
    };
    said.push(format!(
        "the image is {} × {}: its {which} follows from the picture's proportion",
        size.width.text(unit),
        size.height.text(unit)
    ));
    Some(size)
}

/// Makes the fresh mat what was asked for.
fn shape(mat: &mut Mat, wants: &Wants, margins: Sides<Length>, image: Size) {
    let opening = &mut mat.openings[0];
    if let Some(thickness) = wants.thickness {
        mat.layers[0].board.thickness = thickness;
    }
    for (id, offset) in (2..).map(LayerId).zip(&wants.undermats) {
        let board = mat.layers[0].board.clone();
        mat.layers.push(Layer { id, board, bevel: Bevel::default() });
        opening.offsets.insert(id, Sides::all(*offset));
    }
    if let Some(sight) = wants.window {
        // What is seen lies centred: the image in the window.
        let (left, _) = (sight.width - image.width).halves();
        let (top, _) = (sight.height - image.height).halves();
        opening.window_by = WindowBy::InHand(InHand {
            sight,
            overlap_left: margins.left - left,
            overlap_top: margins.top - top,
        });
    } else if let Some(overlap) = wants.overlap {
        opening.window_by = WindowBy::Reveal(margins.minus(overlap));
    } else if let Some(reveal) = wants.reveal {
        opening.window_by = WindowBy::Reveal(reveal);
    }
    mat.exhibition = wants.exhibition;
    mat.assembly = wants.assembly.clone();
}
