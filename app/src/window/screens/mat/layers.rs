//! The layers, from the top one inwards: board, colour, thickness, bevel, offset.

use egui::{Sense, Ui, vec2};
use sightedge_core::command::{Command, next_layer};
use sightedge_core::geometry::Sides;
use sightedge_core::length::Unit;
use sightedge_core::material::{Board, Colour};
use sightedge_core::spec::{Angle, Bevel, Layer, Mat, usual_offset};
use sightedge_pictures::colour::{delta_e_2000, nearest_boards, suggestions};

use super::picker;
use crate::window::context::{Requests, View};
use crate::window::theme;
use crate::window::widgets::{LengthField, entry, field_width, heading, row};

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let buttons = |ui: &mut Ui, requests: &mut Requests| {
        let room = view.mat.layers.len() < Mat::MOST_LAYERS;
        let button = egui::Button::new("Add an undermat");
        if ui
            .add_enabled(room, button)
            .on_disabled_hover_text("Four layers are the most")
            .clicked()
        {
            requests.run(added(view));
        }
        super::colours::button(ui, view, requests);
    };
    heading(ui, "Layers", |ui| buttons(ui, requests));
    for (index, layer) in view.mat.layers.iter().enumerate() {
        ui.push_id(layer.id, |ui| one(ui, view, index, layer, requests));
    }
}

fn one(ui: &mut Ui, view: &View<'_>, index: usize, layer: &Layer, requests: &mut Requests) {
    let name = if index == 0 { "top".to_owned() } else { format!("undermat {index}") };
    row(ui, &name, |ui| {
        swatch(ui, view, layer, requests);
        let menu = 34.0;
        let width = ui.available_width() - menu - ui.spacing().item_spacing.x;
        let chosen = if layer.board.name.is_empty() { "Own board" } else { &layer.board.name };
        egui::ComboBox::from_id_salt("board")
            .width(width)
            .selected_text(crate::window::widgets::fitted(ui, chosen, width - 44.0))
            .show_ui(ui, |ui| {
                for board in &view.tables.boards {
                    let same = board.id == layer.board.id;
                    if entry(ui, same, &board.name) {
                        requests.run(Command::SetBoard(view.variant, layer.id, board.clone()));
                    }
                }
            })
            .response
            .widget_info(|| {
                let text = format!("Board of the {name}");
                egui::WidgetInfo::labeled(egui::Role::ComboBox, true, text)
            });
        more(ui, view, index, layer, &name, requests);
    });
    let uneven = {
        let offset = view.opening.offset(layer.id);
        offset != Sides::all(offset.top)
    };
    row(ui, if index == 0 || uneven { "thick" } else { "thick, offset" }, |ui| {
        let width = field_width(ui, 2);
        let title = format!("Thickness of the {name}");
        let field = LengthField::new(&title, layer.board.thickness, view.unit()).width(width);
        let (response, event) = field.show(ui);
        response.on_hover_text("The board's thickness: the bevel shows as wide at 45°");
        match event {
            crate::window::widgets::FieldEvent::Set(thickness) if thickness.is_positive() => {
                let board = Board { thickness, ..layer.board.clone() };
                requests.run(Command::SetBoard(view.variant, layer.id, board));
            }
            crate::window::widgets::FieldEvent::Set(_) => {
                let example = match view.unit() {
                    Unit::Inch => ".060 in",
                    Unit::Millimetre => "1.4 mm",
                };
                requests.said = Some(format!("A board is thicker than nothing: try {example}"));
            }
            crate::window::widgets::FieldEvent::Refused(words) => requests.said = Some(words),
            crate::window::widgets::FieldEvent::None => {}
        }
        let offset = view.opening.offset(layer.id);
        if index > 0 && offset == Sides::all(offset.top) {
            let title = format!("Offset of {name}");
            let field = LengthField::new(&title, offset.top, view.unit()).width(width);
            let field = field.enabled(free(view, index));
            requests.length(ui, field, |offset| {
                let all = Sides::all(offset);
                Command::SetOffset(view.variant, view.opening.id, layer.id, all)
            })
            .on_hover_text(
                "How far this undermat's sight edge stands inside the layer above, on all sides",
            );
        } else if index > 0 {
            let even = egui::Button::new("Make even").min_size(vec2(width, theme::ROW));
            if ui
                .add_enabled(free(view, index), even)
                .on_hover_text("The same offset on all four sides: the top's")
                .clicked()
            {
                let all = Sides::all(offset.top);
                requests.run(Command::SetOffset(view.variant, view.opening.id, layer.id, all));
            }
        }
    });
    let offset = view.opening.offset(layer.id);
    if index > 0 && offset != Sides::all(offset.top) {
        let free = free(view, index);
        requests.sides(ui, &format!("Offset of {name}"), offset, view, free, |side, length| {
            let offset = offset.with(side, length);
            Command::SetOffset(view.variant, view.opening.id, layer.id, offset)
        });
    }
}

/// Whether the strip of that layer can still be another: one of the windows beside it is not
/// cut yet.
fn free(view: &View<'_>, index: usize) -> bool {
    let cut = |index: usize| {
        let layer = view.mat.layers.get(index);
        layer.is_some_and(|layer| view.opening.cut.contains_key(&layer.id))
    };
    !(cut(index) && index.checked_sub(1).is_some_and(cut))
}

