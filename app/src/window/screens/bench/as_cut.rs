//! What was cut otherwise than planned, entered as it was measured.

use egui::{RichText, ScrollArea, Ui};
use sightedge_core::command::{Command, Measured, as_cut};
use sightedge_core::finding::{Finding, Since};
use sightedge_core::geometry::{Rect, Seen};
use sightedge_core::length::Length;
use sightedge_core::spec::{AsCut, LayerId};

use super::BenchScreen;
use crate::window::context::{Requests, View};
use crate::window::screens::shared::checks;
use crate::window::theme;
use crate::window::widgets::{Hint, LengthField, Picture, asked, choice, field_width, quiet};
use sightedge_service::wording;

/// What is being entered.
#[derive(Debug)]
pub(super) struct Entry {
    measured: Measured,
    /// Which side of the board was up, once that was said.
    seen: Option<Seen>,
    /// What was found before the cut was entered.
    before: Vec<Finding>,
    /// What was entered, while the plan has it.
    entered: Option<AsCut>,
}

impl Entry {
    /// Of that layer, else of the innermost, with what is measured where all came out as planned.
    pub(super) fn of(view: &View<'_>, layer: Option<LayerId>) -> Option<Self> {
        Some(Self {
            measured: planned(view, layer, Seen::Front)?,
            seen: None,
            before: view.derived.findings.clone(),
            entered: None,
        })
    }

    /// The layer that was measured.
    fn layer(&self, view: &View<'_>) -> Option<LayerId> {
        self.measured.layer.or(view.mat.layers.last().map(|layer| layer.id))
    }

    /// What the plan has of that layer as cut.
    fn came<'a>(&self, view: &View<'a>) -> Option<&'a AsCut> {
        view.opening.cut.get(&self.layer(view)?)
    }

    /// Which layer, and which side of the board was up.
    fn which(&mut self, ui: &mut Ui, view: &View<'_>) {
        let now = self.layer(view);
        if view.mat.layers.len() > 1 {
            let hint = Hint::new("The layer that you measured");
            asked(ui, "layer", &hint, |ui| {
                let layers = view.mat.layers.iter().enumerate();
                let options: Vec<(LayerId, String)> = layers
                    .map(|(at, layer)| (layer.id, view.mat.layer_name(at).to_lowercase()))
                    .collect();
                let options: Vec<(LayerId, &str)> =
                    options.iter().map(|(id, words)| (*id, words.as_str())).collect();
                let width = field_width(ui, 1);
                if let Some(layer) = choice(ui, "Window measured", now, &options, width)
                    && let Some(other) = Self::of(view, Some(layer))
                {
                    *self = other;
                }
            });
        }
        let hint = Hint::new(
            "Which side of the board faced you: seen from the back, left and right change places",
        );
        asked(ui, "measured", &hint, |ui| {
            let options = [Seen::Front, Seen::Back].map(|seen| (seen, seen.words()));
            let width = field_width(ui, 1);
            let Some(seen) = choice(ui, "Measured", self.seen, &options, width) else { return };
            // What was not typed yet is planned as it is seen now.
            let left = |seen| planned(view, now, seen).map(|planned| planned.left);
            if left(self.measured.seen) == Some(self.measured.left)
                && let Some(left) = left(seen)
            {
                self.measured.left = left;
            }
            self.measured.seen = seen;
            self.seen = Some(seen);
        });
    }

    /// What the cut brought about, and what was open before it.
    fn verdict(&self, ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
        let since = Since::of(&self.before, &view.derived.findings);
        ui.label(since.as_cut());
        let overlap = view.window.overlap.least();
        let words =
            format!("The smallest overlap is now {}.", wording::near(overlap, view.unit()));
        ui.label(quiet(ui, &words));
        ui.add_space(8.0);
        let list = ScrollArea::vertical().id_salt("as cut").auto_shrink([false, true]);
        list.show(ui, |ui| {
            ui.set_width(ui.available_width() - 8.0);
            ui.push_id("brought", |ui| checks::findings(ui, view, &since.brought, requests));
            if !since.before.is_empty() {
                ui.label(RichText::new(Since::BEFORE).family(theme::strong()));
                ui.push_id("before", |ui| checks::findings(ui, view, &since.before, requests));
            }
        });
    }
}

