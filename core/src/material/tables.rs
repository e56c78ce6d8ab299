//! The tables of sizes and boards: those that ship with the program, and the person's own
//! laid over them.

use std::sync::LazyLock;

use serde::Deserialize;

use super::error::TableError;
use super::rows::{
    BagRow, FillerRow, FrameRow, GlazingRow, PaperRow, Row, RowReader, TissueRow,
};
use super::step::{SavedStep, StepRow, ordered};
use super::{Bag, Board, Colour, Filler, Frame, Glazing, Grade, Paper, Tissue};
use crate::geometry::Size;
use crate::length::{Length, Unit, parse, parse_pair};
use crate::money;

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
    /// What is known of boards besides what a plan keeps of them.
    pub board_facts: Vec<BoardFacts>,
    /// Papers.
    pub papers: Vec<Paper>,
    /// Hinge tissues and tapes.
    pub tissues: Vec<Tissue>,
    /// What covers pictures in frames.
    pub glazing: Vec<Glazing>,
    /// What fills frames behind the backing.
    pub fillers: Vec<Filler>,
    /// Mouldings.
    pub frames: Vec<Frame>,
    /// Bags for finished pieces.
    pub bags: Vec<Bag>,
    /// The steps at the bench, in order.
    pub steps: Vec<StepRow>,
    /// The ids of steps in another order than that of `steps`; empty for none.
    pub steps_order: Vec<String>,
}

/// What is known of a board besides what a plan keeps of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BoardFacts {
    /// The board's id.
    pub id: String,
    /// How many plies it is made of; no measure of its thickness.
    pub ply: Option<u32>,
    /// The sheets it is sold in.
    pub sheets: Vec<Size>,
    /// Of one sheet, in the person's own currency; empty where not known.
    pub price: String,
    /// Where these figures come from.
    pub origin: String,
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
    #[serde(default)]
    papers: Vec<PaperRow>,
    #[serde(default)]
    tissues: Vec<TissueRow>,
    #[serde(default)]
    glazing: Vec<GlazingRow>,
    #[serde(default)]
    fillers: Vec<FillerRow>,
    #[serde(default)]
    frames: Vec<FrameRow>,
    #[serde(default)]
    bags: Vec<BagRow>,
    #[serde(default)]
    steps: Vec<SavedStep>,
    #[serde(default)]
    steps_order: Vec<String>,
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
    #[serde(default)]
    ply: Option<u32>,
    #[serde(default)]
    mass_gsm: Option<u32>,
    #[serde(default = "turns")]
    turns: bool,
    #[serde(default)]
    sheets: Option<String>,
    #[serde(default)]
    price: Option<String>,
    #[serde(default)]
    origin: Option<String>,
}

/// A board may be turned unless its row says otherwise.
const fn turns() -> bool {
    true
}

static SHIPPED: LazyLock<Tables> = LazyLock::new(|| {
    // A test reads each of them; a table that cannot be read leaves its rows out.
    [
        include_str!("../../../assets/tables/outer-sizes.ron"),
        include_str!("../../../assets/tables/print-sheets.ron"),
        include_str!("../../../assets/tables/boards.ron"),
        include_str!("../../../assets/tables/papers.ron"),
        include_str!("../../../assets/tables/tissues.ron"),
        include_str!("../../../assets/tables/glazing.ron"),
        include_str!("../../../assets/tables/frames.ron"),
        include_str!("../../../assets/tables/bags.ron"),
        include_str!("../../../assets/tables/steps.ron"),
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
        let options = ron::Options::default()
            .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
        let saved: Saved = options.from_str(text).map_err(|error| {
            let at = error.span.start;
            TableError::new(format!("line {}, column {}: {}", at.line, at.col, error.code))
        })?;
        let sizes = |rows: Vec<SavedSize>| -> Result<Vec<SizeRow>, TableError> {
            rows.into_iter().map(SavedSize::row).collect()
        };
        let board_facts = saved.boards.iter().map(SavedBoard::facts);
        Ok(Self {
            board_facts: board_facts.collect::<Result<_, _>>()?,
            outer: sizes(saved.outer)?,
            sheets: sizes(saved.sheets)?,
            stock: sizes(saved.stock)?,
            boards: saved
                .boards
                .into_iter()
                .map(SavedBoard::board)
                .collect::<Result<_, _>>()?,
            papers: into_models(saved.papers)?,
            tissues: into_models(saved.tissues)?,
            glazing: into_models(saved.glazing)?,
            fillers: into_models(saved.fillers)?,
            frames: into_models(saved.frames)?,
            bags: into_models(saved.bags)?,
            steps: into_models(saved.steps)?,
            steps_order: saved.steps_order,
        })
    }

    /// Both together; a row of `other` takes the place of one with the same id or name.
    #[must_use]
    pub fn with(mut self, other: Self) -> Self {
        lay_by_id(&mut self.outer, other.outer, |row| &row.name);
        lay_by_id(&mut self.sheets, other.sheets, |row| &row.name);
        lay_by_id(&mut self.stock, other.stock, |row| &row.name);
        lay_by_id(&mut self.boards, other.boards, |row| &row.id);
        lay_by_id(&mut self.board_facts, other.board_facts, |row| &row.id);
        lay_by_id(&mut self.papers, other.papers, |row| &row.id);
        lay_by_id(&mut self.tissues, other.tissues, |row| &row.id);
        lay_by_id(&mut self.glazing, other.glazing, |row| &row.id);
        lay_by_id(&mut self.fillers, other.fillers, |row| &row.id);
        lay_by_id(&mut self.frames, other.frames, |row| &row.id);
        lay_by_id(&mut self.bags, other.bags, |row| &row.id);
        lay_by_id(&mut self.steps, other.steps, |row| &row.id);
        self.steps = ordered(self.steps, &other.steps_order);
        self
    }

    /// The paper of that id or name, however it is spelled in capitals.
    pub fn paper(&self, name: &str) -> Option<&Paper> {
        named(&self.papers, name, |row| (&row.id, &row.name))
    }

    /// The tissue of that id or name.
    pub fn tissue(&self, name: &str) -> Option<&Tissue> {
        named(&self.tissues, name, |row| (&row.id, &row.name))
    }

    /// The glazing of that id or name.
    pub fn glazing(&self, name: &str) -> Option<&Glazing> {
        named(&self.glazing, name, |row| (&row.id, &row.name))
    }

    /// The filler of that id or name.
    pub fn filler(&self, name: &str) -> Option<&Filler> {
        named(&self.fillers, name, |row| (&row.id, &row.name))
    }

    /// The moulding of that id or name.
    pub fn frame(&self, name: &str) -> Option<&Frame> {
        named(&self.frames, name, |row| (&row.id, &row.name))
    }

    /// The board of that id.
    pub fn board(&self, id: &str) -> Option<&Board> {
        self.boards.iter().find(|board| board.id == id)
    }

    /// What is known of the board of that id.
    pub fn facts(&self, id: &str) -> Option<&BoardFacts> {
        self.board_facts.iter().find(|facts| facts.id == id)
    }

    /// The stock sheet with the largest face.
    pub fn largest_stock(&self) -> Option<Size> {
        self.stock
            .iter()
            .map(|row| row.size)
            .max_by_key(|size| i128::from(size.width.units()) * i128::from(size.height.units()))
    }
}

fn into_models<R: Row>(rows: Vec<R>) -> Result<Vec<R::Model>, TableError> {
    rows.into_iter().map(R::into_model).collect()
}

fn lay_by_id<T>(rows: &mut Vec<T>, over: Vec<T>, id: fn(&T) -> &str) {
    for row in over {
        match rows.iter_mut().find(|old| id(old) == id(&row)) {
            Some(old) => *old = row,
            None => rows.push(row),
        }
    }
}

fn named<'a, T>(rows: &'a [T], name: &str, names: fn(&T) -> (&str, &str)) -> Option<&'a T> {
    let wanted = name.trim().to_lowercase();
    rows.iter().find(|row| {
        let (id, name) = names(row);
        id.to_lowercase() == wanted || name.to_lowercase() == wanted
    })
}

