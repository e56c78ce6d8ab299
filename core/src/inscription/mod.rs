//! What is written on a print and on its mat: the words, with what, and where.
//!
//! Pure: what the studio's record knows and what the person wants come in as arguments. Places
//! are on the board as seen from the front; the back is drawn as one sees it, mirrored.

mod judge;
mod template;

use crate::catalogue::{Notation, Numerals};
use crate::derived::Derived;
use crate::drawing::{Align, Drawing, Item, Line, Pen, Stand, Text, TextRole};
use crate::finding::Finding;
use crate::geometry::{Point, Rect, Size};
use crate::layout::Window;
use crate::length::Length;
use crate::material::Fibre;
use crate::spec::{Document, Variant};

pub use template::FIELDS;

/// How high one writes. Source: from memory.
pub const HAND: Length = Length::mm(4);
/// From one line to the next. Source: from memory.
const LINE: Length = Length::mm(7);
/// Clear of edges, hinges and the image. Source: from memory.
const CLEAR: Length = Length::mm(5);
/// From the image, or the window of the mat, down to the line on the front. Source: from memory.
const BELOW: Length = Length::mm(3);
/// Room for a signature. Source: from memory.
const SIGNATURE: Length = Length::mm(50);

/// What the record knows of a print.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Recorded {
    /// The work's title.
    pub title: String,
    /// Who made it.
    pub maker: String,
    /// The year the picture was taken.
    pub taken: Option<i64>,
    /// The year it was printed.
    pub printed: Option<i64>,
    /// The print's place in its edition.
    pub notation: Option<Notation>,
    /// How the edition numbers its proofs.
    pub numerals: Numerals,
}

/// Where the line on the front stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Front {
    /// Nothing is written on the front.
    Nothing,
    /// In the margin under the picture: number left, signature right.
    /// Source: galleries' print guides.
    #[default]
    Margin,
    /// Number and signature at the lower right of the mat. Source: common practice.
    Mat,
}

/// Where on the back of the sheet one writes.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Back {
    /// Behind the margin, where it is wide enough; else behind the image.
    #[default]
    Margin,
    /// Behind the image.
    Image,
}

/// What the person wants.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Wish {
    /// The lines on the back, in their order.
    pub back: Vec<String>,
    /// Where on the back.
    pub behind: Back,
    /// Where on the front.
    pub front: Front,
    /// At the left of the front, or first on the mat.
    pub left: String,
    /// At the right.
    pub right: String,
    /// What stands on the mat or in the margin already; empty where nothing was written yet.
    pub stands: String,
}

impl Default for Wish {
    /// Source: galleries' print guides; common practice.
    fn default() -> Self {
        Self {
            back: ["{title}", "© {taken}[, printed {printed}]", "{maker}", "{number}   {sign}"]
                .map(str::to_owned)
                .to_vec(),
            behind: Back::default(),
            front: Front::default(),
            left: "{number}".to_owned(),
            right: "{sign}".to_owned(),
            stands: String::new(),
        }
    }
}

/// One line and its place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Written {
    /// What is written; may be empty where one only signs.
    pub text: String,
    /// Whether one signs there.
    pub sign: bool,
    /// Its place on the board, seen from the front.
    pub place: Rect,
}

/// What to write with.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Tool {
    /// With what.
    pub with: &'static str,
    /// How.
    pub how: &'static str,
    /// Where that is from.
    pub source: &'static str,
}

/// All that is written on one print.
#[derive(Clone, PartialEq, Debug)]
pub struct Inscription {
    /// On the back of the sheet.
    pub back: Vec<Written>,
    /// Whether that is behind the image.
    pub behind_image: bool,
    /// On the front.
    pub front: Vec<Written>,
    /// With what on the sheet.
    pub tool: Tool,
    /// What would be regretted.
    pub findings: Vec<Finding>,
}

/// The inscription of the first window's print.
///
/// # Errors
/// Where a template names what there is not, or the plan has no window.
pub fn inscription(
    document: &Document,
    variant: &Variant,
    derived: &Derived,
    recorded: &Recorded,
    wish: &Wish,
) -> Result<Inscription, String> {
    let exact = &derived.layout.exact;
    let window = exact
        .openings
        .first()
        .ok_or_else(|| "the plan has no window, and a print in one is wanted".to_owned())?;
    let mut lines = Vec::new();
    for template in &wish.back {
        lines.extend(template::filled(template, recorded)?);
    }
    let (back, behind_image) = on_back(window, wish.behind, lines);
    let front = [&wish.left, &wish.right]
        .map(|template| template::filled(template, recorded))
        .into_iter()
        .collect::<Result<Vec<_>, _>>()?;
    let front = on_front(wish.front, exact.outer, window, front);
    let tool = tool(variant);
    let mut made = Inscription { back, behind_image, front, tool, findings: Vec::new() };
    made.findings = judge::judge(document, derived, window, recorded, wish, &made);
    Ok(made)
}

/// Pencil, or on resin-coated paper a pen. Source: national archives' care guides; common
/// practice.
fn tool(variant: &Variant) -> Tool {
    let paper = variant.mat.behind.paper.as_ref();
    match paper {
        Some(paper) if paper.fibre == Fibre::ResinCoated || !paper.pencil => Tool {
            with: "a film-marking pen",
            how: "This paper takes pencil badly. Let it dry for some minutes before anything \
                  touches it; try it on a spoilt print first.",
            source: "national archives' care guides; drying time from memory",
        },
        Some(_) => Tool {
            with: "a soft pencil, 2B",
            how: "Light pressure, face down on clean tissue.",
            source: "common practice; national archives' care guides",
        },
        None => Tool {
            with: "a soft pencil, 2B",
            how: "Light pressure, face down on clean tissue. The paper is not named: on \
                  resin-coated paper take a film-marking pen and let it dry.",
            source: "common practice; national archives' care guides",
        },
    }
}

