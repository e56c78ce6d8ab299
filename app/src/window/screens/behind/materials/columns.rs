//! The columns of a table: how wide they are, their heads, and what is said of them.

use egui::{Align, Label, Layout, Ui, vec2};
use sightedge_core::material::{Field, Kind};

use crate::window::theme;
use crate::window::widgets::quiet;

/// Between two columns.
pub(super) const BETWEEN: f32 = 4.0;
/// The width of the buttons that order a row, and of the one that gives it up.
const ORDER: f32 = 72.0;
const GIVE_UP: f32 = 34.0;
/// A name of which most are read whole.
const NAME: f32 = 196.0;
/// Two lines of a head.
const HEAD: f32 = 32.0;

/// What comes before the cells of a row, beside its column's gap.
pub(super) fn before(kind: Kind) -> &'static [f32] {
    if kind == Kind::Steps { &[GIVE_UP, ORDER] } else { &[GIVE_UP] }
}

/// The least width of a column, in points, and the most it is of use to have: what it holds of
/// the program's rows is read whole in the least, names and words excepted.
fn bounds(kind: Kind, field: &Field) -> (f32, f32) {
    let fixed = |width: f32| (width, width);
    match (kind, field.key) {
        (Kind::Steps, "id") => fixed(70.0),
        (Kind::Steps, "title") => (126.0, 180.0),
        (Kind::Steps, "text") => (370.0, 900.0),
        (Kind::Steps, "cautions") => (230.0, 560.0),
        (Kind::Papers, "id") | (_, "when") => fixed(104.0),
        (_, "id") => fixed(118.0),
        (_, "name") => (160.0, 330.0),
        (Kind::Papers, "origin") => (106.0, 300.0),
        (_, "origin") => (122.0, 300.0),
        (_, "sheets") => (146.0, 220.0),
        (_, "fibre") => fixed(98.0),
        (_, "process") => fixed(124.0),
        (_, "grade") => fixed(134.0),
        (_, "colour" | "white") => fixed(74.0),
        (_, "along" | "across" | "price") => fixed(54.0),
        (_, "ply") => fixed(36.0),
        (_, "water_based" | "pencil" | "turns" | "glass" | "mass_gsm") => fixed(46.0),
        (_, "thickness") => fixed(72.0),
        (_, "size") => (130.0, 170.0),
        _ => fixed(86.0),
    }
}

/// The widths of all columns where there is room for `room` points: what is more than they need
/// goes to names until most are read whole, and then to all words alike.
pub(super) fn widths(kind: Kind, room: f32) -> Vec<f32> {
    let fields = kind.fields();
    let bounds: Vec<(f32, f32)> = fields.iter().map(|field| bounds(kind, field)).collect();
    let front: f32 = before(kind).iter().map(|width| width + BETWEEN).sum();
    let least: f32 = front + bounds.iter().map(|(least, _)| least + BETWEEN).sum::<f32>();
    let mut widths: Vec<f32> = bounds.iter().map(|(least, _)| *least).collect();
    let mut left = (room - least).max(0.0);
    for names in [true, false] {
        let wanted = |(field, (least, most)): (&Field, &(f32, f32))| {
            let name = if field.key == "name" { NAME - least } else { 0.0 };
            if names { name } else { most - least - name }
        };
        let all: f32 = fields.iter().zip(&bounds).map(wanted).sum();
        let share = if all > 0.0 { (left / all).min(1.0) } else { 0.0 };
        for (width, column) in widths.iter_mut().zip(fields.iter().zip(&bounds)) {
            *width += (wanted(column) * share).floor();
        }
        left -= all * share;
    }
    widths
}

