//! From a show's plans to cutting problems, one for each board.
//!
//! A board with a pattern or a grain is never turned: it runs along the height of its sheets,
//! of the offcuts and drop-outs left of them, and of every piece.

pub mod bound;
pub mod instructions;
pub mod list;
pub mod materials;
pub mod model;
pub mod narrower;
pub mod paper;
mod rest;
mod stock;
pub mod stock_file;
#[cfg(test)]
mod tests;
pub mod totals;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use sightedge_core::geometry::{Point, Rect, Size};
use sightedge_core::layout::{Blank, Cut, layout};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Board;
use sightedge_core::spec::Document;
use sightedge_cutting::{Piece, Plan, Problem, Stages, Stock, Supply, Trim};

use model::BoardPlan;
pub use stock::{Make, StockSheet, named_stock, price, stock_for, usual_stock};

/// What boards took out of the stock that others are cut from, too.
#[derive(Clone, Debug, Default)]
pub struct Taken(Vec<u32>);

impl Taken {
    /// Adds what one board's plan takes.
    pub fn add(&mut self, job: &BoardJob, plan: &Plan) {
        for pattern in &plan.patterns {
            if let Some(&source) = job.sources.get(pattern.stock) {
                if self.0.len() <= source {
                    self.0.resize(source + 1, 0);
                }
                self.0[source] = self.0[source].saturating_add(pattern.copies);
            }
        }
    }

    /// Leaves to a board what the ones before did not take.
    #[must_use]
    pub fn rest(&self, mut job: BoardJob) -> BoardJob {
        for (stock, source) in job.problem.stocks.iter_mut().zip(&job.sources) {
            if let (Supply::InHand(there), Some(taken)) =
                (&mut stock.supply, self.0.get(*source))
            {
                *there = there.saturating_sub(*taken);
            }
        }
        job
    }
}

/// Which drop-outs are stock.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum DropOuts {
    /// None.
    #[default]
    None,
    /// Those of the innermost windows: the others are taped back while an undermat is cut through
    /// them.
    Free,
    /// Those that were taped back, too, once they are taken out again.
    All,
}

/// How the boards are cut.
#[derive(Clone, Copy, Debug)]
pub struct Manner {
    /// Limit of rounds.
    pub rounds: Stages,
    /// Which of the pieces that fall from windows are cut up, too.
    pub drop_outs: DropOuts,
    /// What is trimmed off each edge of a sheet; `None` for the usual.
    pub trim: Option<Length>,
    /// What each cut turns to dust.
    pub kerf: Length,
    /// The narrowest part that the cutter holds.
    pub least_strip: Length,
}

impl Manner {
    /// With a knife that takes nothing away, and the usual trim.
    pub const fn new(rounds: Stages, drop_outs: DropOuts) -> Self {
        let (kerf, least_strip) = (Length::ZERO, Length::ZERO);
        Self { rounds, drop_outs, trim: None, kerf, least_strip }
    }
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
    /// Windows of each piece, from its upper left corner as seen from the front.
    pub windows: Vec<Vec<Rect>>,
    /// For the first stocks of the problem their places in the list of sheets; those after
    /// them are drop-outs.
    pub sources: Vec<usize>,
}

impl BoardJob {
    /// What could not be planned and what to do, lengths as they are read in `unit`.
    pub fn complaints(&self, plan: &Plan, unit: Unit) -> Vec<String> {
        let length = |units: i64| {
            let length = self.unit.units().saturating_mul(units);
            Length::from_units(length).text(unit)
        };
        plan.complaints.iter().map(|complaint| complaint.describe(&length)).collect()
    }
}

/// What is trimmed off each edge of a sheet as it is sold: the factory edge is seldom square
/// (common practice).
pub const fn trim(unit: Unit) -> Length {
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
    /// Its windows, from its upper left corner.
    windows: Vec<Rect>,
    /// What of these is stock.
    drop_outs: Vec<Size>,
}

/// Plans with a count as [`jobs`] takes them: each as often as it counts.
pub fn counted(plans: &[(String, Document, u32)]) -> Vec<(String, &Document)> {
    let mut all = Vec::new();
    for (title, document, count) in plans {
        all.extend((0..*count).map(|_| (title.clone(), document)));
    }
    all
}

/// The boards of a show: for each, every layer and backing cut from it. Each plan counts once
/// for each time it is in `plans`. Sheets in hand that suit several boards are in each of their
/// jobs: [`Taken`] leaves to one what the others do not take.
pub fn jobs(
    plans: &[(String, &Document)],
    stock: &[StockSheet],
    manner: Manner,
) -> Vec<BoardJob> {
    jobs_after(&[], plans, stock, manner)
}

