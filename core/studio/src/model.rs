//! What the record holds.

mod asked;
mod money;

use serde::{Deserialize, Serialize};
use sightedge_core::catalogue::{Kind, Notation, Numerals};
use sightedge_core::geometry::Size;
use sightedge_core::length::Length;

pub use asked::{Dump, EditionRow, Entry, Setting, Sums, Totals, WorkRow};
pub use money::Money;

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident;)*) => {$(
        $(#[$doc])*
        #[derive(
            Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Default, Serialize,
            Deserialize,
        )]
        #[serde(transparent)]
        pub struct $name(pub i64);
    )*};
}

ids! {
    /// Names a work.
    WorkId;
    /// Names a format: one size in which a work is printed.
    FormatId;
    /// Names an edition.
    EditionId;
    /// Names a print.
    PrintId;
}

/// A work: one picture, in whatever sizes it is printed.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Work {
    /// Its id.
    pub id: WorkId,
    /// The number it has in the catalogue, such as `W0012`; no two works share one.
    pub catalogue: String,
    /// All the rest.
    pub what: NewWork,
}

/// What is said of a work.
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
    /// The paper.
    pub paper: String,
    /// The picture's file.
    pub picture: String,
    /// SHA-256 of its bytes in lower-case hexadecimal.
    pub sha256: String,
    /// The person's own.
    pub notes: String,
}

/// One size in which a work is printed; lengths in units of 1/720 µm.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Format {
    /// Its id.
    pub id: FormatId,
    /// The work.
    pub work: WorkId,
    /// The rest.
    pub what: NewFormat,
}

/// What is said of a format; lengths in units of 1/720 µm, 0 where nothing is known.
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

    /// The printed area.
    pub const fn image(&self) -> Size {
        Size::new(Length::from_units(self.image_w), Length::from_units(self.image_h))
    }

    /// The paper.
    pub const fn sheet(&self) -> Size {
        Size::new(Length::from_units(self.sheet_w), Length::from_units(self.sheet_h))
    }
}

/// An edition: so many prints and no more.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Edition {
    /// Its id.
    pub id: EditionId,
    /// The work.
    pub work: WorkId,
    /// The rest.
    pub what: NewEdition,
}

/// What is said of an edition.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct NewEdition {
    /// What the person calls it; may be empty.
    pub name: String,
    /// The one format it is in; `None`: it counts across all formats of the work.
    pub format: Option<FormatId>,
    /// How many numbered prints there are to be. Fixed once the first is issued.
    pub size: u32,
    /// The share of proofs the person allows, in percent.
    pub proof_share: u32,
    /// Artist's proofs, outside the count, within that share.
    pub artist: u32,
    /// Printer's proofs.
    pub printer: u32,
    /// Hors commerce.
    pub hors_commerce: u32,
    /// Trial proofs.
    pub trial: u32,
    /// Whether proofs are numbered in Roman numerals.
    pub roman: bool,
}

impl Default for NewEdition {
    fn default() -> Self {
        Self {
            name: String::new(),
            format: None,
            size: 0,
            proof_share: crate::PROOF_SHARE,
            artist: 0,
            printer: 0,
            hors_commerce: 0,
            trial: 0,
            roman: true,
        }
    }
}

impl NewEdition {
    /// Of `size`, with as many artist's proofs as `share` percent allow.
    pub fn of(size: u32, share: u32) -> Self {
        let artist = proofs(size, share);
        Self { size, proof_share: share, artist, ..Self::default() }
    }

    /// How many there are to be of a kind.
    pub const fn count(&self, kind: Kind) -> u32 {
        match kind {
            Kind::Numbered => self.size,
            Kind::Artist => self.artist,
            Kind::Printer => self.printer,
            Kind::HorsCommerce => self.hors_commerce,
            Kind::BonATirer => 1,
            Kind::Trial => self.trial,
        }
    }

    /// How its proofs are numbered.
    pub const fn numerals(&self) -> Numerals {
        if self.roman { Numerals::Roman } else { Numerals::Fraction }
    }

    /// A print's place in it, as written: 3/25, AP II/V.
    pub fn notation(&self, kind: Kind, number: u32) -> String {
        Notation { kind, number, of: self.count(kind) }.text(self.numerals())
    }
}

/// The most artist's proofs that `share` percent of `size` allow: 10 % of 50 are 5.
pub(crate) fn proofs(size: u32, share: u32) -> u32 {
    u32::try_from(u64::from(size) * u64::from(share) / 100).unwrap_or(u32::MAX)
}

/// A kind is written by its key.
mod kind_word {
    use serde::de::{Deserialize, Deserializer, Error};
    use serde::ser::Serializer;
    use sightedge_core::catalogue::Kind;

    #[expect(clippy::trivially_copy_pass_by_ref, reason = "the shape serde asks for")]
    pub(super) fn serialize<S: Serializer>(kind: &Kind, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(kind.key())
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Kind, D::Error> {
        let key = String::deserialize(from)?;
        Kind::of_key(&key).ok_or_else(|| {
            D::Error::custom(format!(
                "\"{key}\" is no kind of print: numbered, ap, pp, hc, bat or tp is wanted"
            ))
        })
    }
}

/// Where a print is.
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Default, Serialize, Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// Printed, in the studio.
    #[default]
    Studio,
    /// At a show or with a gallery.
    Show,
    /// Sold.
    Sold,
    /// Come back.
    Returned,
    /// Out before this record began; where is not known.
    Unknown,
    /// Destroyed; it may be replaced under its number.
    Destroyed,
    /// Its number was given in error and is free again.
    Voided,
}

