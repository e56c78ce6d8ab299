//! The catalogue number as a code that telephones read.

use qrcode::{EcLevel, QrCode};

use crate::page::{Block, Mark, count};

/// The code of `text` in a square of that `edge`, its quiet zone of four modules counted.
/// Source: ISO/IEC 18004.
pub(super) fn code(text: &str, [x, y]: [f64; 2], edge: f64) -> Option<Block> {
    let made = QrCode::with_error_correction_level(text.as_bytes(), EcLevel::M).ok()?;
    let wide = made.width();
    let module = edge / count(wide + 8);
    let dark = made.to_colors();
    let mut marks = Vec::new();
    for row in 0..wide {
        let mut column = 0;
        while column < wide {
            let is_dark = |column: usize| {
                dark.get(row * wide + column).is_some_and(|one| *one == qrcode::Color::Dark)
            };
            let from = column;
            while column < wide && is_dark(column) {
                column += 1;
            }
            if column > from {
                let [left, right] = [from, column].map(|at| module * count(at + 4));
                let [top, bottom] = [row, row + 1].map(|at| module * count(at + 4));
                marks.push(Mark::Fill {
                    p: vec![[left, top], [right, top], [right, bottom], [left, bottom]],
                    c: "#000000".to_owned(),
                });
            }
            column += 1;
        }
    }
    let alt = format!("A code that says {text}.");
    Some(Block::Drawing { x, y, w: edge, h: edge, alt, marks })
}
