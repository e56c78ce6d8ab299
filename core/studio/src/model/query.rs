//! What queries return: the history, the index, the sums, the whole record.

use serde::{Deserialize, Serialize};

use super::{Edition, Format, Print, Tier, Work};

/// One entry of the history, which is only ever added to.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Entry {
    /// Its place in the order.
    pub id: i64,
    /// When.
    pub at: String,
    /// `work`, `format`, `edition`, `tier` or `print`.
    pub subject: String,
    /// Which.
    pub subject_id: i64,
    /// `added` or `changed`.
    pub what: String,
    /// Why, in the person's words.
    pub why: String,
    /// All that was known of it from then on, as JSON; exported as `told`.
    #[serde(rename = "told")]
    pub payload: String,
}

/// A work in the index.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct WorkRow {
    /// The work.
    pub work: Work,
    /// Its editions, each with its counts.
    pub editions: Vec<EditionRow>,
}

/// An edition in the index.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct EditionRow {
    /// The edition.
    pub edition: Edition,
    /// What there is of it.
    pub totals: Totals,
}

/// How many live prints of an edition are where.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize)]
pub struct Totals {
    /// Numbered prints that hold a number.
    pub issued: u32,
    /// Proofs of any kind.
    pub proofs: u32,
    /// Of all of them: in the studio, or returned to it.
    pub studio: u32,
    /// At a show.
    pub show: u32,
    /// Sold.
    pub sold: u32,
    /// Not known where.
    pub unknown: u32,
    /// Destroyed and not replaced.
    pub destroyed: u32,
}

/// What prints were sold for and are offered for, in one currency. Prints without a price are counted
/// under an empty one.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Sums {
    /// The currency.
    pub currency: String,
    /// Prints sold.
    pub sold: u32,
    /// For so many hundredths.
    pub sold_cents: i64,
    /// Prints in the studio and at shows.
    pub offered: u32,
    /// At so many hundredths.
    pub offered_cents: i64,
}

/// A setting of the record.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Setting {
    /// Its name.
    pub key: String,
    /// Its value.
    pub value: String,
}

/// The whole record.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Dump {
    /// The version of this form.
    pub version: u32,
    /// Settings.
    pub settings: Vec<Setting>,
    /// Works.
    pub works: Vec<Work>,
    /// Formats.
    pub formats: Vec<Format>,
    /// Editions.
    pub editions: Vec<Edition>,
    /// Price tiers.
    pub tiers: Vec<Tier>,
    /// Prints, voided ones too.
    pub prints: Vec<Print>,
    /// All that happened.
    pub history: Vec<Entry>,
}

/// How much a record holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Contents {
    /// Works.
    pub works: u32,
    /// Prints, voided ones too.
    pub prints: u32,
}
