//! What is written as text in a plan: lengths and sizes with their units, angles, colours,
//! grades, hashes, ids. Each is checked while it is read, so that a refusal has its line.

use serde::de::{Deserializer, Error, Visitor};
use serde::{Deserialize, Serialize, Serializer};

use crate::geometry;
use crate::length::{Length, Style, Unit, first_unit, parse};
use crate::material;
use crate::spec::Angle;

/// Reads a text and makes something of it; `wanted` says what, with an example.
pub(in crate::file) fn text<'de, D: Deserializer<'de>, T>(
    from: D,
    wanted: &'static str,
    read: fn(&str) -> Result<T, String>,
) -> Result<T, D::Error> {
    struct Reading<T> {
        wanted: &'static str,
        read: fn(&str) -> Result<T, String>,
    }
    impl<T> Visitor<'_> for Reading<T> {
        type Value = T;
        fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            f.write_str(self.wanted)
        }
        fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
            (self.read)(text).map_err(E::custom)
        }
    }
    from.deserialize_str(Reading { wanted, read })
}

/// The first few characters of what was found, for an error.
pub(in crate::file) fn found(text: &str) -> String {
    let mut short: String = text.chars().take(60).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    format!("{short:?}")
}

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
        format!(
            "{} has no unit: in a plan each length has one, as in 13 1/2 in or 343 mm",
            found(text)
        )
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
                    "{} is no thickness: it must be above zero, as in 1.4 mm",
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
                    "{} is no size: a width and a height parted by x are wanted, as in \
                     13 in x 19 in",
                    found(text)
                ));
            };
            let (width, height) = (measured(width)?, measured(height)?);
            let size = geometry::Size::new(width.0, height.0);
            if size.is_positive() {
                Ok(Self(size, width.1))
            } else {
                Err(format!("{} is no size: both sides must be above zero", found(text)))
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
                    "{} is no angle of a bevel: 30 to 89 degrees in steps of a tenth are \
                     wanted, as in 45 degrees",
                    found(text)
                )
            })
        })
    }
}

/// A colour: `#f4f1ea`.
#[derive(Clone, Copy)]
pub(in crate::file) struct Colour(pub(in crate::file) material::Colour);

impl Serialize for Colour {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.0.hex())
    }
}

impl<'de> Deserialize<'de> for Colour {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a colour in quotes, as in \"#f4f1ea\"", |text| {
            material::Colour::from_hex(text)
                .map(Self)
                .ok_or_else(|| format!("{} is no colour: try #f4f1ea", found(text)))
        })
    }
}

/// What a board is made of, by its key.
#[derive(Clone, Copy)]
pub(in crate::file) struct Grade(pub(in crate::file) material::Grade);

impl Serialize for Grade {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.0.key())
    }
}

impl<'de> Deserialize<'de> for Grade {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a grade in quotes, as in \"cotton-buffered\"", |text| {
            material::Grade::from_key(text).map(Self).ok_or_else(|| {
                let keys = material::Grade::ALL.map(material::Grade::key).join(", ");
                format!("{} is no grade: one of {keys} is wanted", found(text))
            })
        })
    }
}

/// SHA-256 in lower-case hexadecimal.
#[derive(Clone, Serialize)]
#[serde(transparent)]
pub(in crate::file) struct Sha256(pub(in crate::file) String);

impl<'de> Deserialize<'de> for Sha256 {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a SHA-256 in quotes", |text| {
            let digits = text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'));
            if text.len() == 64 && digits {
                Ok(Self(text.to_owned()))
            } else {
                Err(format!(
                    "{} is no SHA-256: 64 digits 0 to 9 and a to f are wanted",
                    found(text)
                ))
            }
        })
    }
}

/// What tells a plan from every other.
#[derive(Clone, Serialize)]
#[serde(transparent)]
pub(in crate::file) struct PlanId(pub(in crate::file) String);

impl PlanId {
    /// Longer ids are made by nobody.
    const LONGEST: usize = 128;
}

impl<'de> Deserialize<'de> for PlanId {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "the plan's id in quotes", |text| {
            let plain = text.bytes().all(|b| b.is_ascii_graphic());
            if plain && (1..=Self::LONGEST).contains(&text.len()) {
                Ok(Self(text.to_owned()))
            } else {
                Err(format!(
                    "{} is no id of a plan: 1 to {} letters, digits and signs without spaces \
                     are wanted",
                    found(text),
                    Self::LONGEST
                ))
            }
        })
    }
}

/// A whole number from 1 up, so far below the end of its kind that one more is always one
/// more: ids and pixels.
#[derive(Clone, Copy, Serialize)]
#[serde(transparent)]
pub(in crate::file) struct Count(pub(in crate::file) u32);

impl Count {
    const MOST: u32 = 1_000_000_000;
}

impl<'de> Deserialize<'de> for Count {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let count = u32::deserialize(from)?;
        if (1..=Self::MOST).contains(&count) {
            Ok(Self(count))
        } else {
            Err(D::Error::custom(format!(
                "{count} is out of range: a whole number from 1 to {} is wanted",
                Self::MOST
            )))
        }
    }
}
