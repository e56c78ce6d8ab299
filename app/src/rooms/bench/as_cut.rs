//! What was cut otherwise than planned, entered as it was measured.

use egui::{RichText, Ui};
use sightedge_core::command::{Measured, as_cut};
use sightedge_core::finding::Severity;
use sightedge_core::length::Length;
use sightedge_core::spec::LayerId;

use super::Bench;
use crate::panels::{self, Asks};
use crate::view::View;
use crate::widgets::{FieldEvent, LengthField, choice, quiet, row};
use crate::{theme, wording};

impl Bench {
    /// The window and the board as they came out; gives whether they were entered.
    pub(super) fn as_cut(&mut self, ui: &mut Ui, view: &View<'_>, asks: &mut Asks) -> bool {
        let Some(measured) = &mut self.measured else { return false };
        ui.label(RichText::new("As it was cut").family(theme::strong()).size(theme::HEADING));
        ui.label(quiet(ui, "Measure from the face, at the sight edge. All else follows."));
        ui.add_space(6.0);
        let innermost = view.mat.layers.last().map(|layer| layer.id);
        if view.mat.layers.len() > 1 {
            row(ui, "of the", |ui| {
                let layers = view.mat.layers.iter().enumerate();
                let options: Vec<(LayerId, String)> = layers
                    .map(|(at, layer)| match (at, view.mat.layers.len()) {
                        (0, _) => (layer.id, "top mat".to_owned()),
                        (_, 2) => (layer.id, "liner".to_owned()),
                        _ => (layer.id, format!("liner {at}")),
                    })
                    .collect();
                let options: Vec<(LayerId, &str)> =
                    options.iter().map(|(id, words)| (*id, words.as_str())).collect();
                let width = crate::widgets::field_width(ui, 1);
                let now = measured.layer.or(innermost);
                if let Some(layer) = choice(ui, "Window measured", now, &options, width)
                    && let Some(planned) = planned(view, Some(layer))
                {
                    *measured = planned;
                }
            });
        }
        let outer = measured.outer.unwrap_or(view.derived.layout.bench.outer);
        let mut board = outer;
        let mut refused = None;
        let mut length = |ui: &mut Ui, name: &str, value: &mut Length| {
            let width = crate::widgets::field_width(ui, 1);
            let field = LengthField::new(name, *value, view.unit()).width(width);
            match field.show(ui).1 {
                FieldEvent::Set(typed) => *value = typed,
                FieldEvent::Refused(words) => refused = Some(words),
                FieldEvent::None => {}
            }
        };
        row(ui, "window wide", |ui| {
            length(ui, "Window width as cut", &mut measured.sight.width);
        });
        row(ui, "window high", |ui| {
            length(ui, "Window height as cut", &mut measured.sight.height);
        });
        row(ui, "left border", |ui| length(ui, "Left border as cut", &mut measured.left));
        row(ui, "top border", |ui| length(ui, "Top border as cut", &mut measured.top));
        row(ui, "board wide", |ui| length(ui, "Board width as cut", &mut board.width));
        row(ui, "board high", |ui| length(ui, "Board height as cut", &mut board.height));
        if board != outer {
            measured.outer = Some(board);
        }
        asks.said = refused.or(asks.said.take());
        ui.add_space(6.0);
        let sound = board.is_positive() && measured.lies_on(outer);
        let measured = *measured;
        let mut entered = false;
        ui.horizontal(|ui| {
            let enter = egui::Button::new("Enter as cut");
            let enter = ui.add_enabled(sound, enter);
            let enter = enter.on_disabled_hover_text("The window must lie on the board");
            if enter.clicked() {
                let command = as_cut(view.document, view.variant, view.opening.id, measured);
                if let Some(command) = command {
                    asks.run(command);
                    self.entered = true;
                    entered = true;
                }
                ui.memory_mut(egui::Memory::stop_text_input);
            }
            if ui.button("Close").clicked() {
                self.measured = None;
            }
        });
        ui.add_space(10.0);
        if self.entered || view.derived.layout.in_hand {
            passes(ui, view);
        }
        panels::checks(ui, view, asks);
        entered
    }
}

/// What is measured where all came out as planned: of that layer, else of the innermost.
pub(super) fn planned(view: &View<'_>, layer: Option<LayerId>) -> Option<Measured> {
    let figures = &view.derived.layout.bench;
    let window = figures.opening(view.opening.id)?;
    let innermost = view.mat.layers.last().map(|layer| layer.id);
    let layer = layer.filter(|layer| Some(*layer) != innermost);
    let cut = window.layers.iter().find(|cut| Some(cut.layer) == layer);
    let (sight, borders) = cut.map_or((window.sight.size, window.borders), |cut| {
        (cut.sight.bounds.size, cut.borders)
    });
    Some(Measured { outer: None, layer, sight, left: borders.left, top: borders.top })
}

/// What still passes.
fn passes(ui: &mut Ui, view: &View<'_>) {
    let count = |severity| {
        view.derived.findings.iter().filter(|finding| finding.severity == severity).count()
    };
    let (stops, cautions) = (count(Severity::Stop), count(Severity::Caution));
    let words = match (stops, cautions) {
        (0, 0) => "As cut, nothing here would fail.".to_owned(),
        (0, _) => "As cut, it still passes, with cautions.".to_owned(),
        _ => "As cut, it no longer passes: see the stops.".to_owned(),
    };
    ui.label(words);
    let overlap = view.window.overlap.least();
    let words = format!("Least overlap {}.", wording::length(overlap, view.unit()));
    ui.label(quiet(ui, &words));
    ui.add_space(8.0);
}
