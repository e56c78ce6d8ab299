//! What happened, the newest first.

use egui::{Label, ScrollArea, Ui};
use sightedge_studio::Subject;

use super::Editions;
use super::messages::Request;
use crate::window::context::ScreenContext;
use sightedge_service::record::entry_in_words;

use crate::window::widgets;

impl Editions {
    /// What happened to these, one after the other.
    pub(super) fn what_happened(
        &mut self,
        ui: &mut Ui,
        cx: ScreenContext<'_>,
        of: Vec<Subject>,
    ) {
        if self.cache.history.as_ref().is_none_or(|(there, _)| *there != of) {
            if self.record.pending() == 0 {
                self.ask(Request::History(of));
            }
            return;
        }
        let Some((_, entries)) = &self.cache.history else { return };
        ui.add_space(4.0);
        ScrollArea::vertical()
            .id_salt("history")
            .auto_shrink([false, true])
            .max_height((ui.available_height() - 8.0).max(96.0))
            .show(ui, |ui| {
                for (at, entry) in entries.iter().enumerate().rev() {
                    let words = entry_in_words(entries, at, cx.settings.unit());
                    let mut line = format!("{}   {words}", entry.at);
                    if !entry.why.is_empty() {
                        line = format!("{line}  ({})", entry.why);
                    }
                    let shown = Label::new(widgets::quiet(ui, &line)).truncate();
                    ui.add(shown).on_hover_text(&line);
                }
            });
    }
}
