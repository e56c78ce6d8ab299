//! Lengths in options. A bare number takes the document's unit; with none given, the first
//! unit typed in the same command; with none at all, inches.

use sightedge_core::geometry::{Sides, Size};
use sightedge_core::length::{self, Length, Unit};

use super::options::Options;
use super::outcome::Trouble;

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

impl<'a> Measures<'a> {
    /// `lengths` are the options that hold lengths.
    pub(super) fn of(options: &'a Options, lengths: &[&str]) -> Result<Self, Trouble> {
        let unit = match options.text("unit")? {
            Some("in") => Some(Unit::Inch),
            Some("mm") => Some(Unit::Millimetre),
            Some(other) => {
                return Err(Trouble::usage(format!(
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
    pub(super) fn sides(&self, name: &str) -> Result<Option<Sides<Length>>, Trouble> {
        let Some(list) = self.list(name)? else { return Ok(None) };
        match list.as_slice() {
            [all] => Ok(Some(Sides::all(*all))),
            [top, right, bottom, left] => Ok(Some(Sides::new(*top, *right, *bottom, *left))),
            other => Err(Trouble::usage(format!(
                "--{name} holds {} lengths: one for all sides, or top, right, bottom and left \
                 are wanted, as in --{name} 1/4,1/4,3/8,1/4in",
                other.len()
            ))),
        }
    }

    /// Lengths parted by commas.
    pub(super) fn list(&self, name: &str) -> Result<Option<Vec<Length>>, Trouble> {
        let Some(text) = self.options.text(name)? else { return Ok(None) };
        let list = length::parse_list(text, self.unit).map_err(|e| wrong(name, &e))?;
        for length in &list {
            within(name, *length)?;
        }
        Ok(Some(list))
    }

    /// One length.
    pub(super) fn length(&self, name: &str) -> Result<Option<Length>, Trouble> {
        let Some(text) = self.options.text(name)? else { return Ok(None) };
        let length = length::parse(text, self.unit).map_err(|e| wrong(name, &e))?;
        within(name, length)?;
        Ok(Some(length))
    }

    /// A width and a height, both above zero.
    pub(super) fn size(&self, name: &str) -> Result<Option<Size>, Trouble> {
        let Some(text) = self.options.text(name)? else { return Ok(None) };
        let (width, height) =
            length::parse_pair(text, self.unit).map_err(|e| wrong(name, &e))?;
        let size = Size::new(width, height);
        within(name, width)?;
        within(name, height)?;
        if !size.is_positive() {
            return Err(Trouble::usage(format!(
                "--{name} {text} is no size: a width and a height above zero are wanted, as in \
                 --{name} 16x20in"
            )));
        }
        Ok(Some(size))
    }
}

fn wrong(name: &str, error: &length::LengthError) -> Trouble {
    Trouble::usage(format!("--{name}: {error}"))
}

fn within(name: &str, length: Length) -> Result<(), Trouble> {
    if length.abs() > MOST {
        return Err(Trouble::usage(format!(
            "--{name}: {} is longer than anything on a bench: at most 100 m is taken",
            length.text(Unit::Millimetre)
        )));
    }
    Ok(())
}
