//! The standards that a PDF can be written to.

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