/// Bevel, order, removal.
fn more(
    ui: &mut Ui,
    view: &View<'_>,
    index: usize,
    layer: &Layer,
    name: &str,
    requests: &mut Requests,
) {
    let variant = view.variant;
    let button = ui.menu_button("…", |ui| {
        ui.label(crate::window::widgets::quiet(ui, "The window's edge"));
        for (bevel, words) in [
            (Bevel::Open(Angle::USUAL), "Bevel, 45°"),
            (Bevel::Straight, "Straight cut"),
            (Bevel::Reverse(Angle::USUAL), "Reverse bevel"),
        ] {
            let same = std::mem::discriminant(&bevel) == std::mem::discriminant(&layer.bevel);
            if entry(ui, same, words) {
                requests.run(Command::SetBevel(variant, layer.id, bevel));
            }
        }
        if let Bevel::Open(angle) | Bevel::Reverse(angle) = layer.bevel {
            ui.separator();
            ui.label(crate::window::widgets::quiet(ui, "Angle of the bevel"));
            let mut degrees = f64::from(angle.tenths()) / 10.0;
            let field = egui::DragValue::new(&mut degrees)
                .range(30.0..=89.0)
                .speed(0.2)
                .max_decimals(1)
                .update_while_editing(false)
                .suffix("°");
            let response = ui.add(field);
            response.widget_info(|| {
                let text = format!("Bevel angle of the {name}");
                egui::WidgetInfo::labeled(egui::Role::SpinButton, true, text)
            });
            if (response.drag_stopped() || response.lost_focus())
                && let Some(made) = tenths(degrees).and_then(Angle::from_tenths)
                && made != angle
            {
                let bevel = match layer.bevel {
                    Bevel::Reverse(_) => Bevel::Reverse(made),
                    _ => Bevel::Open(made),
                };
                requests.run(Command::SetBevel(variant, layer.id, bevel));
            }
        }
        ui.separator();
        let last = view.mat.layers.len() - 1;
        if ui.add_enabled(index > 0, egui::Button::new("Move up")).clicked() {
            requests.run(Command::MoveLayer(variant, layer.id, index - 1));
            ui.close();
        }
        if ui.add_enabled(index < last, egui::Button::new("Move down")).clicked() {
            requests.run(Command::MoveLayer(variant, layer.id, index + 1));
            ui.close();
        }
        if ui.add_enabled(last > 0, egui::Button::new("Remove")).clicked() {
            requests.run(Command::RemoveLayer(variant, layer.id));
            ui.close();
        }
    });
    button.response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::Button, true, format!("More on the {name}"))
    });
}

fn swatch(ui: &mut Ui, view: &View<'_>, layer: &Layer, requests: &mut Requests) {
    let palette = theme::palette(ui);
    let (rect, response) = ui.allocate_exact_size(vec2(28.0, theme::ROW), Sense::click());
    let Colour { red, green, blue } = layer.board.colour;
    let colour = crate::window::canvas::srgb(red, green, blue);
    let edge =
        if response.has_focus() || response.hovered() { palette.accent } else { palette.line };
    ui.painter().rect(
        rect.shrink(2.0),
        4.0,
        colour,
        egui::Stroke::new(1.0, edge),
        egui::StrokeKind::Inside,
    );
    let text = format!("Colour {}", layer.board.colour.hex());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::ColorWell, true, &text));
    egui::Popup::menu(&response)
        .close_behavior(egui::PopupCloseBehavior::CloseOnClickOutside)
        .show(|ui| {
            if let Some(board) = picker::show(ui, view, &layer.board) {
                requests.run(Command::SetBoard(view.variant, layer.id, board));
            }
        });
}

fn added(view: &View<'_>) -> Command {
    let offset = usual_offset(view.unit());
    let board = view.mat.layers.last().map(|layer| set_off(view, &layer.board));
    let board =
        board.unwrap_or_else(|| sightedge_core::spec::usual_board(view.unit(), view.tables));
    let layer = Layer { id: next_layer(view.document), board, bevel: Bevel::default() };
    Command::AddLayer(view.variant, layer, Sides::all(offset))
}

/// A board for an undermat that is seen against `above`: of the same thickness, and of those the
/// nearest to a colour drawn from the picture, once there is one.
fn set_off(view: &View<'_>, above: &Board) -> Board {
    /// What an undermat is told from its mat by at arm's length, in CIEDE2000; our own choice.
    const APART: f64 = 12.0;
    let lab = super::colours::lab;
    let alike = |board: &&Board| {
        board.thickness == above.thickness
            && delta_e_2000(lab(board.colour), lab(above.colour)) >= APART
    };
    let boards = view.tables.boards.iter().filter(alike).map(|b| (b, lab(b.colour)));
    let wanted = view.palette.and_then(|palette| {
        suggestions(palette, lab(view.paper)).first().map(|first| first.undermat)
    });
    let nearest = match wanted {
        Some(wanted) => nearest_boards(boards, wanted).first().map(|(board, _)| *board),
        None => boards.map(|(board, _)| board).next(),
    };
    nearest.unwrap_or(above).clone()
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held between 30 and 89 degrees by its field"
)]
fn tenths(degrees: f64) -> Option<u16> {
    (30.0..=89.0).contains(&degrees).then(|| (degrees * 10.0).round() as u16)
}
