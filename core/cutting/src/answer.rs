//! An answer as the search holds it: patterns of its pool, each with its number of sheets.

/// Patterns with their numbers of sheets, and the pieces that found no place.
#[derive(Clone, Debug)]
pub(crate) struct Answer {
    /// In grains.
    pub(crate) cost: i64,
    pub(crate) missing: Vec<u32>,
    pub(crate) used: Vec<(usize, u32)>,
}

impl Answer {
    pub(crate) fn short(&self) -> u64 {
        self.missing.iter().map(|n| u64::from(*n)).sum()
    }
}
