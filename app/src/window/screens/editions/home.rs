//! Where the record is kept: shown, chosen, and said when it is missed.

use egui::{Label, RichText, Ui};

use super::Editions;
use super::cache::Cache;
use super::messages::{Purpose, Request};
use super::page::Page;
use crate::window::{theme, widgets};
use sightedge_service::record::Home;

/// Where the record is.
#[derive(Debug, Default)]
pub(super) enum RecordPlace {
    /// Nobody looked yet.
    #[default]
    Unknown,
    /// There.
    At(Home),
    /// It is not where it was left; why, and the folder that is offered.
    Lost { offered: Home, why: String },
}

impl RecordPlace {
    /// The folder of the record, or the one that is offered.
    pub(super) const fn home(&self) -> Option<&Home> {
        match self {
            Self::Unknown => None,
            Self::At(home) | Self::Lost { offered: home, .. } => Some(home),
        }
    }

    /// Whether it is not where it was left.
    pub(super) const fn is_lost(&self) -> bool {
        matches!(self, Self::Lost { .. })
    }
}

impl Editions {
    /// The page where the folder is chosen.
    pub(super) fn homes(&mut self, ui: &mut Ui) {
        let Some(home) = self.place.home().cloned() else { return };
        let Page::Home(page) = &mut self.page else { return };
        let lost = self.place.is_lost();
        let heading = RichText::new("Where the record is kept");
        ui.label(heading.family(theme::strong()).size(theme::HEADING));
        ui.add_space(8.0);
        if let RecordPlace::Lost { why, .. } = &self.place {
            let text = RichText::new(why).color(theme::palette(ui).fault);
            ui.add(Label::new(text).wrap());
            ui.add_space(8.0);
        }
        note(
            ui,
            "One folder holds the record of all works, on a drive of this computer. A network \
             drive is refused: two computers writing there at once could spoil it.",
        );
        let shown = page.folder.clone().unwrap_or_else(|| home.folder.clone());
        let asked = ui
            .scope(|ui| {
                ui.set_max_width(560.0);
                let (label, name) = ("The record's folder", "Folder of the record");
                widgets::folder_row(ui, label, name, &shown, &mut page.folder)
            })
            .inner;
        ui.add_space(8.0);
        note(
            ui,
            "What is in the old folder stays there. To take the record along, move the folder \
             itself, then choose it here.",
        );
        ui.add_space(8.0);
        let new = page.folder.clone().filter(|new| *new != home.folder || lost);
        let (mut leave, mut to) = (false, None);
        ui.horizontal(|ui| {
            // Pressing it keeps what is being typed, too.
            if ui.button("Keep the record there").clicked() {
                match new {
                    Some(folder) => to = Some(Some(folder)),
                    None if !lost => leave = true,
                    // The folder that was chosen is forgotten, and the usual one is shown.
                    None if !home.chosen => to = Some(None),
                    None => {}
                }
            }
            if (home.chosen || lost) && ui.button("Use the usual folder").clicked() {
                to = Some(None);
            }
            if !lost && ui.button("Leave it").clicked() {
                leave = true;
            }
        });
        if asked {
            self.record.choose(Purpose::Record, shown);
        }
        if leave {
            self.page.leave();
        }
        if let Some(folder) = to {
            self.status.failed = None;
            self.ask(Request::Move(folder));
        }
    }

    /// The record is kept elsewhere from now on.
    pub(super) fn moved(&mut self, home: Home, works: usize) {
        let folder = home.folder.display();
        self.status.said = Some(match works {
            0 => format!("The record is kept in {folder}: there was none, a new one is begun."),
            1 => format!("The record is kept in {folder}: it holds 1 work."),
            works => format!("The record is kept in {folder}: it holds {works} works."),
        });
        self.place = RecordPlace::At(home);
        self.page.leave_over();
        self.page.close_printouts();
        self.status.failed = None;
        (self.chosen, self.last_change, self.plan_seen) = (None, None, None);
        self.bench.forget_asked();
        // The maker stays proposed until the works of this record name another.
        self.cache = Cache { maker: std::mem::take(&mut self.cache.maker), ..Cache::default() };
        self.lists.forget_found();
    }
}

fn note(ui: &mut Ui, text: &str) {
    ui.add(Label::new(widgets::quiet(ui, text)).wrap());
}
