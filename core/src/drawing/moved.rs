//! A drawing at another place, so that several lie beside each other in one.

use super::{BevelFace, Board, Cutout, Dimension, Drawing, Item, Line, Text};
use crate::geometry::{Path, Point, Rect};

impl Drawing {
    /// The same, everything moved right by `by.x` and down by `by.y`.
    #[must_use]
    pub fn moved(self, by: Point) -> Self {
        let Self { bounds, ground, items } = self;
        let items = items.into_iter().map(|one| item(one, by)).collect();
        Self { bounds: rect(bounds, by), ground, items }
    }
}

fn point(at: Point, by: Point) -> Point {
    Point::new(at.x + by.x, at.y + by.y)
}

fn rect(of: Rect, by: Point) -> Rect {
    Rect::new(point(of.at, by), of.size)
}

fn path(mut of: Path, by: Point) -> Path {
    for at in &mut of.points {
        *at = point(*at, by);
    }
    of
}

fn pair(of: [Point; 2], by: Point) -> [Point; 2] {
    of.map(|at| point(at, by))
}

fn text(of: Text, by: Point) -> Text {
    Text { at: point(of.at, by), ..of }
}

fn cutout(of: Cutout, by: Point) -> Cutout {
    let Cutout { face, sight, bevels } = of;
    let bevel = |face: BevelFace| BevelFace {
        corners: face.corners.map(|corner| point(corner, by)),
        ..face
    };
    Cutout {
        face: path(face, by),
        sight: path(sight, by),
        bevels: bevels.into_iter().map(bevel).collect(),
    }
}

fn dimension(of: Dimension, by: Point) -> Dimension {
    let Dimension { measure, line, ends, tick, extensions, figure } = of;
    Dimension {
        measure,
        line: pair(line, by),
        ends: pair(ends, by),
        tick,
        extensions: extensions.map(|both| both.map(|one| pair(one, by))),
        figure: text(figure, by),
    }
}

fn item(of: Item, by: Point) -> Item {
    match of {
        Item::Fill(mut fill) => {
            fill.path = path(fill.path, by);
            Item::Fill(fill)
        }
        Item::Picture(mut picture) => {
            picture.image = rect(picture.image, by);
            picture.clip = rect(picture.clip, by);
            Item::Picture(picture)
        }
        Item::Board(Board { outline, tone, windows }) => Item::Board(Board {
            outline: path(outline, by),
            tone,
            windows: windows.into_iter().map(|window| cutout(window, by)).collect(),
        }),
        Item::Moulding(mut moulding) => {
            moulding.outer = rect(moulding.outer, by);
            Item::Moulding(moulding)
        }
        Item::Shade(mut shade) => {
            shade.edge = rect(shade.edge, by);
            Item::Shade(shade)
        }
        Item::Shadow(mut shadow) => {
            shadow.of = rect(shadow.of, by);
            Item::Shadow(shadow)
        }
        Item::Zone(mut zone) => {
            zone.path = path(zone.path, by);
            Item::Zone(zone)
        }
        Item::Line(Line { points, closed, pen }) => {
            let points = points.into_iter().map(|at| point(at, by)).collect();
            Item::Line(Line { points, closed, pen })
        }
        Item::Text(of) => Item::Text(text(of, by)),
        Item::Dimension(of) => Item::Dimension(Box::new(dimension(*of, by))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::layout;
    use crate::length::Length;
    use crate::plates::{Look, dimensions, front, hidden};
    use crate::sample::reference;

    /// There and back again nothing has changed; and nothing stays behind on the way.
    #[test]
    fn all_of_it_moves() {
        let document = reference();
        let mat = &document.variants[0].mat;
        let figures = layout(&document, mat).exact;
        let drawing = front(mat, &figures, &Look::default())
            .under(dimensions(&figures, document.unit, Length::mm(12)))
            .under(hidden(&figures));
        let by = Point::new(Length::mm(700), Length::mm(-40));
        let moved = drawing.clone().moved(by);
        assert_eq!(moved.items.len(), drawing.items.len());
        for (before, after) in drawing.items.iter().zip(&moved.items) {
            assert_ne!(before, after, "it stayed where it was");
        }
        assert_eq!(moved.bounds.at, point(drawing.bounds.at, by));
        assert_eq!(moved.moved(Point::new(-by.x, -by.y)), drawing);
    }
}
