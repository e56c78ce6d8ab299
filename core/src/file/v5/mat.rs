//! The form of a mat: its layers, windows and backing.

use serde::{Deserialize, Serialize};

use super::assembly::Assembly;
use super::text::{Colour, Count, Degrees, Grade, Measured, Number, Size, Thickness};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Mat {
    pub(super) board_by: BoardBy,
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
    pub(super) assembly: Option<Assembly>,
    /// Left out where no window was entered as cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) planned: Option<Planned>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum BoardBy {
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
    pub(super) window_by: WindowBy,
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
pub(super) enum WindowBy {
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

/// What was planned before the first window was entered as cut.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Planned {
    pub(super) board_by: BoardBy,
    pub(super) openings: Vec<Opening>,
    /// The print that was at the bench, by its id in the studio's record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) print: Option<Count>,
    /// The same by its number, where no record knows it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) number: Option<Number>,
}
