//! How the description of a page looks: its blocks, in millimetres, as items to be painted.

use vello_cpu::kurbo::{Affine, BezPath, Circle, Point, Rect, Shape, Vec2};

use crate::items::{Cell, CellKind, Ink, Item, Page, Part, Pen};
use crate::page::{Block, Mark, Pages, Table, Text};
use crate::shape::shape;
use crate::words::{ASCENT, POINT, Style};

const BLACK: Ink = Ink::grey(15);
const GREY: Ink = Ink::grey(95);
/// How high capitals are, in sizes of the letters. Source: the typeface's own table OS/2.
const CAPITALS: f64 = 0.727;
/// Room at the sides of a table's cell.
const INSET: f64 = 0.7;
/// How far a circle's curves may be off, in points.
const EXACT: f64 = 1e-3;

/// The pages as items.
pub(crate) fn place(pages: &Pages) -> Vec<Page> {
    let size = [pages.width, pages.height].map(points);
    let page = |blocks: &Vec<Block>| {
        let mut parts = Vec::with_capacity(blocks.len());
        for block in blocks {
            lay(block, &mut parts);
        }
        Page { size, parts }
    };
    pages.pages.iter().map(page).collect()
}

/// Millimetres as points, to a ten thousandth of a point, so that a number is short.
fn points(mm: f64) -> f64 {
    (mm / POINT * 1e4).round() / 1e4
}

fn lay(block: &Block, parts: &mut Vec<Part>) {
    match block {
        Block::Text(text) => parts.push(lines(text)),
        Block::Rule { x, y, w } => {
            parts.push(Part::Ornament(vec![level(*x, *y, *w, 0.12, 150)]));
        }
        Block::Table(table) => cells(table, parts),
        Block::Drawing { x, y, w, h, alt, marks } => {
            let area = rect([*x, *y, *w, *h]);
            let items = marks.iter().map(|mark| drawn(mark, [*x, *y])).collect();
            parts.push(Part::Figure(alt.clone(), area, items));
        }
    }
}

fn rect([x, y, w, h]: [f64; 4]) -> Rect {
    Rect::new(points(x), points(y), points(x + w), points(y + h))
}

/// A line from left to right.
fn level(x: f64, y: f64, w: f64, width: f64, grey: u8) -> Item {
    let mut path = BezPath::new();
    path.move_to((points(x), points(y)));
    path.line_to((points(x + w), points(y)));
    Item::Line { path, pen: Pen { width: points(width), ink: Ink::grey(grey), dash: None } }
}

/// Where a text lies between two edges.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Justify {
    Left,
    Middle,
    Right,
}

/// A text on its base line `y`, between `x` and as far as `w` on.
fn written(text: &str, style: Style, [x, y, w]: [f64; 3], justify: Justify) -> Item {
    let spare = w - style.width(text);
    let x = match justify {
        Justify::Left => x,
        Justify::Middle => x + spare / 2.0,
        Justify::Right => x + spare,
    };
    Item::Text {
        text: shape(text, style.is_strong()),
        place: Affine::translate(Vec2::new(points(x), points(y))),
        size: style.size,
        ink: if style.quiet { GREY } else { BLACK },
    }
}

fn lines(text: &Text) -> Part {
    let Text { x, y, w, pitch, size, weight, quiet, level, align, lines } = text;
    let style = Style { size: *size, weight: *weight, quiet: *quiet };
    let justify = match *align {
        "right" => Justify::Right,
        "center" => Justify::Middle,
        _ => Justify::Left,
    };
    let mut base = y + size * POINT * ASCENT;
    let mut items = Vec::with_capacity(lines.len());
    for line in lines {
        items.push(written(line, style, [*x, base, *w], justify));
        base += pitch;
    }
    match level {
        0 => Part::Paragraph(items),
        level => Part::Heading(*level, lines.join(" "), items),
    }
}

