//! `sightedge new`: what its options say of paper, hinges, humidity, frame and wall.

use sightedge_core::geometry::Size;
use sightedge_core::length::{self, Length, Unit};
use sightedge_core::material::{
    Bag, Frame, Glazing, Humidity, Paper, Process, Rate, Tables, Tissue,
};
use sightedge_core::package::{self, contents_of, unmeasured};
use sightedge_core::spec::{
    Behind, FrameSize, Grain, Hanging, Hangs, HingeAt, HingeKind, Hooks,
};
use sightedge_core::weight::Weights;

use super::measures::Measures;
use super::new::weights;
use super::options::Options;
use super::outcome::CliError;

/// Options that want another beside them.
pub(super) fn contradictions(options: &Options) -> Result<(), CliError> {
    options.one_of(&["rabbet", "border"])?;
    options.one_of(&["bag", "frame"])?;
    options.one_of(&["bag", "rabbet"])?;
    if options.has("glazing") && !options.has("rabbet") && !options.has("frame") {
        return Err(CliError::usage(
            "--glazing needs --frame or --rabbet beside it: a piece without a frame is bagged",
        ));
    }
    options.needs("rise", "rings")?;
    options.needs("rings", "rise")?;
    if options.has("allowance") && !options.has("rabbet") && !options.has("frame") {
        return Err(CliError::usage(
            "--allowance needs --rabbet or --frame beside it: it is how much smaller than the \
             rabbet the contents are",
        ));
    }
    Ok(())
}

/// The outer size that a frame in hand asks for.
pub(super) fn outer(behind: &Behind, unit: Unit) -> Option<Size> {
    let allowance = behind.package.allowance.unwrap_or(package::usual_allowance(unit));
    behind.package.size.map(|size| contents_of(size, allowance))
}

/// What the options say; `said` gets what was taken for granted.
pub(super) fn read(
    options: &Options,
    measures: &Measures<'_>,
    tables: &Tables,
    said: &mut Vec<String>,
) -> Result<Behind, CliError> {
    let mut behind = Behind {
        paper: paper(options, tables, said)?,
        grain: grain(options)?,
        hinged_at: humidity(options, "hinged-at")?,
        hangs_at: hangs(options)?,
        ..Behind::default()
    };
    let places = measures.list("hinge-at")?.unwrap_or_default();
    behind.hinging.at = (0..)
        .zip(places)
        .map(|(index, x): (usize, Length)| HingeAt { x, locates: index == 0 })
        .collect();
    behind.hinging.kind = kind(options)?;
    behind.hinging.tissue = tissue(options, tables)?;

    let package = &mut behind.package;
    package.frame = frame(options, tables, measures.unit, said)?;
    package.glazing = glazing(options, tables)?;
    package.bag = measures.size("bag")?.map(|size| Bag {
        id: String::new(),
        name: "Bag".to_owned(),
        size,
        origin: "typed".to_owned(),
    });
    package.size = measures.size("rabbet")?.map(FrameSize::Rabbet);
    package.allowance = at_least_nothing(measures, "allowance")?;
    package.mass_g = mass(options, measures.unit)?;
    if let (Some(FrameSize::Rabbet(size)), allowance) = (package.size, package.allowance) {
        let allowance = allowance.unwrap_or(package::usual_allowance(measures.unit));
        if !contents_of(FrameSize::Rabbet(size), allowance).is_positive() {
            return Err(CliError::usage(format!(
                "--rabbet {} leaves nothing for a mat: a larger one is wanted, or a \
                 smaller --allowance",
                size.sides_text(|length| length.text(measures.unit))
            )));
        }
    }

    package::keep_usual(package, tables);

    let hanging = &mut behind.hanging;
    hanging.rings_apart = at_least_nothing(measures, "rings")?;
    hanging.rise = at_least_nothing(measures, "rise")?;
    hanging.rings_below = measures.length("rings-below")?;
    hanging.frame_size = measures.size("frame-size")?;
    hanging.hooks = hooks(options, measures, hanging)?;
    hanging.centre = at_least_nothing(measures, "centre-height")?;
    Ok(behind)
}

