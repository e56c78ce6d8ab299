//! Version 3 of the saved plan: what is written on print and mat, and of a board its mass and
//! whether it may be turned. The rest is as in version 2. Names here are the file's words;
//! changing one changes the file, so this module is frozen. Version 4 writes and reads through it
//! what it did not change.

mod climb;
pub(super) mod from_model;
pub(super) mod text;
mod to_model;

use serde::{Deserialize, Serialize};

use super::v1::text::{Colour, Count, Grade, PlanId, Size, Thickness};
use super::v1::{Bevel, Entry, Fixing, Limits, Opening, Ruler, Unit, Work};
use super::v2::Behind;
use text::{Back, Front, Number, Numerals};

/// A whole plan.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Plan {
    pub(super) version: u64,
    pub(super) id: PlanId,
    pub(super) unit: Unit,
    pub(super) ruler: Ruler,
    pub(super) works: Vec<Work>,
    pub(super) variants: Vec<Variant>,
    pub(super) chosen: Count,
    /// Left out where nothing is decided of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) inscribed: Option<Inscribed>,
    pub(super) log: Vec<Entry>,
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
    pub(super) backing: Backing,
    pub(super) exhibition: bool,
    pub(super) limits: Limits,
    pub(super) notes: String,
    /// Left out where nothing is decided behind the mat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) behind: Option<Behind>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Layer {
    pub(super) id: Count,
    pub(super) board: Board,
    pub(super) bevel: Bevel,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Board {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) colour: Colour,
    pub(super) thickness: Thickness,
    pub(super) grade: Grade,
    /// Left out where it may.
    #[serde(default = "yes", skip_serializing_if = "is_yes")]
    pub(super) turns: bool,
    /// Left out where not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) mass_gsm: Option<u32>,
}

const fn yes() -> bool {
    true
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
const fn is_yes(yes: &bool) -> bool {
    *yes
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Backing {
    /// Left out where it is as large as the mat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) size: Option<Size>,
    pub(super) board: Board,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Inscribed {
    pub(super) back: Vec<String>,
    pub(super) behind: Back,
    pub(super) front: Front,
    pub(super) left: String,
    pub(super) right: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub(super) stands: String,
    pub(super) print: Print,
}

/// What is not known is left out.
#[derive(Serialize, Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
pub(super) struct Print {
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(super) title: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(super) maker: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) taken: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) printed: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) number: Option<Number>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) numerals: Option<Numerals>,
}
