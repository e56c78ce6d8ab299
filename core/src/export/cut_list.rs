//! The cut list as a table for other programs.

use super::csv::{Error, Table, cell};
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
///
/// # Errors
/// None in practice: every row has the same cells.
pub fn write(document: &Document, mat: &Mat, layout: &Layout) -> Result<String, Error> {
    let mut out = Table::default();
    out.row(HEAD)?;
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
                cell(&document.id).into_owned(),
                cell(title).into_owned(),
                layer_name(index, mat.layers.len()),
                cell(&layer.board.name).into_owned(),
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
            out.row(start.into_iter().chain(mm).chain(texts))?;
        }
    }
    let backing = figures.backing.size;
    let mut cells = vec![String::new(); HEAD.len()];
    let text = extent(backing, unit);
    for (index, filled) in [
        (0, cell(&document.id).into_owned()),
        (2, "Backing".to_owned()),
        (3, cell(&mat.backing.board.name).into_owned()),
        (4, decimal(mat.backing.board.thickness)),
        (7, decimal(backing.width)),
        (8, decimal(backing.height)),
        (20, text),
    ] {
        if let Some(place) = cells.get_mut(index) {
            *place = filled;
        }
    }
    out.row(cells)?;
    out.text()
}

fn in_order(sides: Sides<Length>) -> [Length; 4] {
    sides.each().map(|(_, length)| length)
}

fn extent(size: Size, unit: Unit) -> String {
    // Other programs read this: in letters that every one of them has.
    size.sides_text(|length| length.text(unit)).replace('×', "x")
}
