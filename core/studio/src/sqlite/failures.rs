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
const RAISED: [(&str, &str); 13] = [
    (
        "edition-fixed",
        "an edition of which prints are issued was to be changed, and its size and proofs are \
         fixed by the first one: what the first buyer was promised holds for all. Open an \
         edition of another format instead",
    ),
    (
        "beyond-edition",
        "a number beyond the edition was given, and one within it is wanted: choose a free \
         number, or another edition",
    ),
    (
        "counted-twice",
        "the work has an edition already, and it counts either across all formats or within \
         each one: open one for another format, or go on with the one there is",
    ),
    (
        "UNIQUE constraint failed: edition",
        "there is an edition of this already, and one is all there can be: issue from that one",
    ),
    (
        "UNIQUE constraint failed: work.catalogue",
        "the catalogue number is taken by another work, and one of its own is wanted: choose \
         another, or leave it out to get the next",
    ),
    (
        "UNIQUE constraint failed: print.replaces",
        "the print is replaced already: look at the prints of that number",
    ),
    (
        "UNIQUE constraint failed: print",
        "the number is held by another print, and a free one is wanted: take the next, or void \
         or replace the other first",
    ),
    (
        "other-format",
        "a format of another work or edition was given, and one of this edition is wanted: \
         choose it from the work's formats",
    ),
    ("number-fixed", "a print keeps its number: void this one and issue another"),
    (
        "print-gone",
        "the print gave up its number, and one that holds it is wanted: look for the print \
         that has the number now",
    ),
    ("never-deleted", "nothing is ever deleted from the record: void or correct it instead"),
    ("history-stands", "the history stands as it is: add a correction instead"),
    (
        "artist * 100 <= size",
        "more artist's proofs were asked for than the share allows: take fewer, or set another \
         share",
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
                    || {
                        format!(
                            "the record refuses it ({words}), and something within its limits \
                             is wanted: check what was given"
                        )
                    },
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