impl State {
    /// In the usual order.
    pub const ALL: [Self; 7] = [
        Self::Studio,
        Self::Show,
        Self::Sold,
        Self::Returned,
        Self::Unknown,
        Self::Destroyed,
        Self::Voided,
    ];

    /// As in the database, files and on the command line.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Studio => "studio",
            Self::Show => "show",
            Self::Sold => "sold",
            Self::Returned => "returned",
            Self::Unknown => "unknown",
            Self::Destroyed => "destroyed",
            Self::Voided => "voided",
        }
    }

    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Studio => "in the studio",
            Self::Show => "at a show",
            Self::Sold => "sold",
            Self::Returned => "returned",
            Self::Unknown => "out, not known where",
            Self::Destroyed => "destroyed",
            Self::Voided => "voided",
        }
    }

    /// The state of that key.
    pub fn of_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|state| state.key() == key)
    }
}

/// From that number of an edition on, a print costs so much.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Tier {
    /// The edition.
    pub edition: EditionId,
    /// The first number that costs so much.
    pub from: u32,
    /// The price.
    pub price: Money,
}

/// A print.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Print {
    /// Its id, which no other print ever gets.
    pub id: PrintId,
    /// The edition.
    pub edition: EditionId,
    /// What it is within the edition.
    #[serde(with = "kind_word")]
    pub kind: Kind,
    /// Its number among those of its kind.
    pub number: u32,
    /// Whether it holds its number. Voided and replaced ones do not.
    pub live: bool,
    /// The print it stands for under the same number.
    pub replaces: Option<PrintId>,
    /// All that may change.
    pub now: Stock,
}

/// What may change of a print.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Stock {
    /// The size it is printed in.
    pub format: Option<FormatId>,
    /// Where it is.
    pub state: State,
    /// Which show, which gallery, who knows.
    pub place: String,
    /// The day it was printed, or nothing.
    pub printed: String,
    /// The day it was matted, or nothing.
    pub matted: String,
    /// The id of its plan.
    pub plan: String,
    /// The file of its plan.
    pub plan_file: String,
    /// What it costs.
    pub price: Option<Money>,
    /// Of the one who has it.
    pub buyer: String,
}

/// Which number a new print gets.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Choice {
    /// The lowest that is free.
    Next,
    /// This one, if it is free.
    Number(u32),
}

/// A print to be issued.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Issue {
    /// From which edition.
    pub edition: EditionId,
    /// What it is.
    pub kind: Kind,
    /// Its number.
    pub choice: Choice,
    /// What is known of it. Without a price it takes that of its tier.
    pub stock: Stock,
}

/// When, and why.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Note {
    /// When, as handed in: an ISO 8601 date with or without the time.
    pub at: String,
    /// Why, in the person's words; may be empty.
    pub why: String,
}

impl Note {
    /// At that time, for no reason given.
    pub fn at(at: &str) -> Self {
        Self { at: at.to_owned(), why: String::new() }
    }

    /// At that time and for that reason.
    pub fn because(at: &str, why: &str) -> Self {
        Self { at: at.to_owned(), why: why.to_owned() }
    }
}

/// What happens to a print.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Change {
    /// It goes somewhere: to the studio, a show, a buyer, back.
    Move {
        /// Where it is then.
        to: State,
        /// Which show, which gallery; `None` leaves what is there.
        place: Option<String>,
        /// Who has it; `None` leaves what is there.
        buyer: Option<String>,
        /// The price; `None` leaves it.
        price: Option<Money>,
    },
    /// What was said of it is put right.
    Correct(Box<Stock>),
    /// Its number was given in error: free again, its history kept.
    Void,
}

/// Whose edition is begun.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Whose {
    /// That of a new work, with its catalogue number or the next.
    New(Box<NewWork>, Option<String>),
    /// That of a work that is there.
    There(WorkId),
}

/// A work, a size and an edition begun in one step: all of it or nothing.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Begun {
    /// The work.
    pub whose: Whose,
    /// The size, where one is said.
    pub format: Option<NewFormat>,
    /// Whether the edition counts that size alone.
    pub alone: bool,
    /// The edition; without one, the size is added to one that counts all sizes.
    pub edition: Option<NewEdition>,
    /// What prints cost from a number on.
    pub tiers: Vec<(u32, Money)>,
    /// The first and the last number that are out already, and those not known where.
    pub out: Option<(u32, u32, Vec<u32>)>,
}

/// What was said of a work and of what belongs to it, put right in one step.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Correction {
    /// Of the work itself.
    pub work: Option<NewWork>,
    /// Of the sizes it is printed in; without an id, one that was never said.
    pub formats: Vec<(Option<FormatId>, NewFormat)>,
    /// Of an edition: size and proofs only before the first print is issued.
    pub edition: Option<(EditionId, NewEdition)>,
    /// What prints cost from a number on.
    pub tiers: Vec<Tier>,
}

/// An edition that was under way before the record began.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TakenOver {
    /// The edition.
    pub edition: EditionId,
    /// The first number that is out.
    pub from: u32,
    /// The last.
    pub to: u32,
    /// Those of which nobody knows where they are.
    pub unknown: Vec<u32>,
    /// Where the others are.
    pub state: State,
}

/// What an entry is about.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Subject {
    /// A work.
    Work(WorkId),
    /// A size in which it is printed.
    Format(FormatId),
    /// An edition and what its prints cost.
    Edition(EditionId),
    /// A print.
    Print(PrintId),
}
