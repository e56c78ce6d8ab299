//! Which plans are cut, and how many of each.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use egui::{Button, ScrollArea, Ui};
use sightedge_core::spec::Document;

use super::search::Chosen;
use super::shop::left;
use super::worker::Workers;
use super::{Sheets, Wanted, fields};
use crate::window::context::{Requests, ScreenContext};
use crate::window::theme;
use crate::window::widgets::{fitted, group, quiet};
use sightedge_service::plan_names::told_apart;

impl Sheets {
    /// Plans that were opened are in the list once; those that were closed stay, as they lie
    /// on the disk, if they have a place there.
    pub(super) fn follow_sessions(&mut self, cx: ScreenContext<'_>) {
        let open = |wanted: &Wanted| {
            wanted
                .session
                .is_none_or(|id| cx.sessions.iter().any(|(session, _)| *session == id))
        };
        self.wanted.retain(open);
        for (id, session) in cx.sessions {
            if self.wanted.iter().any(|wanted| wanted.session == Some(*id)) {
                continue;
            }
            // It was in the list already, from its folder.
            let listed =
                self.wanted.iter_mut().find(|w| w.session.is_none() && w.path == session.plan);
            if let Some(wanted) = listed {
                (wanted.session, wanted.document) = (Some(*id), None);
            } else {
                let (title, path) = (session.title(), session.plan.clone());
                let session = Some(*id);
                self.wanted.push(Wanted { title, session, path, document: None, count: 1 });
            }
        }
        self.call_apart(cx);
    }

    /// Gives every plan in the list a name of its own.
    fn call_apart(&mut self, cx: ScreenContext<'_>) {
        let plans: Option<Vec<(&Document, &Path)>> = self
            .wanted
            .iter()
            .map(|wanted| {
                let open = || {
                    let open = cx.sessions.iter().find(|(id, _)| Some(*id) == wanted.session);
                    open.map(|(_, session)| session.document())
                };
                wanted.document.as_ref().or_else(open).map(|it| (it, wanted.path.as_path()))
            })
            .collect();
        let Some(called) = plans.map(told_apart) else { return };
        for (wanted, name) in self.wanted.iter_mut().zip(called) {
            wanted.title = name;
        }
    }

    /// Reads the plans of a folder, or one plan, after those that are being read.
    pub(in crate::window::screens) fn gather(
        &mut self,
        context: &egui::Context,
        path: PathBuf,
    ) {
        self.workers(context).folders.request(path);
    }

    /// Takes in folders that were read, and one that was chosen.
    pub(super) fn follow_folders(&mut self, requests: &mut Requests) {
        let Some(workers) = &mut self.workers else { return };
        for chosen in workers.dialogs.closed() {
            if let Some(path) = chosen.path {
                workers.folders.request(path);
            } else {
                requests.said = Some(
                    "No folder was chosen. If no dialog opens, type the folder beside the button, \
                     or drop it on the window."
                        .to_owned(),
                );
            }
        }
        for (found, said) in workers.folders.replies() {
            for found in found {
                if self.wanted.iter().any(|wanted| wanted.path == found.path) {
                    continue;
                }
                let (title, path) = (title(&found.path), found.path);
                let document = Some(found.document);
                self.wanted.push(Wanted { title, session: None, path, document, count: 1 });
            }
            if !said.is_empty() {
                requests.said = Some(said.join("; "));
            }
        }
    }

    /// The plans that count, as they stand now.
    pub(super) fn chosen(&self, cx: ScreenContext<'_>) -> Vec<Chosen> {
        let plan = |wanted: &Wanted| {
            let document = match (&wanted.document, wanted.session) {
                (Some(document), _) => document.clone(),
                (None, id) => {
                    let open = cx.sessions.iter().find(|(session, _)| Some(*session) == id);
                    open?.1.document().clone()
                }
            };
            (wanted.count > 0).then(|| (wanted.title.clone(), document, wanted.count))
        };
        self.wanted.iter().filter_map(plan).collect()
    }