impl SavedSize {
    fn row(self) -> Result<SizeRow, TableError> {
        let fail = |why: String| TableError::new(format!("{}, size: {why}", self.name));
        let unit = crate::length::first_unit(&self.size)
            .ok_or_else(|| fail("give a unit, as in 16x20in or 400x500mm".to_owned()))?;
        let (width, height) =
            parse_pair(&self.size, unit).map_err(|error| fail(error.to_string()))?;
        let size = Size::new(width, height);
        if !size.is_positive() {
            return Err(fail(format!(
                "{} is not a size: both sides must be above zero",
                self.size
            )));
        }
        let upright = if width > height { size.turned() } else { size };
        Ok(SizeRow { size: upright, unit, name: self.name, origin: self.origin })
    }
}

impl SavedBoard {
    fn facts(&self) -> Result<BoardFacts, TableError> {
        let row = RowReader(&self.id);
        let price = self.price.as_deref().unwrap_or_default().trim();
        if !price.is_empty() && money::hundredths(price).is_none() {
            let why = format!("\"{price}\" is not a price: give an amount, as in 14.50");
            return Err(row.fail("price", &why));
        }
        let sheets = self.sheets.as_deref().unwrap_or_default();
        let sheets = sheets.split(',').map(str::trim).filter(|text| !text.is_empty());
        Ok(BoardFacts {
            ply: row.numbered("ply", self.ply, 24)?,
            sheets: sheets.map(|text| row.size_of("sheets", text)).collect::<Result<_, _>>()?,
            price: price.to_owned(),
            origin: self.origin.clone().unwrap_or_default(),
            id: self.id.clone(),
        })
    }

    fn board(self) -> Result<Board, TableError> {
        let fail = |field, why| TableError::new(format!("{}, {field}: {why}", self.id));
        let thickness = parse(&self.thickness, Unit::Millimetre)
            .map_err(|error| fail("thickness", error.to_string()))?;
        if !(Length::um(50)..=Length::mm(30)).contains(&thickness) {
            let why =
                format!("{} is not a board's thickness: use 0.05 to 30 mm", self.thickness);
            return Err(fail("thickness", why));
        }
        let colour = Colour::from_hex(&self.colour).ok_or_else(|| {
            fail("colour", format!("\"{}\" is not a colour: try #f4f1ea", self.colour))
        })?;
        let grade = Grade::from_key(&self.grade).ok_or_else(|| {
            let keys = Grade::ALL.map(Grade::key).join(", ");
            fail("grade", format!("\"{}\" is not a grade: use one of {keys}", self.grade))
        })?;
        let mass_gsm = RowReader(&self.id).numbered("mass_gsm", self.mass_gsm, 50_000)?;
        let Self { id, name, turns, .. } = self;
        Ok(Board { id, name, colour, thickness, grade, turns, mass_gsm })
    }
}

#[cfg(test)]
mod tests;
