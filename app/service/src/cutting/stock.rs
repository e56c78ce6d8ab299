//! Sheets and offcuts that boards are cut from, and those that are usual.

use serde::{Deserialize, Serialize};
use sightedge_core::geometry::Size;
use sightedge_core::length::Unit;
use sightedge_core::material::{Board, Tables};
use sightedge_core::money;
use sightedge_core::spec::Document;

/// No sheet costs more, in hundredths: with sums of what more cost, no plan could be sought.
const DEAREST: i64 = 100_000_000;

/// A sheet's price as typed, in hundredths; `None` where it is none, or beyond 1 000 000.
pub fn price(text: &str) -> Option<i64> {
    money::hundredths(text).filter(|price| *price <= DEAREST)
}

/// A sheet that boards are cut from.
#[derive(Clone, Debug)]
pub struct StockSheet {
    /// The board it is of, by id or name; `None` for any.
    pub board: Option<String>,
    /// Its full size.
    pub size: Size,
    /// Its price, in hundredths; `None` where it is not known.
    pub price: Option<i64>,
    /// How many there are; `None` for as many as are wanted.
    pub in_hand: Option<u32>,
    /// Whether it is left over from an earlier job: it costs nothing, so that it is used
    /// first, and its edges are true.
    pub offcut: bool,
    /// Of which make of that board it is; `None` for any.
    pub make: Option<Make>,
}

impl StockSheet {
    pub(super) fn suits(&self, board: &Board) -> bool {
        let named = self.board.as_ref();
        named.is_none_or(|name| *name == board.id || *name == board.name)
            && self.make.is_none_or(|make| make == Make::of(board))
    }
}

/// What tells boards of one name apart: what is left of one is no stock for the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Make {
    /// In 1/720 µm.
    pub thickness: i64,
    /// Its face, red, green, blue.
    pub colour: (u8, u8, u8),
    /// Whether it may be turned: it has neither pattern nor grain.
    pub turns: bool,
}

impl Make {
    /// That of a board.
    pub const fn of(board: &Board) -> Self {
        let face = board.colour;
        let colour = (face.red, face.green, face.blue);
        Self { thickness: board.thickness.units(), colour, turns: board.turns }
    }
}

/// The sheets that boards are commonly sold in, for plans in `unit`.
pub fn usual_stock(unit: Unit, tables: &Tables) -> Vec<StockSheet> {
    let rows = tables.stock.iter().filter(|row| row.unit == unit);
    rows.map(|row| bought(None, row.size, None)).collect()
}

/// The sheets that a person's own tables name for a board; with its price, where it is sold in
/// one size and the price can be of no other. What ships with the program is the common sizes.
pub fn named_stock(tables: &Tables, board: &Board) -> Vec<StockSheet> {
    let shipped = Tables::shipped().facts(&board.id);
    let own = tables.facts(&board.id).filter(|facts| Some(*facts) != shipped);
    let Some(facts) = own else { return Vec::new() };
    let price = if facts.sheets.len() == 1 { price(&facts.price) } else { None };
    let sheets = facts.sheets.iter();
    sheets.map(|size| bought(Some(board.name.clone()), *size, price)).collect()
}

/// The sheets for the boards of these plans: those that the tables name for a board, for the
/// others the common sizes.
pub fn stock_for(
    plans: &[(String, &Document)],
    unit: Unit,
    tables: &Tables,
) -> Vec<StockSheet> {
    let mats = plans.iter().filter_map(|(_, document)| Some(&document.chosen()?.mat));
    let mut boards: Vec<&Board> = Vec::new();
    for mat in mats {
        let of_mat = mat.layers.iter().map(|layer| &layer.board);
        for board in of_mat.chain([&mat.backing.board]) {
            if boards.iter().all(|known| known.name != board.name) {
                boards.push(board);
            }
        }
    }
    let common = usual_stock(unit, tables);
    let own: Vec<Vec<StockSheet>> =
        boards.iter().map(|board| named_stock(tables, board)).collect();
    if own.iter().all(Vec::is_empty) {
        return common;
    }
    let each = boards.iter().zip(own).flat_map(|(board, own)| {
        let known = if own.is_empty() { common.clone() } else { own };
        let named = |sheet| StockSheet { board: Some(board.name.clone()), ..sheet };
        known.into_iter().map(named).collect::<Vec<_>>()
    });
    each.collect()
}

const fn bought(board: Option<String>, size: Size, price: Option<i64>) -> StockSheet {
    StockSheet { board, size, price, in_hand: None, offcut: false, make: None }
}
