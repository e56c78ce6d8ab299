//! Colours for the mat drawn from the picture: a main mat and an undermat for each of a few
//! intents, each with its measured reasons and the nearest boards at hand.

use egui::{Id, RichText, ScrollArea, Sense, Ui, vec2};
use sightedge_core::command::Command;
use sightedge_core::finding::Severity;
use sightedge_core::material::{Board, Colour, Paper};
use sightedge_core::plates::Look;
use sightedge_core::spec::LayerId;
use sightedge_pictures::colour::{Intent, Reason, Suggestion, suggestions};

use super::picker;
use super::swatches::{CUSTOM, fill, hex, lab, near_boards, small_patch};
use crate::window::context::{Requests, View};
use crate::window::theme;
use crate::window::widgets::{Entry, choice, list, quiet, severity_icon};

fn key() -> Id {
    Id::unique("the layer whose colours are open")
}

/// Opens the colours for that layer, or closes them.
pub(super) fn open(ui: &Ui, layer: Option<LayerId>) {
    ui.data_mut(|data| data.insert_temp(key(), layer));
}

/// The layer that the colours are open for.
pub(super) fn opened(ui: &Ui, view: &View<'_>) -> Option<usize> {
    let layer: LayerId = ui.data(|data| data.get_temp::<Option<LayerId>>(key()))??;
    let place = view.mat.layers.iter().position(|one| one.id == layer);
    Some(place.unwrap_or(0))
}

/// A button that opens the colours, and closes them.
pub(super) fn button(ui: &mut Ui, view: &View<'_>) {
    let on = opened(ui, view).is_some();
    let button = ui
        .add(egui::Button::new("Colours…").selected(on))
        .on_hover_text("Colours for each layer, and those that go with the picture");
    if button.clicked() {
        open(ui, view.mat.layers.first().filter(|_| !on).map(|layer| layer.id));
    }
}

/// The colours of a layer, and those that go with the picture, beside it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, index: usize, requests: &mut Requests) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("Colours").family(theme::strong()).size(theme::HEADING));
        let right = egui::Layout::right_to_left(egui::Align::Center);
        let close = ui.with_layout(right, |ui| ui.button("Close")).inner;
        if close.on_hover_text("Back to the checks").clicked() {
            open(ui, None);
        }
    });
    let Some(layer) = view.mat.layers.get(index) else { return };
    ui.label(quiet(ui, "Colour of the"));
    let names: Vec<String> =
        (0..view.mat.layers.len()).map(|at| view.mat.layer_name(at).to_lowercase()).collect();
    let layers = view.mat.layers.iter().map(|one| one.id);
    let options: Vec<(LayerId, &str)> = layers.zip(names.iter().map(String::as_str)).collect();
    let width = ui.available_width();
    if let Some(other) = choice(ui, "Layer to recolour", Some(layer.id), &options, width) {
        open(ui, Some(other));
    }
    ui.add_space(4.0);
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.set_width(ui.available_width() - 12.0);
        ui.spacing_mut().item_spacing.y = 3.0;
        if let Some(board) =
            ui.push_id(layer.id, |ui| picker::show(ui, view, &layer.board)).inner
        {
            requests.run(Command::SetBoard(view.variant, layer.id, board));
        }
        ui.add_space(12.0);
        for_the_picture(ui, view, requests);
    });
}

/// A mat and an undermat for each of a few intents.
fn for_the_picture(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    ui.label(RichText::new("To go with the picture").family(theme::strong()));
    let Some(palette) = view.palette else {
        ui.label(quiet(ui, "These come once the picture is open."));
        return;
    };
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
                ui.label(quiet(ui, reason.words())).on_hover_text(reason.message());
            });
        }
    });
}

/// The paper and its white, which the suggestions are measured against.
fn paper(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let own = view.mat.assembly.paper.as_ref();
    ui.horizontal(|ui| {
        ui.label(quiet(ui, "Paper"));
        let Colour { red, green, blue } = view.paper;
        small_patch(ui, [red, green, blue]);
        let name = own.map_or("Not chosen", |paper| paper.name.as_str());
        let known = view.tables.papers.iter().map(|known| Entry {
            words: known.name.clone(),
            colour: known.white,
            value: known,
        });
        let wide = ui.available_width();
        if let Some(known) = list(ui, "Paper of the picture", name, wide, known) {
            requests.run(Command::SetStock(view.variant, Some(known.clone())));
        }
    });
    ui.horizontal(|ui| {
        ui.label(quiet(ui, "Its white"));
        if let Some(white) = white(ui, view.paper) {
            let paper = own.cloned().unwrap_or_else(|| Paper {
                name: "Custom paper".to_owned(),
                origin: "set by hand".to_owned(),
                ..Paper::default()
            });
            let paper = Paper { white: Some(white), ..paper };
            requests.run(Command::SetStock(view.variant, Some(paper)));
        }
    });
    if own.is_none_or(|paper| paper.white.is_none()) {
        let hex = Look::default().paper.hex();
        let words = format!(
            "The white of the paper is not known: {hex} is used. Choose the paper, or type its \
             white."
        );
        ui.add(egui::Label::new(quiet(ui, &words)).wrap());
    }
    ui.add_space(8.0);
}

/// A field for the white of a paper, as it is measured or seen.
fn white(ui: &mut Ui, now: Colour) -> Option<Colour> {
    hex(ui, "White of the paper in hexadecimal", now)
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
        let name = CUSTOM.to_owned();
        let board = Board { id: String::new(), name, colour, ..layer.board.clone() };
        Command::SetBoard(view.variant, layer.id, board)
    });
    Command::Together("colours from the picture", commands.collect())
}

fn patch(ui: &mut Ui, [red, green, blue]: [u8; 3], name: &str) {
    let (rect, response) = ui.allocate_exact_size(vec2(56.0, theme::ROW), Sense::hover());
    fill(ui, rect, [red, green, blue]);
    let text = format!("{name} {}", Colour::new(red, green, blue).hex());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &text));
    response.on_hover_text(text);
}
