//! The tables of sizes and boards: those that ship with the program, and the person's own
//! laid over them.

use std::sync::LazyLock;

use serde::Deserialize;

use super::{Board, Colour, Grade};
use crate::geometry::Size;
use crate::length::{Length, Unit, parse, parse_pair};

/// Sizes and boards to choose from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tables {
    /// Outer sizes that mats and frames are made in.
    pub outer: Vec<SizeRow>,
    /// Sheets that prints are made on.
    pub sheets: Vec<SizeRow>,
    /// Sheets that boards are sold in.
    pub stock: Vec<SizeRow>,
    /// Boards.
    pub boards: Vec<Board>,
}

/// A size that things are made in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SizeRow {
    /// What it is called.
    pub name: String,
    /// Upright: the short side across.
    pub size: Size,
    /// The unit it is named in.
    pub unit: Unit,
    /// Where the figure comes from.
    pub origin: String,
}

/// Why a table cannot be used: the row, the field and the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableError(String);

impl std::fmt::Display for TableError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.fmt(f)
    }
}

impl std::error::Error for TableError {}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Tables")]
struct Saved {
    #[serde(default)]
    outer: Vec<SavedSize>,
    #[serde(default)]
    sheets: Vec<SavedSize>,
    #[serde(default)]
    stock: Vec<SavedSize>,
    #[serde(default)]
    boards: Vec<SavedBoard>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Size")]
struct SavedSize {
    name: String,
    size: String,
    origin: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Board")]
struct SavedBoard {
    id: String,
    name: String,
    colour: String,
    thickness: String,
    grade: String,
}

static SHIPPED: LazyLock<Tables> = LazyLock::new(|| {
    // A test reads each of them; a table that cannot be read leaves its rows out.
    [
        include_str!("../../../assets/tables/outer-sizes.ron"),
        include_str!("../../../assets/tables/print-sheets.ron"),
        include_str!("../../../assets/tables/boards.ron"),
    ]
    .iter()
    .filter_map(|text| Tables::read(text).ok())
    .fold(Tables::default(), Tables::with)
});

impl Tables {
    /// The tables that ship with the program.
    pub fn shipped() -> &'static Self {
        &SHIPPED
    }

    /// Reads a table.
    ///
    /// # Errors
    /// Names the row, the field and the reason.
    pub fn read(text: &str) -> Result<Self, TableError> {
        let saved: Saved = ron::from_str(text).map_err(|error| {
            let at = error.span.start;
            TableError(format!("line {}, column {}: {}", at.line, at.col, error.code))
        })?;
        let sizes = |rows: Vec<SavedSize>| -> Result<Vec<SizeRow>, TableError> {
            rows.into_iter().map(SavedSize::row).collect()
        };
        Ok(Self {
            outer: sizes(saved.outer)?,
            sheets: sizes(saved.sheets)?,
            stock: sizes(saved.stock)?,
            boards: saved
                .boards
                .into_iter()
                .map(SavedBoard::board)
                .collect::<Result<_, _>>()?,
        })
    }

    /// Both together; a row of `other` takes the place of one with the same name.
    #[must_use]
    pub fn with(mut self, other: Self) -> Self {
        fn lay(rows: &mut Vec<SizeRow>, over: Vec<SizeRow>) {
            for row in over {
                rows.retain(|old| old.name != row.name);
                rows.push(row);
            }
        }
        lay(&mut self.outer, other.outer);
        lay(&mut self.sheets, other.sheets);
        lay(&mut self.stock, other.stock);
        for board in other.boards {
            self.boards.retain(|old| old.id != board.id);
            self.boards.push(board);
        }
        self
    }

    /// The board of that id.
    pub fn board(&self, id: &str) -> Option<&Board> {
        self.boards.iter().find(|board| board.id == id)
    }

