//! The mat as lines, for dimensions to be laid over.

use crate::drawing::{Drawing, Item, Line, Pen};
use crate::geometry::Rect;
use crate::layout::Figures;

/// The edges of a mat, face on: the board, the sight edge of each layer with its face opening,
/// and, dashed, the sheet and the image under it.
pub fn outline(figures: &Figures) -> Drawing {
    let board = Rect::at_origin(figures.outer);
    let mut items = Vec::new();
    let mut line = |rect: Rect, pen| {
        if rect.size.is_positive() {
            items.push(Item::Line(Line { points: rect.path().points, closed: true, pen }));
        }
    };
    for window in &figures.openings {
        line(window.sheet, Pen::Hidden);
        line(window.image, Pen::Hidden);
        for cut in window.layers.iter().rev() {
            if cut.face != cut.sight {
                line(cut.face.bounds, Pen::Fine);
            }
            line(cut.sight.bounds, Pen::Edge);
        }
    }
    line(board, Pen::Section);
    Drawing { bounds: board, ground: None, items }
}
