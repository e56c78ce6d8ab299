//! What others make of the same instances.

use std::process::Command;

use cut_optimizer_2d::{CutPiece, Optimizer, PatternDirection, StockPiece};
use sightedge_cutting::Problem;

/// Sheets that the crate `cut-optimizer-2d` takes; `None` where it fails.
pub(crate) fn sheets(problem: &Problem) -> Option<f64> {
    let mut optimizer = Optimizer::new();
    optimizer.set_random_seed(1).set_cut_width(0);
    let whole = |n: i64| usize::try_from(n).ok();
    for stock in &problem.stocks {
        optimizer.add_stock_piece(StockPiece {
            width: whole(stock.width)?,
            length: whole(stock.height)?,
            pattern_direction: PatternDirection::None,
            price: whole(stock.cost)?,
            quantity: None,
        });
    }
    for piece in &problem.pieces {
        for _ in 0..piece.copies {
            optimizer.add_cut_piece(CutPiece {
                external_id: None,
                width: whole(piece.width)?,
                length: whole(piece.height)?,
                pattern_direction: PatternDirection::None,
                can_rotate: piece.may_turn,
            });
        }
    }
    let solution = optimizer.optimize_guillotine(|_| {}).ok()?;
    u32::try_from(solution.stock_pieces.len()).ok().map(f64::from)
}

/// What the Python packer `rectpack` makes of the bin-packing instances, in its script's own
/// words, or why it was not run.
pub(crate) fn rectpack(every: usize, skip: usize) -> String {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/rectpack_peer.py");
    let ran = Command::new("python3")
        .arg(script)
        .arg(super::data::folder())
        .args([every.to_string(), skip.to_string()])
        .output();
    match ran {
        Ok(output) if output.status.success() => {
            String::from_utf8_lossy(&output.stdout).trim_end().to_owned()
        }
        Ok(output) => {
            let said = String::from_utf8_lossy(&output.stderr);
            format!("rectpack: not run ({})", said.lines().last().unwrap_or_default())
        }
        Err(error) => format!("rectpack: not run ({error})"),
    }
}
