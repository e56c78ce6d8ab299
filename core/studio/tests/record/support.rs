//! What the tests of the record share.

use sightedge_studio::{
    Change, Choice, EditionId, Error, Issue, Kind, NewEdition, NewWork, Note, Opened, Print,
    PrintDetails, Record, State, WorkId, open,
};
use tempfile::TempDir;

/// The day on which everything happens.
pub(crate) const TODAY: &str = "2025-11-30";

/// A new record in a folder of its own.
pub(crate) fn fresh() -> (TempDir, Opened) {
    let folder = TempDir::new().unwrap();
    let opened = open(folder.path(), TODAY).unwrap();
    (folder, opened)
}

pub(crate) fn now() -> Note {
    Note::at(TODAY)
}

/// A work and an edition of `size` of it, with the usual share of proofs.
pub(crate) fn edition(record: &mut dyn Record, size: u32) -> (WorkId, EditionId) {
    let work = NewWork {
        title: "Slack water".into(),
        maker: "Ada Brook".into(),
        taken: Some(2021),
        printed: Some(2025),
        medium: "pigment print".into(),
        ..NewWork::default()
    };
    let work = record.add_work(&work, None, &now()).unwrap();
    let of = NewEdition { printer: 2, hors_commerce: 3, ..NewEdition::of(size, 10) };
    let edition = record.open_edition(work, &of, &now()).unwrap();
    (work, edition)
}

pub(crate) fn next(edition: EditionId) -> Issue {
    Issue {
        edition,
        kind: Kind::Numbered,
        choice: Choice::Next,
        stock: PrintDetails::default(),
        size: None,
    }
}

pub(crate) fn number(edition: EditionId, kind: Kind, number: u32) -> Issue {
    Issue { kind, choice: Choice::Number(number), ..next(edition) }
}

/// Issues the next number.
pub(crate) fn issue(record: &mut dyn Record, edition: EditionId) -> Print {
    record.issue(&next(edition), &now()).unwrap()
}

/// The record says no, and in its words why.
#[track_caller]
pub(crate) fn refused<T: std::fmt::Debug>(done: Result<T, Error>, wanted: &str) {
    let words = done.unwrap_err().to_string();
    assert!(words.contains(wanted), "{words}");
}

/// To where, with the name of the place.
pub(crate) fn moved(to: State, place: &str) -> Change {
    Change::Move { to, place: Some(place.into()), buyer: None, price: None }
}
