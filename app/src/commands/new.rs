//! `sightedge new`: from a picture and a few measures to a saved plan.

use std::path::Path;

use sightedge_core::geometry::{Point, Rect, Sides, Size};
use sightedge_core::layout::layout;
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Tables;
use sightedge_core::spec::{
    Behind, Bevel, Document, Fixing, InHand, Layer, LayerId, Mat, Meets, Picture, Placement,
    Ruler, Start, Weight, held_by, margins, standard_border, usual_outer,
};
use sightedge_core::weight::Weights;

use super::measures::{self, Area, Measures};
use super::options::{Known, Options};
use super::outcome::CliError;
use super::{Exit, Streams, Verb, check, help, new_behind, plans};
use sightedge_core::file::store::Over;
use sightedge_service::{files, picture_facts};

pub(super) const VERB: Verb = Verb {
    known: Known {
        verb: "new",
        values: &[
            "sheet",
            "image",
            "image-at",
            "outer",
            "border",
            "window",
            "overlap",
            "reveal",
            "bottom-extra",
            "bottom-ratio",
            "liner",
            "thickness",
            "unit",
            "weights",
            "ruler",
            "save",
            "paper",
            "process",
            "along",
            "across",
            "grain",
            "hinged-at",
            "hangs-at",
            "hinge-at",
            "hinge-kind",
            "tissue",
            "frame",
            "glazing",
            "bag",
            "rabbet",
            "allowance",
            "mass",
            "rings",
            "rise",
            "hooks",
            "rings-below",
            "frame-size",
            "centre-height",
        ],
        flags: &["centred", "optical", "exhibition", "replace"],
    },
    help: help::NEW,
    run,
};

/// The options that hold lengths.
const LENGTHS: [&str; 21] = [
    "sheet",
    "image",
    "image-at",
    "outer",
    "border",
    "window",
    "overlap",
    "reveal",
    "bottom-extra",
    "liner",
    "thickness",
    "hinge-at",
    "bag",
    "rabbet",
    "allowance",
    "rings",
    "rise",
    "hooks",
    "rings-below",
    "frame-size",
    "centre-height",
];

const PLACEMENTS: [&str; 4] = ["centred", "bottom-extra", "bottom-ratio", "optical"];

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let picture = options.word("a picture")?;
    contradictions(options)?;
    let measures = Measures::of(options, &LENGTHS)?;
    let mut said = Vec::new();
    let tables = streams.sound_tables()?;
    let wants = Wants::read(options, &measures, &tables, &mut said)?;
    let plan = options.path("save").unwrap_or_else(|| files::plan_of(&picture));
    plans::spare(&picture, &plan)?;
    let replace = options.has("replace");
    if !replace && plan.exists() {
        return Err(CliError::unwritten(format!(
            "{} is there already: add --replace to write over it (the old one is kept as a \
             backup), or --save FILE to write elsewhere",
            plan.display()
        )));
    }

    if measures.taken_as_inches {
        said.push("no unit was typed: inches are taken (--unit mm for millimetres)".to_owned());
    }
    let document = document(&picture, &plan, (&measures, &tables), &wants, &mut said)?;

    let over = if replace { Over::Anything } else { Over::Nothing };
    files::save(&plan, &document, over)
        .map_err(|error| CliError::unwritten(error.to_string()))?;

    for words in said {
        writeln!(streams.out, "{words}")?;
    }
    writeln!(streams.out, "saved {}", plan.display())?;
    check::print(&document, streams)?;
    Ok(Exit::Done)
}

/// Options that cannot be meant together.
fn contradictions(options: &Options) -> Result<(), CliError> {
    options.one_of(&["outer", "border"])?;
    options.one_of(&["window", "border"])?;
    options.one_of(&["overlap", "reveal"])?;
    options.one_of(&["window", "overlap"])?;
    options.one_of(&["window", "reveal"])?;
    options.one_of(&PLACEMENTS)?;
    for placement in PLACEMENTS {
        options.one_of(&["border", placement])?;
    }
    new_behind::contradictions(options)?;
    if !options.has("rabbet") {
        options.needs("window", "outer")?;
    }
    options.needs("image-at", "image")
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
    liners: Vec<Length>,
    thickness: Option<Length>,
    exhibition: bool,
    weights: Option<Weights>,
    ruler: Ruler,
    behind: Behind,
}