fn paper(
    options: &Options,
    tables: &Tables,
    said: &mut Vec<String>,
) -> Result<Option<Paper>, CliError> {
    let (along, across) = (rate(options, "along")?, rate(options, "across")?);
    let process = process(options)?;
    let name = options.text("paper")?;
    let known = name.and_then(|name| tables.paper(name)).cloned();
    let mut paper = match (known, name) {
        (Some(known), _) => known,
        (None, None) if along.is_none() && across.is_none() && process.is_none() => {
            return Ok(None);
        }
        (None, name) => {
            let name = name.unwrap_or("Paper");
            if along.is_none() || across.is_none() {
                let names: Vec<_> = tables.papers.iter().map(|row| row.id.as_str()).collect();
                said.push(format!(
                    "the paper \"{name}\" is not in the tables ({}): how far it moves is taken \
                     as not known unless --along and --across say",
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
    Ok(Some(paper))
}

/// Of these keys one is wanted.
fn keyed<T: Copy>(
    options: &Options,
    name: &str,
    all: &[T],
    key: fn(T) -> &'static str,
) -> Result<Option<T>, CliError> {
    let Some(text) = options.text(name)? else { return Ok(None) };
    all.iter().copied().find(|one| key(*one) == text).map(Some).ok_or_else(|| {
        let keys: Vec<_> = all.iter().map(|one| key(*one)).collect();
        let keys = keys.join(", ");
        CliError::usage(format!("--{name} \"{text}\" is not known: one of {keys} is wanted"))
    })
}

fn process(options: &Options) -> Result<Option<Process>, CliError> {
    keyed(options, "process", Process::ALL, Process::key)
}

fn kind(options: &Options) -> Result<Option<HingeKind>, CliError> {
    keyed(options, "hinge-kind", HingeKind::ALL, HingeKind::key)
}

/// Finds a row by its id or name.
type Find<'a, T> = fn(&'a Tables, &str) -> Option<&'a T>;

/// A row of a table by its id or name; what is not there cannot be made up from its name.
fn row<'a, T>(
    options: &Options,
    name: &str,
    (tables, find): (&'a Tables, Find<'a, T>),
    all: &'a [T],
    id: fn(&T) -> &str,
) -> Result<Option<&'a T>, CliError> {
    let Some(text) = options.text(name)? else { return Ok(None) };
    find(tables, text).map(Some).ok_or_else(|| {
        let ids: Vec<_> = all.iter().map(id).collect();
        let ids = ids.join(", ");
        CliError::usage(format!(
            "--{name} \"{text}\" is not in the tables: one of {ids} is wanted"
        ))
    })
}

fn tissue(options: &Options, tables: &Tables) -> Result<Option<Tissue>, CliError> {
    let all = &tables.tissues;
    Ok(row(options, "tissue", (tables, Tables::tissue), all, |row| row.id.as_str())?.cloned())
}

fn glazing(options: &Options, tables: &Tables) -> Result<Option<Glazing>, CliError> {
    let all = &tables.glazing;
    Ok(row(options, "glazing", (tables, Tables::glazing), all, |row| row.id.as_str())?.cloned())
}

fn rate(options: &Options, name: &str) -> Result<Option<Rate>, CliError> {
    let Some(text) = options.text(name)? else { return Ok(None) };
    Rate::read(text).map(Some).ok_or_else(|| {
        CliError::usage(format!(
            "--{name} \"{text}\" is no growth: percent of the length for each percent of \
             relative humidity is wanted, 0 to 1, as in --{name} 0.015"
        ))
    })
}

fn grain(options: &Options) -> Result<Option<Grain>, CliError> {
    let Some(text) = options.text("grain")? else { return Ok(None) };
    Grain::from_key(text).map(Some).ok_or_else(|| {
        CliError::usage(format!(
            "--grain \"{text}\" is not known: width or height is wanted, the way the grain runs"
        ))
    })
}

fn humidity(options: &Options, name: &str) -> Result<Option<Humidity>, CliError> {
    let Some(text) = options.text(name)? else { return Ok(None) };
    Humidity::read(text).map(Some).ok_or_else(|| {
        CliError::usage(format!(
            "--{name} \"{text}\" is no humidity: 0 to 100 % is wanted, as in --{name} 50"
        ))
    })
}

fn hangs(options: &Options) -> Result<Option<Hangs>, CliError> {
    let Some(text) = options.text("hangs-at")? else { return Ok(None) };
    let range = text.split_once("..").and_then(|(dry, damp)| {
        let (dry, damp) = (Humidity::read(dry)?, Humidity::read(damp)?);
        (dry <= damp).then_some(Hangs { dry, damp })
    });
    range.map(Some).ok_or_else(|| {
        CliError::usage(format!(
            "--hangs-at \"{text}\" is no range: the driest and the dampest are wanted, as in \
             --hangs-at 30..60"
        ))
    })
}

fn frame(
    options: &Options,
    tables: &Tables,
    unit: Unit,
    said: &mut Vec<String>,
) -> Result<Option<Frame>, CliError> {
    let Some(name) = options.text("frame")? else { return Ok(None) };
    if let Some(known) = tables.frame(name) {
        return Ok(Some(known.clone()));
    }
    let names: Vec<_> = tables.frames.iter().map(|row| row.id.as_str()).collect();
    said.push(format!(
        "the frame \"{name}\" is not in the tables ({}): its lip is taken as {}, the depth of \
         its rabbet as not known",
        names.join(", "),
        package::usual_lip(unit).text(unit)
    ));
    Ok(Some(unmeasured(name, unit)))
}

/// A mass; a number alone is in what the plan shows weights in, as in the window.
fn mass(options: &Options, unit: Unit) -> Result<Option<u32>, CliError> {
    let Some(text) = options.text("mass")? else { return Ok(None) };
    let grams = weights(options)?.unwrap_or(Weights::of(unit)).parse(text);
    grams.map(Some).map_err(|error| CliError::usage(format!("--mass {error}")))
}

fn at_least_nothing(measures: &Measures<'_>, name: &str) -> Result<Option<Length>, CliError> {
    let length = measures.length(name)?;
    if let Some(length) = length
        && length.is_negative()
    {
        return Err(CliError::usage(format!(
            "--{name} {} is less than nothing: a length from nothing up is wanted",
            length.text(measures.unit)
        )));
    }
    Ok(length)
}

fn hooks(
    options: &Options,
    measures: &Measures<'_>,
    hanging: &Hanging,
) -> Result<Hooks, CliError> {
    let Some(text) = options.text("hooks")? else { return Ok(Hooks::One) };
    let wrong = || {
        CliError::usage(format!(
            "--hooks \"{text}\" is not known: 1, or 2 and how far apart they are, is wanted, as \
             in --hooks 2,8in"
        ))
    };
    match text.split_once(',') {
        None if text.trim() == "1" => Ok(Hooks::One),
        // Half of the rings' distance, as good as any: then the slope is half of the wire.
        None if text.trim() == "2" => {
            let width = hanging.rings_apart.or(hanging.frame_size.map(|size| size.width));
            width.map(|width| Hooks::Two(width.scaled(1, 2))).ok_or_else(|| {
                CliError::usage(
                    "--hooks 2 wants how far apart they are, as in --hooks 2,8in, or --rings \
                     beside it: then half of what these are apart is taken",
                )
            })
        }
        Some((count, apart)) if count.trim() == "2" => {
            let apart = length::parse(apart, measures.unit)
                .map_err(|error| CliError::usage(format!("--hooks: {error}")))?;
            if apart.is_negative() || apart > Length::mm(100_000) {
                return Err(wrong());
            }
            Ok(Hooks::Two(apart))
        }
        _ => Err(wrong()),
    }
}
