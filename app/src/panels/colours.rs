//! Colours for the mat drawn from the picture: a main mat and a liner for each of a few
//! intents, each with its measured reasons and the nearest board at hand.

use egui::{RichText, Sense, Ui, vec2};
use sightedge_core::command::Command;
use sightedge_core::finding::Severity;
use sightedge_core::material::{Board, Colour};
use sightedge_core::plates::Look;
use sightedge_pictures::colour::{Intent, Lab, Suggestion, nearest_boards, suggestions};

use super::Asks;
use crate::theme;
use crate::view::View;
use crate::widgets::{quiet, severity_icon};

/// A button that opens the suggestions.
pub(super) fn button(ui: &mut Ui, view: &View<'_>, asks: &mut Asks) {
    let ready = view.palette.is_some();
    let button = ui
        .add_enabled(ready, egui::Button::new("Colours…"))
        .on_hover_text("Colours for mat and liner, drawn from the picture");
    egui::Popup::menu(&button)
        .close_behavior(egui::PopupCloseBehavior::CloseOnClickOutside)
        .show(|ui| {
            ui.set_style(ui.ctx().global_style());
            ui.set_width(400.0);
            ui.spacing_mut().item_spacing.y = 3.0;
            egui::ScrollArea::vertical().max_height(520.0).show(ui, |ui| {
                show(ui, view, asks);
            });
        });
}

fn show(ui: &mut Ui, view: &View<'_>, asks: &mut Asks) {
    let Some(palette) = view.palette else { return };
    let paper = lab(Look::default().paper);
    for suggestion in suggestions(palette, paper) {
        ui.label(RichText::new(title(suggestion.intent)).family(theme::strong()));
        ui.horizontal(|ui| {
            patch(ui, suggestion.mat_rgb, "Mat");
            patch(ui, suggestion.liner_rgb, "Liner");
            if ui.button("Take these colours").clicked() {
                asks.run(take(view, &suggestion));
            }
        });
        for reason in &suggestion.reasons {
            ui.horizontal_wrapped(|ui| {
                ui.spacing_mut().interact_size.y = 15.0;
                if reason.is_warning() {
                    severity_icon(ui, Severity::Caution);
                }
                ui.label(quiet(ui, &reason.message()));
            });
        }
        let boards = view.tables.boards.iter().map(|board| (board, lab(board.colour)));
        if let Some((board, difference)) = nearest_boards(boards, suggestion.mat).first() {
            ui.horizontal(|ui| {
                let words = format!("Nearest board: {} (ΔE {difference:.1})", board.name);
                ui.label(quiet(ui, &words));
                if let Some(top) = view.mat.layers.first()
                    && ui.small_button("Take it").clicked()
                {
                    asks.run(Command::SetBoard(view.variant, top.id, (*board).clone()));
                }
            });
        }
        ui.add_space(8.0);
    }
}

fn title(intent: Intent) -> &'static str {
    match intent {
        Intent::HighlightsLead => "The highlights stay the whitest thing",
        Intent::MatchPaper => "As white as the paper",
        Intent::QuietEcho => "Takes up a quiet colour",
        Intent::DarkSurround => "Dark, so that the picture glows",
    }
}

/// The top layer in the mat's colour, those below in the liner's.
fn take(view: &View<'_>, suggestion: &Suggestion) -> Command {
    let commands = view.mat.layers.iter().enumerate().map(|(index, layer)| {
        let [red, green, blue] =
            if index == 0 { suggestion.mat_rgb } else { suggestion.liner_rgb };
        let colour = Colour::new(red, green, blue);
        let name = "Own colour".to_owned();
        let board = Board { id: String::new(), name, colour, ..layer.board.clone() };
        Command::SetBoard(view.variant, layer.id, board)
    });
    Command::Together("colours from the picture", commands.collect())
}

pub(super) fn lab(colour: Colour) -> Lab {
    Lab::from_srgb([colour.red, colour.green, colour.blue])
}

fn patch(ui: &mut Ui, [red, green, blue]: [u8; 3], name: &str) {
    let (rect, response) = ui.allocate_exact_size(vec2(56.0, theme::ROW), Sense::hover());
    let palette = theme::palette(ui);
    ui.painter().rect(
        rect,
        3.0,
        crate::canvas::srgb(red, green, blue),
        egui::Stroke::new(1.0, palette.line),
        egui::StrokeKind::Inside,
    );
    let text = format!("{name} {}", Colour::new(red, green, blue).hex());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &text));
    response.on_hover_text(text);
}
