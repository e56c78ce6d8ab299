//! What to write, on what, and where; how writing goes.

use std::sync::atomic::Ordering;

use egui::{Button, ComboBox, ProgressBar, Role, Ui, WidgetInfo};
use sightedge_core::command::Command;
use sightedge_core::length::Unit;
use sightedge_core::spec::Ruler;
use sightedge_papers::{Kind, Paper};

use super::worker::{Purpose, Summary};
use super::{Drawing, Front, Printouts, Scope, Writing};
use crate::window::context::Requests;
use crate::window::request::Action;
use crate::window::theme;
use crate::window::widgets::{choice, field_width, folder_row, group, main_button, quiet, row};
use sightedge_service::wording;

const DRAWINGS: [(Drawing, &str, &str); 3] = [
    (
        Drawing::Svg,
        "Cut drawing for drawing programs",
        "Millimetres, a group for each board (files end in .svg)",
    ),
    (
        Drawing::Dxf,
        "Cut drawing for cutting machines",
        "Millimetres, a layer for each board and kind of line (files end in .dxf)",
    ),
    (
        Drawing::List,
        "Cut list for spreadsheets",
        "One line for each board and window (files end in .csv)",
    ),
];

const fn about(kind: Kind) -> &'static str {
    match kind {
        Kind::Sheet => "The whole plan, to be signed and pinned to the wall",
        Kind::Cutter => {
            "Blanks and stops from the back, layer by layer, to be read at arm’s length"
        }
        Kind::Template => "True to size: where the sheet and its hinges go, corners to cut on",
        Kind::Steps => "What to do at the bench, to tick off",
        Kind::Order => {
            "What to buy: mouldings, glazing, boards, hardware. Of a folder, one list"
        }
        Kind::Client => {
            "All mats of the plan side by side in their frames, to choose from and to sign"
        }
    }
}

impl Printouts {
    pub(super) fn controls(&mut self, ui: &mut Ui, front: &Front<'_>, requests: &mut Requests) {
        ui.heading("Printouts");
        group(ui, "What to write", |ui| {
            for kind in Kind::ALL {
                let mut on = self.selection.kinds.contains(&kind);
                if ui.checkbox(&mut on, kind.name()).on_hover_text(about(kind)).changed() {
                    // In the order of the job.
                    let kinds = Kind::ALL.into_iter();
                    let has = |one: &Kind| {
                        if *one == kind { on } else { self.selection.kinds.contains(one) }
                    };
                    self.selection.kinds = kinds.filter(has).collect();
                }
            }
            for (drawing, label, hint) in DRAWINGS {
                let mut on = self.selection.drawings.contains(&drawing);
                if ui.checkbox(&mut on, label).on_hover_text(hint).changed() {
                    self.selection.drawings.retain(|one| *one != drawing);
                    if on {
                        self.selection.drawings.push(drawing);
                    }
                }
            }
        });
        group(ui, "On", |ui| self.measures(ui, front, requests));
        group(ui, "Of", |ui| self.scope(ui, front));
        ui.add_space(theme::GROUP);
        self.go(ui, front);
        self.writing(ui);
    }

