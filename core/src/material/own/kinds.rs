//! Which tables a person edits, and their columns.

use super::super::assembly::keyed;

keyed! {
    /// A table that a person edits.
    Kind {
        /// Papers.
        #[default]
        Papers = "papers", "Papers";
        /// Boards.
        Boards = "boards", "Boards";
        /// Hinge tissues and tapes.
        Tissues = "tissues", "Tissues and tapes";
        /// What covers pictures in frames.
        Glazing = "glazing", "Glazing";
        /// What fills frames behind the backing.
        Fillers = "fillers", "Behind the backing";
        /// Mouldings.
        Frames = "frames", "Frames";
        /// Bags for finished pieces.
        Bags = "bags", "Bags";
        /// Sizes that mats and frames are made in.
        Outer = "outer", "Outer sizes";
        /// Sheets that prints are made on.
        Sheets = "sheets", "Print sheets";
        /// Sheets that boards are sold in.
        Stock = "stock", "Sheets of board";
        /// The steps at the bench.
        Steps = "steps", "Steps at the bench";
    }
}

/// What a cell holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Form {
    /// Text, which may have to be a length, a colour or one of a few words.
    Text,
    /// Text, or nothing where it is not known.
    OpenText,
    /// A whole number.
    Whole,
    /// A whole number, or nothing where it is not known.
    OpenWhole,
    /// `yes` or `no`.
    YesNo,
    /// Several texts, parted by ` | `.
    Several,
}

/// A column.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Field {
    /// As it is written in the file.
    pub key: &'static str,
    /// Over the column.
    pub heading: &'static str,
    /// What its cells hold.
    pub form: Form,
}

const fn field(key: &'static str, heading: &'static str, form: Form) -> Field {
    Field { key, heading, form }
}

const ID: Field = field("id", "id", Form::Text);
const NAME: Field = field("name", "name", Form::Text);
const ORIGIN: Field = field("origin", "source", Form::Text);
const THICKNESS: Field = field("thickness", "thickness", Form::Text);
const GSM: Field = field("mass_gsm", "g/m²", Form::OpenWhole);

impl Kind {
    /// Its columns; the first one names the row: its id, for sizes their name.
    pub const fn fields(self) -> &'static [Field] {
        match self {
            Self::Papers => {
                const {
                    &[
                        ID,
                        NAME,
                        field("fibre", "fibre", Form::Text),
                        field("process", "process", Form::Text),
                        GSM,
                        field("thickness", "thickness", Form::OpenText),
                        field("white", "white", Form::OpenText),
                        field("along", "growth along, %/%", Form::OpenText),
                        field("across", "growth across, %/%", Form::OpenText),
                        field("water_based", "water-based", Form::YesNo),
                        field("pencil", "pencil", Form::YesNo),
                        ORIGIN,
                    ]
                }
            }
            Self::Boards => {
                const {
                    &[
                        ID,
                        NAME,
                        field("colour", "colour", Form::Text),
                        THICKNESS,
                        field("grade", "grade", Form::Text),
                        field("ply", "ply", Form::OpenWhole),
                        GSM,
                        field("sheets", "sheets", Form::OpenText),
                        field("price", "price", Form::OpenText),
                        field("turns", "may be turned", Form::YesNo),
                        field("origin", "source", Form::OpenText),
                    ]
                }
            }
            Self::Tissues => {
                const {
                    &[
                        ID,
                        NAME,
                        field("width", "roll width", Form::OpenText),
                        field("tensile_n_per_m", "strength, N/m", Form::OpenWhole),
                        field("shear_pa", "joint strength, Pa", Form::OpenWhole),
                        field("reversible", "reversible", Form::YesNo),
                        field("pressure_sensitive", "pressure-sensitive", Form::YesNo),
                        ORIGIN,
                    ]
                }
            }
            Self::Glazing => {
                const {
                    &[
                        ID,
                        NAME,
                        THICKNESS,
                        field("density_kg_m3", "kg/m³", Form::Whole),
                        field("glass", "glass", Form::YesNo),
                        ORIGIN,
                    ]
                }
            }
            Self::Fillers => {
                const { &[ID, NAME, THICKNESS, field("mass_gsm", "g/m²", Form::Whole), ORIGIN] }
            }
            Self::Frames => {
                const {
                    &[
                        ID,
                        NAME,
                        field("rabbet_depth", "rabbet", Form::OpenText),
                        field("lip", "lip", Form::Text),
                        field("face", "face", Form::Text),
                        field("mass_g_per_m", "g/m", Form::Whole),
                        field("colour", "colour", Form::OpenText),
                        field("profile", "profile", Form::OpenText),
                        field("surface", "surface", Form::OpenText),
                        ORIGIN,
                    ]
                }
            }
            Self::Bags => const { &[ID, NAME, field("size", "size", Form::Text), ORIGIN] },
            Self::Outer | Self::Sheets | Self::Stock => {
                const { &[NAME, field("size", "size", Form::Text), ORIGIN] }
            }
            Self::Steps => {
                const {
                    &[
                        ID,
                        field("title", "title", Form::Text),
                        field("text", "what is done", Form::Several),
                        field("cautions", "cautions", Form::Several),
                        field("when", "when", Form::Text),
                    ]
                }
            }
        }
    }
}
