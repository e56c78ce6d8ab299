//! Colours for the mat drawn from the picture: a main mat and an undermat for each of a few
//! intents, each with its measured reasons and the nearest boards at hand.

use egui::{RichText, Sense, Ui, vec2};
use sightedge_core::command::Command;
use sightedge_core::finding::Severity;
use sightedge_core::length::Length;
use sightedge_core::material::{Board, Colour, Paper};
use sightedge_core::plates::Look;
use sightedge_pictures::colour::{
    Intent, Lab, Reason, Suggestion, nearest_boards, suggestions,
};

use crate::window::context::{Requests, View};
use crate::window::theme;
use crate::window::widgets::{quiet, severity_icon};

/// Boards told of beside a colour.
const BOARDS: usize = 3;

/// A button that opens the suggestions.
pub(super) fn button(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let ready = view.palette.is_some();
    let button = ui
        .add_enabled(ready, egui::Button::new("Colours…"))
        .on_hover_text("Colours for mat and undermat, drawn from the picture");
    egui::Popup::menu(&button)
        .close_behavior(egui::PopupCloseBehavior::CloseOnClickOutside)
        .show(|ui| {
            ui.set_style(ui.ctx().global_style());
            ui.set_width(420.0);
            ui.spacing_mut().item_spacing.y = 3.0;
            egui::ScrollArea::vertical().max_height(560.0).show(ui, |ui| {
                show(ui, view, requests);
            });
        });
}

fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let Some(palette) = view.palette else { return };
    paper(ui, view, requests);
    let white = lab(view.paper);
    if let Some(top) = view.mat.layers.first() {
        let measured = palette.measure(lab(top.board.colour), white);
        let warnings: Vec<Reason> = measured.into_iter().filter(Reason::is_warning).collect();
        if !warnings.is_empty() {
            ui.label(RichText::new("The top mat as it is").family(theme::strong()));
            reasons(ui, &warnings);
            ui.add_space(8.0);
        }
    }
    for suggestion in suggestions(palette, white) {
        ui.push_id(title(suggestion.intent), |ui| one(ui, view, &suggestion, requests));
        ui.add_space(8.0);
    }
}

fn one(ui: &mut Ui, view: &View<'_>, suggestion: &Suggestion, requests: &mut Requests) {
    ui.label(RichText::new(title(suggestion.intent)).family(theme::strong()));
    ui.horizontal(|ui| {
        patch(ui, suggestion.mat_rgb, "Mat");
        patch(ui, suggestion.undermat_rgb, "Undermat");
        if ui.button("Take these colours").clicked() {
            requests.run(take(view, suggestion));
        }
    });
    reasons(ui, &suggestion.reasons);
    if let Some(top) = view.mat.layers.first()
        && let Some(board) = near_boards(ui, view, suggestion.mat, top.board.thickness)
    {
        requests.run(Command::SetBoard(view.variant, top.id, board));
    }
}

