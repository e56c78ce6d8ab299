//! Version 5 of the saved plan: its form. Field and variant names are the words of the file, so
//! renaming one changes the file: once a release has written version 5, this module is frozen.
//!
//! What is written as text, with its unit, is in `text`; `from_model` and `to_model` lead from
//! the document to this form and back.

mod assembly;
mod from_model;
mod mat;
pub(super) mod text;
mod to_model;

use serde::{Deserialize, Serialize};

use mat::Mat;
use text::{Back, Count, Front, Measured, Number, Numerals, PlanId, Sha256, Size};

pub(super) use to_model::Inconsistency;

/// A whole plan.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Plan {
    pub(super) version: u64,
    pub(super) id: PlanId,
    pub(super) unit: Unit,
    /// Left out where weights go with the unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) weights: Option<WeightUnit>,
    pub(super) ruler: Ruler,
    pub(super) works: Vec<Work>,
    pub(super) variants: Vec<Variant>,
    pub(super) chosen: Count,
    /// Left out until somebody has chosen among several.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) choice: Option<Choice>,
    /// Left out where nothing is decided of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) inscribed: Option<Inscribed>,
    /// The print at the bench, by its id in the studio's record; left out where it has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) print: Option<Count>,
    pub(super) log: Vec<Entry>,
}

#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Unit {
    Inch,
    Millimetre,
}

/// What weights and forces are shown in.
#[derive(Clone, Copy, Serialize, Deserialize)]
pub(super) enum WeightUnit {
    #[serde(rename = "lb")]
    Pounds,
    #[serde(rename = "g")]
    Grams,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ruler {
    unit: Unit,
    parts: u16,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Work {
    id: Count,
    title: String,
    picture: Picture,
    sheet: Size,
    image: Image,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Picture {
    path: String,
    sha256: Sha256,
    width_px: Count,
    height_px: Count,
}

/// The printed area, from the sheet's top left corner.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Image {
    size: Size,
    left: Measured,
    top: Measured,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Variant {
    id: Count,
    name: String,
    mat: Mat,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Choice {
    when: String,
    words: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Inscribed {
    back: Vec<String>,
    behind: Back,
    front: Front,
    left: String,
    right: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    already_written: String,
    print: Print,
}

/// What is not known is left out.
#[derive(Serialize, Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Print {
    #[serde(skip_serializing_if = "String::is_empty")]
    title: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    maker: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    taken: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    printed: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    number: Option<Number>,
    #[serde(skip_serializing_if = "Option::is_none")]
    numerals: Option<Numerals>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Entry {
    when: String,
    kind: EntryKind,
    text: String,
    /// The print that a step was ticked for, by its id in the studio's record; left out where it
    /// was done for the plan alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    print: Option<Count>,
    /// The same by its number, where no record knows it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    number: Option<Number>,
    /// The step as it was when it was ticked.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    step: Vec<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum EntryKind {
    Choice,
    Tick,
    Reference,
}
