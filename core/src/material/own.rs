//! The tables as a person edits them: rows of cells, each cell the text that is typed. A row
//! is written as RON and read as every table is read, so that a wrong cell is refused with the
//! same words wherever it comes from.

use std::collections::BTreeMap;

use super::behind::keyed;
use super::tables::{TableError, Tables};
use super::{Rate, StepRow};
use crate::geometry::Size;
use crate::length::{Length, Unit};

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
const ORIGIN: Field = field("origin", "where from", Form::Text);
const THICKNESS: Field = field("thickness", "thickness", Form::Text);
const GSM: Field = field("mass_gsm", "g/m²", Form::OpenWhole);

impl Kind {
    /// Its columns; the first one is the id.
    pub const fn fields(self) -> &'static [Field] {
        match self {
            Self::Papers => {
                const {
                    &[
                        ID,
                        NAME,
                        field("fibre", "fibre", Form::Text),
                        field("process", "made as", Form::Text),
                        GSM,
                        field("thickness", "thickness", Form::OpenText),
                        field("white", "white", Form::OpenText),
                        field("along", "along, %/%", Form::OpenText),
                        field("across", "across, %/%", Form::OpenText),
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
                        field("turns", "may turn", Form::YesNo),
                        field("origin", "where from", Form::OpenText),
                    ]
                }
            }
            Self::Tissues => {
                const {
                    &[
                        ID,
                        NAME,
                        field("width", "roll", Form::OpenText),
                        field("tensile_n_per_m", "strip, N/m", Form::OpenWhole),
                        field("shear_pa", "joint, Pa", Form::OpenWhole),
                        field("reversible", "reversible", Form::YesNo),
                        field("pressure_sensitive", "by pressure", Form::YesNo),
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
                        ORIGIN,
                    ]
                }
            }
            Self::Bags => const { &[ID, NAME, field("size", "size", Form::Text), ORIGIN] },
            Self::Steps => {
                const {
                    &[
                        ID,
                        field("title", "title", Form::Text),
                        field("text", "what is done", Form::Text),
                        field("cautions", "cautions", Form::Several),
                        field("when", "when", Form::Text),
                    ]
                }
            }
        }
    }
}

/// The cells of one row, in the order of its table's fields.
pub type Cells = Vec<String>;

/// A person's own rows, laid over those that ship.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Own {
    rows: BTreeMap<Kind, Vec<Cells>>,
}

impl Own {
    /// Reads a person's own tables.
    ///
    /// # Errors
    /// Names the row, the field and the reason.
    pub fn read(text: &str) -> Result<Self, TableError> {
        let tables = Tables::read(text)?;
        let mut own = Self::default();
        for kind in Kind::ALL {
            let rows = cells(&tables, *kind);
            if !rows.is_empty() {
                own.rows.insert(*kind, rows);
            }
        }
        Ok(own)
    }

    /// As they are kept in a file.
    pub fn text(&self) -> String {
        let mut text =
            "// A person's own materials, laid over those of the program.\n(\n".to_owned();
        for (kind, rows) in &self.rows {
            text.extend(["    ", kind.key(), ": [\n"]);
            for row in rows {
                let row = written(*kind, row).unwrap_or_default();
                text.extend(["        ", &row, ",\n"]);
            }
            text.push_str("    ],\n");
        }
        text.push_str(")\n");
        text
    }

    /// As tables.
    pub fn tables(&self) -> Tables {
        // Each row was read when it was put in.
        Tables::read(&self.text()).unwrap_or_default()
    }

    /// Puts a row in, in the place of one with the same id.
    ///
    /// # Errors
    /// Names the row, the field and the reason; then nothing changed.
    pub fn put(&mut self, kind: Kind, row: Cells) -> Result<(), TableError> {
        let id = row.first().map(|id| id.trim().to_owned()).unwrap_or_default();
        if id.is_empty() {
            return Err(TableError::new(
                "the row has no id: a short name of small letters is wanted".to_owned(),
            ));
        }
        let text = written(kind, &row)?;
        Tables::read(&format!("({}: [{text}])", kind.key()))?;
        let rows = self.rows.entry(kind).or_default();
        match rows.iter_mut().find(|old| old.first().is_some_and(|old| *old == id)) {
            Some(old) => *old = row,
            None => rows.push(row),
        }
        Ok(())
    }

    /// Takes a row out; one that ships comes back.
    pub fn remove(&mut self, kind: Kind, id: &str) {
        if let Some(rows) = self.rows.get_mut(&kind) {
            rows.retain(|row| row.first().is_none_or(|own| own != id));
            if rows.is_empty() {
                self.rows.remove(&kind);
            }
        }
    }

    /// Whether a row is the person's own.
    pub fn has(&self, kind: Kind, id: &str) -> bool {
        let rows = self.rows.get(&kind);
        rows.is_some_and(|rows| rows.iter().any(|row| row.first().is_some_and(|own| own == id)))
    }
}

