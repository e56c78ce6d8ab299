//! Changes of a record: works registered, prints issued and moved, entries corrected.

use sightedge_core::catalogue::Kind;

use super::{
    EditionId, FormatId, Money, NewEdition, NewFormat, NewWork, PrintDetails, PrintId, State,
    Tier, WorkId,
};

/// Which number a new print gets.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Choice {
    /// The lowest that is free.
    Next,
    /// This one, if it is free.
    Number(u32),
}

/// A print to be issued.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Issue {
    /// From which edition.
    pub edition: EditionId,
    /// What it is.
    pub kind: Kind,
    /// Its number.
    pub choice: Choice,
    /// What is known of it. Without a price it takes that of its tier.
    pub stock: PrintDetails,
    /// The measures of its size, for one that names none of the work's sizes: that of the work
    /// which has them, else one that is added. An edition of one size has no use for it.
    pub size: Option<NewFormat>,
}

/// When, and why.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Note {
    /// When, as handed in: an ISO 8601 date with or without the time.
    pub at: String,
    /// Why, in the person's words; may be empty.
    pub why: String,
}

impl Note {
    /// At that time, for no reason given.
    pub fn at(at: &str) -> Self {
        Self { at: at.to_owned(), why: String::new() }
    }

    /// At that time and for that reason.
    pub fn because(at: &str, why: &str) -> Self {
        Self { at: at.to_owned(), why: why.to_owned() }
    }
}

/// What happens to a print.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Change {
    /// It goes somewhere: to the studio, a show, a buyer, back.
    Move {
        /// Where it is then.
        to: State,
        /// Which show, which gallery; `None` leaves what is there.
        place: Option<String>,
        /// Who has it; `None` leaves what is there.
        buyer: Option<String>,
        /// The price; `None` leaves it.
        price: Option<Money>,
    },
    /// Its details are corrected.
    Correct(Box<PrintDetails>),
    /// Its number was given in error: free again, its history kept.
    Void,
}

/// The work that is registered: a new one, or one that is in the record.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum WorkRef {
    /// A new work, with its catalogue number or the next.
    New(Box<NewWork>, Option<String>),
    /// A work that is in the record.
    Existing(WorkId),
}

/// A work, a size and an edition registered in one step: all of it or nothing.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Registration {
    /// The work.
    pub work: WorkRef,
    /// The size, where one is given.
    pub format: Option<NewFormat>,
    /// Whether the edition counts that size alone.
    pub alone: bool,
    /// The edition; without one, the size is added to one that counts all sizes.
    pub edition: Option<NewEdition>,
    /// What prints cost from a number on.
    pub tiers: Vec<(u32, Money)>,
    /// The first and the last number issued before the record began, and those known to be sold.
    pub out: Option<(u32, u32, Vec<u32>)>,
}

/// Corrections of a work and of what belongs to it, made in one step.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Correction {
    /// Of the work itself.
    pub work: Option<NewWork>,
    /// Its catalogue number.
    pub catalogue: Option<String>,
    /// Whether it is withdrawn: off the lists, and no print of it can be issued.
    pub withdrawn: Option<bool>,
    /// Of the sizes it is printed in; without an id, a size that is new.
    pub formats: Vec<(Option<FormatId>, NewFormat)>,
    /// Of an edition: size and proofs only before the first print is issued.
    pub edition: Option<(EditionId, NewEdition)>,
    /// What prints cost from a number on.
    pub tiers: Vec<Tier>,
}

/// An edition that was under way before the record began.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TakenOver {
    /// The edition.
    pub edition: EditionId,
    /// The first number that was issued.
    pub from: u32,
    /// The last.
    pub to: u32,
    /// Those known to be sold. Where the others are is not known.
    pub sold: Vec<u32>,
}

/// What an entry is about.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Subject {
    /// A work.
    Work(WorkId),
    /// A size in which it is printed.
    Format(FormatId),
    /// An edition and what its prints cost.
    Edition(EditionId),
    /// A print.
    Print(PrintId),
}