impl BenchScreen {
    /// The window and the board as they came out; gives whether they were entered.
    pub(super) fn as_cut(
        &mut self,
        ui: &mut Ui,
        view: &View<'_>,
        requests: &mut Requests,
    ) -> bool {
        let Some(entry) = &mut self.entry else { return false };
        ui.label(RichText::new("As it was cut").family(theme::strong()).size(theme::HEADING));
        ui.label(quiet(ui, "Measure at the sight edge; the rest of the plan follows."));
        ui.add_space(6.0);
        entry.which(ui, view);
        let outer = entry.measured.outer.unwrap_or(view.derived.layout.bench.outer);
        let mut board = outer;
        let length = |ui: &mut Ui, label: &str, hint: Hint, name: &str, value: &mut Length| {
            asked(ui, label, &hint, |ui| {
                let width = field_width(ui, 1);
                let field = LengthField::new(name, *value, view.unit()).width(width);
                if let Some(typed) = field.show(ui).1 {
                    *value = typed;
                }
            });
        };
        let measured = &mut entry.measured;
        let sight = || Hint::new("At the sight edge: the inner, lower edge of the bevel");
        let sight_size = &mut measured.sight;
        length(ui, "window width", sight(), "Window width as cut", &mut sight_size.width);
        length(ui, "window height", sight(), "Window height as cut", &mut sight_size.height);
        let border =
            || Hint::new("From the board’s edge to the sight edge").picture(Picture::Border);
        // Left and right mean nothing before it is known from where they are seen.
        if entry.seen.is_some() {
            length(ui, "left border", border(), "Left border as cut", &mut measured.left);
        }
        length(ui, "top border", border(), "Top border as cut", &mut measured.top);
        let edge = || Hint::new("The board as it is now, from edge to edge");
        length(ui, "board width", edge(), "Board width as cut", &mut board.width);
        length(ui, "board height", edge(), "Board height as cut", &mut board.height);
        if board != outer {
            measured.outer = Some(board);
        }
        ui.add_space(6.0);
        let other = measured.refusal(view.mat, view.opening.id, view.unit());
        let sound = board.is_positive() && measured.fits_on(outer) && other.is_none();
        let measured = *measured;
        let (mut entered, mut close) = (false, false);
        ui.horizontal_wrapped(|ui| {
            let enter = egui::Button::new("Enter as cut");
            let enter = ui.add_enabled(sound && entry.seen.is_some(), enter);
            let enter = enter.on_disabled_hover_text(if entry.seen.is_none() {
                "Choose first whether you measured from the front or from the back".to_owned()
            } else {
                other.unwrap_or_else(|| "The window must lie on the board".to_owned())
            });
            if enter.clicked() {
                let command = as_cut(view.document, view.variant, view.opening.id, measured);
                if let Some(command) = command {
                    let size = measured.outer.unwrap_or(view.derived.layout.bench.outer);
                    let window = measured.window(size);
                    let borders = window.within(Rect::at_origin(size));
                    entry.entered = Some(AsCut { sight: measured.sight, borders });
                    requests.run(command);
                    entered = true;
                }
                ui.memory_mut(egui::Memory::stop_text_input);
            }
            let cut = entry.layer(view).filter(|layer| view.opening.is_cut(*layer));
            if let Some(layer) = cut {
                let anew = ui.button("Cut it again");
                let hint =
                    "Forget these measurements: this window is cut again, in another board";
                if anew.on_hover_text(hint).clicked() {
                    requests.run(Command::CutAnew(view.variant, view.opening.id, layer));
                }
            }
            close = ui.button("Close").clicked();
        });
        ui.add_space(10.0);
        // Undone, it is not judged any more.
        if entry.entered.is_some() && entry.entered.as_ref() == entry.came(view) {
            entry.verdict(ui, view, requests);
        } else {
            checks::checks(ui, view, requests);
        }
        if close {
            self.entry = None;
        }
        entered
    }
}

/// What is measured where all came out as planned, or as it was measured before: of that layer,
/// else of the innermost.
fn planned(view: &View<'_>, layer: Option<LayerId>, seen: Seen) -> Option<Measured> {
    let figures = &view.derived.layout.bench;
    let window = figures.opening(view.opening.id)?;
    let innermost = view.mat.layers.last().map(|layer| layer.id);
    let layer = layer.filter(|layer| Some(*layer) != innermost);
    let cut = window.layers.iter().find(|cut| Some(cut.layer) == layer);
    let (sight, borders) = cut.map_or((window.sight.size, window.borders), |cut| {
        (cut.sight.bounds.size, cut.borders)
    });
    let left = match seen {
        Seen::Front => borders.left,
        Seen::Back => borders.right,
    };
    Some(Measured { outer: None, layer, sight, left, top: borders.top, seen })
}
