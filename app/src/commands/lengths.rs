//! Lengths in options. A bare number takes the plan's unit; of a new plan the first unit typed
//! in the same command; with none at all, inches. So lengths are read in two steps: as text
//! with the other options, and as lengths when the unit is known.

use clap::builder::ValueParserFactory;
use sightedge_core::geometry::{Point, Sides, Size};
use sightedge_core::length::{self, Length, Unit};

use super::outcome::CliError;
use super::values::Read;

/// Nothing on a bench is longer; core's arithmetic has room to spare beyond it.
pub(super) const MOST: Length = Length::mm(100_000);

/// One or several lengths as they were typed behind an option.
#[derive(Clone, Debug)]
pub(super) struct Measure {
    option: String,
    pub(super) text: String,
}

impl ValueParserFactory for Measure {
    type Parser = Read<Self>;

    fn value_parser() -> Read<Self> {
        Read(|option, text| Ok(Self { option: option.to_owned(), text: text.to_owned() }))
    }
}

/// What is typed of a printed area.
#[derive(Clone, Copy, Debug)]
pub(super) enum Area {
    /// Both sides.
    Both(Size),
    /// The width; the height follows from the picture's proportion.
    Width(Length),
    /// The height; the width follows.
    Height(Length),
}

/// Reads measures whose bare numbers are in `unit`; each may be missing.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lengths {
    pub(super) unit: Unit,
}

impl Lengths {
    /// One length.
    pub(super) fn length(self, typed: Option<&Measure>) -> Result<Option<Length>, CliError> {
        typed.map(|typed| typed.length(self.unit)).transpose()
    }

    /// One length, which may be nothing but not less.
    pub(super) fn not_negative(
        self,
        typed: Option<&Measure>,
    ) -> Result<Option<Length>, CliError> {
        let length = self.length(typed)?;
        if let Some((length, typed)) = length.zip(typed)
            && length.is_negative()
        {
            return Err(CliError::usage(format!(
                "--{} {} is less than zero: give a length of zero or more",
                typed.option,
                length.text(self.unit)
            )));
        }
        Ok(length)
    }

    /// Lengths parted by commas; none where none is typed.
    pub(super) fn list(self, typed: Option<&Measure>) -> Result<Vec<Length>, CliError> {
        typed.map(|typed| typed.list(self.unit)).transpose().map(Option::unwrap_or_default)
    }

    /// Four sides, or one length for all of them.
    pub(super) fn sides(
        self,
        typed: Option<&Measure>,
    ) -> Result<Option<Sides<Length>>, CliError> {
        typed.map(|typed| typed.sides(self.unit)).transpose()
    }

    /// A width and a height, both above zero.
    pub(super) fn size(self, typed: Option<&Measure>) -> Result<Option<Size>, CliError> {
        typed.map(|typed| typed.size(self.unit)).transpose()
    }

    /// A printed area: both sides, or one of them, above zero.
    pub(super) fn area(self, typed: Option<&Measure>) -> Result<Option<Area>, CliError> {
        typed.map(|typed| typed.area(self.unit)).transpose()
    }

    /// A place on the sheet, from its top left.
    pub(super) fn place(self, typed: Option<&Measure>) -> Result<Option<Point>, CliError> {
        typed.map(|typed| typed.place(self.unit)).transpose()
    }
}

impl Measure {
    pub(super) fn length(&self, unit: Unit) -> Result<Length, CliError> {
        let length = length::parse(&self.text, unit).map_err(|error| self.wrong(&error))?;
        self.within(length)
    }

    fn list(&self, unit: Unit) -> Result<Vec<Length>, CliError> {
        let list = length::parse_list(&self.text, unit).map_err(|error| self.wrong(&error))?;
        list.into_iter().map(|length| self.within(length)).collect()
    }

    fn sides(&self, unit: Unit) -> Result<Sides<Length>, CliError> {
        match self.list(unit)?.as_slice() {
            [all] => Ok(Sides::all(*all)),
            [top, right, bottom, left] => Ok(Sides::new(*top, *right, *bottom, *left)),
            other => Err(CliError::usage(format!(
                "--{0} has {1} lengths: give one for all sides, or top, right, bottom and \
                 left, as in --{0} 1/4,1/4,3/8,1/4in",
                self.option,
                other.len()
            ))),
        }
    }

    /// Two lengths parted by x, of any size.
    pub(super) fn pair(&self, unit: Unit) -> Result<(Length, Length), CliError> {
        length::parse_pair(&self.text, unit).map_err(|error| self.wrong(&error))
    }

    pub(super) fn size(&self, unit: Unit) -> Result<Size, CliError> {
        let (width, height) = self.pair(unit)?;
        let size = Size::new(self.within(width)?, self.within(height)?);
        if !size.is_positive() {
            return Err(CliError::usage(format!(
                "--{0} {1} is not a size: give a width and a height above zero, as in --{0} \
                 16x20in",
                self.option, self.text
            )));
        }
        Ok(size)
    }

    fn area(&self, unit: Unit) -> Result<Area, CliError> {
        let (one, area): (_, fn(Length) -> Area) =
            match self.text.trim().strip_prefix(['x', 'X', '×']) {
                Some(height) => (height, Area::Height),
                None => (&self.text, Area::Width),
            };
        // Two sides are no length; what is neither is refused as a size.
        let Ok(side) = length::parse(one, unit) else { return self.size(unit).map(Area::Both) };
        let side = self.within(side)?;
        if !side.is_positive() {
            return Err(CliError::usage(format!(
                "--{0} {1} is not a size: give a width above zero, as in --{0} 11in, a \
                 height, as in --{0} x15in, or both, as in --{0} 11x15in",
                self.option, self.text
            )));
        }
        Ok(area(side))
    }

    fn place(&self, unit: Unit) -> Result<Point, CliError> {
        match self.list(unit)?.as_slice() {
            [x, y] => Ok(Point::new(*x, *y)),
            _ => Err(CliError::usage(format!(
                "--{0} {1} is not a place: give two lengths from the sheet's top left corner, \
                 as in --{0} 1,1 1/2in",
                self.option, self.text
            ))),
        }
    }

    fn wrong(&self, error: &length::LengthError) -> CliError {
        CliError::usage(format!("--{}: {error}", self.option))
    }

    fn within(&self, length: Length) -> Result<Length, CliError> {
        if length.abs() > MOST {
            return Err(CliError::usage(format!(
                "--{}: {} is too long: give at most 100 m",
                self.option,
                length.text(Unit::Millimetre)
            )));
        }
        Ok(length)
    }
}
