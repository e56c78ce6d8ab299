//! What is written as text of inscriptions. Each is checked while it is read, so that a refusal
//! has its line.

use serde::de::Deserializer;
use serde::{Deserialize, Serialize, Serializer};

use crate::file::v1::text::{found, text};
use crate::file::v2::text::texts;
use crate::{catalogue, spec};

texts! {
    Number(catalogue::Notation), "a print's number in quotes, as in \"3/25\"",
        |number| number.text(catalogue::Numerals::Fraction),
        |text| catalogue::Notation::read(text).map(|(number, _)| number),
        "no number of a print: 3/25, AP 2/5 or BAT";
    Numerals(catalogue::Numerals), "a way of numbering proofs in quotes, as in \"roman\"",
        |numerals| numerals.key().to_owned(), catalogue::Numerals::of_key,
        "no way of numbering proofs: roman or fraction";
    Front(spec::Front), "a place on the front in quotes, as in \"margin\"",
        |front| front.key().to_owned(), spec::Front::from_key,
        "no place on the front: margin, mat or nothing";
    Back(spec::Back), "a place on the back in quotes, as in \"margin\"",
        |back| back.key().to_owned(), spec::Back::from_key,
        "no place on the back: margin or image";
}
