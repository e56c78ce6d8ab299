//! Version 1 of the saved plan: its form. Names here are the file's words; changing one
//! changes the file, so this module is frozen. Later versions write and read through it whatever
//! they did not change.

mod climb;
pub(super) mod from_model;
pub(super) mod text;
pub(super) mod to_model;

use serde::{Deserialize, Serialize};

use text::{Colour, Count, Degrees, Grade, Measured, PlanId, Sha256, Size, Thickness};

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
    pub(super) log: Vec<Entry>,
}

#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Unit {
    Inch,
    Millimetre,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ruler {
    pub(super) unit: Unit,
    pub(super) parts: u16,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Work {
    pub(super) id: Count,
    pub(super) title: String,
    pub(super) picture: Picture,
    pub(super) sheet: Size,
    pub(super) image: Image,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Picture {
    pub(super) path: String,
    pub(super) sha256: Sha256,
    pub(super) width_px: Count,
    pub(super) height_px: Count,
}

/// The printed area, from the sheet's top left corner.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Image {
    pub(super) size: Size,
    pub(super) left: Measured,
    pub(super) top: Measured,
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
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Fixing {
    Outer { size: Size, placement: Placement },
    Borders { top: Measured, right: Measured, bottom: Measured, left: Measured },
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Placement {
    Centred,
    BottomExtra(Measured),
    BottomRatio { bottom: u32, top: u32 },
    Optical,
    Free { left: Measured, top: Measured },
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
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Bevel {
    Open(Degrees),
    Straight,
    Reverse(Degrees),
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Opening {
    pub(super) id: Count,
    pub(super) work: Count,
    pub(super) shape: Shape,
    pub(super) place: Place,
    pub(super) meets: Meets,
    pub(super) offsets: Vec<Offset>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Shape {
    Rectangle,
}

/// Within the group of windows.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Place {
    pub(super) left: Measured,
    pub(super) top: Measured,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Meets {
    Reveal { top: Measured, right: Measured, bottom: Measured, left: Measured },
    InHand { sight: Size, overlap_left: Measured, overlap_top: Measured },
}

/// From the layer above, where it is anything.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Offset {
    pub(super) layer: Count,
    pub(super) top: Measured,
    pub(super) right: Measured,
    pub(super) bottom: Measured,
    pub(super) left: Measured,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Backing {
    /// Left out where it is as large as the mat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) size: Option<Size>,
    pub(super) board: Board,
}

/// Each left out where the usual figure is taken.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Limits {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) least_border: Option<Measured>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) hidden_image: Option<Measured>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Entry {
    pub(super) when: String,
    pub(super) kind: EntryKind,
    pub(super) text: String,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum EntryKind {
    Choice,
    Tick,
    Reference,
}
