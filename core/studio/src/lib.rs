//! The record of a studio: works, editions, prints, where each print is and what happened to
//! it.
//!
//! No two live prints of an edition can have one number: the database itself refuses it,
//! whatever program writes to it. Nothing is ever deleted; every change leaves an entry of its
//! own, written by the database in the same step. Dates and times come in as arguments.
//!
//! ```text
//! error                what was found, what was expected, what to do
//! model · record       works, editions, prints; the trait of queries and changes
//! place                the folder of a studio: no network drives
//! sqlite               the trait over SQLite: all SQL is in there
//! studio               opening, checking, backing up, restoring
//! exchange             the whole record as RON or as CSV tables, and back
//! ```

#![forbid(unsafe_code)]

mod error;
pub mod exchange;
mod model;
mod place;
mod record;
mod sqlite;
mod studio;

pub use error::{Error, Refusal};
pub use model::{
    Change, Choice, Contents, Correction, Dump, Edition, EditionId, EditionRow, Entry, Format,
    FormatId, Issue, Money, NewEdition, NewFormat, NewWork, Note, Price, Print, PrintDetails,
    PrintId, Registration, Setting, State, Subject, Sums, TakenOver, Tier, Totals, Work,
    WorkId, WorkRef, WorkRow,
};
pub use place::{BACKUPS, FILE, default_folder_in, refuse_network};
pub use record::Record;
pub use sightedge_core::catalogue::{Kind, Notation, Numerals};
pub use sqlite::when_waiting;
pub use studio::{Backup, Opened, backups, begin_anew, contents, export_name, open, restore};

/// The version that is written.
pub const VERSION: i64 = 6;
/// The most characters a text of the record may have.
pub const LONGEST: usize = 100_000;
/// Artist's proofs, as a share of the edition in percent, unless the person sets another.
/// Source: galleries' print guides (at most 10 %: 5 of 50).
pub const PROOF_SHARE: u32 = 10;