    /// The stock sheet with the largest face.
    pub fn largest_stock(&self) -> Option<Size> {
        self.stock
            .iter()
            .map(|row| row.size)
            .max_by_key(|size| i128::from(size.width.units()) * i128::from(size.height.units()))
    }
}

impl SavedSize {
    fn row(self) -> Result<SizeRow, TableError> {
        let fail = |why: String| TableError(format!("{}, size: {why}", self.name));
        let unit = crate::length::first_unit(&self.size)
            .ok_or_else(|| fail("a unit is wanted, as in 16x20in or 400x500mm".to_owned()))?;
        let (width, height) =
            parse_pair(&self.size, unit).map_err(|error| fail(error.to_string()))?;
        let size = Size::new(width, height);
        if !size.is_positive() {
            return Err(fail(format!(
                "{} is no size: both sides must be above zero",
                self.size
            )));
        }
        let upright = if width > height { size.turned() } else { size };
        Ok(SizeRow { size: upright, unit, name: self.name, origin: self.origin })
    }
}

impl SavedBoard {
    fn board(self) -> Result<Board, TableError> {
        let fail = |field, why| TableError(format!("{}, {field}: {why}", self.id));
        let thickness = parse(&self.thickness, Unit::Millimetre)
            .map_err(|error| fail("thickness", error.to_string()))?;
        if !(Length::um(50)..=Length::mm(30)).contains(&thickness) {
            let why = format!("{} is no board: 0.05 to 30 mm are wanted", self.thickness);
            return Err(fail("thickness", why));
        }
        let colour = Colour::from_hex(&self.colour).ok_or_else(|| {
            fail("colour", format!("\"{}\" is no colour: try #f4f1ea", self.colour))
        })?;
        let grade = Grade::from_key(&self.grade).ok_or_else(|| {
            let keys = Grade::ALL.map(Grade::key).join(", ");
            fail("grade", format!("\"{}\" is no grade: one of {keys}", self.grade))
        })?;
        Ok(Board { thickness, colour, grade, id: self.id, name: self.name })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_ships_can_be_read() {
        for (name, text) in [
            ("outer", include_str!("../../../assets/tables/outer-sizes.ron")),
            ("sheets", include_str!("../../../assets/tables/print-sheets.ron")),
            ("boards", include_str!("../../../assets/tables/boards.ron")),
        ] {
            let read = Tables::read(text);
            assert!(read.is_ok(), "{name}: {read:?}");
        }
        let shipped = Tables::shipped();
        assert!(shipped.board("cotton-4-white").is_some(), "the usual board");
        assert_eq!(
            shipped.largest_stock(),
            Some(Size::new(Length::inches(40, 0, 1), Length::inches(60, 0, 1)))
        );
    }

    #[test]
    fn a_wrong_entry_is_refused_with_field_and_reason() {
        let wrong = |text: &str| Tables::read(text).map_err(|e| e.to_string());
        assert_eq!(
            wrong("(outer: [(name: \"odd\", size: \"16x\", origin: \"\")])"),
            Err("odd, size: a unit is wanted, as in 16x20in or 400x500mm".to_owned())
        );
        let board = |colour: &str, thickness: &str, grade: &str| {
            wrong(&format!(
                "(boards: [(id: \"b\", name: \"\", colour: \"{colour}\", \
                 thickness: \"{thickness}\", grade: \"{grade}\")])"
            ))
        };
        assert_eq!(
            board("white", "1 mm", "unknown"),
            Err("b, colour: \"white\" is no colour: try #f4f1ea".to_owned())
        );
        assert_eq!(
            board("#fff", "0 mm", "unknown"),
            Err("b, thickness: 0 mm is no board: 0.05 to 30 mm are wanted".to_owned())
        );
        assert!(board("#fff", "1 mm", "fine").is_err_and(|e| e.contains("is no grade")));
        assert!(wrong("(boards: [(id: 3)])").is_err_and(|e| e.starts_with("line 1, column")));
    }
}
