//! The table of sheets and offcuts that `sightedge cut` cuts from.

use std::path::Path;

use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit, parse};
use sightedge_core::money;

use super::StockSheet;

/// Its columns, found by their heading; the last three may be missing or empty.
const COLUMNS: [&str; 6] = ["board", "width", "height", "price", "in_hand", "offcut"];

/// Sheets and offcuts, and what is wrong with the rows that were left out.
///
/// # Errors
/// Where the table cannot be read, lacks a column, or no row of it makes sense.
pub fn read(file: &Path, unit: Unit) -> Result<(Vec<StockSheet>, Vec<String>), String> {
    let wrong = |why: String| format!("{}: {why}", file.display());
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .flexible(true)
        .from_path(file)
        .map_err(|error| wrong(format!("it cannot be read: {error}; check the name")))?;
    let not_text = |error: csv::Error| {
        wrong(format!("it cannot be read: {error}; save it as a CSV table in UTF-8"))
    };
    let head = reader.headers().map_err(not_text)?.clone();
    let places = COLUMNS.map(|column| head.iter().position(|h| h.eq_ignore_ascii_case(column)));
    let known = |name: &str| COLUMNS.iter().any(|column| name.eq_ignore_ascii_case(column));
    let strange = head.iter().any(|name| !name.is_empty() && !known(name));
    if head.iter().any(|name| !name.is_empty())
        && (strange || places[..3].iter().any(Option::is_none))
    {
        let found = head.iter().collect::<Vec<_>>().join(",");
        return Err(wrong(format!(
            "its first row is \"{found}\" but must name the columns: \
             board,width,height,price,in_hand,offcut, with commas; the last three may be missing"
        )));
    }
    let (mut sheets, mut bad) = (Vec::new(), Vec::new());
    for record in reader.records() {
        let record = record.map_err(not_text)?;
        let line = record.position().map_or(0, csv::Position::line);
        let field = |column: usize| {
            places[column].and_then(|at| record.get(at)).filter(|text| !text.is_empty())
        };
        match sheet(field, unit) {
            Ok(sheet) => sheets.push(sheet),
            Err(why) => bad.push(format!("{}: line {line}, {why}", file.display())),
        }
    }
    if sheets.is_empty() && !bad.is_empty() {
        return Err(bad.join("\n"));
    }
    Ok((sheets, bad))
}

/// One row, its fields by their place in [`COLUMNS`]; or what is wrong with it.
fn sheet<'r>(
    field: impl Fn(usize) -> Option<&'r str>,
    unit: Unit,
) -> Result<StockSheet, String> {
    let length = |column: usize| {
        let text = field(column).unwrap_or_default();
        let name = COLUMNS[column];
        let length = parse(text, unit).map_err(|error| format!("{name}: {error}"))?;
        if length > Length::ZERO {
            Ok(length)
        } else {
            Err(format!("{name}: \"{text}\" is no size: give a length above zero"))
        }
    };
    let number = |column: usize, most: i64| {
        let Some(text) = field(column) else { return Ok(None) };
        let number = text.parse().ok().filter(|number| (0..=most).contains(number));
        number.map(Some).ok_or_else(|| {
            format!(
                "{}: \"{text}\" is no whole number: try 12, or leave it empty",
                COLUMNS[column]
            )
        })
    };
    let size = Size::new(length(1)?, length(2)?);
    let price = match field(3) {
        None => None,
        Some(text) => Some(super::stock::price(text).ok_or_else(|| {
            format!(
                "price: \"{text}\" is no price: give an amount up to 1000000, as in 14.50, or none"
            )
        })?),
    };
    let in_hand = number(4, i64::from(u32::MAX))?.and_then(|n| u32::try_from(n).ok());
    let offcut = match field(5) {
        None => false,
        Some(text) if text.eq_ignore_ascii_case("no") => false,
        Some(text) if text.eq_ignore_ascii_case("yes") => true,
        Some(text) => {
            return Err(format!("offcut: \"{text}\" is neither yes nor no: give one of them"));
        }
    };
    if offcut && let Some(price) = price.filter(|price| *price > 0) {
        return Err(format!(
            "price: {} on an offcut: leave it empty, an offcut in hand costs nothing",
            money::text(price)
        ));
    }
    let board = field(0).filter(|name| *name != "*").map(ToOwned::to_owned);
    Ok(StockSheet { board, size, price, in_hand, offcut, make: None })
}
