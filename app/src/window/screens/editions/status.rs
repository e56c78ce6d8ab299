//! The line at the foot: what was done and can be undone, what went wrong and what to do.

use egui::{RichText, Ui};

use super::Editions;
use super::messages::Request;
use super::page::Page;
use crate::window::{theme, widgets};

/// What the line at the foot says.
#[derive(Debug, Default)]
pub(super) struct Status {
    /// What was done.
    pub(super) said: Option<String>,
    /// What went wrong, said before what was done.
    pub(super) failed: Option<String>,
    /// Whether another window or program writes to the record, and is waited for.
    pub(super) busy: bool,
    /// Since when an answer of the record is waited for, in seconds.
    waits_since: Option<f64>,
}

impl Status {
    /// Says nothing any more.
    pub(super) fn clear(&mut self) {
        (self.said, self.failed) = (None, None);
    }
}

impl Editions {
    /// The line at the foot of the place.
    pub(super) fn status_line(&mut self, ui: &mut Ui) {
        let now = ui.input(|input| input.time);
        let since = (self.record.pending() > 0).then(|| self.status.waits_since.unwrap_or(now));
        self.status.waits_since = since;
        if let Some(since) = since {
            // Another program may hold the record for a while; that is not to look like a hang.
            ui.ctx().request_repaint_after(std::time::Duration::from_millis(500));
            if self.status.busy {
                ui.label("Busy: another window or program is writing to the record. Waiting…");
                return;
            }
            if now - since > 1.0 && !matches!(self.page, Page::Home(_) | Page::Printouts(_)) {
                ui.label(widgets::quiet(ui, "Waiting for the record…"));
                return;
            }
        }
        if let Some(failed) = &self.status.failed {
            let text = RichText::new(failed).color(theme::palette(ui).fault);
            ui.add(egui::Label::new(text).wrap());
            return;
        }
        let Some(said) = &self.status.said else { return };
        ui.horizontal(|ui| {
            ui.set_min_height(theme::ROW);
            let room = if self.last_change.is_some() { 200.0 } else { 0.0 };
            ui.scope(|ui| {
                ui.set_max_width((ui.available_width() - room).max(100.0));
                ui.add(egui::Label::new(said).truncate()).on_hover_text(said);
            });
            if let Some(last) = &mut self.last_change {
                let hint = "Adds an entry that restores what was there before; the history keeps \
                            both. Ctrl+Z does the same here.";
                if ui.button(format!("Undo {}", last.words())).on_hover_text(hint).clicked() {
                    last.request_undo();
                    ui.ctx().request_repaint();
                }
            }
        });
    }

    /// The record is not there, or not yet.
    pub(super) fn unopened(&mut self, ui: &mut Ui) {
        if self.status.failed.is_none() {
            ui.label(widgets::quiet(ui, "Opening the record…"));
            return;
        }
        let heading = RichText::new("The record could not be opened");
        ui.label(heading.family(theme::strong()).size(theme::HEADING));
        ui.add_space(8.0);
        ui.label("The reason is shown below. Nothing was changed.");
        ui.add_space(12.0);
        if ui.button("Try again").clicked() {
            self.status.failed = None;
            self.ask(Request::Look(None));
        }
    }
}
