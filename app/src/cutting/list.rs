//! The plan of cutting as a table for other programs: comma-separated values after RFC 4180.

use sightedge_core::length::Unit;
use sightedge_cutting::Cut;

use super::kept::{BoardPlan, Cutting};
use super::order;

/// A cell that no spreadsheet takes for a formula: one that begins as formulas do begins with
/// an apostrophe. Source: OWASP, "CSV injection".
fn safe(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{cell}")
    } else {
        cell.to_owned()
    }
}

/// The whole list, one row for each cut and one for each piece, in the order of cutting.
///
/// # Errors
/// None in practice: the table is written to memory.
pub fn csv(cutting: &Cutting) -> Result<Vec<u8>, csv::Error> {
    let mut out =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    out.write_record([
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
    ])?;
    for board in &cutting.boards {
        rows(board, cutting.unit(), &mut out)?;
    }
    for line in &cutting.materials {
        let blank = || String::new();
        let mut row = vec![blank(); 14];
        "material".clone_into(&mut row[5]);
        row[7] = safe(&format!("{}: {}", line.what, line.amount));
        out.write_record(&row)?;
    }
    out.into_inner().map_err(|error| csv::Error::from(std::io::Error::other(error.to_string())))
}

fn rows(
    board: &BoardPlan,
    unit: Unit,
    out: &mut csv::Writer<Vec<u8>>,
) -> Result<(), csv::Error> {
    let length = |units: i64| {
        let text = board.length(units).exact(unit);
        text.rsplit_once(' ').map_or(text.clone(), |(number, _)| number.to_owned())
    };
    for (number, pattern) in (1..).zip(&board.plan.patterns) {
        let stock = &board.problem.stocks[pattern.stock];
        let start = [
            safe(&board.name),
            number.to_string(),
            pattern.copies.to_string(),
            length(stock.width),
            length(stock.height),
        ];
        let mut row = |what: &str, at: usize, name: &str, rest: [String; 5]| {
            let own = [what.to_owned(), at.to_string(), safe(name)];
            let end = [unit.sign().to_owned()];
            out.write_record(start.iter().chain(&own).chain(&rest).chain(&end))
        };
        let blank = String::new;
        for (at, step) in (1..).zip(order::steps(pattern)) {
            let (way, x, y) = match step.cut {
                Cut::Upright => ("upright cut", length(step.from.0), blank()),
                Cut::Level => ("level cut", blank(), length(step.from.1)),
            };
            row("cut", at, way, [x, y, blank(), blank(), length(step.stop)])?;
        }
        for (at, placed) in (1..).zip(&pattern.placements) {
            let name = &board.problem.pieces[placed.piece].name;
            let measures = [placed.x, placed.y, placed.width, placed.height].map(length);
            let [x, y, width, height] = measures;
            row("piece", at, name, [x, y, width, height, blank()])?;
        }
        for (at, rest) in (1..).zip(order::rests(pattern)) {
            let [x, y, width, height] = [rest.x, rest.y, rest.width, rest.height].map(length);
            row("rest", at, "", [x, y, width, height, blank()])?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: OWASP, "CSV injection"; the characters a spreadsheet starts a formula with.
    #[test]
    fn no_cell_is_a_formula() {
        for (cell, wanted) in [
            ("=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")"),
            ("+1", "'+1"),
            ("-1", "'-1"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("\t=1", "'\t=1"),
            ("Slack water, mat", "Slack water, mat"),
        ] {
            assert_eq!(safe(cell), wanted, "{cell:?}");
        }
    }
}
