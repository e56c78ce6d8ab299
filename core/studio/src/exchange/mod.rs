//! The whole record as text, complete enough to rebuild it: one RON file, or a folder of CSV
//! tables for a spreadsheet.

mod csv;

pub use csv::{TABLES, from_csv, to_csv};

use ron::ser::PrettyConfig;

use crate::{Dump, Error};

/// A record as RON. The same record always gives the same bytes.
///
/// # Errors
/// Where a text cannot be written, which no record of this program holds.
pub fn to_ron(dump: &Dump) -> Result<String, Error> {
    let pretty = PrettyConfig::new().new_line("\n").indentor(" ").depth_limit(3);
    let body = ron::ser::to_string_pretty(dump, pretty)
        .map_err(|error| Error::Unreadable(format!("the record cannot be written: {error}")))?;
    Ok(format!("// A Sightedge studio record.\n{body}\n"))
}

/// The record in such a text. `name` is what errors call it.
///
/// # Errors
/// Says where, what was found and what to do.
pub fn from_ron(text: &str, name: &str) -> Result<Dump, Error> {
    ron::from_str(text).map_err(|error| {
        Error::Unreadable(format!(
            "{name} is no exported record (line {}, column {}: {}): export it again, or \
             correct that place",
            error.span.start.line, error.span.start.col, error.code
        ))
    })
}
