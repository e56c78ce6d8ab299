//! SQLite's errors in the record's own words.

use std::path::Path;

use rusqlite::ErrorCode;

use crate::Error;

/// Why a change failed: refused by SQLite, or by the record itself.
#[derive(Debug)]
pub(super) enum Failure {
    Sql(rusqlite::Error),
    Refused(Error),
}

impl From<rusqlite::Error> for Failure {
    fn from(error: rusqlite::Error) -> Self {
        Self::Sql(error)
    }
}

impl From<Error> for Failure {
    fn from(error: Error) -> Self {
        Self::Refused(error)
    }
}

pub(super) type Attempt<T> = Result<T, Failure>;

/// What the constraints refuse, and what to do about it. The words before are those the
/// schema raises.
const RAISED: [(&str, &str); 15] = [
    (
        "edition-fixed",
        "prints of this edition are issued, so its size and proofs are fixed: what the first \
         buyer was promised holds for all. Open an edition in another size instead",
    ),
    (
        "beyond-edition",
        "the number is beyond the edition: choose a free one within it, or another edition",
    ),
    (
        "counted-twice",
        "the work has an edition already, and an edition counts either all sizes together or \
         one size alone, never both: go on with the one there is, or open one that counts the \
         same way",
    ),
    (
        "UNIQUE constraint failed: edition",
        "there is an edition of this already: issue prints from that one",
    ),
    (
        "UNIQUE constraint failed: work.catalogue",
        "another work has this catalogue number: choose another one",
    ),
    (
        "UNIQUE constraint failed: print.replaces",
        "this print has been replaced already: look at the prints of that number",
    ),
    (
        "UNIQUE constraint failed: print",
        "another print has this number: take the next free one, or void or replace the other \
         print first",
    ),
    (
        "other-format",
        "this size belongs to another work or edition: choose one of this work's sizes",
    ),
    ("number-fixed", "a print keeps its number: void this one and issue another"),
    ("print-gone", "this print no longer holds a number: look for the print that has it now"),
    ("never-deleted", "nothing is deleted from the record: void or correct it instead"),
    ("history-stands", "the history cannot be changed: add a correction instead"),
    (
        "prints-issued",
        "prints of this work are issued, so it stays on the list: void numbers that were given \
         in error first, or correct the work instead",
    ),
    (
        "work-withdrawn",
        "this work is withdrawn, so no print of it can be issued: bring the work back first",
    ),
    (
        "artist * 100 <= size",
        "that is more artist's proofs than the percentage allows: take fewer, or raise it",
    ),
];

pub(super) fn describe(file: &Path, error: &rusqlite::Error) -> Error {
    if let rusqlite::Error::SqliteFailure(failure, words) = error {
        let words = words.as_deref().unwrap_or_default();
        match failure.code {
            ErrorCode::DiskFull => return Error::Full(file.to_owned()),
            ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => {
                return Error::Busy(file.to_owned());
            }
            ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase => {
                return Error::Damaged {
                    file: file.to_owned(),
                    why: words.to_owned(),
                    backup: None,
                };
            }
            ErrorCode::ConstraintViolation => {
                let known = RAISED.iter().find(|(raised, _)| words.contains(raised));
                return Error::refused(known.map_or_else(
                    || format!("the record cannot hold this ({words}): check what you typed"),
                    |(_, describe)| (*describe).to_owned(),
                ));
            }
            // A limit on a file's size, or the disk's own trouble.
            ErrorCode::SystemIoFailure => {
                return Error::system(
                    file,
                    format!("the record could not be written or read ({words})"),
                );
            }
            _ => {}
        }
    }
    Error::system(file, error)
}
