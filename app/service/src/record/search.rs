//! Which works are meant by what is typed into a search.

use sightedge_studio::{WorkId, WorkRow};

/// What is typed, as it is compared: capitals and spaces around it say nothing.
pub fn sought(typed: &str) -> String {
    typed.trim().to_lowercase()
}

/// Indices into `works`, rising, of those whose catalogue number, title, maker or medium contains
/// `sought`, and of those in `held`: works with a print whose buyer or show contains it.
pub fn found(works: &[WorkRow], sought: &str, held: &[WorkId]) -> Vec<usize> {
    let called = |row: &WorkRow| {
        let what = &row.work.what;
        let names = [&row.work.catalogue, &what.title, &what.maker, &what.medium];
        sought.is_empty()
            || names.iter().any(|name| name.to_lowercase().contains(sought))
            || held.binary_search(&row.work.id).is_ok()
    };
    works.iter().enumerate().filter(|(_, row)| called(row)).map(|(at, _)| at).collect()
}
