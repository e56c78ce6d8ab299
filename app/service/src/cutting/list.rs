//! The plan of cutting as a table for other programs.

use sightedge_core::export::csv::{Error, Table, cell};
use sightedge_cutting::{Becomes, Cut};

use super::model::Cutting;

/// The whole list, one row for each cut and one for each piece, in the order of cutting.
///
/// # Errors
/// None in practice: the table is written to memory.
pub fn csv(cutting: &Cutting) -> Result<String, Error> {
    let mut out = Table::default();
    out.row([
        "board",
        "sheet",
        "sheets alike",
        "sheet width",
        "sheet height",
        "what",
        "number",
        "name",
        "from left",
        "from bottom",
        "width",
        "height",
        "stop",
        "unit",
        "piece",
        "edge at the stop",
        "falls",
    ])?;
    for at in 0..cutting.boards.len() {
        rows(cutting, at, &mut out)?;
    }
    for line in &cutting.materials {
        let blank = || String::new();
        let mut row = vec![blank(); 17];
        "material".clone_into(&mut row[5]);
        row[7] = cell(&format!("{}: {}", line.what, line.amount)).into_owned();
        out.row(&row)?;
    }
    out.text()
}

fn rows(cutting: &Cutting, at: usize, out: &mut Table) -> Result<(), Error> {
    let (board, unit) = (&cutting.boards[at], cutting.unit());
    let length = |units: i64| {
        let text = board.length(units).exact(unit);
        text.rsplit_once(' ').map_or(text.clone(), |(number, _)| number.to_owned())
    };
    for (number, pattern) in board.plan.patterns.iter().enumerate() {
        let Some(sequence) = cutting.sequence(at, number) else { continue };
        let stock = &board.problem.stocks[pattern.stock];
        let start = [
            cell(&board.name).into_owned(),
            (number + 1).to_string(),
            pattern.copies.to_string(),
            length(stock.width),
            length(stock.height),
        ];
        let mut row = |own: [String; 3], rest: [String; 5], end: [String; 3]| {
            let unit = [unit.sign().to_owned()];
            out.row(start.iter().chain(&own).chain(&rest).chain(&unit).chain(&end))
        };
        let blank = String::new;
        let what = |what: &str, at: usize, name: &str| {
            [what.to_owned(), at.to_string(), cell(name).into_owned()]
        };
        for (at, step) in (1..).zip(&sequence.cuts) {
            let (way, x, y) = match step.cut {
                Cut::Upright => ("vertical cut", length(step.from.0), blank()),
                Cut::Level => ("horizontal cut", blank(), length(step.from.1)),
            };
            let of = &sequence.pieces[step.of];
            let (width, height) = (length(of.width), length(of.height));
            let falls = step.falls().map(|at| sequence.pieces[at].name.as_str());
            let falls = falls.collect::<Vec<_>>().join(" ");
            row(
                what("cut", at, way),
                [x, y, width, height, length(step.stop)],
                [of.name.clone(), step.edge().to_owned(), falls],
            )?;
        }
        // Pieces first, then what is left, as other programs have read them so far.
        let (mut pieces, mut rests) = (Vec::new(), Vec::new());
        for named in &sequence.pieces {
            match named.becomes {
                Becomes::Piece { piece, .. } => pieces.push((named, Some(piece))),
                Becomes::Rest => rests.push((named, None)),
                Becomes::Cut => {}
            }
        }
        for (word, list) in [("piece", pieces), ("rest", rests)] {
            for (at, (named, piece)) in (1..).zip(list) {
                let name = piece.map_or("", |piece| &board.problem.pieces[piece].name);
                let measures = [named.x, named.y, named.width, named.height].map(length);
                let [x, y, width, height] = measures;
                row(
                    what(word, at, name),
                    [x, y, width, height, blank()],
                    [named.name.clone(), blank(), blank()],
                )?;
            }
        }
    }
    Ok(())
}
