//! Why a paper could not be written.

use std::fmt;
use std::path::PathBuf;

/// Why a paper could not be written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum PapersError {
    /// A plan cannot be read; what was found and what to do.
    Plan(String),
    /// The pages could not be set: with the program's own templates a fault of ours, else of
    /// the maker's template. What the typesetter says.
    Template(String),
    /// A file could not be written.
    Unwritten {
        /// Which.
        path: PathBuf,
        /// What the system says.
        why: String,
    },
}

impl fmt::Display for PapersError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Plan(words) => f.write_str(words),
            Self::Template(words) => write!(
                f,
                "the pages could not be set ({words}): mend the template, or take the one that \
                 comes with the program"
            ),
            Self::Unwritten { path, why } => write!(
                f,
                "{} could not be written ({why}): choose another folder, or make room there",
                path.display()
            ),
        }
    }
}

impl std::error::Error for PapersError {}
