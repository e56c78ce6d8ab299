//! Problems as tables: comma-separated values after RFC 4180.
//!
//! Columns, in any order, found by their heading: `instance`, `kind` (`sheet` or `piece`),
//! `width`, `height`, `copies` (of a piece: how many are wanted, 1 where empty; of a sheet:
//! how many there are, no limit where empty) and `cost` of one sheet (1 where the file
//! has no such column or the field is empty).

use std::fmt;
use std::io::Read;

use crate::problem::{Piece, Problem, Stock, Supply, Trim};

/// Why a table could not be read.
#[derive(Debug)]
pub enum InstanceError {
    /// Not comma-separated values, or not readable at all.
    Table(csv::Error),
    /// A heading is missing.
    Heading(&'static str),
    /// A field does not hold what it should.
    Field {
        /// Line in the file, from 1.
        line: u64,
        /// The column's heading.
        column: &'static str,
        /// What was found.
        found: String,
        /// What was wanted.
        wanted: &'static str,
    },
    /// No row bears the name asked for.
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
            Self::Field { line, column, found, wanted } => write!(
                f,
                "line {line}, column {column}: found \"{found}\", wanted {wanted}. Correct it"
            ),
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
pub fn names(table: impl Read) -> Result<Vec<String>, InstanceError> {
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

/// Every problem of a table, in its order. Pieces may be turned where `may_turn`.
///
/// # Errors
/// Where the table cannot be read, lacks a heading, or a field makes no sense. Sizes that are
/// whole numbers but impossible are left to the solver, which complains and goes on.
pub fn read_all(
    table: impl Read,
    may_turn: bool,
) -> Result<Vec<(String, Problem)>, InstanceError> {
    let mut problems: Vec<(String, Problem)> = Vec::new();
    let mut rows = csv::Reader::from_reader(table);
    let headings = rows.headers()?.clone();
    let name_at = column(&headings, "instance")?;
    let kind_at = column(&headings, "kind")?;
    let width_at = column(&headings, "width")?;
    let height_at = column(&headings, "height")?;
    let copies_at = column(&headings, "copies").ok();
    let cost_at = column(&headings, "cost").ok();
    for row in rows.records() {
        let row = row?;
        let line = row.position().map_or(0, csv::Position::line);
        let field = |at: usize| row.get(at).unwrap_or_default().trim();
        let whole = |at: usize, column: &'static str| {
            let found = field(at);
            found.parse::<i64>().map_err(|_| {
                let (found, wanted) = (found.to_owned(), "a whole number");
                InstanceError::Field { line, column, found, wanted }
            })
        };
        let filled = |at: Option<usize>| at.filter(|at| !field(*at).is_empty());
        let copies = filled(copies_at)
            .map(|at| {
                let wanted = "a count from 0 to 4294967295";
                let digits = field(at).bytes().all(|byte| byte.is_ascii_digit());
                match field(at).parse::<u32>() {
                    // An absurd count is named with its piece when all else is planned.
                    Err(_) if digits => Ok(u32::MAX),
                    read => read,
                }
                .map_err(|_| InstanceError::Field {
                    line,
                    column: "copies",
                    found: field(at).to_owned(),
                    wanted,
                })
            })
            .transpose()?;
        let name = field(name_at);
        let at = problems.iter().rposition(|(n, _)| n == name).unwrap_or_else(|| {
            problems.push((name.to_owned(), Problem::default()));
            problems.len() - 1
        });
        let problem = &mut problems[at].1;
        let (width, height) = (whole(width_at, "width")?, whole(height_at, "height")?);
        match field(kind_at) {
            "sheet" => problem.stocks.push(Stock {
                name: format!("sheet {width} x {height}"),
                width,
                height,
                cost: filled(cost_at).map_or(Ok(1), |at| whole(at, "cost"))?,
                supply: copies.map_or(Supply::Unlimited, Supply::InHand),
                trim: Trim::default(),
            }),
            "piece" => problem.pieces.push(Piece {
                name: format!("piece {} ({width} x {height})", problem.pieces.len() + 1),
                width,
                height,
                copies: copies.unwrap_or(1),
                may_turn,
            }),
            other => {
                let (found, wanted) = (other.to_owned(), "sheet or piece");
                return Err(InstanceError::Field { line, column: "kind", found, wanted });
            }
        }
    }
    Ok(problems)
}

/// The problem called `name` in a table.
///
/// # Errors
/// As [`read_all`], and where no row bears the name.
pub fn read(table: impl Read, name: &str, may_turn: bool) -> Result<Problem, InstanceError> {
    let problems = read_all(table, may_turn)?;
    let others = problems.iter().take(5).map(|(n, _)| n.clone()).collect();
    let found = problems.into_iter().find(|(n, _)| n == name).map(|(_, problem)| problem);
    found.ok_or_else(|| InstanceError::NoSuch { name: name.to_owned(), others })
}
