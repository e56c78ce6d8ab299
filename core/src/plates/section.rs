//! A section through one side of a window: how boards, bevels, sheet and backing meet.

use super::Look;
use super::dimensioning::{Axis, Dimensioner, Span};
use crate::drawing::{Align, Drawing, Fill, Item, Line, Measure, Pen, Tone};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::layout::{Figures, Window};
use crate::length::{Length, Unit};
use crate::spec::{Mat, OpeningId};

/// How thick a sheet is drawn: no plan says it (from memory: 300 g/m2 cotton paper is 0.3 to
/// 0.5 mm).
const SHEET: Length = Length::um(400);
/// How thick the facing of a board is drawn, of which its colour comes (from memory).
const FACING: Length = Length::um(250);
/// An edge of sheet or image further away than that is left out: it would make all else small.
const FAR: Length = Length::mm(30);
/// The light that printed ink gives back where it is drawn as a line.
const INK: f32 = 0.09;

/// A section through one side of a window, in true proportion: x from the board's outer edge
/// inwards, y from its face backwards, both zero there. What is far from any edge is cut off.
/// `height` is that of a letter at the drawing's scale; figures are in `unit`. Nothing is
/// drawn where the plan has no such opening.
pub fn section(
    mat: &Mat,
    figures: &Figures,
    opening: OpeningId,
    side: Side,
    look: &Look,
    unit: Unit,
    height: Length,
) -> Drawing {
    let Some(window) = figures.opening(opening) else { return Drawing::default() };
    let cut = Places::of(figures, window, side);
    let depth: Length = mat.layers.iter().map(|layer| layer.board.thickness).sum();
    let all = depth + SHEET + mat.backing.board.thickness;
    let (left, right) = cut.range(all);
    let mut sheet = Dimensioner::new(unit, height);
    let mut labels = Vec::new();

    let mut top = Length::ZERO;
    for (index, (layer, [face, back])) in mat.layers.iter().zip(&cut.layers).enumerate() {
        let thick = layer.board.thickness;
        let goes_on = [true, false];
        let board = Slab { left, face: *face, back: *back, top, thick, goes_on };
        board.draw(look.core.into(), layer.board.colour.into(), &mut sheet.items);
        let part = super::layer_name(index, mat.layers.len());
        labels.push((named(&part, &layer.board.name), board.middle()));
        top += layer.board.thickness;
    }
    // The paper: its edge where that is near, else it runs off the drawing.
    let paper = Slab {
        left: cut.sheet.max(left),
        face: right,
        back: right,
        top,
        thick: SHEET,
        goes_on: [cut.sheet <= left, true],
    };
    if paper.left < right {
        let white = look.paper_of(mat).into();
        paper.draw(white, white, &mut sheet.items);
        labels.push(("Sheet".to_owned(), paper.middle()));
    }
    if cut.image < right {
        let at = Point::new(cut.image.max(left), top);
        let ink = Rect::new(at, Size::new(right - at.x, SHEET.scaled(1, 4)));
        sheet.items.push(Fill::rect(ink, Tone::grey(INK)));
    }
    let board = &mat.backing.board;
    let backing = Slab {
        left,
        face: right,
        back: right,
        top: top + SHEET,
        thick: board.thickness,
        goes_on: [true, true],
    };
    backing.draw(look.core.into(), board.colour.into(), &mut sheet.items);
    labels.push((named("Backing", &board.name), backing.middle()));

    name_parts(&mut sheet, labels, left);
    cut.dimension(&mut sheet, side, left, right, all);
    let about = Rect::new(Point::new(left, Length::ZERO), Size::new(right - left, all));
    sheet.finish(about)
}

fn named(part: &str, board: &str) -> String {
    if board.is_empty() { part.to_owned() } else { format!("{part}: {board}") }
}

/// Where the edges lie, from the board's outer edge inwards.
struct Places {
    /// Face and back edge of each layer from the top.
    layers: Vec<[Length; 2]>,
    /// The sight edge of each layer from the top.
    sights: Vec<Length>,
    sheet: Length,
    image: Length,
}

impl Places {
    fn of(figures: &Figures, window: &Window, side: Side) -> Self {
        let board = Rect::at_origin(figures.outer);
        let at = |rect: Rect| rect.within(board).of(side);
        Self {
            layers: window
                .layers
                .iter()
                .map(|cut| [at(cut.face.bounds), at(cut.back.bounds)])
                .collect(),
            sights: window.layers.iter().map(|cut| at(cut.sight.bounds)).collect(),
            sheet: at(window.sheet),
            image: at(window.image),
        }
    }

