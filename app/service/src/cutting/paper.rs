//! The plan of cutting as a paper for the bench.

use sightedge_core::date::Date;
use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit};
use sightedge_core::money;
use sightedge_cutting::{Becomes, Instruction};
use sightedge_papers::{
    Archive, CutLine, CutSheet, CuttingPlan, Paper, PaperFile, PapersError,
};

use super::model::Cutting;
use crate::wording;

/// Sets the plan of cutting. Slow enough to be called off the frame.
///
/// # Errors
/// Where a PDF may not hold what stands on it.
pub fn pdf(cutting: &Cutting, title: &str, date: Date) -> Result<PaperFile, PapersError> {
    let unit = cutting.unit();
    let paper = match unit {
        Unit::Inch => Paper::Letter,
        Unit::Millimetre => Paper::A4,
    };
    let mut sheets = Vec::new();
    let mut totals = Vec::new();
    for (at, board) in cutting.boards.iter().enumerate() {
        for number in 0..board.plan.patterns.len() {
            sheets.extend(sheet(cutting, at, number));
        }
        let cost = if board.priced { money::text(board.plan.cost) } else { String::new() };
        totals.push([board.name.clone(), board.counts().to_string(), cost]);
        totals.push([board.bound(), String::new(), String::new()]);
    }
    for line in &cutting.materials {
        let cost = line.cost.map(money::text).unwrap_or_default();
        totals.push([line.what.clone(), wording::set(&line.amount), cost]);
    }
    let title = title.to_owned();
    let plan = CuttingPlan { title, date, paper, sheets, totals };
    plan.write(Archive::A2aUa1)
}

fn sheet(cutting: &Cutting, at: usize, number: usize) -> Option<CutSheet> {
    let (board, unit) = (cutting.boards.get(at)?, cutting.unit());
    let pattern = board.plan.patterns.get(number)?;
    let sequence = cutting.sequence(at, number)?;
    let teller = board.teller(unit, wording::set);
    let stock = &board.problem.stocks[pattern.stock];
    let mm = |units: i64| board.length(units).to_mm();
    let size = |width: i64, height: i64| {
        let size = Size::new(board.length(width), board.length(height));
        size.sides_text(|length| wording::number(length, unit))
    };
    let place = |x: i64, y: i64, w: i64, h: i64| [mm(x), mm(y), mm(w), mm(h)];
    let pattern_runs = if board.patterned { ", the pattern runs along the height" } else { "" };
    let (mut pieces, mut rests) = (Vec::new(), Vec::new());
    for named in &sequence.pieces {
        let place = place(named.x, named.y, named.width, named.height);
        let size = size(named.width, named.height);
        match named.becomes {
            Becomes::Piece { piece, .. } => {
                let name = &board.problem.pieces[piece].name;
                let (picture, layer) = name.rsplit_once(", ").unwrap_or((name, ""));
                let lines =
                    vec![named.name.clone(), picture.to_owned(), layer.to_owned(), size];
                pieces.push((place, lines));
            }
            Becomes::Rest => {
                let lines = vec![format!("{}, left over", named.name), size];
                rests.push((place, lines));
            }
            Becomes::Cut => {}
        }
    }
    let told = (0..sequence.cuts.len()).filter_map(|cut| teller.cut(&sequence, cut));
    Some(CutSheet {
        name: format!("{}. {}", board.name, cutting.title(at, number)?),
        about: format!("{}, {}{pattern_runs}", board.name, teller.stock(pattern)),
        size: [mm(stock.width), mm(stock.height)],
        pieces,
        windows: pattern
            .placements
            .iter()
            .flat_map(|placed| board.windows(placed))
            .map(|window| window.map(Length::to_mm))
            .collect(),
        rests,
        cuts: sequence
            .cuts
            .iter()
            .map(|step| [mm(step.from.0), mm(step.from.1), mm(step.to.0), mm(step.to.1)])
            .collect(),
        first: teller.first(&sequence),
        lines: told
            .map(|Instruction { piece, edge, stop, falls }| CutLine {
                piece,
                edge,
                stop,
                falls,
            })
            .collect(),
    })
}
