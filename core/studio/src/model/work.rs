//! A work, and the sizes it is printed in.

use serde::{Deserialize, Serialize};
use sightedge_core::geometry::Size;
use sightedge_core::length::Length;

use super::{FormatId, WorkId};

/// A work: one picture, in whatever sizes it is printed.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Work {
    /// Its id.
    pub id: WorkId,
    /// The number it has in the catalogue, such as `W0012`; no two works share one.
    pub catalogue: String,
    /// Whether it was entered by mistake and taken off the lists. It stays in the record.
    #[serde(default)]
    pub withdrawn: bool,
    /// What the person entered.
    pub what: NewWork,
}

/// What the person enters for a work.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct NewWork {
    /// Its title.
    pub title: String,
    /// Who made it.
    pub maker: String,
    /// The year the picture was taken.
    pub taken: Option<i64>,
    /// The year it was printed, where it differs.
    pub printed: Option<i64>,
    /// As on a label: pigment print, gelatin silver print.
    pub medium: String,
    /// How it is made, where the medium leaves that open: inkjet with pigments, photogravure.
    pub process: String,
    /// The paper, or whatever else it is printed on.
    pub paper: String,
    /// How and where prints are signed: in pencil, on the front, below the image.
    pub signed: String,
    /// Who authorised the edition, and whether the maker was alive: by the maker; posthumous, by the
    /// estate.
    pub authorised: String,
    /// What becomes of the negative, plate or file when the edition is complete.
    pub master: String,
    /// Other editions of the picture that this record does not hold, in other sizes or media.
    pub others: String,
    /// The picture's file.
    pub picture: String,
    /// SHA-256 of its bytes in lower-case hexadecimal.
    pub sha256: String,
    /// The person's own notes.
    pub notes: String,
}

/// One size in which a work is printed; lengths in units of 1/720 µm.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Format {
    /// Its id.
    pub id: FormatId,
    /// The work.
    pub work: WorkId,
    /// What the person entered.
    pub what: NewFormat,
}

/// What the person enters for a format; lengths in units of 1/720 µm, 0 where nothing is known.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct NewFormat {
    /// What the person calls it.
    pub name: String,
    /// Width of the printed area.
    pub image_w: i64,
    /// Height of the printed area.
    pub image_h: i64,
    /// Width of the paper.
    pub sheet_w: i64,
    /// Height of the paper.
    pub sheet_h: i64,
}

impl NewFormat {
    /// A format of these sizes.
    pub fn new(name: &str, image: Size, sheet: Size) -> Self {
        Self {
            name: name.to_owned(),
            image_w: image.width.units(),
            image_h: image.height.units(),
            sheet_w: sheet.width.units(),
            sheet_h: sheet.height.units(),
        }
    }

    /// Whether it has the measures of `other`, whatever they are called.
    pub fn measures_as(&self, other: &Self) -> bool {
        self.image() == other.image() && self.sheet() == other.sheet()
    }

    /// The printed area.
    pub const fn image(&self) -> Size {
        Size::new(Length::from_units(self.image_w), Length::from_units(self.image_h))
    }

    /// The paper.
    pub const fn sheet(&self) -> Size {
        Size::new(Length::from_units(self.sheet_w), Length::from_units(self.sheet_h))
    }
}
