//! Reads the values of options. What is refused says the option, what was found, what is
//! needed and how it is typed.

use std::ffi::OsStr;

use clap::builder::TypedValueParser;
use sightedge_core::length::Unit;
use sightedge_core::material::{Humidity, Rate};
use sightedge_core::spec::Ruler;
use sightedge_core::weight::Weights;

use super::outcome::CliError;
use super::refusal;

/// Reads the value of an option with a function of the option's name and the text behind it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Read<T>(pub(super) fn(&str, &str) -> Result<T, String>);

impl<T: Clone + Send + Sync + 'static> TypedValueParser for Read<T> {
    type Value = T;

    fn parse_ref(
        &self,
        _: &clap::Command,
        arg: Option<&clap::Arg>,
        value: &OsStr,
    ) -> Result<T, clap::Error> {
        let name = arg.and_then(clap::Arg::get_long);
        let text = value.to_str().ok_or_else(|| match name {
            Some(name) => format!("the value of --{name} is not readable text: type it again"),
            None => format!("\"{}\" is not readable text: type it again", value.display()),
        });
        text.and_then(|text| (self.0)(name.unwrap_or_default(), text))
            .map_err(|words| refusal::of_value(&words))
    }
}

/// Any text.
#[expect(clippy::unnecessary_wraps, reason = "other readers refuse some texts")]
pub(super) fn text(_: &str, text: &str) -> Result<String, String> {
    Ok(text.to_owned())
}

/// One of several by its key.
pub(super) fn keyed<T: Copy>(
    (name, text): (&str, &str),
    all: &[T],
    key: fn(T) -> &'static str,
) -> Result<T, String> {
    all.iter().copied().find(|one| key(*one) == text).ok_or_else(|| {
        let keys: Vec<_> = all.iter().map(|one| key(*one)).collect();
        format!("--{name} \"{text}\" is not known: use one of {}", keys.join(", "))
    })
}

pub(super) fn unit(name: &str, text: &str) -> Result<Unit, String> {
    match text {
        "in" => Ok(Unit::Inch),
        "mm" => Ok(Unit::Millimetre),
        other => Err(format!("--{name} \"{other}\" is not a unit here: use in or mm")),
    }
}

pub(super) fn weights(name: &str, text: &str) -> Result<Weights, String> {
    Weights::from_key(text).ok_or_else(|| {
        format!(
            "--{name} \"{text}\" is not known: use lb (ounces, pounds) or g (grams, \
             kilograms, newtons)"
        )
    })
}

/// How a paper grows.
pub(super) fn rate(name: &str, text: &str) -> Result<Rate, String> {
    Rate::read(text).ok_or_else(|| {
        format!(
            "--{name} \"{text}\" is not a growth: give percent of the length for each percent \
             of relative humidity, 0 to 1, as in --{name} 0.015"
        )
    })
}

pub(super) fn humidity(name: &str, text: &str) -> Result<Humidity, String> {
    Humidity::read(text).ok_or_else(|| {
        format!("--{name} \"{text}\" is not a humidity: give 0 to 100 %, as in --{name} 50")
    })
}

/// A count of pixels along one side of a picture.
pub(super) fn pixels(name: &str, text: &str) -> Result<u32, String> {
    text.parse()
        .ok()
        .filter(|size| (16..=16_384).contains(size))
        .ok_or_else(|| format!("--{name} {text} is not a size: give 16 to 16384 pixels"))
}

/// The ruler of a plan in `unit`, by its parts; the usual one where none is given.
pub(super) fn ruler(text: Option<&str>, unit: Unit) -> Result<Ruler, CliError> {
    let Some(text) = text else { return Ok(Ruler::usual(unit)) };
    text.parse().ok().and_then(|parts| Ruler::new(unit, parts)).ok_or_else(|| {
        let wanted = match unit {
            Unit::Inch => "8, 16, 32, 64 or 128 parts of an inch",
            Unit::Millimetre => "1, 2, 5 or 10 parts of a millimetre",
        };
        CliError::usage(format!("--ruler {text} does not suit this plan: use {wanted}"))
    })
}
