//! Why a plan cannot be read, in words: which file and where, what was found, what was wanted
//! and what to do.

use ron::error::{Error, SpannedError};

use super::v5::Inconsistency;
use super::{MOST_BYTES, VERSION};

/// Why a plan cannot be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadError {
    name: String,
    /// Line and column, from 1.
    at: Option<(usize, usize)>,
    fault: Fault,
}

/// What sort of fault a plan has.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Fault {
    /// Larger than any plan.
    TooLarge,
    /// Its bytes are no UTF-8 text.
    NotText {
        /// How many bytes were.
        byte: usize,
    },
    /// It says of no version that it is one: probably no plan at all.
    NoVersion,
    /// Written in a version of before the first release.
    NeverReleased(u64),
    /// Written by a newer program.
    Newer(u64),
    /// Text that is no plan: a bracket missing, an unknown field, no length.
    Malformed(String),
    /// Well formed, but its parts do not fit each other.
    Senseless {
        /// As in `variant 1, opening 2`; empty for the plan itself.
        place: String,
        /// What was found, and what is wanted.
        words: String,
    },
}

impl ReadError {
    pub(super) fn new(name: &str, fault: Fault) -> Self {
        Self { name: name.to_owned(), at: None, fault }
    }

    pub(super) fn malformed(name: &str, error: &SpannedError) -> Self {
        let at = error.span.start;
        Self {
            name: name.to_owned(),
            at: Some((at.line, at.col)),
            fault: Fault::Malformed(words(&error.code)),
        }
    }

    pub(super) fn inconsistent(name: &str, inconsistent: Inconsistency) -> Self {
        let Inconsistency { place, words } = inconsistent;
        Self::new(name, Fault::Senseless { place, words })
    }

    /// What sort of fault it is.
    pub const fn fault(&self) -> &Fault {
        &self.fault
    }

    /// Line and column where reading stopped, both from 1; `None` where the fault has no
    /// one place.
    pub const fn line_and_column(&self) -> Option<(usize, usize)> {
        self.at
    }
}

impl std::fmt::Display for ReadError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        const MEND: &str = "Correct it in a text editor, or open the backup beside it (.bak)";
        write!(f, "{}", self.name)?;
        if let Some((line, column)) = self.at {
            write!(f, ", line {line}, column {column}")?;
        }
        match &self.fault {
            Fault::TooLarge => write!(
                f,
                ": this file is larger than any plan ({} KiB at most). Choose the plan \
                 itself, a file that ends in .sightedge.ron",
                MOST_BYTES / 1024
            ),
            Fault::NotText { byte } => write!(
                f,
                ": this is not a text file (byte {byte} is not UTF-8), and plans are. Choose \
                 the plan itself, a file that ends in .sightedge.ron; make a plan from a \
                 picture with sightedge new; or open the backup beside it (.bak)"
            ),
            Fault::NoVersion => write!(
                f,
                ": it has no version, so it is not a plan (a plan has one, as in version: \
                 {VERSION}). Choose a file that ends in .sightedge.ron, or open the backup \
                 beside it (.bak)"
            ),
            Fault::NeverReleased(found) => write!(
                f,
                " was saved by version {found} of the plan's format, which was never released; \
                 this program reads version {VERSION}. Move the file aside and make the plan \
                 again from its picture (sightedge new); any text editor shows the old figures. \
                 Nothing in it was changed"
            ),
            Fault::Newer(found) => write!(
                f,
                ": it was saved in version {found} of the plan's format, and this program \
                 reads up to version {VERSION}. Open it with a newer Sightedge; nothing in it \
                 was changed"
            ),
            Fault::Malformed(words) => write!(f, ": {words}. {MEND}"),
            Fault::Senseless { place, words } if place.is_empty() => {
                write!(f, ": {words}. {MEND}")
            }
            Fault::Senseless { place, words } => write!(f, ", {place}: {words}. {MEND}"),
        }
    }
}

impl std::error::Error for ReadError {}

/// The parser's errors that people meet, in our words; the rest in its own.
fn words(error: &Error) -> String {
    match error {
        Error::NoSuchStructField { expected, found, .. } => {
            format!("there is no field \"{}\": use {}", short(found), one_of(expected))
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            format!("\"{}\" is not known: use {}", short(found), one_of(expected))
        }
        Error::MissingStructField { field, .. } => {
            format!("the field \"{field}\" is missing before this bracket: add it")
        }
        Error::DuplicateStructField { field, .. } => {
            format!("the field \"{field}\" is there twice: remove one of them")
        }
        Error::InvalidValueForType { expected, found } => {
            format!("found {}, but this needs {expected}", short(found))
        }
        Error::ExpectedString => "this needs text in quotes, as in \"13 1/2 in\"".to_owned(),
        Error::ExpectedInteger => "this needs a whole number".to_owned(),
        Error::IntegerOutOfBounds => {
            "this number is out of range: use a smaller whole number, zero or above".to_owned()
        }
        Error::ExpectedBoolean => "this needs true or false".to_owned(),
        Error::ExpectedArray => "this needs a list, as in [ … ]".to_owned(),
        Error::ExpectedNamedStructLike(_) | Error::ExpectedStructLike => {
            "this needs fields in brackets, as in ( … )".to_owned()
        }
        Error::ExceededRecursionLimit => {
            "brackets are nested deeper here than in any plan: remove the extra ones".to_owned()
        }
        Error::Eof => "the file ends in the middle of the plan".to_owned(),
        other => short(&other.to_string()),
    }
}

fn one_of(names: &[&str]) -> String {
    match names {
        [] => "nothing".to_owned(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}

/// Enough of a long text to find it by.
fn short(text: &str) -> String {
    const MOST: usize = 400;
    let mut short: String = text.chars().take(MOST).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short
}
