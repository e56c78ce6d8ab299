//! Where the record is kept: shown, chosen, and said when it is missed.

use std::path::PathBuf;

use egui::{Label, RichText, Ui};

use super::Editions;
use super::messages::{Purpose, Request};
use crate::window::{theme, widgets};
use sightedge_service::record::Home;

/// The folder that is being chosen.
#[derive(Debug, Default)]
pub(super) struct Choosing {
    pub(super) folder: Option<PathBuf>,
}

impl Editions {
    /// The page where the folder is chosen.
    pub(super) fn homes(&mut self, ui: &mut Ui) {
        let Some(home) = self.home.clone() else { return };
        let Some(choosing) = &mut self.choosing else { return };
        let heading = RichText::new("Where the record is kept");
        ui.label(heading.family(theme::strong()).size(theme::HEADING));
        ui.add_space(8.0);
        if let Some(lost) = &self.lost {
            let text = RichText::new(lost).color(theme::palette(ui).stop);
            ui.add(Label::new(text).wrap());
            ui.add_space(8.0);
        }
        note(
            ui,
            "One folder holds the record of all works, on a drive of this computer. A network \
             drive is refused: two computers writing there at once could spoil it.",
        );
        let shown = choosing.folder.clone().unwrap_or_else(|| home.folder.clone());
        let asked = ui
            .scope(|ui| {
                ui.set_max_width(560.0);
                let (label, name) = ("The record's folder", "Folder of the record");
                widgets::folder_row(ui, label, name, &shown, &mut choosing.folder)
            })
            .inner;
        ui.add_space(8.0);
        note(
            ui,
            "What is in the old folder stays there. To take the record along, move the folder \
             itself, then choose it here.",
        );
        ui.add_space(8.0);
        let new =
            choosing.folder.clone().filter(|new| *new != home.folder || self.lost.is_some());
        let (mut leave, mut to) = (false, None);
        ui.horizontal(|ui| {
            // Pressing it keeps what is being typed, too.
            if ui.button("Keep the record there").clicked() {
                match new {
                    Some(folder) => to = Some(Some(folder)),
                    None if self.lost.is_none() => leave = true,
                    // The folder that was chosen is forgotten, and the usual one is shown.
                    None if !home.chosen => to = Some(None),
                    None => {}
                }
            }
            if (home.chosen || self.lost.is_some())
                && ui.button("Use the usual folder").clicked()
            {
                to = Some(None);
            }
            if self.lost.is_none() && ui.button("Leave it").clicked() {
                leave = true;
            }
        });
        if asked {
            self.worker.choose(Purpose::Record, shown);
        }
        if leave {
            self.choosing = None;
        }
        if let Some(folder) = to {
            self.failed = None;
            self.ask(Request::Move(folder));
        }
    }

    /// The record is kept elsewhere from now on.
    pub(super) fn moved(&mut self, home: Home, works: usize) {
        let folder = home.folder.display();
        self.said = Some(match works {
            0 => format!("The record is kept in {folder}: there was none, a new one is begun."),
            1 => format!("The record is kept in {folder}: it holds 1 work."),
            works => format!("The record is kept in {folder}: it holds {works} works."),
        });
        (self.home, self.lost, self.choosing) = (Some(home), None, None);
        (self.failed, self.damaged, self.papers) = (None, None, None);
        (self.chosen, self.edition, self.place, self.history) = (None, None, None, None);
        (self.show, self.undo, self.plan_seen) = (None, None, None);
        (self.of_plan, self.asked_of) = (None, None);
        self.prints = super::Prints::default();
        self.works = None;
    }
}

fn note(ui: &mut Ui, text: &str) {
    ui.add(Label::new(widgets::quiet(ui, text)).wrap());
}