/// As wide as one writes it. Source: from memory (half the height a letter).
fn width(text: &str, sign: bool) -> Length {
    let letters = i64::try_from(text.chars().count()).unwrap_or(0).min(10_000);
    let written = (HAND * letters).scaled(1, 2);
    if sign { written + SIGNATURE } else { written }
}

/// Along the bottom edge of the sheet, where no hinge is; from the left as one sees the back.
fn on_back(window: &Window, wanted: Back, lines: Vec<template::Line>) -> (Vec<Written>, bool) {
    let Window { sheet, image, .. } = window;
    let count = i64::try_from(lines.len()).unwrap_or(0);
    let tall = LINE * count;
    let margin = sheet.bottom() - image.bottom();
    let behind_image = wanted == Back::Image || margin < tall + CLEAR * 2;
    let bottom = match wanted {
        // In the lower part of the image, well clear of the mat's edge.
        Back::Image => image.bottom() - CLEAR,
        Back::Margin => sheet.bottom() - CLEAR,
    };
    let right = sheet.right() - CLEAR;
    let placed = lines.into_iter().zip(0..).map(|(line, n)| {
        let wide = width(&line.text, line.sign);
        let top = bottom - tall + LINE * n;
        let place = Rect::new(Point::new(right - wide, top), Size::new(wide, LINE));
        Written { text: line.text, sign: line.sign, place }
    });
    (placed.collect(), behind_image)
}

fn on_front(
    front: Front,
    outer: Size,
    window: &Window,
    lines: Vec<Option<template::Line>>,
) -> Vec<Written> {
    let mut lines = lines.into_iter();
    let (left, right) = (lines.next().flatten(), lines.next().flatten());
    let placed = |line: template::Line, x: Length, y: Length| {
        let wide = width(&line.text, line.sign);
        let place = Rect::new(Point::new(x, y), Size::new(wide, LINE));
        Written { text: line.text, sign: line.sign, place }
    };
    match front {
        Front::Nothing => Vec::new(),
        Front::Margin => {
            let y = window.image.bottom() + BELOW;
            let from_right = right.map(|line| {
                let x = window.image.right() - width(&line.text, line.sign);
                placed(line, x, y)
            });
            left.map(|line| placed(line, window.image.left(), y))
                .into_iter()
                .chain(from_right)
                .collect()
        }
        Front::Mat => {
            let top = window.layers.first().map_or(window.sight, |cut| cut.face.bounds);
            let y = top.bottom() + BELOW;
            let mut x = top.right().min(outer.width);
            let mut made: Vec<Written> = [right, left]
                .into_iter()
                .flatten()
                .map(|line| {
                    x -= width(&line.text, line.sign);
                    let written = placed(line, x, y);
                    x -= HAND;
                    written
                })
                .collect();
            made.reverse();
            made
        }
    }
}

impl Inscription {
    /// The front of the board with what is written there.
    pub fn front_drawing(&self, derived: &Derived) -> Drawing {
        let exact = &derived.layout.exact;
        let mut items = Vec::new();
        for window in &exact.openings {
            outline(&mut items, window.sight, Pen::Edge);
            outline(&mut items, window.image, Pen::Hidden);
        }
        for one in &self.front {
            written(&mut items, one, |place| place);
        }
        Drawing { bounds: Rect::at_origin(exact.outer), ground: None, items }
    }

    /// The back of the sheet in its place, hinges and all, as one sees it: mirrored.
    pub fn back_drawing(&self, derived: &Derived) -> Drawing {
        let exact = &derived.layout.exact;
        let mirrored = |place: Rect| {
            let x = exact.outer.width - place.right();
            Rect::new(Point::new(x, place.top()), place.size)
        };
        let mut items = Vec::new();
        for (window, sheet) in exact.openings.iter().zip(&derived.behind.sheets) {
            outline(&mut items, mirrored(window.sheet), Pen::Edge);
            outline(&mut items, mirrored(window.image), Pen::Hidden);
            for hinge in &sheet.hinges.hinges {
                outline(&mut items, mirrored(hinge.tab), Pen::Fine);
            }
        }
        for one in &self.back {
            written(&mut items, one, mirrored);
        }
        Drawing { bounds: Rect::at_origin(exact.outer), ground: None, items }
    }
}

fn outline(items: &mut Vec<Item>, rect: Rect, pen: Pen) {
    if rect.size.is_positive() {
        items.push(Item::Line(Line { points: rect.path().points, closed: true, pen }));
    }
}

fn written(items: &mut Vec<Item>, one: &Written, seen: impl Fn(Rect) -> Rect) {
    let place = seen(one.place);
    let foot = place.bottom() - (LINE - HAND).halves().0;
    if !one.text.is_empty() {
        items.push(Item::Text(Text {
            text: one.text.clone(),
            role: TextRole::Label,
            at: Point::new(place.left(), foot),
            align: Align::Start,
            stand: Stand::On,
            turned: false,
            height: HAND,
        }));
    }
    if one.sign {
        let points = vec![
            Point::new(place.right() - SIGNATURE + HAND, foot),
            Point::new(place.right(), foot),
        ];
        items.push(Item::Line(Line { points, closed: false, pen: Pen::Fine }));
    }
}

#[cfg(test)]
mod tests;
