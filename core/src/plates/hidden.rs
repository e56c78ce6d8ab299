//! What the mat hides: where the sheet and the image end, and where the mat lies on them.

use crate::drawing::{Drawing, Item, Line, Pen, Zone, ZoneKind, rest};
use crate::geometry::Rect;
use crate::layout::{Figures, Window};

/// The outlines of sheet and image, and what of both lies under the mat, to be laid over the
/// front.
pub fn hidden(figures: &Figures) -> Drawing {
    let mut items = Vec::with_capacity(figures.openings.len() * 10);
    for Window { sheet, image, sight, .. } in &figures.openings {
        items.extend(
            rest(*sheet, &[*sight]).into_iter().map(|rect| zone(rect, ZoneKind::Overlap)),
        );
        items.extend(
            rest(*image, &[*sight]).into_iter().map(|rect| zone(rect, ZoneKind::HiddenImage)),
        );
        for outline in [sheet, image].into_iter().filter(|rect| rect.size.is_positive()) {
            let points = outline.path().points;
            items.push(Item::Line(Line { points, closed: true, pen: Pen::Hidden }));
        }
    }
    Drawing { bounds: Rect::at_origin(figures.outer), ground: None, items }
}

fn zone(rect: Rect, kind: ZoneKind) -> Item {
    Item::Zone(Zone { path: rect.path(), kind })
}
