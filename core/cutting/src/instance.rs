//! Problems as tables: comma-separated values after RFC 4180.
//!
//! Columns, in any order, found by their heading: `instance`, `kind` (`sheet` or `piece`),
//! `width`, `height`, `copies` (of a piece: how many are wanted, 1 where empty; of a sheet:
//! how many there are, no limit where empty) and `cost` of one sheet (1 where the file
//! has no such column or the field is empty).

use std::fmt;
use std::io;

use crate::problem::{Piece, Problem, Stock, Supply, Trim};

/// A row of a table that makes no sense and is left out.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct BadRow {
    /// Line in the file, from 1.
    pub line: u64,
    /// The column's heading.
    pub column: &'static str,
    /// What was found.
    pub found: String,
    /// What was wanted.
    pub wanted: &'static str,
}

impl fmt::Display for BadRow {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { line, column, found, wanted } = self;
        write!(
            f,
            "line {line}, column {column}: found \"{found}\", expected {wanted}. Correct it"
        )
    }
}

/// Why a table could not be read.
#[derive(Debug)]
pub enum InstanceError {
    /// Not comma-separated values, or not readable at all.
    Table(csv::Error),
    /// A heading is missing.
    Heading(&'static str),
    /// Rows that make no sense, where nothing to cut is left without them.
    Rows(Vec<BadRow>),
    /// No row has the requested name.
    NoSuch {
        /// The name.
        name: String,
        /// A few names the file has.
        others: Vec<String>,
    },
}

impl fmt::Display for InstanceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Table(error) => {
                write!(
                    f,
                    "the table cannot be read: {error}. Save it as comma-separated values"
                )
            }
            Self::Heading(column) => write!(
                f,
                "the table has no column {column}: the first line must name instance, kind, \
                 width and height (copies and cost where there are any)"
            ),
            Self::Rows(rows) => {
                let rows: Vec<String> = rows.iter().map(ToString::to_string).collect();
                f.write_str(&rows.join("; "))
            }
            Self::NoSuch { name, others } => write!(
                f,
                "the table has no instance {name}; it has {}. Choose one of these",
                others.join(", ")
            ),
        }
    }
}

impl std::error::Error for InstanceError {}

impl From<csv::Error> for InstanceError {
    fn from(error: csv::Error) -> Self {
        Self::Table(error)
    }
}

/// The names in a table, in its order.
///
/// # Errors
/// Where the table cannot be read or lacks a heading.
pub fn names(table: impl io::Read) -> Result<Vec<String>, InstanceError> {
    let mut names: Vec<String> = Vec::new();
    let mut rows = csv::Reader::from_reader(table);
    let at = column(rows.headers()?, "instance")?;
    for row in rows.records() {
        let row = row?;
        let name = row.get(at).unwrap_or_default();
        if names.last().is_none_or(|last| last != name) && !names.iter().any(|n| n == name) {
            names.push(name.to_owned());
        }
    }
    Ok(names)
}

fn column(headings: &csv::StringRecord, name: &'static str) -> Result<usize, InstanceError> {
    headings.iter().position(|h| h.trim() == name).ok_or(InstanceError::Heading(name))
}

/// A problem of a table, and the rows of it that make no sense.
#[derive(Clone, Debug, Default)]
pub struct Read {
    /// All rows but the bad ones.
    pub problem: Problem,
    /// What was left out, in the order of the file.
    pub bad: Vec<BadRow>,
}

/// Where the columns are.
struct Columns {
    name: usize,
    kind: usize,
    width: usize,
    height: usize,
    copies: Option<usize>,
    cost: Option<usize>,
}

impl Columns {
    fn of(headings: &csv::StringRecord) -> Result<Self, InstanceError> {
        Ok(Self {
            name: column(headings, "instance")?,
            kind: column(headings, "kind")?,
            width: column(headings, "width")?,
            height: column(headings, "height")?,
            copies: column(headings, "copies").ok(),
            cost: column(headings, "cost").ok(),
        })
    }

