//! The plan of cutting as a paper for the bench.

use sightedge_core::length::{Length, Unit};
use sightedge_cutting::{Cut, Pattern};
use sightedge_papers::{Archive, CutSheet, CuttingPlan, Date, Made, Paper, PapersError};

use super::kept::{BoardPlan, Cutting};
use super::money::coins;
use super::order;
use crate::wording;

/// Sets the plan of cutting. Slow enough to be called off the frame.
///
/// # Errors
/// Where a PDF may not hold what stands on it.
pub fn pdf(cutting: &Cutting, title: &str, date: Date) -> Result<Made, PapersError> {
    let unit = cutting.unit();
    let paper = match unit {
        Unit::Inch => Paper::Letter,
        Unit::Millimetre => Paper::A4,
    };
    let mut sheets = Vec::new();
    let mut totals = Vec::new();
    for board in &cutting.boards {
        for (number, pattern) in board.plan.patterns.iter().enumerate() {
            let which = order::title(&board.problem, &board.plan, number);
            let name = format!("{}. {which}", board.name);
            sheets.push(sheet(board, pattern, name, unit));
        }
        let cost = if board.priced { coins(board.plan.cost) } else { String::new() };
        let count = board.sheets();
        let word = if count == 1 { "sheet" } else { "sheets" };
        totals.push([board.name.clone(), format!("{count} {word}"), cost]);
        totals.push([board.bound(), String::new(), String::new()]);
    }
    for line in &cutting.materials {
        let cost = line.cost.map(coins).unwrap_or_default();
        totals.push([line.what.clone(), wording::set(&line.amount), cost]);
    }
    let title = title.to_owned();
    let plan = CuttingPlan { title, date, paper, sheets, totals };
    plan.write(Archive::A2aUa1)
}

fn sheet(board: &BoardPlan, pattern: &Pattern, name: String, unit: Unit) -> CutSheet {
    let stock = &board.problem.stocks[pattern.stock];
    let mm = |units: i64| board.length(units).to_mm();
    let number = |units: i64| wording::number(board.length(units), unit);
    let size = |width: i64, height: i64| format!("{} × {}", number(width), number(height));
    let place = |x: i64, y: i64, w: i64, h: i64| [mm(x), mm(y), mm(w), mm(h)];
    let alike = match pattern.copies {
        1 => String::new(),
        copies => format!(", {copies} alike"),
    };
    let trim = board.length(stock.trim.left);
    let trimmed = if trim > Length::ZERO {
        format!(", each edge trimmed by {}", wording::length(trim, unit))
    } else {
        String::new()
    };
    let which = if order::is_drop_out(&board.problem, pattern) {
        format!("{}, ", wording::set(&stock.name))
    } else {
        String::new()
    };
    let steps = order::steps(pattern);
    let pattern_runs = if board.patterned { ", the pattern upright" } else { "" };
    CutSheet {
        name,
        about: format!(
            "{which}{} {}{alike}{trimmed}{pattern_runs}",
            size(stock.width, stock.height),
            unit.sign()
        ),
        size: [mm(stock.width), mm(stock.height)],
        pieces: pattern
            .placements
            .iter()
            .map(|placed| {
                let name = &board.problem.pieces[placed.piece].name;
                let (picture, layer) = name.rsplit_once(", ").unwrap_or((name, ""));
                let lines = vec![
                    picture.to_owned(),
                    layer.to_owned(),
                    size(placed.width, placed.height),
                ];
                (place(placed.x, placed.y, placed.width, placed.height), lines)
            })
            .collect(),
        windows: pattern
            .placements
            .iter()
            .flat_map(|placed| board.windows(placed))
            .map(|window| window.map(Length::to_mm))
            .collect(),
        rests: order::rests(pattern)
            .into_iter()
            .map(|rest| {
                let lines = vec!["left".to_owned(), size(rest.width, rest.height)];
                (place(rest.x, rest.y, rest.width, rest.height), lines)
            })
            .collect(),
        cuts: steps
            .iter()
            .map(|step| [mm(step.from.0), mm(step.from.1), mm(step.to.0), mm(step.to.1)])
            .collect(),
        stops: steps
            .iter()
            .map(|step| {
                let way = match step.cut {
                    Cut::Upright => "upright, the stop at the part’s left edge",
                    Cut::Level => "level, the stop at the part’s lower edge",
                };
                [wording::length(board.length(step.stop), unit), way.to_owned()]
            })
            .collect(),
    }
}
