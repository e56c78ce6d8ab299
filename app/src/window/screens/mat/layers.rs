//! The layers, from the top one inwards: board, colour, thickness, bevel, offset.

use egui::{Sense, Ui, vec2};
use sightedge_core::command::{Command, next_layer};
use sightedge_core::geometry::Sides;
use sightedge_core::material::{Board, Colour};
use sightedge_core::spec::{Angle, Bevel, Layer, Mat, usual_offset};
use sightedge_pictures::colour::{delta_e_2000, nearest_boards, suggestions};

use super::colours;
use super::swatches::lab;
use crate::window::context::{Requests, View};
use crate::window::widgets::{
    Entry, Hint, LengthField, Picture, SidesField, asked, entry, field_width, heading,
    list_beside_colour, quiet,
};
use crate::window::{display, theme};

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    heading(ui, "Layers", |ui| {
        let room = view.mat.layers.len() < Mat::MOST_LAYERS;
        let button = ui.add_enabled(room, egui::Button::new("Add an undermat"));
        let button = button
            .on_hover_text("A second mat under the top one, of which a narrow strip shows")
            .on_disabled_hover_text("A mat has four layers at most");
        if button.clicked() {
            requests.run(added(view));
        }
        colours::button(ui, view);
    });
    for (index, layer) in view.mat.layers.iter().enumerate() {
        ui.push_id(layer.id, |ui| one(ui, view, index, layer, requests));
    }
}

fn one(ui: &mut Ui, view: &View<'_>, index: usize, layer: &Layer, requests: &mut Requests) {
    let name = if index == 0 { "top".to_owned() } else { format!("undermat {index}") };
    let label = view.mat.layer_name(index).to_lowercase();
    let hint = Hint::new(format!("The board of the {label}, with its colour and thickness"));
    asked(ui, &label, &hint, |ui| {
        swatch(ui, layer, &label);
        let menu = 34.0;
        let width = ui.available_width() - menu - ui.spacing().item_spacing.x;
        let chosen =
            if layer.board.name.is_empty() { "Custom board" } else { &layer.board.name };
        let boards = view.tables.boards.iter().map(|board| Entry {
            words: board.name.clone(),
            colour: Some(board.colour),
            value: board,
        });
        if let Some(board) =
            list_beside_colour(ui, &format!("Board of the {name}"), chosen, width, boards)
        {
            requests.run(Command::SetBoard(view.variant, layer.id, board.clone()));
        }
        more(ui, view, index, layer, &name, requests);
    });
    let hint = Hint::new("How thick the board is: a bevel at 45° shows as wide")
        .picture(Picture::Thickness);
    asked(ui, "thickness", &hint, |ui| {
        let width = field_width(ui, 2);
        let title = format!("Thickness of the {name}");
        let field = LengthField::new(&title, layer.board.thickness, view.unit()).width(width);
        requests.length(ui, field.above_zero(), |thickness| {
            let board = Board { thickness, ..layer.board.clone() };
            Command::SetBoard(view.variant, layer.id, board)
        });
    });
    if index == 0 {
        return;
    }
    let hint = Hint::new(
        "How much of this undermat shows, its bevel included: from the sight edge of the layer \
         above to its own",
    )
    .picture(Picture::Offset);
    let sides = view.opening.offset(layer.id);
    let field = SidesField {
        label: "offset",
        name: &format!("Offset of {name}"),
        sides,
        unit: view.unit(),
        enabled: free(view, index),
        hint: &hint,
        leaves: None,
    };
    requests.sides(ui, field, |typed| {
        let offset = typed.applied(sides);
        Command::SetOffset(view.variant, view.opening.id, layer.id, offset)
    });
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
        ui.label(quiet(ui, "The window’s edge"));
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
            ui.label(quiet(ui, "Angle of the bevel"));
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
            let hint = Hint::new("From the board’s face; 45° is usual").picture(Picture::Bevel);
            let response = hint.on(ui, response);
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
    button.response.on_hover_text("The window’s edge, the order of the layers, removal");
}

/// The colour of a layer; a press opens the colours for it.
fn swatch(ui: &mut Ui, layer: &Layer, label: &str) {
    let palette = theme::palette(ui);
    let (rect, response) = ui.allocate_exact_size(vec2(28.0, theme::ROW), Sense::click());
    let Colour { red, green, blue } = layer.board.colour;
    let colour = display::colour(ui.ctx(), [red, green, blue]);
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
    if response.clicked() {
        colours::open(ui, Some(layer.id));
    }
    response.on_hover_text(format!("{text}: choose another for the {label}"));
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
    /// The least difference in colour (CIEDE2000) at which an undermat stands out from its mat at
    /// arm's length; our own choice.
    const APART: f64 = 12.0;
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
