//! Version 4 of the saved plan: which windows were cut already, and how they came out; which print
//! is at the bench, and what was ticked of it. The rest is as in version 3. Names here are the file's words; changing one changes the file, so this module
//! is frozen once a release has written it.

mod from_model;
mod to_model;

use serde::{Deserialize, Serialize};

use super::v1::text::{Count, Measured, PlanId, Size};
use super::v1::{EntryKind, Fixing, Limits, Opening, Ruler, Unit, Work};
use super::v2::Behind;
use super::v3::text::Number;
use super::v3::{Backing, Inscribed, Layer};

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
    /// Left out where nothing is decided of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) inscribed: Option<Inscribed>,
    /// The print at the bench, by its id in the studio's record; left out where it has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) print: Option<Count>,
    pub(super) log: Vec<Entry>,
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
pub(super) struct Entry {
    pub(super) when: String,
    pub(super) kind: EntryKind,
    pub(super) text: String,
    /// The print that a step was ticked for, by its id in the studio's record; left out where it
    /// was done for the plan alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) print: Option<Count>,
    /// The same by its number, where no record knows it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) number: Option<Number>,
    /// The step as it was when it was ticked.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) step: Vec<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Variant {
    pub(super) id: Count,
    pub(super) name: String,
    pub(super) mat: Mat,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Mat {
    pub(super) fixing: Fixing,
    pub(super) layers: Vec<Layer>,
    pub(super) openings: Vec<Opening>,
    /// Left out where none was.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) cut: Vec<Cut>,
    pub(super) backing: Backing,
    pub(super) exhibition: bool,
    pub(super) limits: Limits,
    pub(super) notes: String,
    /// Left out where nothing is decided behind the mat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) behind: Option<Behind>,
    /// Left out where no window was entered as cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) planned: Option<Planned>,
}

/// What was planned before the first window was entered as cut.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Planned {
    pub(super) fixing: Fixing,
    pub(super) openings: Vec<Opening>,
    /// The print that was at the bench, by its id in the studio's record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) print: Option<Count>,
    /// The same by its number, where no record knows it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) number: Option<Number>,
}

/// A window of a layer that was cut: its sight edge, and the borders round it.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Cut {
    pub(super) opening: Count,
    pub(super) layer: Count,
    pub(super) sight: Size,
    pub(super) top: Measured,
    pub(super) right: Measured,
    pub(super) bottom: Measured,
    pub(super) left: Measured,
}
