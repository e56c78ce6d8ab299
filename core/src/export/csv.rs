//! The cut list as CSV. Source: RFC 4180, IETF, 2005: lines end with CR LF, a cell with a
//! comma, a quote or a line break stands in quotes, a quote within is doubled.
//!
//! What a person typed is never run by a spreadsheet: a cell that would begin a formula gets
//! an apostrophe before it.

use super::decimal;
use crate::geometry::{Sides, Size};
use crate::layout::{Blank, Layout};
use crate::length::{Length, Unit};
use crate::plates::{layer_name, over_cut};
use crate::spec::{Bevel, Document, Mat};

const HEAD: [&str; 27] = [
    "plan",
    "title",
    "part",
    "board",
    "thickness_mm",
    "cut",
    "angle_deg",
    "blank_width_mm",
    "blank_height_mm",
    "window_width_mm",
    "window_height_mm",
    "stop_top_mm",
    "stop_right_mm",
    "stop_bottom_mm",
    "stop_left_mm",
    "loose_top_mm",
    "loose_right_mm",
    "loose_bottom_mm",
    "loose_left_mm",
    "over_cut_mm",
    "blank",
    "window",
    "stop_top",
    "stop_right",
    "stop_bottom",
    "stop_left",
    "drop_out",
];

/// Writes what is still to be cut for one mat, a line a board and window. Stops are those of the back;
/// the figures are the bench's, in millimetres and, in columns of their own, in the plan's
/// unit.
pub fn write(document: &Document, mat: &Mat, layout: &Layout) -> String {
    let mut out = String::new();
    line(&mut out, HEAD.iter().map(|name| (*name).to_owned()));
    let Document { unit, .. } = *document;
    let figures = &layout.bench;
    let blanks = figures.blanks(unit);
    for window in &figures.openings {
        let title = document.work(window.work).map_or("", |work| work.title.as_str());
        for (index, (layer, cut)) in mat.layers.iter().zip(&window.layers).enumerate() {
            let wanted = |blank: &&Blank| blank.opening == window.id && blank.layer == layer.id;
            let to_cut = |_: &&Blank| !mat.is_made(layer.id);
            let Some(blank) = blanks.iter().find(wanted).filter(to_cut) else { continue };
            let (kind, angle) = match layer.bevel {
                Bevel::Open(angle) => ("open", angle.tenths()),
                Bevel::Straight => ("straight", 900),
                Bevel::Reverse(angle) => ("reverse", angle.tenths()),
            };
            let (blank_size, sight) = (blank.rect.size, cut.sight.bounds.size);
            let start = [
                safe(&document.id),
                safe(title),
                layer_name(index, mat.layers.len()),
                safe(&layer.board.name),
                decimal(layer.board.thickness),
                kind.to_owned(),
                format!("{}.{}", angle / 10, angle % 10),
            ];
            let sizes = [blank_size.width, blank_size.height, sight.width, sight.height];
            let stops = in_order(blank.stuck).into_iter().chain(in_order(blank.loose));
            let over = std::iter::once(over_cut(layer));
            let mm = sizes.into_iter().chain(stops).chain(over).map(decimal);
            let texts = [extent(blank_size, unit), extent(sight, unit)]
                .into_iter()
                .chain(in_order(blank.stuck).map(|stop| stop.text(unit)))
                .chain(std::iter::once(extent(cut.drop_out, unit)));
            line(&mut out, start.into_iter().chain(mm).chain(texts));
        }
    }
    let backing = figures.backing.size;
    let mut cells = vec![String::new(); HEAD.len()];
    let text = extent(backing, unit);
    for (index, cell) in [
        (0, safe(&document.id)),
        (2, "Backing".to_owned()),
        (3, safe(&mat.backing.board.name)),
        (4, decimal(mat.backing.board.thickness)),
        (7, decimal(backing.width)),
        (8, decimal(backing.height)),
        (20, text),
    ] {
        if let Some(place) = cells.get_mut(index) {
            *place = cell;
        }
    }
    line(&mut out, cells.into_iter());
    out
}

fn in_order(sides: Sides<Length>) -> [Length; 4] {
    sides.each().map(|(_, length)| length)
}

fn extent(size: Size, unit: Unit) -> String {
    format!("{} x {}", size.width.text(unit), size.height.text(unit))
}

/// What a person typed, so that no spreadsheet runs it. Source: OWASP, CSV injection.
fn safe(text: &str) -> String {
    // Letters that a spreadsheet passes over before it looks for a formula.
    let first = text.chars().find(|c| !c.is_whitespace() && !c.is_control());
    let runs = |c: char| matches!(c, '=' | '+' | '-' | '@' | '＝' | '＋' | '－' | '＠');
    let leading = text.starts_with(['\t', '\r', '\n']);
    if leading || first.is_some_and(runs) { format!("'{text}") } else { text.to_owned() }
}

fn line(out: &mut String, cells: impl Iterator<Item = String>) {
    for (index, cell) in cells.enumerate() {
        if index > 0 {
            out.push(',');
        }
        if cell.contains([',', '"', '\r', '\n']) {
            out.push('"');
            out.push_str(&cell.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(&cell);
        }
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_run() {
        for (text, cell) in [
            ("=1+1", "'=1+1"),
            (" @SUM(A1)", "' @SUM(A1)"),
            ("-2", "'-2"),
            ("\t=1", "'\t=1"),
            ("Slack water", "Slack water"),
            ("a=b", "a=b"),
        ] {
            assert_eq!(safe(text), cell);
        }
        let mut out = String::new();
        line(&mut out, ["a,b".to_owned(), "say \"so\"".to_owned(), "c".to_owned()].into_iter());
        assert_eq!(out, "\"a,b\",\"say \"\"so\"\"\",c\r\n");
    }
}
