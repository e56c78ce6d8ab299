//! A record of very many works, for tests and benches alike.

use std::path::Path;

use sightedge_studio::{Dump, NewEdition, NewWork, Note, open};

/// What a record of `count` works like `what` holds, each with an edition of 25; the first one
/// is made in `folder`.
#[allow(clippy::unwrap_used, reason = "a helper of tests")]
pub(crate) fn many(folder: &Path, today: &str, what: &NewWork, count: i64) -> Dump {
    let note = Note::at(today);
    let mut opened = open(folder, today).unwrap();
    let work = opened.record().add_work(what, None, &note).unwrap();
    opened.record().open_edition(work, &NewEdition::of(25, 10), &note).unwrap();
    let mut all = opened.read().dump().unwrap();
    let (first, edition) = (all.works.remove(0), all.editions.remove(0));
    let entries = std::mem::take(&mut all.history);
    for n in 0..count {
        let mut work = first.clone();
        (work.id.0, work.catalogue) = (work.id.0 + n, format!("W{:04}", n + 1));
        (work.what.title, work.what.sha256) = (format!("Weir {n}"), format!("{n:064}"));
        all.works.push(work);
        let mut edition = edition.clone();
        (edition.id.0, edition.work.0) = (edition.id.0 + n, edition.work.0 + n);
        all.editions.push(edition);
        for entry in &entries {
            let mut entry = entry.clone();
            (entry.id, entry.subject_id) = (entry.id + 2 * n, entry.subject_id + n);
            all.history.push(entry);
        }
    }
    all
}
