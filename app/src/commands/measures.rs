//! Lengths in options. A bare number takes the document's unit; with none given, the first
//! unit typed in the same command; with none at all, inches.

use sightedge_core::geometry::{Sides, Size};
use sightedge_core::length::{self, Length, Unit};

use super::options::Options;
use super::outcome::CliError;

/// Reads the lengths of one command.
#[derive(Clone, Copy, Debug)]
pub(super) struct Measures<'a> {
    options: &'a Options,
    /// What bare numbers mean.
    pub(super) unit: Unit,
    /// Whether no unit was typed anywhere.
    pub(super) taken_as_inches: bool,
}

/// Nothing on a bench is longer; core's arithmetic has room to spare beyond it.
pub(super) const MOST: Length = Length::mm(100_000);

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

impl<'a> Measures<'a> {
    /// `lengths` are the options that hold lengths.
    pub(super) fn of(options: &'a Options, lengths: &[&str]) -> Result<Self, CliError> {
        let unit = match options.text("unit")? {
            Some("in") => Some(Unit::Inch),
            Some("mm") => Some(Unit::Millimetre),
            Some(other) => {
                return Err(CliError::usage(format!(
                    "--unit \"{other}\" is no unit here: in or mm is wanted"
                )));
            }
            None => options
                .texts()
                .filter(|(name, _)| lengths.contains(name))
                .find_map(|(_, text)| length::first_unit(text)),
        };
        Ok(Self { options, unit: unit.unwrap_or_default(), taken_as_inches: unit.is_none() })
    }

    /// Bare numbers are those of a plan that is there already.
    pub(super) const fn of_plan(options: &'a Options, unit: Unit) -> Self {
        Self { options, unit, taken_as_inches: false }
    }

    /// Four sides, or one length for all of them.
    pub(super) fn sides(&self, name: &str) -> Result<Option<Sides<Length>>, CliError> {
        let Some(list) = self.list(name)? else { return Ok(None) };
        match list.as_slice() {
            [all] => Ok(Some(Sides::all(*all))),
            [top, right, bottom, left] => Ok(Some(Sides::new(*top, *right, *bottom, *left))),
            other => Err(CliError::usage(format!(
                "--{name} holds {} lengths: one for all sides, or top, right, bottom and left \
                 are wanted, as in --{name} 1/4,1/4,3/8,1/4in",
                other.len()
            ))),
        }
    }

    /// Lengths parted by commas.
    pub(super) fn list(&self, name: &str) -> Result<Option<Vec<Length>>, CliError> {
        let Some(text) = self.options.text(name)? else { return Ok(None) };
        let list = length::parse_list(text, self.unit).map_err(|e| wrong(name, &e))?;
        for length in &list {
            within(name, *length)?;
        }
        Ok(Some(list))
    }

    /// One length.
    pub(super) fn length(&self, name: &str) -> Result<Option<Length>, CliError> {
        let Some(text) = self.options.text(name)? else { return Ok(None) };
        let length = length::parse(text, self.unit).map_err(|e| wrong(name, &e))?;
        within(name, length)?;
        Ok(Some(length))
    }

    /// A printed area: both sides, or one of them, above zero.
    pub(super) fn area(&self, name: &str) -> Result<Option<Area>, CliError> {
        let Some(text) = self.options.text(name)? else { return Ok(None) };
        let (one, area): (_, fn(Length) -> Area) =
            match text.trim().strip_prefix(['x', 'X', '×']) {
                Some(height) => (height, Area::Height),
                None => (text, Area::Width),
            };
        // Two sides are no length; what is neither is refused as a size.
        let Ok(side) = length::parse(one, self.unit) else {
            return Ok(self.size(name)?.map(Area::Both));
        };
        within(name, side)?;
        if !side.is_positive() {
            return Err(CliError::usage(format!(
                "--{name} {text} is no size: give a width above zero, as in --{name} 11in, a \
                 height, as in --{name} x15in, or both, as in --{name} 11x15in"
            )));
        }
        Ok(Some(area(side)))
    }

    /// A width and a height, both above zero.
    pub(super) fn size(&self, name: &str) -> Result<Option<Size>, CliError> {
        let Some(text) = self.options.text(name)? else { return Ok(None) };
        let (width, height) =
            length::parse_pair(text, self.unit).map_err(|e| wrong(name, &e))?;
        let size = Size::new(width, height);
        within(name, width)?;
        within(name, height)?;
        if !size.is_positive() {
            return Err(CliError::usage(format!(
                "--{name} {text} is no size: a width and a height above zero are wanted, as in \
                 --{name} 16x20in"
            )));
        }
        Ok(Some(size))
    }
}

fn wrong(name: &str, error: &length::LengthError) -> CliError {
    CliError::usage(format!("--{name}: {error}"))
}

fn within(name: &str, length: Length) -> Result<(), CliError> {
    if length.abs() > MOST {
        return Err(CliError::usage(format!(
            "--{name}: {} is longer than anything on a bench: at most 100 m is taken",
            length.text(Unit::Millimetre)
        )));
    }
    Ok(())
}