/// A row as RON.
fn written(kind: Kind, row: &[String]) -> Result<String, TableError> {
    let id = row.first().map_or("", String::as_str);
    let mut text = "(".to_owned();
    for (field, cell) in kind.fields().iter().zip(row) {
        let cell = cell.trim();
        let fail =
            |why: &str| TableError::new(format!("{id}, {}: \"{cell}\" {why}", field.heading));
        let quoted = |text: &str| {
            ron::to_string(text).map_err(|error| fail(&format!("cannot be written: {error}")))
        };
        let whole = || {
            cell.parse::<u32>()
                .map(|number| number.to_string())
                .map_err(|_| fail("is no whole number: digits alone are wanted, as in 300"))
        };
        let value = match field.form {
            Form::OpenText | Form::OpenWhole if cell.is_empty() => "None".to_owned(),
            Form::Text | Form::OpenText => quoted(cell)?,
            Form::Whole | Form::OpenWhole => whole()?,
            Form::YesNo => match cell {
                "yes" => "true".to_owned(),
                "no" => "false".to_owned(),
                _ => return Err(fail("is neither yes nor no: one of them is wanted")),
            },
            Form::Several => {
                let parts = cell.split(" | ").filter(|part| !part.is_empty());
                let parts = parts.map(quoted).collect::<Result<Vec<_>, _>>()?;
                format!("[{}]", parts.join(", "))
            }
        };
        text.extend([field.key, ": ", &value, ", "]);
    }
    text.push(')');
    Ok(text)
}

/// A length as a person would type it: in inches where it is a whole number of thousandths or
/// of 128ths of one.
fn length(length: Length) -> String {
    let inch = length.is_on(Length::inch_1000ths(1)) || length.is_on(Length::inch_128ths(1));
    length.text(if inch { Unit::Inch } else { Unit::Millimetre })
}

fn size(size: Size) -> String {
    let height = length(size.height);
    let width = length(size.width);
    let unit = |text: &str| text.rsplit_once(' ').map(|(_, unit)| unit.to_owned());
    // One unit for both, where they have the same.
    if unit(&width) == unit(&height) {
        let number = width.rsplit_once(' ').map_or(width.as_str(), |(number, _)| number);
        return format!("{number}x{height}");
    }
    format!("{}x{}", size.width.text(Unit::Millimetre), size.height.text(Unit::Millimetre))
}

/// Every row of a table as cells.
pub fn cells(tables: &Tables, kind: Kind) -> Vec<Cells> {
    let open = |length_: Option<Length>| length_.map(length).unwrap_or_default();
    let number = |number: Option<u32>| number.map(|n| n.to_string()).unwrap_or_default();
    let yes = |yes: bool| if yes { "yes" } else { "no" }.to_owned();
    let rate = |rate: Option<Rate>| rate.map(Rate::text).unwrap_or_default();
    match kind {
        Kind::Papers => rows(&tables.papers, |row| {
            vec![
                row.id.clone(),
                row.name.clone(),
                row.fibre.key().to_owned(),
                row.process.key().to_owned(),
                number(row.mass_gsm),
                open(row.thickness),
                row.white.map(super::Colour::hex).unwrap_or_default(),
                rate(row.along),
                rate(row.across),
                yes(row.water_based),
                yes(row.pencil),
                row.origin.clone(),
            ]
        }),
        Kind::Boards => rows(&tables.boards, |row| {
            let facts = tables.facts(&row.id).cloned().unwrap_or_default();
            let sheets: Vec<String> = facts.sheets.iter().map(|sheet| size(*sheet)).collect();
            vec![
                row.id.clone(),
                row.name.clone(),
                row.colour.hex(),
                length(row.thickness),
                row.grade.key().to_owned(),
                number(facts.ply),
                number(row.mass_gsm),
                sheets.join(", "),
                facts.price,
                yes(row.turns),
                facts.origin,
            ]
        }),
        Kind::Tissues => rows(&tables.tissues, |row| {
            vec![
                row.id.clone(),
                row.name.clone(),
                open(row.width),
                number(row.tensile_n_per_m),
                number(row.shear_pa),
                yes(row.reversible),
                yes(row.pressure_sensitive),
                row.origin.clone(),
            ]
        }),
        Kind::Glazing => rows(&tables.glazing, |row| {
            vec![
                row.id.clone(),
                row.name.clone(),
                length(row.thickness),
                row.density_kg_m3.to_string(),
                yes(row.glass),
                row.origin.clone(),
            ]
        }),
        Kind::Fillers => rows(&tables.fillers, |row| {
            vec![
                row.id.clone(),
                row.name.clone(),
                length(row.thickness),
                row.mass_gsm.to_string(),
                row.origin.clone(),
            ]
        }),
        Kind::Frames => rows(&tables.frames, |row| {
            vec![
                row.id.clone(),
                row.name.clone(),
                open(row.rabbet_depth),
                length(row.lip),
                length(row.face),
                row.mass_g_per_m.to_string(),
                row.origin.clone(),
            ]
        }),
        Kind::Bags => rows(&tables.bags, |row| {
            vec![row.id.clone(), row.name.clone(), size(row.size), row.origin.clone()]
        }),
        Kind::Steps => rows(&tables.steps, |row| {
            let StepRow { id, title, text, cautions, when } = row.clone();
            vec![id, title, text, cautions.join(" | "), when]
        }),
    }
}

fn rows<T>(rows: &[T], cells: impl Fn(&T) -> Cells) -> Vec<Cells> {
    rows.iter().map(cells).collect()
}

#[cfg(test)]
mod tests;
