//! A section through the package and the frame's lower side, to scale: what lies upon what,
//! how deep it is, and whether the rabbet takes it.

use super::dimensioning::{Axis, Dimensioner, Span};
use crate::drawing::{Align, Drawing, Fill, Item, Line, Measure, Pen, Tone};
use crate::geometry::{Path, Point, Rect, Size};
use crate::length::{Length, Unit};
use crate::package::{Framed, Packed, Part};

/// How thick the lip is drawn: no table says it. Source: from memory.
const LIP: Length = Length::mm(4);
/// How far in the stack is drawn, in depths of the package.
const LONG: i64 = 2;
/// The least that is drawn of it.
const LEAST: Length = Length::mm(10);

/// A section to scale: x from the rabbet's lower wall inwards, y from the front of the
/// contents backwards. The package rests on that wall. `height` is that of a letter at the
/// drawing's scale; figures are in `unit`.
pub fn package(packed: &Packed, unit: Unit, height: Length) -> Drawing {
    let mut sheet = Dimensioner::new(unit, height);
    let deep = packed.framed.as_ref().map_or(packed.depth, |framed| {
        packed.rabbet.max(framed.frame.rabbet_depth.unwrap_or_default())
    });
    let lip = packed.framed.as_ref().map_or(Length::ZERO, |framed| framed.frame.lip);
    let right = (deep * LONG).max(lip * 2).max(LEAST);
    let mut top = Length::ZERO;
    let mut labels = Vec::new();
    for layer in packed.layers.iter().filter(|layer| layer.part != Part::Frame) {
        let thick = layer.thickness;
        let long = if layer.part == Part::Spacer { lip.min(right) } else { right };
        let at = Rect::new(Point::new(Length::ZERO, top), Size::new(long, thick));
        if thick.is_positive() {
            let own = layer.colour.map(Tone::from);
            sheet.items.push(Fill::rect(at, own.unwrap_or(tone(layer.part))));
            let [a, b, c, d] = [
                at.at,
                Point::new(at.right(), at.top()),
                Point::new(at.right(), at.bottom()),
                Point::new(at.left(), at.bottom()),
            ];
            // It goes on beyond the drawing at its right.
            let points = if long < right { vec![a, b, c, d, a] } else { vec![b, a, d, c] };
            sheet.items.push(Item::Line(Line { points, closed: false, pen: Pen::Section }));
        }
        let size = thick.thickness(unit);
        // A name that has the thickness in it does not repeat it.
        let words = if layer.name.contains(&size) {
            layer.name.clone()
        } else if thick.is_positive() {
            format!("{}, {size}", layer.name)
        } else {
            format!("{}, thickness unknown", layer.name)
        };
        labels.push((words, Point::new(long, top + thick.halves().0)));
        top += thick;
    }
    let mut about = Rect::at_origin(Size::new(right, packed.depth));
    if let Some(framed) = &packed.framed {
        about = moulding(&mut sheet, packed, framed);
        about.size.width = right - about.left();
    }
    let step = sheet.height.scaled(23, 10);
    let left = about.left();
    let ends = [Length::ZERO, packed.depth];
    let span = Span { measure: Measure::PackageDepth, axis: Axis::Down, ends };
    sheet.outside(span, left, left - step);
    if let Some(depth) = packed.framed.as_ref().and_then(|framed| framed.frame.rabbet_depth) {
        let ends = [Length::ZERO, depth];
        let span = Span { measure: Measure::RabbetDepth, axis: Axis::Down, ends };
        sheet.outside(span, left, left - step * 2);
    }
    names(&mut sheet, &labels, right, Point::new(left, about.bottom()));
    sheet.finish(about)
}

/// Greys that differ enough beside each other, of what has no colour of its own; our own choice.
const fn tone(part: Part) -> Tone {
    Tone::grey(match part {
        Part::Glazing => 0.72,
        Part::Spacer => 0.3,
        Part::Mat => 0.95,
        Part::Sheet => 0.12,
        Part::Backing => 0.86,
        Part::Filler => 0.6,
        Part::Frame => 0.42,
    })
}

/// The frame's side, and where it lies.
fn moulding(sheet: &mut Dimensioner, packed: &Packed, framed: &Framed) -> Rect {
    let frame = &framed.frame;
    let outside = (frame.face - frame.lip).max(Length::MM);
    // Not measured: as deep as is wanted, its end dashed.
    let depth = frame.rabbet_depth.unwrap_or(packed.rabbet);
    let at = |x, y| Point::new(x, y);
    let lip_top = -LIP;
    let profile = vec![
        at(-outside, lip_top),
        at(frame.lip, lip_top),
        at(frame.lip, Length::ZERO),
        at(Length::ZERO, Length::ZERO),
        at(Length::ZERO, depth),
        at(-outside, depth),
    ];
    // Two rectangles: not every writer fills what is not convex.
    let face = Rect::new(at(-outside, lip_top), Size::new(outside + frame.lip, LIP));
    let wall = Rect::new(at(-outside, Length::ZERO), Size::new(outside, depth));
    let own = frame.colour.map_or(tone(Part::Frame), Tone::from);
    for rect in [face, wall] {
        sheet.items.push(Item::Fill(Fill { path: rect.path(), tone: own }));
    }
    let known = frame.rabbet_depth.is_some();
    let line = |points, closed, pen| Item::Line(Line { points, closed, pen });
    if known {
        sheet.items.push(line(Path { points: profile }.points, true, Pen::Section));
    } else {
        let end = vec![at(Length::ZERO, depth), at(-outside, depth)];
        let mut open = profile;
        open.rotate_left(5);
        sheet.items.push(line(open, false, Pen::Section));
        sheet.items.push(line(end, false, Pen::Hidden));
    }
    Rect::new(
        at(-outside, lip_top),
        Size::new(outside + frame.lip, LIP + depth.max(packed.depth)),
    )
}

/// A number beside each layer at the right, each with a line to it, and what they stand for
/// in a list below: names beside a thin stack would leave it no room.
fn names(sheet: &mut Dimensioner, labels: &[(String, Point)], right: Length, below: Point) {
    let line = sheet.height.scaled(14, 10);
    let column = right + sheet.height * 2;
    let (Some(first), Some(last)) = (labels.first(), labels.last()) else { return };
    let middle = first.1.y + (last.1.y - first.1.y).halves().0;
    let rows = i64::try_from(labels.len()).unwrap_or(0);
    let mut next = middle - (line * (rows - 1)).halves().0;
    let mut under = below.y.max(middle + (line * (rows + 1)).halves().0) + line * 2;
    for (number, (text, part)) in (1..).zip(labels) {
        let y = next;
        next += line;
        let points = vec![
            Point::new(column - sheet.gap(), y),
            Point::new(right + sheet.gap(), part.y),
            Point::new(part.x - sheet.gap(), part.y),
        ];
        sheet.items.push(Item::Line(Line { points, closed: false, pen: Pen::Fine }));
        sheet.label(number.to_string(), Point::new(column, y), Align::Start);
        sheet.label(format!("{number}  {text}"), Point::new(below.x, under), Align::Start);
        under += line;
    }
}