    /// The boards of all plans in the list.
    pub(super) fn board_names(&self, cx: ScreenContext<'_>) -> Vec<String> {
        let mut names = BTreeSet::new();
        let mut add = |document: &Document| {
            if let Some(variant) = document.chosen() {
                let layers = variant.mat.layers.iter().map(|layer| &layer.board);
                names.extend(layers.map(|board| board.name.clone()));
                names.insert(variant.mat.backing.board.name.clone());
            }
        };
        cx.sessions.iter().for_each(|(_, session)| add(session.document()));
        self.wanted.iter().filter_map(|wanted| wanted.document.as_ref()).for_each(&mut add);
        names.into_iter().collect()
    }

    pub(super) fn choosing(
        &mut self,
        ui: &mut Ui,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
        rows: f32,
    ) {
        group(ui, "Plans to cut", |ui| {
            if self.wanted.is_empty() {
                ui.label(quiet(ui, "None yet: open a plan, or add a folder of plans."));
            }
            let mut gone = None;
            ScrollArea::vertical()
                .id_salt("plans")
                .max_height(rows * (theme::ROW + theme::GAP))
                .auto_shrink([false, true])
                .show(ui, |ui| {
                    for (index, wanted) in self.wanted.iter_mut().enumerate() {
                        ui.push_id(index, |ui| {
                            if plan(ui, wanted, requests) {
                                gone = Some(index);
                            }
                        });
                    }
                });
            if let Some(gone) = gone {
                self.wanted.remove(gone);
            }
            ui.horizontal(|ui| {
                let hint = "/home/you/prints";
                let width = ui.available_width() - 96.0;
                if let Some(path) =
                    fields::text(ui, "A folder of plans, or a plan", "", hint, width)
                    && !path.trim().is_empty()
                {
                    let path = PathBuf::from(path.trim());
                    self.gather(ui.ctx(), path);
                }
                let button = Button::new("Add plans…").min_size(egui::vec2(88.0, theme::ROW));
                let busy = |workers: &Workers| {
                    workers.dialogs.pending() + workers.folders.pending() > 0
                };
                let free = !self.workers.as_ref().is_some_and(busy);
                let hint = "Choose a folder: every plan in it is added, once";
                if ui.add_enabled(free, button).on_hover_text(hint).clicked() {
                    let near = cx.session().and_then(|session| session.plan.parent());
                    self.workers(ui.ctx()).ask_for_folder(near.map(Path::to_owned));
                }
            });
        });
    }
}

/// One plan with its count; whether it is to leave the list.
fn plan(ui: &mut Ui, wanted: &mut Wanted, requests: &mut Requests) -> bool {
    ui.horizontal(|ui| {
        ui.set_min_height(theme::ROW);
        let name = fitted(ui, &wanted.title, 196.0);
        let place = wanted.path.display().to_string();
        let whole = format!("{}\n{place}", wanted.title);
        left(ui, 200.0, theme::ROW, |ui| ui.label(name)).on_hover_text(whole);
        let label = format!("How many of {}", wanted.title);
        match fields::count(ui, &label, Some(wanted.count), "0", 56.0) {
            Some(Ok(count)) => wanted.count = count.unwrap_or(0).min(999),
            Some(Err(words)) => requests.said = Some(words),
            None => {}
        }
        ui.label(quiet(ui, if wanted.count == 1 { "mat" } else { "mats" }));
        if wanted.session.is_some() {
            return false;
        }
        let button = Button::new("×").frame_when_inactive(false);
        let response = ui.add(button).on_hover_text("Take it out of the list");
        let label = format!("Take {} out of the list", wanted.title);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &label));
        response.clicked()
    })
    .inner
}

/// A plan's name without its ending.
fn title(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    name.trim_end_matches(".sightedge.ron").to_owned()
}
