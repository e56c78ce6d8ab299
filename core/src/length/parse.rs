//! Reading the lengths people type: fractions, decimals, feet and inches, units, sums.
//!
//! Two readings are conventions of the trade and worth knowing: `13-1/2` written without
//! spaces is thirteen and a half, `13 - 1/2` is twelve and a half; and a bare number in a sum
//! takes the unit of the other terms before it takes the document's (beside feet, inches).

mod reader;
mod unit_name;

use super::ratio::{self, Ratio};
use super::{Length, Unit};
use reader::{Reader, whole};
use unit_name::{Name, unit_name};

/// A length as typed, before its bare part has a unit: in `12 + 3 mm` the 12 is bare.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Measure {
    /// The part that carries a unit, in 1/720 µm.
    fixed: Ratio,
    /// The part without a unit.
    bare: Ratio,
    /// The last unit typed in it.
    unit: Option<Name>,
}

/// Why a text is not a length. Its words say what was typed, what is wanted and an example.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LengthError {
    typed: String,
    fault: Fault,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fault {
    Empty,
    NotALength,
    TooLarge,
    DividedByZero,
    NotOnALine,
    Unfinished,
    Count { found: usize, wanted: &'static str, example: &'static str },
}

impl std::fmt::Display for LengthError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let typed: String = self.typed.chars().take(60).collect();
        let dots = if self.typed.chars().count() > 60 { "…" } else { "" };
        match self.fault {
            Fault::Empty => write!(f, "no length was typed: try 13 1/2, 13.5 in or 343 mm"),
            Fault::NotALength => {
                write!(f, "\"{typed}{dots}\" is not a length: try 13 1/2, 13.5 in or 343 mm")
            }
            Fault::TooLarge => write!(
                f,
                "\"{typed}{dots}\" is too long: lengths go up to 1 km (3280 ft), try 343 mm"
            ),
            Fault::DividedByZero => {
                write!(f, "\"{typed}{dots}\" divides by zero: try 13 1/2 or 27/2")
            }
            Fault::NotOnALine => write!(
                f,
                "\"{typed}{dots}\" multiplies or divides a length by a length: use a length \
                 and a number, as in 2*1/8 in"
            ),
            Fault::Unfinished => write!(
                f,
                "\"{typed}{dots}\" stops before its last length: try 16 - 2*1/8 or 343 mm"
            ),
            Fault::Count { found, wanted, example } => {
                write!(
                    f,
                    "\"{typed}{dots}\" has {found} length{}: give {wanted}, as in {example}",
                    if found == 1 { "" } else { "s" }
                )
            }
        }
    }
}

impl std::error::Error for LengthError {}

impl Measure {
    /// The length itself: what is bare takes the unit typed beside it, else it is so many times
    /// `other`. `None` where it is out of all measure.
    fn length(self, other: Length) -> Option<Length> {
        let one = self.unit.map_or(other, |name| name.beside().length());
        let all = self.bare.times(whole(one))?.plus(self.fixed)?;
        let length = Length::from_units(ratio::round(all.over, all.under));
        (length.abs() <= Length::MOST).then_some(length)
    }

    const NOTHING: Self = Self { fixed: Ratio::ZERO, bare: Ratio::ZERO, unit: None };

    fn bare(number: Ratio) -> Self {
        Self { bare: number, ..Self::NOTHING }
    }

    fn plus(self, other: Self) -> Option<Self> {
        Some(Self {
            fixed: self.fixed.plus(other.fixed)?,
            bare: self.bare.plus(other.bare)?,
            unit: other.unit.or(self.unit),
        })
    }

    fn negated(self) -> Self {
        Self { fixed: self.fixed.negated(), bare: self.bare.negated(), unit: self.unit }
    }

    fn is_bare(self) -> bool {
        self.unit.is_none()
    }

    fn times(self, number: Ratio) -> Option<Self> {
        Some(Self {
            fixed: self.fixed.times(number)?,
            bare: self.bare.times(number)?,
            unit: self.unit,
        })
    }
}

impl Unit {
    /// One of this unit.
    pub const fn length(self) -> Length {
        match self {
            Self::Inch => Length::INCH,
            Self::Millimetre => Length::MM,
        }
    }

    /// How the unit is written behind a number.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
        }
    }
}

/// Reads one length. A bare number takes `unit`; a comma may stand for the decimal point.
///
/// # Errors
/// Says what was typed, what is wanted and an example.
pub fn parse(text: &str, unit: Unit) -> Result<Length, LengthError> {
    let measure = read(text, Comma::Decimal)?;
    measure.length(unit.length()).ok_or_else(|| too_large(text))
}

/// The first unit typed in `text`, which may be one length, a pair or a list; `None` where
/// there is none or the text cannot be read.
pub fn first_unit(text: &str) -> Option<Unit> {
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        if let Some((name, _)) = unit_name(rest) {
            return Some(name.system());
        }
        rest = &rest[c.len_utf8()..];
    }
    None
}

/// Reads a list parted by commas, of any number of lengths. A unit on the last value covers
/// those without.
///
/// # Errors
/// As [`parse`], naming the part that cannot be read.
pub fn parse_list(text: &str, unit: Unit) -> Result<Vec<Length>, LengthError> {
    covered(text.split(','), unit)
}

/// Reads a pair `WxH`: two lengths parted by `x` or `×`. A unit on the last covers the first.
///
/// # Errors
/// As [`parse`]; also where there are not two.
pub fn parse_pair(text: &str, unit: Unit) -> Result<(Length, Length), LengthError> {
    let parts: Vec<&str> = text.split(['x', 'X', '×']).collect();
    match parts.as_slice() {
        [width, height] => {
            let read = covered([*width, *height].into_iter(), unit)?;
            Ok((read[0], read[1]))
        }
        other => Err(LengthError {
            typed: text.trim().to_owned(),
            fault: Fault::Count {
                found: other.len(),
                wanted: "a width and a height with x between them",
                example: "13 1/2x17 5/8in or 329x483mm",
            },
        }),
    }
}

fn covered<'a>(
    parts: impl Iterator<Item = &'a str>,
    unit: Unit,
) -> Result<Vec<Length>, LengthError> {
    let read: Vec<(&str, Measure)> = parts
        .map(|part| read(part, Comma::Parts).map(|measure| (part, measure)))
        .collect::<Result<_, _>>()?;
    let last = read.last().and_then(|(_, last)| last.unit);
    let other = last.map_or(unit.length(), Name::length);
    let lengths = read.into_iter();
    lengths.map(|(part, m)| m.length(other).ok_or_else(|| too_large(part))).collect()
}

fn too_large(text: &str) -> LengthError {
    LengthError { typed: text.trim().to_owned(), fault: Fault::TooLarge }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Comma {
    /// `34,3 cm` is 34.3 cm.
    Decimal,
    /// A comma parts a list and has no place inside a length.
    Parts,
}

/// No sum anyone types nests deeper.
const DEEPEST: usize = 16;
/// No number anyone types is longer.
const MOST_DIGITS: usize = 12;

fn read(text: &str, comma: Comma) -> Result<Measure, LengthError> {
    let fail = |fault| LengthError { typed: text.trim().to_owned(), fault };
    let mut reader = Reader { rest: text.trim(), comma, depth: 0 };
    if reader.rest.is_empty() {
        return Err(fail(Fault::Empty));
    }
    let measure = reader.sum().map_err(fail)?;
    if !reader.rest.is_empty() {
        return Err(fail(Fault::NotALength));
    }
    Ok(measure)
}
