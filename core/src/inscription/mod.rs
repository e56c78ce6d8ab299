//! What is written on a print and on its mat: the words, with what, and where.
//!
//! Places are on the board as seen from the front.

mod template;

use crate::geometry::{Point, Rect, Size};
use crate::layout::{Layout, Window};
use crate::length::Length;
use crate::material::Fibre;
use crate::spec::{Back, Document, Front, Inscribed, Mat, Recorded};

pub use template::FIELDS;

/// How high one writes. Source: from memory.
pub const HAND: Length = Length::mm(4);
/// From one line to the next. Source: from memory.
pub const LINE: Length = Length::mm(7);
/// Clear of edges, hinges and the image. Source: from memory.
pub const CLEAR: Length = Length::mm(5);
/// From the image, or the window of the mat, down to the line on the front. Source: from memory.
const BELOW: Length = Length::mm(3);
/// Room for a signature. Source: from memory.
pub const SIGNATURE: Length = Length::mm(50);

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
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Inscription {
    /// On the back of the sheet.
    pub back: Vec<Written>,
    /// Whether that is behind the image.
    pub behind_image: bool,
    /// On the front.
    pub front: Vec<Written>,
    /// With what on the sheet.
    pub tool: Tool,
}

/// The inscription of the first window's print; `None` where none is wanted, or where there is
/// no window.
///
/// # Errors
/// Where a template names a field that does not exist.
pub fn inscription(
    document: &Document,
    mat: &Mat,
    layout: &Layout,
) -> Option<Result<Inscription, String>> {
    let wanted = document.inscribed.as_ref()?;
    let window = layout.exact.openings.first()?;
    Some(placed(
        wanted,
        &with_plan_title(document, &wanted.recorded),
        mat,
        layout.exact.outer,
        window,
    ))
}

/// What the record knows, and the work's title from the plan where the record has none.
fn with_plan_title(document: &Document, recorded: &Recorded) -> Recorded {
    let mut recorded = recorded.clone();
    if recorded.title.is_empty()
        && let Some(work) = document.works.first()
    {
        recorded.title.clone_from(&work.title);
    }
    recorded
}

fn placed(
    wanted: &Inscribed,
    recorded: &Recorded,
    mat: &Mat,
    outer: Size,
    window: &Window,
) -> Result<Inscription, String> {
    let lettering = &wanted.lettering;
    let mut lines = Vec::new();
    for template in &lettering.back {
        lines.extend(template::filled(template, recorded)?);
    }
    let (back, behind_image) = on_back(window, lettering.behind, lines);
    let front = [&lettering.left, &lettering.right]
        .map(|template| template::filled(template, recorded))
        .into_iter()
        .collect::<Result<Vec<_>, _>>()?;
    let front = on_front(lettering.front, outer, window, front);
    Ok(Inscription { back, behind_image, front, tool: tool(mat) })
}

/// Whether a line with these fields can be filled in.
///
/// # Errors
/// Says what is wrong with it, and which fields there are.
pub fn check_template(template: &str) -> Result<(), String> {
    template::filled(template, &Recorded::default()).map(|_| ())
}

/// Pencil, or on resin-coated paper a pen. Source: national archives' care guides; common
/// practice.
fn tool(mat: &Mat) -> Tool {
    match mat.assembly.paper.as_ref() {
        Some(paper) if paper.fibre == Fibre::ResinCoated || !paper.pencil => Tool {
            with: "a film-marking pen",
            how: "Pencil does not hold on this paper. Let the ink dry for some minutes before \
                  anything touches it, and try it on a spoilt print first.",
            source: "national archives' care guides; drying time from memory",
        },
        Some(_) => Tool {
            with: "a soft pencil, 2B",
            how: "Write with light pressure, face down on clean tissue.",
            source: "common practice; national archives' care guides",
        },
        None => Tool {
            with: "a soft pencil, 2B",
            how: "Write with light pressure, face down on clean tissue. The plan does not \
                  name the paper: on resin-coated paper use a film-marking pen and let it \
                  dry.",
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

#[cfg(test)]
mod tests;
