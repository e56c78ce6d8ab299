//! Colours of boards: as Lab, as hexadecimal digits, and the boards that come nearest to one.

use egui::{RichText, Sense, Ui, vec2};
use sightedge_core::length::Length;
use sightedge_core::material::{Board, Colour};
use sightedge_pictures::colour::{Lab, nearest_boards};
use sightedge_service::wording;

use crate::window::context::View;
use crate::window::widgets::{Hint, checked, fitted, hinted, quiet};
use crate::window::{display, theme};

/// Boards listed beside a colour.
const BOARDS: usize = 3;
/// What stands for a colour that no board of the table has.
pub(super) const CUSTOM: &str = "Custom colour";

pub(super) fn lab(colour: Colour) -> Lab {
    Lab::from_srgb([colour.red, colour.green, colour.blue])
}

/// The boards at hand that come nearest to a colour, each with how far it is off; gives the one
/// that was taken. Of the same thickness where there are such.
pub(super) fn near_boards(
    ui: &mut Ui,
    view: &View<'_>,
    wanted: Lab,
    thickness: Length,
) -> Option<Board> {
    let boards = &view.tables.boards;
    let any = !boards.iter().any(|board| board.thickness == thickness);
    let fit = boards.iter().filter(|board| any || board.thickness == thickness);
    let near = nearest_boards(fit.map(|board| (board, lab(board.colour))), wanted);
    let mut taken = None;
    ui.label(quiet(ui, "Nearest boards"));
    ui.scope(|ui| {
        // Before the rows are begun, which take their height from it.
        ui.spacing_mut().interact_size.y = 20.0;
        for (board, difference) in near.into_iter().take(BOARDS) {
            if near_board(ui, board, difference) {
                taken = Some(board.clone());
            }
        }
    });
    taken
}

/// A field for a colour such as `#f4f1ea`.
pub(super) fn hex(ui: &mut Ui, name: &str, now: Colour) -> Option<Colour> {
    let hint = Hint::new("Six hexadecimal digits, two each for red, green and blue: #f4f1ea");
    let read = |typed: &str| {
        Colour::from_hex(typed.trim()).ok_or_else(|| {
            format!("\"{}\" is not a colour: give six digits such as #f4f1ea", typed.trim())
        })
    };
    let made = hinted(ui, &hint, |ui| checked(ui, name, &now.hex(), "", 88.0, read));
    made.filter(|made| *made != now)
}

/// One of them; says whether it was taken.
fn near_board(ui: &mut Ui, board: &Board, difference: f64) -> bool {
    ui.horizontal(|ui| {
        let Colour { red, green, blue } = board.colour;
        small_patch(ui, [red, green, blue]);
        let close = wording::close(difference);
        let room = ui.available_width() - 110.0;
        let name = RichText::new(fitted(ui, &board.name, room)).size(theme::SMALL);
        let button = ui.add(egui::Button::new(name).min_size(vec2(0.0, 20.0)));
        let words = format!("Take {}", board.name);
        button.widget_info(|| {
            let text = format!("{words}, {close}");
            egui::WidgetInfo::labeled(egui::Role::Button, true, text)
        });
        ui.label(quiet(ui, close)).on_hover_text(wording::colour_difference(difference));
        button.on_hover_text(&words).clicked()
    })
    .inner
}

pub(super) fn small_patch(ui: &mut Ui, [red, green, blue]: [u8; 3]) {
    let (rect, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
    fill(ui, rect, [red, green, blue]);
}

pub(super) fn fill(ui: &Ui, rect: egui::Rect, [red, green, blue]: [u8; 3]) {
    ui.painter().rect(
        rect,
        3.0,
        display::colour(ui.ctx(), [red, green, blue]),
        egui::Stroke::new(1.0, theme::palette(ui).line),
        egui::StrokeKind::Inside,
    );
}
