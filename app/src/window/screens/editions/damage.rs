//! The page of a damaged record: what is wrong, and which backup is put back.

use std::path::PathBuf;

use egui::{Button, Label, RichText, Ui};
use sightedge_studio::{Backup, Contents};

use super::Editions;
use super::messages::{Damage, Request};
use super::page::{DamagePage, Page};
use crate::window::{theme, widgets};
use sightedge_service::wording;

impl Editions {
    pub(super) fn damage(&mut self, ui: &mut Ui) {
        let Page::Damage(DamagePage { damage, .. }) = &mut self.page else { return };
        let failed = self.status.failed.as_deref();
        let request = egui::CentralPanel::default()
            .frame(egui::Frame::new().fill(theme::palette(ui).panel).inner_margin(24.0))
            .show(ui, |ui| {
                ui.scope(|ui| {
                    ui.set_max_width(640.0);
                    page(ui, damage, failed)
                })
                .inner
            })
            .inner;
        if let Some(request) = request {
            self.page.leave();
            (self.status.failed, self.cache.works) = (None, None);
            self.ask(request);
            self.ask(Request::Look(None));
        }
    }
}

fn page(ui: &mut Ui, damage: &mut Damage, failed: Option<&str>) -> Option<Request> {
    let heading = RichText::new("The record is damaged");
    ui.label(heading.family(theme::strong()).size(theme::HEADING));
    ui.add_space(8.0);
    if let Some(failed) = failed {
        ui.add(Label::new(RichText::new(failed).color(theme::palette(ui).fault)).wrap());
        ui.add_space(8.0);
    }
    ui.add(Label::new(&damage.words).wrap());
    ui.add_space(12.0);
    let Some(chosen) = &damage.backup else {
        ui.label("The damaged file is kept under another name if you begin anew.");
        ui.add_space(12.0);
        return ui.button("Begin a new record here").clicked().then_some(Request::BeginAnew);
    };
    let mut picked: Option<PathBuf> = None;
    let tall = (ui.available_height() - 96.0).max(80.0);
    egui::ScrollArea::vertical()
        .id_salt("backups")
        .max_height(tall)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            for (backup, held) in &damage.backups {
                let on = *chosen == backup.file;
                let words = row(backup, *held);
                let radio = ui.add_enabled_ui(held.is_some(), |ui| ui.radio(on, words)).inner;
                if radio.on_hover_text(backup.file.display().to_string()).clicked() {
                    picked = Some(backup.file.clone());
                }
            }
        });
    ui.add_space(8.0);
    ui.add(
        Label::new(widgets::quiet(
            ui,
            "What was entered after a backup is missing in it. Neither the damaged file nor \
             the other backups are thrown away.",
        ))
        .wrap(),
    );
    ui.add_space(8.0);
    let day = damage.backups.iter().find(|one| one.0.file == *chosen);
    let words = match day {
        Some((backup, _)) => format!("Restore the backup of {}", backup.day),
        None => "Restore the backup".to_owned(),
    };
    let mut request = None;
    ui.horizontal(|ui| {
        let palette = theme::palette(ui);
        let text = RichText::new(words).color(palette.on_accent);
        if ui.add(Button::new(text).fill(palette.accent)).clicked() {
            request = Some(Request::Restore(chosen.clone()));
        }
        let hint = "An empty one. The backups stay, and can be restored by hand.";
        if ui.button("Begin a new record here").on_hover_text(hint).clicked() {
            request = Some(Request::BeginAnew);
        }
    });
    if picked.is_some() {
        damage.backup = picked;
    }
    request
}

/// A backup in a line: its day, what is in it, and what sets it apart from others of the day.
fn row(backup: &Backup, held: Option<Contents>) -> String {
    let held = held.map_or_else(
        || "cannot be read".to_owned(),
        |held| {
            format!(
                "{}, {}",
                wording::count(held.works, "work"),
                wording::count(held.prints, "print")
            )
        },
    );
    let name = backup.file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let plain = format!("studio-{}", backup.day);
    let more = name.strip_prefix(&plain).unwrap_or_default().replace('-', " ");
    format!("{}{more}   {held}", backup.day)
}
