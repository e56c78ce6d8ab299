//! A print and where it is.

use serde::{Deserialize, Serialize};
use sightedge_core::catalogue::Kind;

use super::{EditionId, FormatId, Money, PrintId};

/// Where a print is.
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Default, Serialize, Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// Printed, in the studio.
    #[default]
    Studio,
    /// At a show or with a gallery.
    Show,
    /// Sold.
    Sold,
    /// Returned to the studio.
    Returned,
    /// Issued before this record began, and nobody knows where: neither sold nor at hand.
    Unknown,
    /// Destroyed; it may be replaced under its number.
    Destroyed,
    /// Its number was given in error and is free again.
    Voided,
}

impl State {
    /// In the usual order.
    pub const ALL: [Self; 7] = [
        Self::Studio,
        Self::Show,
        Self::Sold,
        Self::Returned,
        Self::Unknown,
        Self::Destroyed,
        Self::Voided,
    ];

    /// As in the database, files and on the command line.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Studio => "studio",
            Self::Show => "show",
            Self::Sold => "sold",
            Self::Returned => "returned",
            Self::Unknown => "unknown",
            Self::Destroyed => "destroyed",
            Self::Voided => "voided",
        }
    }

    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Studio => "in the studio",
            Self::Show => "at a show",
            Self::Sold => "sold",
            Self::Returned => "returned",
            Self::Unknown => "at an unknown place",
            Self::Destroyed => "destroyed",
            Self::Voided => "voided",
        }
    }

    /// The state of that key.
    pub fn of_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|state| state.key() == key)
    }
}

/// A print.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Print {
    /// Its id, which no other print ever gets.
    pub id: PrintId,
    /// The edition.
    pub edition: EditionId,
    /// What it is within the edition.
    #[serde(with = "kind_word")]
    pub kind: Kind,
    /// Its number among those of its kind.
    pub number: u32,
    /// Whether it holds its number. Voided and replaced ones do not.
    pub live: bool,
    /// The print that it replaces under the same number.
    pub replaces: Option<PrintId>,
    /// Its details as they are now.
    pub now: PrintDetails,
}

/// The details of a print, all of which may change.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PrintDetails {
    /// The size it is printed in.
    pub format: Option<FormatId>,
    /// Where it is.
    pub state: State,
    /// Which show, which gallery, or where else.
    pub place: String,
    /// The day it was printed, or nothing.
    pub printed: String,
    /// The day it was matted, or nothing.
    pub matted: String,
    /// The id of its plan.
    pub plan: String,
    /// The file of its plan.
    pub plan_file: String,
    /// What it costs.
    pub price: Option<Money>,
    /// A note on the buyer, or whoever has it.
    pub buyer: String,
}

/// A kind is written by its key.
mod kind_word {
    use serde::de::{Deserialize, Deserializer, Error};
    use serde::ser::Serializer;
    use sightedge_core::catalogue::Kind;

    #[expect(clippy::trivially_copy_pass_by_ref, reason = "the shape serde asks for")]
    pub(super) fn serialize<S: Serializer>(kind: &Kind, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(kind.key())
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Kind, D::Error> {
        let key = String::deserialize(from)?;
        Kind::of_key(&key).ok_or_else(|| {
            D::Error::custom(format!(
                "\"{key}\" is no kind of print: use numbered, ap, pp, hc, bat or tp"
            ))
        })
    }
}