/// What a column holds.
pub(super) fn hint(key: &str) -> &'static str {
    match key {
        "id" => "How plans and other tables know the row",
        "name" => "As it is shown in lists",
        "origin" => "Where its figures come from: measured, a maker’s sheet, common practice",
        "thickness" => "How thick it is, such as .060 in or 1.4 mm",
        "fibre" => "What the paper is made of",
        "process" => "How the print is made",
        "grade" => "Rag, or purified wood pulp, buffered or not",
        "colour" | "white" => {
            "Six hexadecimal digits, two each for red, green and blue: #f4f1ea"
        }
        "along" => "Growth along the grain, in percent of the length per percent of humidity",
        "across" => "Growth across the grain, in percent of the length per percent of humidity",
        "water_based" => "Whether hinges wetted with water may be used: yes or no",
        "pencil" => "Whether it takes a pencil on its back: yes or no",
        "turns" => {
            "Whether its pattern lets it be turned on the sheet it is cut from: yes or no"
        }
        "ply" => "How many plies it is made of",
        "mass_gsm" => "Its mass, in grams for each square metre",
        "mass_g_per_m" => "Its mass, in grams for each metre",
        "density_kg_m3" => "Its density, in kilograms for each cubic metre",
        "glass" => "Whether it is glass: yes or no; else it is acrylic",
        "sheets" => "The sizes of the sheets it is sold in, with commas between them",
        "price" => "Of one sheet, in your own currency",
        "width" => "How wide the roll is",
        "tensile_n_per_m" => "What a strip carries, in newtons for each metre of its width",
        "shear_pa" => "What the joint carries, in pascals",
        "reversible" => "Whether it comes off again without harm: yes or no",
        "pressure_sensitive" => "Whether it sticks by pressure alone: yes or no",
        "rabbet_depth" => "How deep the rabbet is, from the lip back",
        "lip" => "How far the lip reaches over what goes in",
        "profile" => "Across the face: flat, rounded, bevelled, stepped or cove",
        "surface" => "What you see of it: wood, painted or metal",
        "face" => "How wide the moulding is, seen from the front",
        "size" => "Width and height, such as 11x14in",
        "title" => "The step in a few words",
        "text" => "What is done, with a bar | between its parts",
        "cautions" => "What can hurt or spoil, with a bar | between them",
        "when" => "Which plans have the step; empty for all of them",
        _ => "",
    }
}

/// The heads of all columns, on two lines where one is too short.
pub(super) fn heads(ui: &mut Ui, kind: Kind, widths: &[f32]) {
    let head = |ui: &mut Ui, width: f32, text: &str| {
        let up = Layout::bottom_up(Align::LEFT);
        let size = vec2(width, HEAD);
        ui.allocate_ui_with_layout(size, up, |ui| {
            ui.set_min_size(size);
            ui.set_max_width(width);
            ui.add(Label::new(quiet(ui, text)).wrap())
        })
        .inner
    };
    ui.horizontal_top(|ui| {
        for (width, text) in before(kind).iter().zip(["", "order"]) {
            head(ui, *width, text);
        }
        for (field, width) in kind.fields().iter().zip(widths) {
            let response = head(ui, *width, field.heading);
            response.on_hover_text(hint(field.key));
        }
    });
}

/// Text at the left of a cell.
pub(super) fn text_in(ui: &mut Ui, width: f32, text: egui::RichText) {
    let left = Layout::left_to_right(Align::Center);
    ui.allocate_ui_with_layout(vec2(width, theme::ROW), left, |ui| {
        ui.set_min_width(width);
        ui.add(Label::new(text).truncate());
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_column_has_a_hint() {
        for kind in Kind::ALL {
            for field in kind.fields() {
                assert!(!hint(field.key).is_empty(), "{kind:?}, {}", field.key);
            }
        }
    }

    /// In a window of 1280 points the places of work and the margins leave 1136.
    #[test]
    fn every_table_fits_the_smallest_window() {
        for kind in Kind::ALL {
            for room in [1136.0, 2400.0] {
                let widths = widths(*kind, room);
                let front: f32 = before(*kind).iter().map(|width| width + BETWEEN).sum();
                let all: f32 = front + widths.iter().map(|width| width + BETWEEN).sum::<f32>();
                assert!(all <= room, "{kind:?}: {all} of {room}");
                // No column is narrower than what it holds, nor wider than is of use.
                assert_eq!(widths.len(), kind.fields().len(), "{kind:?}");
                for (width, field) in widths.iter().zip(kind.fields()) {
                    let (least, most) = bounds(*kind, field);
                    // The narrowest cell holds a tick or two figures.
                    assert!(least >= 36.0, "{kind:?}, {}: {least}", field.key);
                    assert!(
                        (least..=most.max(NAME)).contains(width),
                        "{kind:?}, {}: {width} of {least} to {most}",
                        field.key
                    );
                }
                // What room there is, is used as far as that is of use.
                let used = kind.fields().iter().map(|field| bounds(*kind, field).1 + BETWEEN);
                let of_use = (front + used.sum::<f32>()).min(room);
                let floored = f32::from(u8::try_from(2 * widths.len()).unwrap());
                assert!(all >= of_use - floored, "{kind:?}: {all}, {of_use} is of use");
            }
        }
    }
}