/// A table: its rules, then its cells.
fn cells(table: &Table, parts: &mut Vec<Part>) {
    let Table { x, y, columns, row, size, start, groups, head, rows } = table;
    let style = Style { size: *size, weight: 400, quiet: false };
    let quiet = Style { quiet: true, ..style };
    // Where each column begins, and the last one ends.
    let mut edges = vec![*x];
    for width in columns {
        edges.push(edges.last().unwrap_or(x) + width);
    }
    let wide = columns.iter().sum();
    let mut top = *y;
    let mut rules = Vec::new();
    let mut made = Vec::new();
    let cell = |kind, style: Style, text: &str, at: usize, span: usize, justify, top: f64| {
        let left = edges.get(at).copied().unwrap_or(*x);
        let right = edges.get(at + span).copied().unwrap_or(x + wide);
        let base = top + row / 2.0 + style.size * POINT * CAPITALS / 2.0;
        let place = [left + INSET, base, right - left - 2.0 * INSET];
        let items = if text.is_empty() {
            Vec::new()
        } else {
            vec![written(text, style, place, justify)]
        };
        Cell { kind, span: u32::try_from(span).unwrap_or(1), items }
    };
    let side =
        |column: usize| if start.contains(&column) { Justify::Left } else { Justify::Right };
    if !groups.is_empty() {
        let mut at = 0;
        let mut heads = Vec::with_capacity(groups.len());
        for (name, span) in groups {
            let kind = CellKind::ColumnHead;
            heads.push(cell(kind, quiet, name, at, *span, Justify::Middle, top));
            at += span;
        }
        made.push(heads);
        top += row;
    }
    let heads = head.iter().enumerate();
    made.push(
        heads.map(|(n, s)| cell(CellKind::ColumnHead, quiet, s, n, 1, side(n), top)).collect(),
    );
    top += row;
    rules.push(level(*x, top, wide, 0.08, 190));
    for texts in rows {
        let mut line = Vec::with_capacity(texts.len());
        let mut at = 0;
        while let Some(text) = texts.get(at) {
            // Empty cells side by side are one: a reader hears of it once, and a file is
            // smaller.
            let empty = texts.iter().skip(at).take_while(|text| text.is_empty()).count();
            let kind = if at == 0 && empty == 0 { CellKind::RowHead } else { CellKind::Figure };
            let span = empty.max(1);
            line.push(cell(kind, style, text, at, span, side(at), top));
            at += span;
        }
        made.push(line);
        top += row;
        rules.push(level(*x, top, wide, 0.08, 190));
    }
    parts.push(Part::Ornament(rules));
    parts.push(Part::Table(made));
}

/// A mark of a drawing whose upper left corner lies at `x`, `y`.
fn drawn(mark: &Mark, [left, top]: [f64; 2]) -> Item {
    let at = |[x, y]: [f64; 2]| Point::new(points(left + x), points(top + y));
    let area = |[x, y, w, h]: [f64; 4]| rect([left + x, top + y, w, h]);
    match mark {
        Mark::Fill { p, c } => {
            Item::Fill { path: outline(p.iter().map(|p| at(*p)), true), ink: colour(c) }
        }
        Mark::Ring { p, holes, c } => {
            let mut path = outline(p.iter().map(|p| at(*p)), true);
            // What runs the other way round is left out.
            let whole = path.area();
            for hole in holes {
                let hole = outline(hole.iter().map(|p| at(*p)), true);
                let same = hole.area() * whole > 0.0;
                path.extend(if same { hole.reverse_subpaths() } else { hole });
            }
            Item::Fill { path, ink: colour(c) }
        }
        Mark::Line { p, closed, pen: name } => {
            Item::Line { path: outline(p.iter().map(|p| at(*p)), *closed), pen: pen(name) }
        }
        Mark::Text { x, y, s, size, turned, label, .. } => {
            let turn = if *turned { -std::f64::consts::FRAC_PI_2 } else { 0.0 };
            Item::Text {
                text: shape(s, false),
                place: Affine::translate(at([*x, *y]).to_vec2()) * Affine::rotate(turn),
                size: *size,
                ink: if *label { GREY } else { BLACK },
            }
        }
        Mark::Picture { src, x, y, w, h, clip } => Item::Picture {
            name: src.clone(),
            place: area([*x, *y, *w, *h]),
            clip: area(*clip),
        },
        Mark::Shade { x, y, w, h, dark } => Item::Fill {
            path: area([*x, *y, *w, *h]).to_path(EXACT),
            ink: Ink { rgb: [0; 3], cover: single(*dark).clamp(0.0, 1.0) },
        },
        Mark::Circle { x, y, r } => Item::Line {
            path: Circle::new(at([*x, *y]), points(*r)).to_path(EXACT),
            pen: pen("register"),
        },
    }
}

