//! From a show's plans to cutting problems, one for each board.

use std::collections::BTreeMap;

use sightedge_core::geometry::Size;
use sightedge_core::layout::layout;
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Board;
use sightedge_core::spec::Document;
use sightedge_cutting::{Piece, Problem, Stages, Stock, Supply, Trim};

/// A sheet that boards are cut from.
#[derive(Clone, Debug)]
pub struct StockSheet {
    /// The board it is of, by id or name; `None` for any.
    pub board: Option<String>,
    /// Its full size.
    pub size: Size,
    /// Its price, in the person's smallest coin; `None` where it is not known.
    pub price: Option<i64>,
    /// How many there are; `None` for as many as are wanted.
    pub in_hand: Option<u32>,
}

/// How the boards are cut.
#[derive(Clone, Copy, Debug)]
pub struct Manner {
    /// Limit of stages.
    pub stages: Stages,
    /// Whether the pieces that fall from windows are cut up, too.
    pub drop_outs: bool,
}

/// One board's problem, and what its numbers mean.
#[derive(Clone, Debug)]
pub struct BoardJob {
    /// The board.
    pub board: Board,
    /// What is to be cut, in [`BoardJob::unit`]s.
    pub problem: Problem,
    /// One unit of the problem.
    pub unit: Length,
    /// Whether costs are prices, else areas.
    pub priced: bool,
}

/// What is trimmed off each edge of a sheet as it is sold: the factory edge is seldom square
/// (common practice).
fn trim(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 8),
        Unit::Millimetre => Length::mm(3),
    }
}

/// What is left round the use of a drop-out: its edge is bevelled and was handled
/// (common practice).
fn margin(unit: Unit) -> Length {
    trim(unit)
}

/// Coordinates finer than this are rounded, pieces up and sheets down: no cutter's stop is
/// set finer.
const FINEST: Length = Length::um(50);

struct Cutting {
    board: Board,
    unit: Unit,
    wanted: Vec<Wanted>,
}

struct Wanted {
    name: String,
    size: Size,
    drop_outs: Vec<Size>,
}

/// The boards of a show: for each, every layer and backing cut from it. Each plan counts once
/// for each time it is in `plans`.
pub fn jobs(
    plans: &[(String, &Document)],
    stock: &[StockSheet],
    manner: Manner,
) -> Vec<BoardJob> {
    // By name, thickness and colour: what is cut from one kind of sheet.
    let mut boards: BTreeMap<(String, Length, String), Cutting> = BTreeMap::new();
    for (title, document) in plans {
        let Some(variant) = document.chosen() else { continue };
        let unit = document.unit;
        let laid = layout(document, &variant.mat);
        let mut add = |board: &Board, wanted: Wanted| {
            let name = if board.id.is_empty() { &board.name } else { &board.id };
            let key = (name.clone(), board.thickness, board.colour.hex());
            let new = || Cutting { board: board.clone(), unit, wanted: Vec::new() };
            boards.entry(key).or_insert_with(new).wanted.push(wanted);
        };
        let blanks = laid.bench.blanks(unit);
        for (index, layer) in variant.mat.layers.iter().enumerate() {
            let Some(blank) = blanks.iter().find(|blank| blank.layer == layer.id) else {
                continue;
            };
            let part = if index == 0 { "mat".to_owned() } else { format!("liner {index}") };
            // One that is taped back while a liner is cut through it is not free.
            let free = index + 1 == variant.mat.layers.len();
            let cuts = laid.bench.openings.iter().flat_map(|window| &window.layers);
            let drop_outs = cuts
                .filter(|cut| free && cut.layer == layer.id)
                .map(|cut| cut.drop_out)
                .collect();
            let name = format!("{title}, {part}");
            add(&layer.board, Wanted { name, size: blank.rect.size, drop_outs });
        }
        let (backing, size) = (&variant.mat.backing, laid.bench.backing.size);
        let name = format!("{title}, backing");
        add(&backing.board, Wanted { name, size, drop_outs: Vec::new() });
    }
    boards.into_values().map(|cutting| job(cutting, stock, manner)).collect()
}

fn job(cutting: Cutting, stock: &[StockSheet], manner: Manner) -> BoardJob {
    let Cutting { board, unit, wanted } = cutting;
    let suits = |sheet: &&StockSheet| {
        sheet.board.as_ref().is_none_or(|name| *name == board.id || *name == board.name)
    };
    let sheets: Vec<&StockSheet> = stock.iter().filter(suits).collect();
    let (edge, margin) = (trim(unit), margin(unit));
    let sizes = wanted
        .iter()
        .map(|piece| piece.size)
        .chain(sheets.iter().map(|sheet| sheet.size))
        .chain([Size::new(edge, edge), Size::new(margin, margin)])
        .chain(wanted.iter().flat_map(|piece| piece.drop_outs.iter().copied()));
    let common = sizes.fold(0, |all, size| {
        gcd(gcd(all, size.width.units().unsigned_abs()), size.height.units().unsigned_abs())
    });
    let step = Length::from_units(i64::try_from(common).unwrap_or(1).max(FINEST.units()));
    let up =
        |length: Length| (length + step).units().saturating_sub(1).div_euclid(step.units());
    let down = |length: Length| length.units().div_euclid(step.units());

    // The same size from several plans is one piece with several copies.
    let mut pieces: Vec<Piece> = Vec::new();
    let mut stocks: Vec<Stock> = Vec::new();
    let priced = sheets.iter().all(|sheet| sheet.price.is_some());
    for sheet in &sheets {
        let (width, height) = (down(sheet.size.width), down(sheet.size.height));
        // Without prices the area is the cost, in square centimetres.
        let area = i128::from(sheet.size.width.units()) * i128::from(sheet.size.height.units());
        let area = area / i128::from(Length::mm(10).units()).pow(2);
        let cost = sheet.price.filter(|_| priced);
        stocks.push(Stock {
            name: format!("{} × {}", sheet.size.width.text(unit), sheet.size.height.text(unit)),
            width,
            height,
            cost: cost.unwrap_or_else(|| i64::try_from(area).unwrap_or(i64::MAX)),
            supply: sheet.in_hand.map_or(Supply::Unlimited, Supply::InHand),
            trim: Trim::all(up(edge)),
        });
    }
    for piece in wanted {
        let (width, height) = (up(piece.size.width), up(piece.size.height));
        let same = pieces
            .iter_mut()
            .find(|old| old.width == width && old.height == height && old.name == piece.name);
        if let Some(old) = same {
            old.copies = old.copies.saturating_add(1);
            continue;
        }
        let index = pieces.len();
        if manner.drop_outs {
            for size in &piece.drop_outs {
                stocks.push(Stock {
                    name: format!("drop-out of {}", piece.name),
                    width: down(size.width),
                    height: down(size.height),
                    cost: 0,
                    supply: Supply::Window { piece: index, each: 1 },
                    trim: Trim::all(up(margin)),
                });
            }
        }
        pieces.push(Piece { name: piece.name, width, height, copies: 1, may_turn: true });
    }
    let problem = Problem { stocks, pieces, stages: manner.stages, kerf: 0, least_strip: 0 };
    BoardJob { board, problem, unit: step, priced }
}

fn gcd(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// The sheets that boards are commonly sold in, for plans in `unit`.
pub fn usual_stock(unit: Unit) -> Vec<StockSheet> {
    let rows = sightedge_core::material::Tables::shipped().stock.iter();
    rows.filter(|row| row.unit == unit)
        .map(|row| StockSheet { board: None, size: row.size, price: None, in_hand: None })
        .collect()
}
