//! What a plan writes as text rather than as a number or a word of the form. Each text is
//! checked while it is read, so that a refusal has its line.

mod measure;
mod name;
mod word;

use serde::de::{Deserializer, Error, Visitor};

pub(in crate::file) use measure::{Degrees, Measured, Size, Thickness};
pub(in crate::file) use name::{Count, PlanId, Sha256};
pub(in crate::file) use word::{
    Back, Colour, Fibre, Front, Grade, Grain, Growth, Kind, Number, Numerals, Percent, Process,
    Profile, Side, Surface,
};

/// Reads a text and makes something of it; `wanted` says what, with an example.
pub(in crate::file) fn text<'de, D: Deserializer<'de>, T>(
    from: D,
    wanted: &'static str,
    read: fn(&str) -> Result<T, String>,
) -> Result<T, D::Error> {
    struct Reading<T> {
        wanted: &'static str,
        read: fn(&str) -> Result<T, String>,
    }
    impl<T> Visitor<'_> for Reading<T> {
        type Value = T;
        fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            f.write_str(self.wanted)
        }
        fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
            (self.read)(text).map_err(E::custom)
        }
    }
    from.deserialize_str(Reading { wanted, read })
}

/// The first few characters of what was found, for an error.
pub(in crate::file) fn found(text: &str) -> String {
    let mut short: String = text.chars().take(60).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    format!("{short:?}")
}
