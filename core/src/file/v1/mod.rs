//! Version 1 of the saved plan: its form. Names here are the file's words; changing one
//! changes the file, so this module is frozen once a release has written it.

mod from_model;
mod text;
mod to_model;

use serde::{Deserialize, Serialize};

pub(super) use to_model::Wrong;

use text::{Colour, Count, Degrees, Grade, Measured, PlanId, Sha256, Size, Thickness};

/// A whole plan.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Plan {
    version: u64,
    id: PlanId,
    unit: Unit,
    ruler: Ruler,
    works: Vec<Work>,
    variants: Vec<Variant>,
    chosen: Count,
    log: Vec<Entry>,
}

#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Unit {
    Inch,
    Millimetre,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Ruler {
    unit: Unit,
    parts: u16,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Work {
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
struct Variant {
    id: Count,
    name: String,
    mat: Mat,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Mat {
    fixing: Fixing,
    layers: Vec<Layer>,
    openings: Vec<Opening>,
    backing: Backing,
    exhibition: bool,
    limits: Limits,
    notes: String,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Fixing {
    Outer { size: Size, placement: Placement },
    Borders { top: Measured, right: Measured, bottom: Measured, left: Measured },
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Placement {
    Centred,
    BottomExtra(Measured),
    BottomRatio { bottom: u32, top: u32 },
    Optical,
    Free { left: Measured, top: Measured },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Layer {
    id: Count,
    board: Board,
    bevel: Bevel,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Board {
    id: String,
    name: String,
    colour: Colour,
    thickness: Thickness,
    grade: Grade,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Bevel {
    Open(Degrees),
    Straight,
    Reverse(Degrees),
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Opening {
    id: Count,
    work: Count,
    shape: Shape,
    place: Place,
    meets: Meets,
    offsets: Vec<Offset>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Shape {
    Rectangle,
}

/// Within the group of windows.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Place {
    left: Measured,
    top: Measured,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Meets {
    Reveal { top: Measured, right: Measured, bottom: Measured, left: Measured },
    InHand { sight: Size, overlap_left: Measured, overlap_top: Measured },
}

/// From the layer above, where it is anything.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Offset {
    layer: Count,
    top: Measured,
    right: Measured,
    bottom: Measured,
    left: Measured,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Backing {
    /// Left out where it is as large as the mat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    size: Option<Size>,
    board: Board,
}

/// Each left out where the usual figure is taken.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Limits {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    least_border: Option<Measured>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    hidden_image: Option<Measured>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    when: String,
    kind: EntryKind,
    text: String,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum EntryKind {
    Choice,
    Tick,
    Reference,
}