    /// Paper, unit and ruler.
    fn measures(&mut self, ui: &mut Ui, front: &Front<'_>, requests: &mut Requests) {
        row(ui, "paper", |ui| {
            let options = Paper::ALL.map(|paper| (paper, paper.label()));
            let width = field_width(ui, 1);
            let picked = choice(ui, "Paper", Some(self.paper(front)), &options, width);
            self.selection.paper = picked.or(self.selection.paper);
        });
        let mut run = |command| requests.actions.push(Action::Run(command));
        row(ui, "unit", |ui| {
            let options = [(Unit::Inch, "in"), (Unit::Millimetre, "mm")];
            let width = field_width(ui, 1);
            if let Some(unit) = choice(ui, "Unit", Some(front.document.unit), &options, width) {
                run(Command::SetUnit(unit));
            }
        });
        row(ui, "ruler", |ui| {
            let ruler = front.document.ruler;
            let width = field_width(ui, 1);
            ComboBox::from_id_salt("printouts ruler")
                .width(width)
                .selected_text(wording::set(&ruler.name()))
                .show_ui(ui, |ui| {
                    for other in Ruler::all(Unit::Inch).chain(Ruler::all(Unit::Millimetre)) {
                        let same = other == ruler;
                        let name = wording::set(&other.name());
                        if ui.selectable_label(same, name).clicked() && !same {
                            run(Command::SetRuler(other));
                        }
                    }
                })
                .response
                .on_hover_text("The marks of the ruler you cut by")
                .widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, "Ruler"));
        });
    }

    /// One plan or many, from where, to where.
    fn scope(&mut self, ui: &mut Ui, front: &Front<'_>) {
        let options = [(Scope::Front, "This plan"), (Scope::Folder, "A folder of plans")];
        let width = ui.available_width();
        let now = Some(self.selection.scope);
        if let Some(scope) = choice(ui, "Printouts of", now, &options, width) {
            self.selection.scope = scope;
        }
        let mut asked = None;
        if self.selection.scope == Scope::Folder {
            let plans = self.plans(front);
            asked = folder_row(
                ui,
                "Plans in",
                "Folder of plans",
                &plans,
                &mut self.selection.plans,
            )
            .then_some((Purpose::Plans, plans));
        }
        let out = self.out(front);
        if folder_row(
            ui,
            "Printouts into",
            "Folder for printouts",
            &out,
            &mut self.selection.out,
        ) {
            asked = Some((Purpose::Printouts, out));
        }
        if let Some((what, near)) = asked {
            self.workers(ui).folder(what, near);
        }
    }

    /// The button, or how far it is.
    fn go(&mut self, ui: &mut Ui, front: &Front<'_>) {
        if let Writing::Now { done, of, failed, stopping } = &mut self.writing {
            let share = if *of == 0 { 0.0 } else { part(*done) / part(*of) };
            let text = match (*of, *failed) {
                (0, _) => "Writing…".to_owned(),
                (_, 0) => format!("{done} of {of} plans"),
                (_, failed) => format!("{done} of {of} plans, {failed} failed"),
            };
            ui.add(ProgressBar::new(share).text(text.clone()).desired_height(theme::ROW))
                .widget_info(|| WidgetInfo::labeled(Role::ProgressIndicator, true, &text));
            if *of > 1 {
                let label = if *stopping { "Stopping after this plan…" } else { "Stop" };
                if ui.add_enabled(!*stopping, Button::new(label)).clicked() {
                    *stopping = true;
                    self.stop.store(true, Ordering::Relaxed);
                }
            }
            return;
        }
        let any = !(self.selection.kinds.is_empty() && self.selection.drawings.is_empty());
        let label = match self.selection.scope {
            Scope::Front => "Write the printouts",
            Scope::Folder => "Write the printouts of all plans",
        };
        let size = egui::vec2(ui.available_width(), theme::ROW + 4.0);
        let off = (!any).then_some("Choose above what to write");
        if main_button(ui, label, size, off).1 {
            self.write(ui, front);
        }
    }

    /// How it ended.
    fn writing(&mut self, ui: &mut Ui) {
        let Writing::Ended(summary) = &self.writing else { return };
        ui.add_space(theme::GAP);
        egui::ScrollArea::vertical().auto_shrink([false, true]).show(ui, |ui| {
            let palette = theme::palette(ui);
            if summary.plans > 0 {
                ui.add(egui::Label::new(wrote(summary)).wrap());
            }
            if summary.stopped {
                ui.label("Stopped: the other plans have no printouts yet.");
            }
            for words in &summary.failed {
                let text = egui::RichText::new(format!("Not written: {words}"));
                ui.add(egui::Label::new(text.color(palette.fault)).wrap());
            }
            for words in &summary.told {
                ui.add(egui::Label::new(quiet(ui, words)).wrap());
            }
        });
    }
}

fn wrote(summary: &Summary) -> String {
    let Summary { plans, files, folder, .. } = summary;
    let files = if *files == 1 { "1 file".to_owned() } else { format!("{files} files") };
    let of = if *plans == 1 { String::new() } else { format!(" of {plans} plans") };
    format!("Written: {files}{of}, in {}.", folder.display())
}

fn part(count: usize) -> f32 {
    u16::try_from(count).map_or(f32::MAX, f32::from)
}
