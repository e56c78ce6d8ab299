//! The standards that a PDF can be written to.

use krilla::configure::validate::{Accessibility, Archival};
use krilla::configure::{Configuration, ConfigurationBuilder};

use crate::PapersError;

/// Which rules a PDF keeps.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Archive {
    /// PDF/A-2a and PDF/UA-1: to be kept, and read aloud.
    #[default]
    A2aUa1,
    /// PDF/A-1b, for readers and validators of that age; without light and shade in the
    /// picture of the mat.
    A1b,
}

impl Archive {
    pub(crate) fn configuration(self) -> Result<Configuration, PapersError> {
        let new = ConfigurationBuilder::new();
        let made = match self {
            Self::A2aUa1 => new
                .with_archival_validator(Archival::A2_A)
                .with_accessibility_validator(Accessibility::UA1),
            Self::A1b => new.with_archival_validator(Archival::A1_B),
        };
        made.finish().map_err(|error| PapersError::Pdf(format!("{error:?}")))
    }
}
