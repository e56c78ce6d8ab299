//! Lengths, sizes and angles as text, each with its unit.

use serde::de::Deserializer;
use serde::{Deserialize, Serialize, Serializer};

use super::{found, text};
use crate::geometry;
use crate::length::{Length, Style, Unit, first_unit, parse};
use crate::spec::Angle;

/// A length with its unit; written in the document's unit unless only the other one gives
/// a short text.
#[derive(Clone, Copy)]
pub(in crate::file) struct Measured(pub(in crate::file) Length, pub(in crate::file) Unit);

impl Measured {
    fn write(self) -> String {
        let Self(length, unit) = self;
        let other = match unit {
            Unit::Inch => Unit::Millimetre,
            Unit::Millimetre => Unit::Inch,
        };
        let better =
            if !is_short(length, unit) && is_short(length, other) { other } else { unit };
        length.exact(better)
    }
}

/// On a ruler or a scale that people have.
fn is_short(length: Length, unit: Unit) -> bool {
    match unit {
        Unit::Inch => {
            length.write(Style::InchFraction(128)).exact
                || length.write(Style::InchDecimal).exact
        }
        Unit::Millimetre => length.write(Style::Millimetre).exact,
    }
}

fn measured(text: &str) -> Result<Measured, String> {
    let length = parse(text, Unit::Inch).map_err(|error| error.to_string())?;
    let unit = first_unit(text).ok_or_else(|| {
        format!("{} has no unit: give it one, as in 13 1/2 in or 343 mm", found(text))
    })?;
    Ok(Measured(length, unit))
}

impl Serialize for Measured {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.write())
    }
}

impl<'de> Deserialize<'de> for Measured {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a length in quotes, as in \"13 1/2 in\" or \"343 mm\"", measured)
    }
}

/// A thickness: above nothing.
#[derive(Clone, Copy, Serialize)]
#[serde(transparent)]
pub(in crate::file) struct Thickness(pub(in crate::file) Measured);

impl<'de> Deserialize<'de> for Thickness {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a thickness in quotes, as in \"0.06 in\" or \"1.4 mm\"", |text| {
            let read = measured(text)?;
            if read.0.is_positive() {
                Ok(Self(read))
            } else {
                Err(format!(
                    "{} is not a thickness: give one above zero, as in 1.4 mm",
                    found(text)
                ))
            }
        })
    }
}

/// A width and a height, both above nothing: `13 in x 19 in`.
#[derive(Clone, Copy)]
pub(in crate::file) struct Size(pub(in crate::file) geometry::Size, pub(in crate::file) Unit);

impl Serialize for Size {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let Self(size, unit) = *self;
        let (width, height) = (Measured(size.width, unit), Measured(size.height, unit));
        to.serialize_str(&format!("{} x {}", width.write(), height.write()))
    }
}

impl<'de> Deserialize<'de> for Size {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a width and a height in quotes, as in \"13 in x 19 in\"", |text| {
            let parts: Vec<&str> = text.split(['x', 'X', '×']).collect();
            let [width, height] = parts.as_slice() else {
                return Err(format!(
                    "{} is not a size: give a width and a height with x between them, as in 13 in x \
                     19 in",
                    found(text)
                ));
            };
            let (width, height) = (measured(width)?, measured(height)?);
            let size = geometry::Size::new(width.0, height.0);
            if size.is_positive() {
                Ok(Self(size, width.1))
            } else {
                Err(format!("{} is not a size: both sides must be above zero", found(text)))
            }
        })
    }
}

/// An angle in degrees and their tenths: `45 degrees`, `52.5 degrees`.
#[derive(Clone, Copy)]
pub(in crate::file) struct Degrees(pub(in crate::file) Angle);

impl Serialize for Degrees {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let tenths = self.0.tenths();
        to.serialize_str(&match tenths % 10 {
            0 => format!("{} degrees", tenths / 10),
            part => format!("{}.{part} degrees", tenths / 10),
        })
    }
}

impl<'de> Deserialize<'de> for Degrees {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "an angle in quotes, as in \"45 degrees\"", |text| {
            let tenths = || {
                let number = text.trim().strip_suffix("degrees")?.trim_end();
                let (whole, part) = number.split_once('.').unwrap_or((number, "0"));
                let digits = |text: &str, most: usize| {
                    (1..=most).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit())
                };
                if !digits(whole, 2) || !digits(part, 1) {
                    return None;
                }
                let (whole, part) = (whole.parse::<u16>().ok()?, part.parse::<u16>().ok()?);
                Angle::from_tenths(whole * 10 + part)
            };
            tenths().map(Self).ok_or_else(|| {
                format!(
                    "{} is not a bevel's angle: give 30 to 89 degrees in steps of a tenth, as \
                     in 45 degrees",
                    found(text)
                )
            })
        })
    }
}