/// As [`jobs`], of what is not cut yet.
pub fn jobs_after(
    done: &[BoardPlan],
    plans: &[(String, &Document)],
    stock: &[StockSheet],
    manner: Manner,
) -> Vec<BoardJob> {
    // By name, thickness, colour and pattern: what is cut from one kind of sheet.
    let mut boards: BTreeMap<(String, Length, String, bool), Cutting> = BTreeMap::new();
    for (title, document) in plans {
        let Some(variant) = document.chosen() else { continue };
        let unit = document.unit;
        let laid = layout(document, &variant.mat);
        let mut add = |board: &Board, wanted: Wanted| {
            let name = if board.id.is_empty() { &board.name } else { &board.id };
            let key = (name.clone(), board.thickness, board.colour.hex(), board.turns);
            let new = || Cutting { board: board.clone(), unit, wanted: Vec::new() };
            boards.entry(key).or_insert_with(new).wanted.push(wanted);
        };
        let blanks = laid.bench.blanks(unit);
        for (index, layer) in variant.mat.layers.iter().enumerate() {
            // What is cut already needs no board.
            let of_layer =
                |blank: &&Blank| blank.layer == layer.id && !variant.mat.is_made(layer.id);
            let Some(blank) = blanks.iter().find(of_layer) else { continue };
            let part = if index == 0 { "mat".to_owned() } else { format!("undermat {index}") };
            let used = match manner.drop_outs {
                DropOuts::None => false,
                DropOuts::Free => index + 1 == variant.mat.layers.len(),
                DropOuts::All => true,
            };
            let cuts = laid.bench.openings.iter().flat_map(|window| &window.layers);
            let cuts: Vec<_> = cuts.filter(|cut| cut.layer == layer.id).collect();
            let corner = blank.rect.at;
            let from_corner = |cut: &&Cut| {
                let Rect { at, size } = cut.sight.bounds;
                Rect { at: Point { x: at.x - corner.x, y: at.y - corner.y }, size }
            };
            let windows = cuts.iter().map(from_corner).collect();
            let drop_outs = cuts.iter().filter(|_| used).map(|cut| cut.drop_out).collect();
            let name = format!("{title}, {part}");
            add(&layer.board, Wanted { name, size: blank.rect.size, windows, drop_outs });
        }
        let (backing, size) = (&variant.mat.backing, laid.bench.backing.size);
        let name = format!("{title}, backing");
        let (windows, drop_outs) = (Vec::new(), Vec::new());
        add(&backing.board, Wanted { name, size, windows, drop_outs });
    }
    let mut boards: Vec<Cutting> = boards.into_values().collect();
    for cutting in &mut boards {
        let (name, make) = (&cutting.board.name, Make::of(&cutting.board));
        rest::leave_out(&mut cutting.wanted, name, make, done);
    }
    let open = boards.into_iter().filter(|cutting| !cutting.wanted.is_empty());
    open.map(|cutting| job(cutting, stock, manner)).collect()
}

fn job(cutting: Cutting, stock: &[StockSheet], manner: Manner) -> BoardJob {
    let Cutting { board, unit, wanted } = cutting;
    let suitable = stock.iter().enumerate().filter(|(_, sheet)| sheet.suits(&board));
    let (sources, sheets): (Vec<usize>, Vec<&StockSheet>) = suitable.unzip();
    let (edge, margin) = (manner.trim.unwrap_or(trim(unit)), margin(unit));
    let sizes = wanted
        .iter()
        .map(|piece| piece.size)
        .chain(sheets.iter().map(|sheet| sheet.size))
        .chain([Size::new(edge, margin), Size::new(manner.kerf, manner.least_strip)])
        .chain(wanted.iter().flat_map(|piece| piece.drop_outs.iter().copied()));
    let common = sizes.fold(0, |all, size| {
        gcd(gcd(all, size.width.units().unsigned_abs()), size.height.units().unsigned_abs())
    });
    let step = Length::from_units(i64::try_from(common).unwrap_or(1).max(FINEST.units()));
    let up =
        |length: Length| (length + step).units().saturating_sub(1).div_euclid(step.units());
    let down = |length: Length| length.units().div_euclid(step.units());

    // A plan that counts several times is one piece with several copies.
    let mut pieces: Vec<Piece> = Vec::new();
    let mut windows: Vec<Vec<Rect>> = Vec::new();
    let mut stocks: Vec<Stock> = Vec::new();
    let bought = || sheets.iter().filter(|sheet| !sheet.offcut);
    let priced = bought().count() > 0 && bought().all(|sheet| sheet.price.is_some());
    for sheet in &sheets {
        let (width, height) = (down(sheet.size.width), down(sheet.size.height));
        // Without prices the area is the cost, in square centimetres.
        let area = i128::from(sheet.size.width.units()) * i128::from(sheet.size.height.units());
        let area = area / i128::from(Length::mm(10).units()).pow(2);
        let cost = if sheet.offcut { Some(0) } else { sheet.price.filter(|_| priced) };
        let size = instructions::size(sheet.size, unit);
        stocks.push(Stock {
            name: if sheet.offcut { format!("offcut {size}") } else { size },
            width,
            height,
            cost: cost.unwrap_or_else(|| i64::try_from(area).unwrap_or(i64::MAX)),
            // As many for nothing as one likes is no stock.
            supply: match (sheet.in_hand, sheet.offcut) {
                (Some(count), _) => Supply::InHand(count),
                (None, true) => Supply::InHand(1),
                (None, false) => Supply::Unlimited,
            },
            trim: Trim::all(if sheet.offcut { 0 } else { up(edge) }),
        });
    }
    for piece in wanted {
        let (width, height) = (up(piece.size.width), up(piece.size.height));
        // Plans of one name in two folders may have other windows.
        let same = pieces.iter_mut().zip(&windows).find(|(old, opened)| {
            (old.width, old.height, &old.name) == (width, height, &piece.name)
                && **opened == piece.windows
        });
        if let Some((old, _)) = same {
            old.copies = old.copies.saturating_add(1);
            continue;
        }
        let index = pieces.len();
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
        windows.push(piece.windows);
        pieces.push(Piece {
            name: piece.name,
            width,
            height,
            copies: 1,
            may_turn: board.turns,
        });
    }
    let (kerf, least_strip) = (up(manner.kerf), up(manner.least_strip));
    let problem = Problem { stocks, pieces, stages: manner.rounds, kerf, least_strip };
    BoardJob { board, problem, unit: step, priced, windows, sources }
}

fn gcd(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
