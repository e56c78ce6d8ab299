//! `sightedge new`: what its options say of paper, hinges, humidity, frame and wall.

use sightedge_core::geometry::Size;
use sightedge_core::length::{self, Length, Unit};
use sightedge_core::material::{Bag, Frame, Glazing, Paper, Tables, Tissue};
use sightedge_core::package::{self, contents_of, unmeasured};
use sightedge_core::spec::{Assembly, FrameSize, Hanging, HingeAt, Hooks};
use sightedge_core::weight::Weights;

use super::super::lengths::{Lengths, MOST, Measure};
use super::super::outcome::CliError;
use super::options::{self, New};

/// The outer size that a frame in hand asks for.
pub(super) fn outer(assembly: &Assembly, unit: Unit) -> Option<Size> {
    let allowance = assembly.package.allowance.unwrap_or(package::usual_allowance(unit));
    assembly.package.size.map(|size| contents_of(size, allowance))
}

/// What the options say; `said` gets what was taken for granted.
pub(super) fn read(
    new: &New,
    lengths: Lengths,
    tables: &Tables,
    said: &mut Vec<String>,
) -> Result<Assembly, CliError> {
    let (options, unit) = (&new.assembly, lengths.unit);
    let mut assembly = Assembly {
        paper: paper(options, tables, said),
        grain: options.grain,
        hinged_at: options.hinged_at,
        hangs_at: options.hangs_at,
        ..Assembly::default()
    };
    let places = lengths.list(options.hinge_at.as_ref())?;
    assembly.hinging.at = (0..)
        .zip(places)
        .map(|(index, x): (usize, Length)| HingeAt { x, locates: index == 0 })
        .collect();
    assembly.hinging.kind = options.hinge_kind;
    assembly.hinging.tissue = tissue(options, tables)?;

    let options = &new.frame;
    let package = &mut assembly.package;
    package.frame = options.frame.as_deref().map(|name| frame(name, tables, unit, said));
    package.glazing = glazing(options, tables)?;
    package.bag = lengths.size(options.bag.as_ref())?.map(|size| Bag {
        id: String::new(),
        name: "Bag".to_owned(),
        size,
        origin: "typed".to_owned(),
    });
    package.size = lengths.size(options.rabbet.as_ref())?.map(FrameSize::Rabbet);
    package.allowance = lengths.not_negative(options.allowance.as_ref())?;
    package.mass_g = mass(new, unit)?;
    if let (Some(FrameSize::Rabbet(size)), allowance) = (package.size, package.allowance) {
        let allowance = allowance.unwrap_or(package::usual_allowance(unit));
        if !contents_of(FrameSize::Rabbet(size), allowance).is_positive() {
            return Err(CliError::usage(format!(
                "--rabbet {} × {} leaves no room for a mat: give a larger rabbet, or a \
                 smaller --allowance",
                size.width.text(unit),
                size.height.text(unit)
            )));
        }
    }

    package::keep_usual(package, tables);

    let hanging = &mut assembly.hanging;
    hanging.rings_apart = lengths.not_negative(options.rings.as_ref())?;
    hanging.rise = lengths.not_negative(options.rise.as_ref())?;
    hanging.rings_below = lengths.length(options.rings_below.as_ref())?;
    hanging.frame_size = lengths.size(options.frame_size.as_ref())?;
    hanging.hooks = hooks(options.hooks.as_ref(), unit, hanging)?;
    hanging.centre = lengths.not_negative(options.centre_height.as_ref())?;
    Ok(assembly)
}

