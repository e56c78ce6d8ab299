//! Why a paper could not be written.

use std::fmt;
use std::path::PathBuf;

/// Why a paper could not be written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum PapersError {
    /// A plan cannot be read; what was found and what to do.
    Plan(String),
    /// The PDF could not be made: what its rules forbid.
    Pdf(String),
    /// This program was built without its typesetter.
    WithoutPrintouts,
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
            Self::Pdf(words) => write!(
                f,
                "the paper cannot be written as a PDF that is fit to be kept ({words}): take \
                 unusual letters out of its texts, and write it again"
            ),
            Self::WithoutPrintouts => f.write_str(
                "this program was built without printouts: install the full program, or build it \
                 with the feature \"printouts\". SVG, DXF and CSV files can still be written",
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_pdf_may_not_hold_is_refused_with_what_to_do() {
        let words = PapersError::Pdf("a letter of no typeface".to_owned()).to_string();
        let wanted = "the paper cannot be written as a PDF that is fit to be kept (a letter of no \
                      typeface): take unusual letters out of its texts, and write it again";
        assert_eq!(words, wanted);
    }
}