fn outline(points: impl Iterator<Item = Point>, closed: bool) -> BezPath {
    let mut path = BezPath::new();
    for (index, point) in points.enumerate() {
        if index == 0 { path.move_to(point) } else { path.line_to(point) }
    }
    if closed && !path.is_empty() {
        path.close_path();
    }
    path
}

/// A pen by the name that a description has for it.
fn pen(name: &str) -> Pen {
    let (width, grey, dash) = match name {
        "section" => (0.32, 15, None),
        "edge" => (0.18, 15, None),
        "outline" => (0.25, 195, None),
        "hidden" => (0.12, 90, Some([1.1, 0.7])),
        "tile" => (0.08, 140, Some([0.4, 0.8])),
        "register" => (0.1, 15, None),
        "bar" => (0.15, 15, None),
        // The rest is "fine".
        _ => (0.1, 60, None),
    };
    Pen { width: points(width), ink: Ink::grey(grey), dash: dash.map(|dash| dash.map(points)) }
}

/// A colour from `#rrggbb`; black from anything else.
fn colour(hex: &str) -> Ink {
    let digits = hex.strip_prefix('#').and_then(|hex| u32::from_str_radix(hex, 16).ok());
    let [_, r, g, b] = digits.unwrap_or(0).to_be_bytes();
    Ink { rgb: [r, g, b], cover: 1.0 }
}

/// As writers of PDF and painters of pixels count.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "a page's coordinates have no more digits"
)]
pub(crate) const fn single(number: f64) -> f32 {
    number as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_row_of_a_table_has_all_columns() {
        let texts = |row: [&str; 4]| row.map(str::to_owned).to_vec();
        let table = Table {
            x: 10.0,
            y: 20.0,
            columns: vec![30.0, 12.0, 12.0, 12.0],
            row: 5.0,
            size: 8.0,
            start: vec![0],
            groups: vec![(String::new(), 1), ("Inches".to_owned(), 3)],
            head: texts(["", "a", "b", "c"]),
            rows: vec![texts(["Mat", "1", "2", "3"]), texts(["", "", "2", ""])],
        };
        let mut parts = Vec::new();
        cells(&table, &mut parts);
        let [Part::Ornament(rules), Part::Table(rows)] = parts.as_slice() else {
            panic!("{parts:?}")
        };
        assert_eq!(rules.len(), 3, "below the head and each row");
        let spans = rows.iter().map(|row| row.iter().map(|cell| cell.span).collect::<Vec<_>>());
        let wanted = [vec![1, 3], vec![1; 4], vec![1; 4], vec![2, 1, 1]];
        assert_eq!(spans.collect::<Vec<_>>(), wanted);
        let kinds = |row: usize| rows[row].iter().map(|cell| cell.kind).collect::<Vec<_>>();
        assert_eq!(kinds(1), [CellKind::ColumnHead; 4]);
        assert_eq!(kinds(2)[..2], [CellKind::RowHead, CellKind::Figure]);
        assert_eq!(kinds(3), [CellKind::Figure; 3]);
        // A figure ends at the right edge of its column, within its inset.
        let Item::Text { text, place, size, .. } = &rows[2][1].items[0] else {
            panic!("no text")
        };
        let end = place.translation().x * POINT + text.width * size * POINT;
        assert!((end - (10.0 + 30.0 + 12.0 - INSET)).abs() < 1e-3, "{end}");
    }
}
