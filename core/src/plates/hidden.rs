//! What the mat hides: where the sheet and the image end, and where the mat lies on them.

use crate::drawing::{Drawing, Item, Line, Pen, Zone, ZoneKind};
use crate::geometry::{Point, Rect, Size};
use crate::layout::{Figures, Window};

/// The outlines of sheet and image, and what of both lies under the mat, to be laid over the
/// front.
pub fn hidden(figures: &Figures) -> Drawing {
    let mut items = Vec::with_capacity(figures.openings.len() * 10);
    for Window { sheet, image, sight, .. } in &figures.openings {
        items.extend(round(*sheet, *sight).map(|rect| zone(rect, ZoneKind::Overlap)));
        items.extend(round(*image, *sight).map(|rect| zone(rect, ZoneKind::HiddenImage)));
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

/// What of `whole` lies round `hole`, in up to four rectangles that do not overlap.
fn round(whole: Rect, hole: Rect) -> impl Iterator<Item = Rect> {
    let between = |left, top, right, bottom| {
        Rect::new(Point::new(left, top), Size::new(right - left, bottom - top))
    };
    let (left, right) = (whole.left(), whole.right());
    // A window that is no window hides everything; one that lies beside leaves all of it.
    let hole =
        hole.meet(whole).unwrap_or_else(|| between(left, whole.top(), left, whole.top()));
    [
        between(left, whole.top(), right, hole.top()),
        between(hole.right(), hole.top(), right, hole.bottom()),
        between(left, hole.bottom(), right, whole.bottom()),
        between(left, hole.top(), hole.left(), hole.bottom()),
    ]
    .into_iter()
    .filter(|rect| rect.size.is_positive())
}
