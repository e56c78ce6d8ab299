//! Hashes, ids and counts.

use serde::de::{Deserializer, Error};
use serde::{Deserialize, Serialize};

use super::{found, text};

/// SHA-256 in lower-case hexadecimal.
#[derive(Clone, Serialize)]
#[serde(transparent)]
pub(in crate::file) struct Sha256(pub(in crate::file) String);

impl<'de> Deserialize<'de> for Sha256 {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a SHA-256 in quotes", |text| {
            let digits = text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'));
            if text.len() == 64 && digits {
                Ok(Self(text.to_owned()))
            } else {
                Err(format!(
                    "{} is not a SHA-256: it needs 64 digits 0 to 9 and a to f",
                    found(text)
                ))
            }
        })
    }
}

/// The id of a plan, which no other plan has.
#[derive(Clone, Serialize)]
#[serde(transparent)]
pub(in crate::file) struct PlanId(pub(in crate::file) String);

impl PlanId {
    /// Longer ids are made by nobody.
    const LONGEST: usize = 128;
}

impl<'de> Deserialize<'de> for PlanId {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "the plan's id in quotes", |text| {
            let plain = text.bytes().all(|b| b.is_ascii_graphic());
            if plain && (1..=Self::LONGEST).contains(&text.len()) {
                Ok(Self(text.to_owned()))
            } else {
                Err(format!(
                    "{} is not a plan's id: it needs 1 to {} letters, digits and signs \
                     without spaces",
                    found(text),
                    Self::LONGEST
                ))
            }
        })
    }
}

/// A whole number from 1 up, so far below the end of its kind that one more is always one
/// more: ids and pixels.
#[derive(Clone, Copy, Serialize)]
#[serde(transparent)]
pub(in crate::file) struct Count(pub(in crate::file) u32);

impl Count {
    const MOST: u32 = 1_000_000_000;
}

impl<'de> Deserialize<'de> for Count {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let count = u32::deserialize(from)?;
        if (1..=Self::MOST).contains(&count) {
            Ok(Self(count))
        } else {
            Err(D::Error::custom(format!(
                "{count} is out of range: use a whole number from 1 to {}",
                Self::MOST
            )))
        }
    }
}
