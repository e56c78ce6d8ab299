//! What a person wants lettered on the print and on its mat, and what the studio's record had on
//! the print when it was numbered. A plan keeps both, so that the bench needs no
//! record.

use crate::catalogue::{Notation, Numerals};
use crate::material::keyed;

/// The lettering, and the print it is for.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Inscribed {
    /// The words, and where they go.
    pub lettering: Lettering,
    /// The print.
    pub recorded: Recorded,
}

/// What the record knows of a print.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Recorded {
    /// The work's title.
    pub title: String,
    /// Who made it.
    pub maker: String,
    /// The year the picture was taken.
    pub taken: Option<i64>,
    /// The year it was printed.
    pub printed: Option<i64>,
    /// The print's place in its edition.
    pub notation: Option<Notation>,
    /// How the edition numbers its proofs.
    pub numerals: Numerals,
    /// Its id in the studio's record; `None` where its number was typed by hand, or where it has
    /// none. Two prints can have one number: a new one replaces a destroyed one.
    pub print: Option<u32>,
}

/// A print of a plan: by its id in the studio's record, or by its number.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PrintRef {
    /// The one that the studio's record knows by this id.
    Recorded(u32),
    /// One that no record knows, by the number that is written on it.
    Numbered(Notation),
}

impl Recorded {
    /// Which print it is; `None` for one without a number.
    pub fn which(&self) -> Option<PrintRef> {
        self.print.map(PrintRef::Recorded).or(self.notation.map(PrintRef::Numbered))
    }

    /// Its number as it is written; empty where it has none.
    pub fn number(&self) -> String {
        self.notation.map(|notation| notation.text(self.numerals)).unwrap_or_default()
    }
}

keyed! {
    /// Where the line on the front stands.
    Front {
        /// In the margin under the picture: number left, signature right.
        /// Source: galleries' print guides.
        #[default]
        Margin = "margin", "in the margin under the picture";
        /// Number and signature at the lower right of the mat. Source: common practice.
        Mat = "mat", "at the lower right of the mat";
        /// Nothing is written on the front.
        Nothing = "nothing", "nothing on the front";
    }
}

impl Front {
    /// Where it is written, and when: the margin while the sheet still lies free, the mat once
    /// the sheet is fixed under it.
    pub const fn place_and_time(self) -> &'static str {
        match self {
            Self::Margin => "In the margin, before the sheet is matted",
            Self::Mat => "On the mat, after the sheet is fixed",
            Self::Nothing => "Nothing on the front",
        }
    }
}

keyed! {
    /// Where on the back of the sheet one writes.
    Back {
        /// Behind the margin, where it is wide enough; else behind the image.
        #[default]
        Margin = "margin", "behind the margin";
        /// Behind the image.
        Image = "image", "behind the image";
    }
}

/// What the person wants lettered, and where.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Lettering {
    /// The lines on the back, in their order.
    pub back: Vec<String>,
    /// Where on the back.
    pub behind: Back,
    /// Where on the front.
    pub front: Front,
    /// At the left of the front, or first on the mat.
    pub left: String,
    /// At the right.
    pub right: String,
    /// What is written on the mat or in the margin already; empty where nothing is.
    pub already_written: String,
}

impl Default for Lettering {
    /// Source: galleries' print guides; common practice.
    fn default() -> Self {
        Self {
            back: ["{title}", "© {taken}[, printed {printed}]", "{maker}", "{number}   {sign}"]
                .map(str::to_owned)
                .to_vec(),
            behind: Back::default(),
            front: Front::default(),
            left: "{number}".to_owned(),
            right: "{sign}".to_owned(),
            already_written: String::new(),
        }
    }
}
