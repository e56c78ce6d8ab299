//! The document: what a person decides, and nothing that follows from it.
//!
//! A [`Document`] is the plan for one picture. It holds the works (pictures on their sheets)
//! and the variants (mats tried round them); one work is served today.
//! Everything is addressed by stable ids, so that undo, remedies and saved references keep
//! pointing at the same thing.

mod assembly;
mod bevel;
mod fresh;
mod inscribed;
mod mat;
mod proportion;

pub use assembly::{
    Assembly, FrameSize, Grain, Hanging, Hangs, HingeAt, HingeKind, Hinging, Hooks, MatHinge,
    Package,
};
pub use bevel::{Angle, Bevel};
pub use fresh::{
    Start, UsualOuter, held_by, margins, standard_border, usual_board, usual_offset,
    usual_outer, usual_overlap,
};
pub use inscribed::{Back, Front, Inscribed, Lettering, PrintRef, Recorded};
pub use mat::{
    AsCut, Backing, BoardBy, InHand, Layer, Limits, Mat, Opening, Placement, Planned, Shape,
    Weight, WindowBy, layer_name,
};
pub use proportion::MOST_APART;

use crate::geometry::{Rect, Size};
use crate::length::{Length, Unit};
use crate::weight::Weights;

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Default)]
        pub struct $name(pub u32);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                self.0.fmt(f)
            }
        }
    )*};
}

ids! {
    /// Names a work of a document.
    WorkId;
    /// Names a variant of a document.
    VariantId;
    /// Names a layer of a mat.
    LayerId;
    /// Names an opening of a mat.
    OpeningId;
}

/// The plan for one picture.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Document {
    /// The id of this plan, which no other plan has; made once, outside core, and never changed.
    pub id: String,
    /// What bare numbers mean, and what figures are shown in.
    pub unit: Unit,
    /// What weights and forces are shown in; `None`: what goes with the unit.
    pub weights: Option<Weights>,
    /// The ruler the maker cuts by.
    pub ruler: Ruler,
    /// Pictures on their sheets.
    pub works: Vec<Work>,
    /// The mats tried.
    pub variants: Vec<Variant>,
    /// The variant that is to be made.
    pub chosen: VariantId,
    /// When somebody chose it among several, and their words; `None` until then.
    pub choice: Option<Choice>,
    /// What is written on the first work's print and its mat, and which print that is: the one
    /// at the bench. `None` until it is decided.
    pub inscribed: Option<Inscribed>,
    /// What happened along the way; outside undo.
    pub log: Vec<Entry>,
}

/// A picture printed on a sheet.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Work {
    /// Its id.
    pub id: WorkId,
    /// What it is called; may be empty.
    pub title: String,
    /// The file it was printed from.
    pub picture: Picture,
    /// The paper.
    pub sheet: Size,
    /// The printed area, from the sheet's top left corner.
    pub image: Rect,
}

/// The file of a picture.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Picture {
    /// Where it is, seen from the plan's folder; always with forward slashes.
    pub path: String,
    /// SHA-256 of its bytes in lower-case hexadecimal, to find it again when it has moved.
    pub sha256: String,
    /// Width in pixels, upright.
    pub width_px: u32,
    /// Height in pixels, upright.
    pub height_px: u32,
}

/// One mat tried round the works.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Variant {
    /// Its id.
    pub id: VariantId,
    /// What the maker calls it.
    pub name: String,
    /// The mat.
    pub mat: Mat,
}

/// How a mat came to be chosen.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Choice {
    /// When, as it was handed in: an ISO 8601 date.
    pub when: String,
    /// What the client said; may be empty.
    pub words: String,
}

/// Something that happened along the way.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Entry {
    /// When, as it was handed in: an ISO 8601 date with or without the time.
    pub when: String,
    /// What sort of thing.
    pub kind: EntryKind,
    /// In words.
    pub text: String,
    /// Of a step done at the bench: for which print, and what was done.
    pub ticked: Option<Ticked>,
}

/// What a step that was ticked was.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Ticked {
    /// Which print of the plan it was done for; `None` for the plan alone.
    pub print: Option<PrintRef>,
    /// The step as it was then: its title, and what is done; of the oldest ticks of many only a
    /// digest of it. Empty where that is not known.
    pub step: Vec<String>,
}

/// What a log entry is about.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum EntryKind {
    /// Something chosen for the person or by them.
    Choice,
    /// A step done at the bench.
    Tick,
    /// A record, a paper or a file that refers to this plan.
    Reference,
}

/// A ruler: its unit parted into equal steps.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Ruler {
    unit: Unit,
    parts: u16,
}

impl Ruler {
    /// Parts of an inch that rulers have.
    pub const INCH_PARTS: [u16; 5] = [8, 16, 32, 64, 128];
    /// Parts of a millimetre that rulers and stops have.
    pub const MM_PARTS: [u16; 4] = [1, 2, 5, 10];

    /// Parts of that unit that rulers have.
    pub const fn parts_of(unit: Unit) -> &'static [u16] {
        match unit {
            Unit::Inch => &Self::INCH_PARTS,
            Unit::Millimetre => &Self::MM_PARTS,
        }
    }

    /// A ruler with `parts` steps in each `unit`; `None` where no such ruler is made.
    pub fn new(unit: Unit, parts: u16) -> Option<Self> {
        Self::parts_of(unit).contains(&parts).then_some(Self { unit, parts })
    }

    /// All that are made in that unit, the coarsest first.
    pub fn all(unit: Unit) -> impl Iterator<Item = Self> {
        Self::parts_of(unit).iter().map(move |parts| Self { unit, parts: *parts })
    }

    /// What it is called: `1/16 in`, `0.5 mm`.
    pub fn name(self) -> String {
        match self.unit {
            Unit::Inch => format!("1/{} {}", self.parts, self.unit.sign()),
            Unit::Millimetre => self.step().text(self.unit),
        }
    }

    /// The usual one: 1/16 in, or 1 mm.
    pub const fn usual(unit: Unit) -> Self {
        match unit {
            Unit::Inch => Self { unit, parts: 16 },
            Unit::Millimetre => Self { unit, parts: 1 },
        }
    }

    /// Its unit.
    pub const fn unit(self) -> Unit {
        self.unit
    }

    /// Steps in each unit.
    pub const fn parts(self) -> u16 {
        self.parts
    }

    /// One step.
    pub fn step(self) -> Length {
        self.unit.length().scaled(1, i128::from(self.parts))
    }
}

impl Document {
    /// What weights and forces are shown in.
    pub fn weights(&self) -> Weights {
        self.weights.unwrap_or(Weights::of(self.unit))
    }

    /// The variant of that id.
    pub fn variant(&self, id: VariantId) -> Option<&Variant> {
        self.variants.iter().find(|variant| variant.id == id)
    }

    /// The variant that is to be made; the first one where the choice points nowhere.
    pub fn chosen(&self) -> Option<&Variant> {
        self.variant(self.chosen).or_else(|| self.variants.first())
    }

    /// The work of that id.
    pub fn work(&self, id: WorkId) -> Option<&Work> {
        self.works.iter().find(|work| work.id == id)
    }
}