fn paper(
    options: &options::Assembly,
    tables: &Tables,
    said: &mut Vec<String>,
) -> Option<Paper> {
    let options::Assembly { along, across, process, .. } = *options;
    let name = options.paper.as_deref();
    let known = name.and_then(|name| tables.paper(name)).cloned();
    let mut paper = match (known, name) {
        (Some(known), _) => known,
        (None, None) if along.is_none() && across.is_none() && process.is_none() => {
            return None;
        }
        (None, name) => {
            let name = name.unwrap_or("Paper");
            if along.is_none() || across.is_none() {
                let names: Vec<_> = tables.papers.iter().map(|row| row.id.as_str()).collect();
                said.push(format!(
                    "the paper \"{name}\" is not in the tables ({}): how far it moves is \
                     unknown unless you give --along and --across",
                    names.join(", ")
                ));
            }
            // What is not known of it must not bring findings of its own.
            Paper {
                name: name.to_owned(),
                water_based: true,
                pencil: true,
                origin: "typed".to_owned(),
                ..Paper::default()
            }
        }
    };
    if let Some(process) = process {
        paper.process = process;
    }
    if along.is_some() || across.is_some() {
        paper.along = along.or(paper.along);
        paper.across = across.or(paper.across);
        "typed".clone_into(&mut paper.origin);
    }
    Some(paper)
}

/// A row of a table by its id or name; what is not there cannot be made up from its name.
fn row<T: Clone>(
    (option, name): (&str, Option<&str>),
    find: impl FnOnce(&str) -> Option<T>,
    ids: impl Iterator<Item = String>,
) -> Result<Option<T>, CliError> {
    let Some(name) = name else { return Ok(None) };
    find(name).map(Some).ok_or_else(|| {
        let ids = ids.collect::<Vec<_>>().join(", ");
        CliError::usage(format!("--{option} \"{name}\" is not in the tables: use one of {ids}"))
    })
}

fn tissue(options: &options::Assembly, tables: &Tables) -> Result<Option<Tissue>, CliError> {
    let ids = tables.tissues.iter().map(|row| row.id.clone());
    row(("tissue", options.tissue.as_deref()), |name| tables.tissue(name).cloned(), ids)
}

fn glazing(options: &options::Frame, tables: &Tables) -> Result<Option<Glazing>, CliError> {
    let ids = tables.glazing.iter().map(|row| row.id.clone());
    row(("glazing", options.glazing.as_deref()), |name| tables.glazing(name).cloned(), ids)
}

fn frame(name: &str, tables: &Tables, unit: Unit, said: &mut Vec<String>) -> Frame {
    if let Some(known) = tables.frame(name) {
        return known.clone();
    }
    let names: Vec<_> = tables.frames.iter().map(|row| row.id.as_str()).collect();
    said.push(format!(
        "the frame \"{name}\" is not in the tables ({}): its lip is taken as {}, and the \
         depth of its rabbet is unknown",
        names.join(", "),
        package::usual_lip(unit).text(unit)
    ));
    unmeasured(name, unit)
}

/// A mass; a number alone is in what the plan shows weights in, as in the window.
fn mass(new: &New, unit: Unit) -> Result<Option<u32>, CliError> {
    let Some(text) = &new.frame.mass else { return Ok(None) };
    let grams = new.plan.weights.unwrap_or(Weights::of(unit)).parse(text);
    grams.map(Some).map_err(|error| CliError::usage(format!("--mass {error}")))
}

fn hooks(typed: Option<&Measure>, unit: Unit, hanging: &Hanging) -> Result<Hooks, CliError> {
    let Some(Measure { text, .. }) = typed else { return Ok(Hooks::One) };
    let wrong = || {
        CliError::usage(format!(
            "--hooks \"{text}\" is not known: use 1, or 2 and how far apart they are, as in \
             --hooks 2,8in"
        ))
    };
    match text.split_once(',') {
        None if text.trim() == "1" => Ok(Hooks::One),
        // Half of the rings' distance, as good as any: then the slope is half of the wire.
        None if text.trim() == "2" => {
            let width = hanging.rings_apart.or(hanging.frame_size.map(|size| size.width));
            width.map(|width| Hooks::Two(width.scaled(1, 2))).ok_or_else(|| {
                CliError::usage(
                    "--hooks 2 needs how far apart they are, as in --hooks 2,8in, or give \
                     --rings too: the hooks are then half as far apart as the rings",
                )
            })
        }
        Some((count, apart)) if count.trim() == "2" => {
            let apart = length::parse(apart, unit)
                .map_err(|error| CliError::usage(format!("--hooks: {error}")))?;
            if apart.is_negative() || apart > MOST {
                return Err(wrong());
            }
            Ok(Hooks::Two(apart))
        }
        _ => Err(wrong()),
    }
}