    /// Puts one row into `problem`.
    fn take(
        &self,
        row: &csv::StringRecord,
        may_turn: bool,
        problem: &mut Problem,
    ) -> Result<(), BadRow> {
        let line = row.position().map_or(0, csv::Position::line);
        let field = |at: usize| row.get(at).unwrap_or_default().trim();
        let bad = |at: usize, column, wanted| BadRow {
            line,
            column,
            found: field(at).to_owned(),
            wanted,
        };
        let whole = |at: usize, column: &'static str| {
            field(at).parse::<i64>().map_err(|_| bad(at, column, "a whole number"))
        };
        let filled = |at: Option<usize>| at.filter(|at| !field(*at).is_empty());
        let copies = filled(self.copies);
        let count = |least: u32, wanted: &'static str| {
            let Some(at) = copies else { return Ok(None) };
            let digits = field(at).bytes().all(|byte| byte.is_ascii_digit());
            match field(at).parse::<u32>() {
                // An absurd count is named with its piece when all else is planned.
                Err(_) if digits => Ok(Some(u32::MAX)),
                Ok(count) if count >= least => Ok(Some(count)),
                _ => Err(bad(at, "copies", wanted)),
            }
        };
        let (width, height) = (whole(self.width, "width")?, whole(self.height, "height")?);
        match field(self.kind) {
            "sheet" => {
                let supply = count(0, "a count of 0 or more, or nothing for no limit")?;
                problem.stocks.push(Stock {
                    name: format!("sheet {width} x {height}"),
                    width,
                    height,
                    cost: filled(self.cost).map_or(Ok(1), |at| whole(at, "cost"))?,
                    supply: supply.map_or(Supply::Unlimited, Supply::InHand),
                    trim: Trim::default(),
                });
            }
            "piece" => problem.pieces.push(Piece {
                copies: count(1, "a count of 1 or more")?.unwrap_or(1),
                name: format!("piece {} ({width} x {height})", problem.pieces.len() + 1),
                width,
                height,
                may_turn,
            }),
            _ => return Err(bad(self.kind, "kind", "sheet or piece")),
        }
        Ok(())
    }
}

fn every(table: impl io::Read, may_turn: bool) -> Result<Vec<(String, Read)>, InstanceError> {
    let mut problems: Vec<(String, Read)> = Vec::new();
    let mut rows = csv::Reader::from_reader(table);
    let columns = Columns::of(rows.headers()?)?;
    for row in rows.records() {
        let row = row?;
        let name = row.get(columns.name).unwrap_or_default().trim();
        let at = problems.iter().rposition(|(n, _)| n == name).unwrap_or_else(|| {
            problems.push((name.to_owned(), Read::default()));
            problems.len() - 1
        });
        let read = &mut problems[at].1;
        read.bad.extend(columns.take(&row, may_turn, &mut read.problem).err());
    }
    Ok(problems)
}

/// Every problem of a table, in its order. Pieces may be turned where `may_turn`.
///
/// # Errors
/// Where the table cannot be read, lacks a heading, or a row makes no sense: all such rows are
/// listed. Sizes that are whole numbers but impossible are left to the solver, which reports them
/// and goes on.
pub fn read_all(
    table: impl io::Read,
    may_turn: bool,
) -> Result<Vec<(String, Problem)>, InstanceError> {
    let mut bad = Vec::new();
    let mut problems = Vec::new();
    for (name, read) in every(table, may_turn)? {
        bad.extend(read.bad);
        problems.push((name, read.problem));
    }
    if bad.is_empty() { Ok(problems) } else { Err(InstanceError::Rows(bad)) }
}

/// The problem called `name` in a table. Rows that make no sense are reported and left out.
///
/// # Errors
/// Where the table cannot be read, lacks a heading, no row has the name, or nothing to cut
/// is left without the bad rows.
pub fn read(table: impl io::Read, name: &str, may_turn: bool) -> Result<Read, InstanceError> {
    let problems = every(table, may_turn)?;
    let others = problems.iter().take(5).map(|(n, _)| n.clone()).collect();
    let found = problems.into_iter().find(|(n, _)| n == name).map(|(_, read)| read);
    let read = found.ok_or_else(|| InstanceError::NoSuch { name: name.to_owned(), others })?;
    if read.problem.pieces.is_empty() && !read.bad.is_empty() {
        return Err(InstanceError::Rows(read.bad));
    }
    Ok(read)
}
