//! Why a table cannot be used.

/// Why a table cannot be used: the row, the field and the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableError(String);

impl TableError {
    pub(super) const fn new(words: String) -> Self {
        Self(words)
    }
}

impl std::fmt::Display for TableError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.fmt(f)
    }
}

impl std::error::Error for TableError {}
