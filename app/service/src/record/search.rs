//! Which works are meant by what is typed into a search.

use sightedge_studio::{Print, WorkId, WorkRow};

/// What is typed, as it is compared: capitals and spaces around it say nothing.
pub fn sought(typed: &str) -> String {
    typed.trim().to_lowercase()
}

/// Whether works that were entered by mistake are in a list.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Withdrawn {
    /// They are left out.
    #[default]
    Hidden,
    /// They alone are shown.
    Only,
}

/// Indices into `works`, rising, of those whose catalogue number, title, maker or medium contains
/// `sought`, and of those in `held`: prints whose buyer or show contains it, by work.
pub fn found(
    works: &[WorkRow],
    sought: &str,
    held: &[(WorkId, Print)],
    withdrawn: Withdrawn,
) -> Vec<usize> {
    let shown = |row: &WorkRow| row.work.withdrawn == (withdrawn == Withdrawn::Only);
    let called = |row: &WorkRow| {
        let what = &row.work.what;
        let names = [&row.work.catalogue, &what.title, &what.maker, &what.medium];
        sought.is_empty()
            || names.iter().any(|name| name.to_lowercase().contains(sought))
            || held.binary_search_by_key(&row.work.id, |(work, _)| *work).is_ok()
    };
    let all = works.iter().enumerate();
    all.filter(|(_, row)| shown(row) && called(row)).map(|(at, _)| at).collect()
}
