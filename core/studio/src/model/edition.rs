//! An edition, its proofs and what its prints cost.

use serde::{Deserialize, Serialize};
use sightedge_core::catalogue::{Kind, Notation, Numerals};

use super::{EditionId, FormatId, Money, WorkId};

/// An edition: so many prints and no more.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Edition {
    /// Its id.
    pub id: EditionId,
    /// The work.
    pub work: WorkId,
    /// What the person entered.
    pub what: NewEdition,
}

/// What the person enters for an edition.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct NewEdition {
    /// What the person calls it; may be empty.
    pub name: String,
    /// The one format it is in; `None`: it counts across all formats of the work.
    pub format: Option<FormatId>,
    /// How many numbered prints it has. Fixed once the first is issued.
    pub size: u32,
    /// The share of proofs the person allows, in percent.
    pub proof_share: u32,
    /// Artist's proofs, outside the count, within that share.
    pub artist: u32,
    /// Printer's proofs.
    pub printer: u32,
    /// Hors commerce.
    pub hors_commerce: u32,
    /// Trial proofs.
    pub trial: u32,
    /// Whether proofs are numbered in Roman numerals.
    pub roman: bool,
}

impl Default for NewEdition {
    fn default() -> Self {
        Self {
            name: String::new(),
            format: None,
            size: 0,
            proof_share: crate::PROOF_SHARE,
            artist: 0,
            printer: 0,
            hors_commerce: 0,
            trial: 0,
            roman: true,
        }
    }
}

impl NewEdition {
    /// Of `size`, with as many artist's proofs as `share` percent allow.
    pub fn of(size: u32, share: u32) -> Self {
        let artist = proofs(size, share);
        Self { size, proof_share: share, artist, ..Self::default() }
    }

    /// How many of a kind it has.
    pub const fn count(&self, kind: Kind) -> u32 {
        match kind {
            Kind::Numbered => self.size,
            Kind::Artist => self.artist,
            Kind::Printer => self.printer,
            Kind::HorsCommerce => self.hors_commerce,
            Kind::BonATirer => 1,
            Kind::Trial => self.trial,
        }
    }

    /// How its proofs are numbered.
    pub const fn numerals(&self) -> Numerals {
        if self.roman { Numerals::Roman } else { Numerals::Fraction }
    }

    /// A print's place in it, as written: 3/25, AP II/V.
    pub fn notation(&self, kind: Kind, number: u32) -> String {
        Notation { kind, number, of: self.count(kind) }.text(self.numerals())
    }
}

/// The most artist's proofs that `share` percent of `size` allow: 10 % of 50 are 5.
pub(crate) fn proofs(size: u32, share: u32) -> u32 {
    u32::try_from(u64::from(size) * u64::from(share) / 100).unwrap_or(u32::MAX)
}

/// From that number of an edition on, a print costs so much.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Tier {
    /// The edition.
    pub edition: EditionId,
    /// The first number that costs so much.
    pub from: u32,
    /// The price.
    pub price: Money,
}