    /// From where to where it is drawn: all edges of boards, and those of sheet and image
    /// that lie near them.
    fn range(&self, depth: Length) -> (Length, Length) {
        let edges = || self.layers.iter().flatten().copied();
        let (least, most) =
            (edges().min().unwrap_or_default(), edges().max().unwrap_or_default());
        let (mut left, mut right) = (least, most);
        let near = (depth * 6).min(FAR);
        for edge in [self.sheet, self.image] {
            if edge > least - near && edge < most + near {
                left = left.min(edge);
                right = right.max(edge);
            }
        }
        (left - depth * 2, right + depth * 2)
    }

    fn dimension(
        &self,
        sheet: &mut Dimensioner,
        side: Side,
        left: Length,
        right: Length,
        depth: Length,
    ) {
        let step = sheet.height.scaled(23, 10);
        // Side by side where figures have room so, else each a row further out.
        let rows = |sign: i64| [1, 2, 3].map(|row| step * (row * sign));
        for pair in self.sights.windows(2) {
            if let [outer, inner] = pair {
                let ends = [*outer, *inner];
                let span = Span { measure: Measure::Offset(side), axis: Axis::Across, ends };
                sheet.outside_at(span, Length::ZERO, &rows(-1));
            }
        }
        let Some(sight) = self.sights.last().copied() else { return };
        // The reveal first: the lines of what lies below would run through its figure otherwise.
        for (measure, edge) in
            [(Measure::Reveal(side), self.image), (Measure::Overlap(side), self.sheet)]
        {
            if edge != sight && edge > left && edge < right {
                let ends = [edge.min(sight), edge.max(sight)];
                let span = Span { measure, axis: Axis::Across, ends };
                sheet.outside_at(span, depth, &rows(1).map(|row| depth + row));
            }
        }
    }
}

/// A board or a sheet cut through.
struct Slab {
    left: Length,
    /// Its right end at its face and at its back.
    face: Length,
    back: Length,
    top: Length,
    thick: Length,
    /// Whether it goes on beyond the drawing at its left and at its right end.
    goes_on: [bool; 2],
}

impl Slab {
    fn corners(&self, thick: Length) -> [Point; 4] {
        let Self { left, face, back, top, .. } = *self;
        let end = face + (back - face).scaled(thick.units().into(), self.thick.units().into());
        [
            Point::new(left, top),
            Point::new(face, top),
            Point::new(end, top + thick),
            Point::new(left, top + thick),
        ]
    }

    fn draw(&self, core: Tone, facing: Tone, items: &mut Vec<Item>) {
        let corners = self.corners(self.thick);
        let mut fill = |points: [Point; 4], tone| {
            items.push(Item::Fill(Fill { path: Path { points: points.into() }, tone }));
        };
        fill(corners, core);
        if facing != core {
            fill(self.corners(FACING.min(self.thick.scaled(1, 4))), facing);
        }
        let [a, b, c, d] = corners;
        let lines = match self.goes_on {
            [false, false] => vec![vec![a, b, c, d, a]],
            [true, false] => vec![vec![a, b, c, d]],
            [false, true] => vec![vec![b, a, d, c]],
            [true, true] => vec![vec![a, b], vec![d, c]],
        };
        for points in lines {
            items.push(Item::Line(Line { points, closed: false, pen: Pen::Section }));
        }
    }

    fn middle(&self) -> Point {
        Point::new(self.left, self.top + self.thick.halves().0)
    }
}

/// Names in a column at the left, each with a line to its part.
fn name_parts(sheet: &mut Dimensioner, labels: Vec<(String, Point)>, left: Length) {
    let line = sheet.height.scaled(13, 10);
    let column = left - sheet.height * 2;
    let (Some(first), Some(last)) = (labels.first(), labels.last()) else { return };
    let middle = first.1.y + (last.1.y - first.1.y).halves().0;
    let rows = i64::try_from(labels.len()).unwrap_or(0);
    let mut next = middle - (line * (rows - 1)).halves().0;
    for (text, part) in labels {
        let y = next;
        next += line;
        let points = vec![
            Point::new(column + sheet.gap(), y),
            Point::new(left - sheet.gap(), part.y),
            Point::new(left + sheet.gap(), part.y),
        ];
        sheet.items.push(Item::Line(Line { points, closed: false, pen: Pen::Fine }));
        sheet.label(text, Point::new(column, y), Align::End);
    }
}
