//! The saved plan: RON text beside the picture, made to be read by people too.
//!
//! The saved form is not the model. Each version of it is a module of its own (`v5`), frozen
//! with its release, and versions form a ladder:
//!
//! ```text
//! text --version probed--> v5::Plan --document--> Document
//! Document --of--> v5::Plan --> text
//! ```
//!
//! For a version 6:
//! 1. a module `v6` with what it changes; it reads and writes the rest through `v5`;
//! 2. in `v5` replace `Plan::document` by `migrate(self) -> v6::Plan`; move `Plan::of` to `v6`;
//! 3. raise [`VERSION`], and give `LADDER` a rung for each: `v5`'s reads its form and migrates;
//! 4. keep what `v5` wrote as samples in the tests package (`tests/saved/v5`): they stay there and
//!    must mean what they meant.
//!
//! `tests/older.rs` does so with a version that never was. Versions 1 to 4 were not released:
//! they are refused, and their numbers stay unused.
//!
//! Reading refuses whatever it does not know rather than lose it on the next save, and keeps
//! every number so small that nothing that follows from a plan can overflow.

mod error;
pub mod reference;
pub mod store;
mod v5;

use std::cell::Cell;

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::de::{DeserializeOwned, Deserializer, Error, IgnoredAny, MapAccess, Visitor};

use crate::spec::Document;

pub use error::{Fault, ReadError};

/// The version that is written.
pub const VERSION: u64 = 5;

/// A version that is read, and how its text becomes a plan in the form of the newest.
type Rung = (u64, fn(&str, &str) -> Result<v5::Plan, ReadError>);

/// All versions that are read, the oldest first.
const LADDER: [Rung; 1] = [(5, form::<v5::Plan>)];

/// A plan is no larger: 1 MiB.
pub const MOST_BYTES: usize = 1 << 20;

/// A plan's brackets nest no deeper, counted as the parser does (a value in a field is a
/// level of its own).
const DEEPEST: usize = 48;

const HEAD: &str =
    "// A Sightedge plan: the mat round one picture. Every length has its unit.\n";

fn options() -> ron::Options {
    ron::Options::default()
        .with_default_extension(Extensions::IMPLICIT_SOME)
        .with_recursion_limit(DEEPEST)
}

/// A document as the text of a plan, in the newest version.
pub fn write(document: &Document) -> String {
    let pretty = PrettyConfig::new().new_line("\n").indentor("    ");
    // Writing to memory what serde can always write: the only failure would be a form with
    // non-text keys or too deep, which the round-trip tests exclude.
    let body = options().to_string_pretty(&v5::Plan::of(document), pretty).unwrap_or_default();
    format!("{HEAD}{}\n", plain_apostrophes(&body))
}

/// `it\'s` is `it's` within quotes; the writer escapes more than it must.
fn plain_apostrophes(ron: &str) -> String {
    let mut plain = String::with_capacity(ron.len());
    let mut rest = ron.chars();
    while let Some(c) = rest.next() {
        if c != '\\' {
            plain.push(c);
            continue;
        }
        let escaped = rest.next();
        if escaped != Some('\'') {
            plain.push(c);
        }
        plain.extend(escaped);
    }
    plain
}

/// A document that was read, and the version its file has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VersionedDocument {
    /// What the file means.
    pub document: Document,
    /// The version it was written in; below [`VERSION`] the next save migrates it.
    pub version: u64,
}

/// The document that a plan's text means. `name` is what errors call the file.
///
/// # Errors
/// Says in which file, line and column, what was found, what was wanted and what to do.
pub fn read(text: &str, name: &str) -> Result<Document, ReadError> {
    read_versioned(text, name).map(|found| found.document)
}

/// As [`read`], and also which version was found.
///
/// # Errors
/// As [`read`].
pub fn read_versioned(text: &str, name: &str) -> Result<VersionedDocument, ReadError> {
    read_on(&LADDER, text, name)
}

fn read_on(ladder: &[Rung], text: &str, name: &str) -> Result<VersionedDocument, ReadError> {
    if text.len() > MOST_BYTES {
        return Err(ReadError::new(name, Fault::TooLarge));
    }
    // Some editors put a mark before the text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let version = probe(text, name)?;
    let Some((_, plan)) = ladder.iter().find(|(known, _)| *known == version) else {
        let fault = if version > VERSION { Fault::Newer } else { Fault::NeverReleased };
        return Err(ReadError::new(name, fault(version)));
    };
    let document = plan(text, name)?.document();
    let document = document.map_err(|wrong| ReadError::inconsistent(name, wrong))?;
    Ok(VersionedDocument { document, version })
}

/// A plan in the form of its version.
fn form<T: DeserializeOwned>(text: &str, name: &str) -> Result<T, ReadError> {
    options().from_str(text).map_err(|error| ReadError::malformed(name, &error))
}

/// As [`read_versioned`], from a file's bytes.
///
/// # Errors
/// As [`read`]; also where the bytes are no text.
pub fn read_versioned_bytes(bytes: &[u8], name: &str) -> Result<VersionedDocument, ReadError> {
    if bytes.len() > MOST_BYTES {
        return Err(ReadError::new(name, Fault::TooLarge));
    }
    let text = std::str::from_utf8(bytes)
        .map_err(|error| ReadError::new(name, Fault::NotText { byte: error.valid_up_to() }))?;
    read_versioned(text, name)
}

/// The version alone, from the head of the file: the rest may be in a form not known here.
fn probe(text: &str, name: &str) -> Result<u64, ReadError> {
    struct Probe<'a>(&'a Cell<Option<u64>>);
    impl<'de> Visitor<'de> for Probe<'_> {
        type Value = ();
        fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            f.write_str("a plan")
        }
        fn visit_map<A: MapAccess<'de>>(self, mut fields: A) -> Result<(), A::Error> {
            while let Some(field) = fields.next_key::<Field>()? {
                if field.0 {
                    self.0.set(Some(fields.next_value::<u64>()?));
                    // Enough was read: any error ends it.
                    return Err(A::Error::custom(""));
                }
                fields.next_value::<IgnoredAny>()?;
            }
            Ok(())
        }
    }

    let found = Cell::new(None);
    let mut reader = ron::Deserializer::from_str_with_options(text, &options())
        .map_err(|error| ReadError::malformed(name, &error))?;
    let ended = reader.deserialize_struct("Plan", &["version"], Probe(&found));
    match (found.get(), ended) {
        (Some(version), _) if version > 0 => Ok(version),
        (Some(_), _) | (None, Ok(())) => Err(ReadError::new(name, Fault::NoVersion)),
        (None, Err(error)) => Err(ReadError::malformed(name, &reader.span_error(error))),
    }
}

/// Whether a field is the version.
struct Field(bool);

impl<'de> serde::Deserialize<'de> for Field {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Name;
        impl Visitor<'_> for Name {
            type Value = Field;
            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a field's name")
            }
            fn visit_str<E: Error>(self, name: &str) -> Result<Field, E> {
                Ok(Field(name == "version"))
            }
        }
        from.deserialize_identifier(Name)
    }
}

#[cfg(test)]
mod tests;
