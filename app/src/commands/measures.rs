//! Lengths in options. A bare number takes the document's unit; with none given, the first
//! unit typed in the same command; with none at all, inches.

use sightedge_core::geometry::Size;
use sightedge_core::length::{self, Length, Unit};

use super::options::Options;
use super::outcome::CliError;

/// Reads the lengths of one command.
#[derive(Clone, Copy, Debug)]
pub(super) struct Measures<'a> {
    options: &'a Options,
    /// What bare numbers mean.
    pub(super) unit: Unit,
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
        Ok(Self { options, unit: unit.unwrap_or_default() })
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
    if length.abs() > super::lengths::MOST {
        return Err(CliError::usage(format!(
            "--{name}: {} is longer than anything on a bench: at most 100 m is taken",
            length.text(Unit::Millimetre)
        )));
    }
    Ok(())
}