impl Wants {
    fn read(
        options: &Options,
        measures: &Measures<'_>,
        tables: &Tables,
        said: &mut Vec<String>,
    ) -> Result<Self, CliError> {
        let liners = measures.list("liner")?.unwrap_or_default();
        if liners.len() >= Mat::MOST_LAYERS {
            return Err(CliError::usage(format!(
                "--liner holds {} offsets: at most {} liners are cut, one offset each",
                liners.len(),
                Mat::MOST_LAYERS - 1
            )));
        }
        let thickness = measures.length("thickness")?;
        if let Some(thickness) = thickness
            && !thickness.is_positive()
        {
            return Err(CliError::usage(format!(
                "--thickness {} is no board: a thickness above zero is wanted, as in .060in",
                thickness.text(measures.unit)
            )));
        }
        let behind = new_behind::read(options, measures, tables, said)?;
        Ok(Self {
            sheet: measures.size("sheet")?,
            image: measures.area("image")?,
            image_at: image_at(options, measures)?,
            // A frame in hand gives the size, unless another is asked for.
            outer: measures
                .size("outer")?
                .or_else(|| new_behind::outer(&behind, measures.unit)),
            border: measures.sides("border")?,
            window: measures.size("window")?,
            overlap: measures.sides("overlap")?,
            reveal: measures.sides("reveal")?,
            placement: placement(options, measures)?,
            liners,
            thickness,
            exhibition: options.has("exhibition"),
            weights: weights(options)?,
            ruler: ruler(options, measures.unit)?,
            behind,
        })
    }
}

fn image_at(options: &Options, measures: &Measures<'_>) -> Result<Option<Point>, CliError> {
    let Some(list) = measures.list("image-at")? else { return Ok(None) };
    match list.as_slice() {
        [x, y] => Ok(Some(Point::new(*x, *y))),
        _ => Err(CliError::usage(format!(
            "--image-at {} is no place: two lengths from the sheet's top left corner are \
             wanted, as in --image-at 1,1 1/2in",
            options.text("image-at")?.unwrap_or_default()
        ))),
    }
}

fn placement(options: &Options, measures: &Measures<'_>) -> Result<Placement, CliError> {
    if let Some(extra) = measures.length("bottom-extra")? {
        return Ok(Placement::BottomExtra(extra));
    }
    if let Some(text) = options.text("bottom-ratio")? {
        let weight = text.split_once(':').and_then(|(bottom, top)| {
            let part = |text: &str| hundredths(text).filter(|part| *part > 0);
            Some(Weight { bottom: part(bottom)?, top: part(top)? })
        });
        return weight.map(Placement::BottomRatio).ok_or_else(|| {
            CliError::usage(format!(
                "--bottom-ratio \"{text}\" is no ratio: bottom to top is wanted, as in 6:5"
            ))
        });
    }
    Ok(if options.has("optical") { Placement::Optical } else { Placement::Centred })
}

/// A number of at most two decimals, in hundredths.
fn hundredths(text: &str) -> Option<u32> {
    let (whole, part) = text.trim().split_once('.').unwrap_or((text.trim(), ""));
    let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit());
    if whole.is_empty() || whole.len() > 5 || part.len() > 2 || !digits(whole) || !digits(part)
    {
        return None;
    }
    format!("{whole}{part:0<2}").parse().ok()
}

pub(super) fn ruler(options: &Options, unit: Unit) -> Result<Ruler, CliError> {
    let Some(text) = options.text("ruler")? else { return Ok(Ruler::usual(unit)) };
    text.parse().ok().and_then(|parts| Ruler::new(unit, parts)).ok_or_else(|| {
        let parts: Vec<_> = Ruler::parts_of(unit).iter().map(u16::to_string).collect();
        let (last, others) = parts.split_last().map_or(("", &[][..]), |(l, o)| (l.as_str(), o));
        let of = match unit {
            Unit::Inch => "an inch",
            Unit::Millimetre => "a millimetre",
        };
        CliError::usage(format!(
            "--ruler {text} is no ruler in this plan: {} or {last} parts of {of} are wanted",
            others.join(", ")
        ))
    })
}

/// What weights are shown in, where that is not what goes with the unit.
pub(super) fn weights(options: &Options) -> Result<Option<Weights>, CliError> {
    let Some(text) = options.text("weights")? else { return Ok(None) };
    Weights::from_key(text).map(Some).ok_or_else(|| {
        CliError::usage(format!(
            "--weights \"{text}\" is not known: give lb (ounces, pounds) or g (grams, \
             kilograms, newtons)"
        ))
    })
}