fn reasons(ui: &mut Ui, reasons: &[Reason]) {
    ui.scope(|ui| {
        // Before the rows are begun, which take their height from it.
        ui.spacing_mut().interact_size.y = 15.0;
        for reason in reasons {
            ui.horizontal_wrapped(|ui| {
                if reason.is_warning() {
                    severity_icon(ui, Severity::Caution);
                }
                ui.label(quiet(ui, &reason.message()));
            });
        }
    });
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

/// One of them; says whether it was taken.
fn near_board(ui: &mut Ui, board: &Board, difference: f64) -> bool {
    ui.horizontal(|ui| {
        let Colour { red, green, blue } = board.colour;
        small_patch(ui, [red, green, blue]);
        let name = RichText::new(&board.name).size(theme::SMALL);
        let button = ui.add(egui::Button::new(name).min_size(vec2(0.0, 20.0)));
        let words = format!("Take {}", board.name);
        button.widget_info(|| {
            let text = format!("{words}, ΔE {difference:.1}");
            egui::WidgetInfo::labeled(egui::Role::Button, true, text)
        });
        ui.label(quiet(ui, &format!("ΔE {difference:.1}"))).on_hover_text(
            "The difference to that colour by CIEDE2000; below about 1 it is not seen",
        );
        button.on_hover_text(&words).clicked()
    })
    .inner
}

/// The paper and its white, which the suggestions are measured against.
fn paper(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let own = view.mat.assembly.paper.as_ref();
    ui.horizontal(|ui| {
        ui.label(quiet(ui, "Paper"));
        let Colour { red, green, blue } = view.paper;
        small_patch(ui, [red, green, blue]);
        let name = own.map_or("Not chosen", |paper| paper.name.as_str());
        let combo = egui::ComboBox::from_id_salt("paper of the picture").width(190.0);
        combo
            .selected_text(name)
            .show_ui(ui, |ui| {
                for known in &view.tables.papers {
                    let same = own.is_some_and(|own| own.id == known.id);
                    if ui.selectable_label(same, &known.name).clicked() && !same {
                        requests.run(Command::SetStock(view.variant, Some(known.clone())));
                    }
                }
            })
            .response
            .widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "Paper of the picture")
            });
        if let Some(white) = white(ui, view.paper) {
            let paper = own.cloned().unwrap_or_else(|| Paper {
                name: "Own paper".to_owned(),
                origin: "set by hand".to_owned(),
                ..Paper::default()
            });
            let paper = Paper { white: Some(white), ..paper };
            requests.run(Command::SetStock(view.variant, Some(paper)));
        }
    });
    if own.is_none_or(|paper| paper.white.is_none()) {
        let hex = Look::default().paper.hex();
        let words = format!("Its white is not known: {hex} is taken. Choose it, or set it.");
        ui.label(quiet(ui, &words));
    }
    ui.add_space(8.0);
}

/// A field for the white of a paper, as it is measured or seen.
fn white(ui: &mut Ui, now: Colour) -> Option<Colour> {
    let id = ui.make_persistent_id("white");
    let mut text: String = ui.data(|data| data.get_temp(id)).unwrap_or_else(|| now.hex());
    let field = ui.add(egui::TextEdit::singleline(&mut text).desired_width(76.0));
    field.widget_info(|| {
        let name = "White of the paper in hexadecimal";
        let mut info = egui::WidgetInfo::labeled(egui::Role::TextInput, true, name);
        info.current_text_value = Some(text.clone());
        info
    });
    if field.lost_focus() {
        ui.data_mut(|data| data.remove::<String>(id));
        return Colour::from_hex(&text).filter(|made| *made != now);
    }
    if field.has_focus() {
        ui.data_mut(|data| data.insert_temp(id, text));
    }
    None
}

fn title(intent: Intent) -> &'static str {
    match intent {
        Intent::HighlightsLead => "The highlights stay the whitest thing",
        Intent::MatchPaper => "As white as the paper",
        Intent::QuietEcho => "Takes up a quiet colour",
        Intent::DarkSurround => "Dark, so that the picture glows",
    }
}

/// The top layer in the mat's colour, those below in the undermat's.
fn take(view: &View<'_>, suggestion: &Suggestion) -> Command {
    let commands = view.mat.layers.iter().enumerate().map(|(index, layer)| {
        let [red, green, blue] =
            if index == 0 { suggestion.mat_rgb } else { suggestion.undermat_rgb };
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

fn small_patch(ui: &mut Ui, [red, green, blue]: [u8; 3]) {
    let (rect, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
    fill(ui, rect, [red, green, blue]);
}

fn patch(ui: &mut Ui, [red, green, blue]: [u8; 3], name: &str) {
    let (rect, response) = ui.allocate_exact_size(vec2(56.0, theme::ROW), Sense::hover());
    fill(ui, rect, [red, green, blue]);
    let text = format!("{name} {}", Colour::new(red, green, blue).hex());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &text));
    response.on_hover_text(text);
}

fn fill(ui: &Ui, rect: egui::Rect, [red, green, blue]: [u8; 3]) {
    ui.painter().rect(
        rect,
        3.0,
        crate::window::canvas::srgb(red, green, blue),
        egui::Stroke::new(1.0, theme::palette(ui).line),
        egui::StrokeKind::Inside,
    );
}
