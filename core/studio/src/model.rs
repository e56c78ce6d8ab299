//! What the record holds.

mod change;
mod edition;
mod money;
mod print;
mod query;
mod work;

use serde::{Deserialize, Serialize};

pub use change::{
    Change, Choice, Correction, Issue, Note, Registration, Subject, TakenOver, WorkRef,
};
pub(crate) use edition::proofs;
pub use edition::{Edition, NewEdition, Tier};
pub use money::{Money, Price};
pub use print::{Print, PrintDetails, State};
pub use query::{Contents, Dump, EditionRow, Entry, Setting, Sums, Totals, WorkRow};
pub use work::{Format, NewFormat, NewWork, Work};

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident;)*) => {$(
        $(#[$doc])*
        #[derive(
            Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Default, Serialize,
            Deserialize,
        )]
        #[serde(transparent)]
        pub struct $name(pub i64);
    )*};
}

ids! {
    /// Names a work.
    WorkId;
    /// Names a format: one size in which a work is printed.
    FormatId;
    /// Names an edition.
    EditionId;
    /// Names a print.
    PrintId;
}