fn document(
    picture: &Path,
    plan: &Path,
    (measures, tables): (&Measures<'_>, &Tables),
    wants: &Wants,
    said: &mut Vec<String>,
) -> Result<Document, CliError> {
    let facts = picture_facts::facts(picture).map_err(CliError::unreadable)?;
    let sheet = match (wants.sheet, facts.print_size()) {
        (Some(sheet), _) => sheet,
        (None, Some(size)) if size.long() > measures::MOST => {
            return Err(CliError::usage(format!(
                "{} states a resolution at which it is {} long, which cannot be meant: give the \
                 paper, as in --sheet 13x19in",
                picture.display(),
                size.long().text(measures.unit)
            )));
        }
        (None, Some(size)) => {
            said.push(format!(
                "no --sheet was given: {} is taken from the picture's pixels and resolution",
                size.sides_text(|length| length.text(measures.unit))
            ));
            size
        }
        (None, None) => {
            return Err(CliError::usage(format!(
                "{} states no resolution, so its printed size is not known: give the paper, as \
                 in --sheet 13x19in",
                picture.display()
            )));
        }
    };
    let printed = facts.picture(picture, plan).map_err(CliError::unreadable)?;
    let area = wants.image.and_then(|area| sides(area, &printed, measures.unit, said));
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
        unit: measures.unit,
        picture: printed,
        sheet,
        image,
    };
    let mut document = start.plan(tables);
    document.weights = wants.weights;
    document.ruler = wants.ruler;
    let margins = margins(sheet, image);
    shape(&mut document.variants[0].mat, wants, margins, image.size);
    document.variants[0].mat.fixing = fixing(&document, wants, tables, said);
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
        "the image is {}: its {which} follows from the picture's proportion",
        size.sides_text(|length| length.text(unit))
    ));
    Some(size)
}

/// Makes the fresh mat what was asked for.
fn shape(mat: &mut Mat, wants: &Wants, margins: Sides<Length>, image: Size) {
    let opening = &mut mat.openings[0];
    if let Some(thickness) = wants.thickness {
        mat.layers[0].board.thickness = thickness;
    }
    for (id, offset) in (2..).map(LayerId).zip(&wants.liners) {
        let board = mat.layers[0].board.clone();
        mat.layers.push(Layer { id, board, bevel: Bevel::default() });
        opening.offsets.insert(id, Sides::all(*offset));
    }
    if let Some(sight) = wants.window {
        // What is seen lies centred: the image in the window.
        let (left, _) = (sight.width - image.width).halves();
        let (top, _) = (sight.height - image.height).halves();
        opening.meets = Meets::InHand(InHand {
            sight,
            overlap_left: margins.left - left,
            overlap_top: margins.top - top,
        });
    } else if let Some(overlap) = wants.overlap {
        opening.meets = Meets::Reveal(margins.minus(overlap));
    } else if let Some(reveal) = wants.reveal {
        opening.meets = Meets::Reveal(reveal);
    }
    mat.exhibition = wants.exhibition;
    mat.behind = wants.behind.clone();
}

/// What is given of the outer size and the borders, or what is taken instead.
fn fixing(
    document: &Document,
    wants: &Wants,
    tables: &Tables,
    said: &mut Vec<String>,
) -> Fixing {
    let (unit, placement) = (document.unit, wants.placement);
    match (wants.outer, wants.border) {
        (Some(size), _) => return Fixing::Outer { size, placement },
        (None, Some(borders)) => return Fixing::Borders(borders),
        (None, None) => {}
    }
    let least = standard_border(unit);
    let neither = "neither --outer nor --border was given";
    let fixed = |fixing: Fixing| {
        let mat = Mat { fixing, ..document.variants[0].mat.clone() };
        let figures = layout(document, &mat).exact;
        let window = &figures.openings[0];
        let on_board = window.sheet.within(Rect::at_origin(figures.outer));
        (window.layers[0].clone(), window.sheet, on_board)
    };
    let (top, sheet, _) = fixed(Fixing::Borders(Sides::all(least)));
    let window = top.sight.bounds;
    let held = held_by(window.size, window.within(sheet));
    // The sheet lies whole on the board: what stands out beyond it would be crushed.
    let holds = |size| {
        let (top, _, on_board) = fixed(Fixing::Outer { size, placement });
        top.borders.least() >= least && !on_board.least().is_negative()
    };
    if let Some(usual) = usual_outer((window.size, held), unit, tables, holds) {
        said.push(format!("{neither}: {}", usual.words(unit)));
        return Fixing::Outer { size: usual.size, placement };
    }
    let text = least.text(unit);
    let left_out = match placement {
        Placement::Optical => "; --optical is left out, as it asks for an outer size",
        _ => "",
    };
    said.push(format!(
        "{neither}, and no usual size is large enough: the borders are {text}{left_out}"
    ));
    Fixing::Borders(borders(placement, least))
}

/// Borders of at least `least`, the bottom as heavy as `placement` wants it.
fn borders(placement: Placement, least: Length) -> Sides<Length> {
    let (top, bottom) = match placement {
        Placement::BottomExtra(extra) if extra.is_negative() => (least - extra, least),
        Placement::BottomExtra(extra) => (least, least + extra),
        Placement::BottomRatio(Weight { bottom, top }) => {
            let part = |part: u32| {
                least.scaled(part.into(), bottom.min(top).into()).min(measures::MOST)
            };
            (part(top), part(bottom))
        }
        Placement::Centred | Placement::Optical | Placement::Free { .. } => (least, least),
    };
    Sides::new(top, least, bottom, least)
}
