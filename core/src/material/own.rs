//! The tables as a person edits them: rows of cells, each cell the text that is typed. A row
//! is written as RON and read as every table is read, so that a wrong cell is refused with the
//! same words wherever it comes from.

use std::collections::BTreeMap;

use super::error::TableError;
use super::tables::Tables;
use super::{Rate, SizeRow, StepRow};
use crate::geometry::Size;
use crate::length::{Length, Unit};

mod kinds;
pub use kinds::{Field, Form, Kind};

/// The cells of one row, in the order of its table's fields.
pub type Cells = Vec<String>;

/// A person's own rows, laid over those that ship.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct OwnTables {
    rows: BTreeMap<Kind, Vec<Cells>>,
    /// The ids of the steps in the person's own order; empty for the program's.
    order: Vec<String>,
}

impl OwnTables {
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
        own.order = tables.steps_order;
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
        if !self.order.is_empty() {
            let ids = self.order.iter().filter_map(|id| ron::to_string(id).ok());
            let ids = ids.collect::<Vec<_>>().join(", ");
            text.extend(["    steps_order: [", &ids, "],\n"]);
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
                "the row has no id: give it a short name in small letters".to_owned(),
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
        if kind == Kind::Steps && Tables::shipped().steps.iter().all(|row| row.id != id) {
            self.order.retain(|own| own != id);
        }
        if let Some(rows) = self.rows.get_mut(&kind) {
            rows.retain(|row| row.first().is_none_or(|own| own != id));
            if rows.is_empty() {
                self.rows.remove(&kind);
            }
        }
    }

    /// Puts a step one place earlier or later in the order of work; `tables` are those that
    /// these rows lie over, with these rows on them.
    pub fn move_step(&mut self, tables: &Tables, id: &str, earlier: bool) {
        let mut ids: Vec<String> = tables.steps.iter().map(|row| row.id.clone()).collect();
        let Some(from) = ids.iter().position(|one| one == id) else { return };
        let to = if earlier { from.checked_sub(1) } else { Some(from + 1) };
        let Some(to) = to.filter(|to| *to < ids.len()) else { return };
        ids.swap(from, to);
        self.order = ids;
        // An order that changes nothing is none.
        let plain = Self { rows: self.rows.clone(), order: Vec::new() };
        let shipped = Tables::shipped().clone();
        if shipped.with(plain.tables()).steps.iter().map(|row| &row.id).eq(&self.order) {
            self.order.clear();
        }
    }

    /// Whether the steps stand in an order of the person's own.
    pub const fn has_order(&self) -> bool {
        !self.order.is_empty()
    }

    /// Goes back to the program's order of steps.
    pub fn forget_order(&mut self) {
        self.order.clear();
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
                .map_err(|_| fail("is not a whole number: type digits only, as in 300"))
        };
        let value = match field.form {
            Form::OpenText | Form::OpenWhole if cell.is_empty() => "None".to_owned(),
            Form::Text | Form::OpenText => quoted(cell)?,
            Form::Whole | Form::OpenWhole => whole()?,
            Form::YesNo => match cell {
                "yes" => "true".to_owned(),
                "no" => "false".to_owned(),
                _ => return Err(fail("is neither yes nor no: type one of them")),
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

/// A length as a person would type it, to the last digit: in inches where it is a whole number of thousandths or
/// of 128ths of one.
fn length(length: Length) -> String {
    let inch = length.is_on(Length::inch_1000ths(1)) || length.is_on(Length::inch_128ths(1));
    length.exact(if inch { Unit::Inch } else { Unit::Millimetre })
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
    format!("{}x{}", size.width.exact(Unit::Millimetre), size.height.exact(Unit::Millimetre))
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
                row.colour.map(super::Colour::hex).unwrap_or_default(),
                row.profile.key().to_owned(),
                row.surface.key().to_owned(),
                row.origin.clone(),
            ]
        }),
        Kind::Bags => rows(&tables.bags, |row| {
            vec![row.id.clone(), row.name.clone(), size(row.size), row.origin.clone()]
        }),
        Kind::Outer => rows(&tables.outer, sized),
        Kind::Sheets => rows(&tables.sheets, sized),
        Kind::Stock => rows(&tables.stock, sized),
        Kind::Steps => rows(&tables.steps, |row| {
            let StepRow { id, title, text, cautions, when } = row.clone();
            vec![id, title, text.join(" | "), cautions.join(" | "), when]
        }),
    }
}

/// A size in the unit that it is named in.
fn sized(row: &SizeRow) -> Cells {
    let [width, height] = [row.size.width, row.size.height].map(|side| side.exact(row.unit));
    vec![row.name.clone(), format!("{width}x{height}"), row.origin.clone()]
}

fn rows<T>(rows: &[T], cells: impl Fn(&T) -> Cells) -> Vec<Cells> {
    rows.iter().map(cells).collect()
}

#[cfg(test)]
mod tests;
