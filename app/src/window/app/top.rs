//! The line at the top: open plans, what can be done, how it is shown.

use egui::{Align, Layout, RichText, Ui};

use sightedge_pictures::colour::Vision;

use crate::window::context::Requests;
use crate::window::request::{Action, AppCommand};
use crate::window::theme;
use crate::window::widgets::icon_button;
use sightedge_service::settings::{SURROUNDS, Settings};

/// A plan in the line of open ones.
#[derive(Clone, Debug)]
pub(crate) struct Tab {
    /// Its name.
    pub title: String,
    /// Whether something is not saved.
    pub unsaved: bool,
}

/// What the top line shows.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Top<'a> {
    /// The open plans.
    pub tabs: &'a [Tab],
    /// The one in front.
    pub front: Option<usize>,
    /// Whether the board is what is looked at.
    pub board: bool,
    /// Whether the one in front was ever saved.
    pub saved: bool,
    /// What undo and redo would do.
    pub steps: (Option<&'a str>, Option<&'a str>),
}

/// Shows the line; gives the tab that was pressed, if any.
pub(crate) fn top(
    ui: &mut Ui,
    top: Top<'_>,
    settings: &mut Settings,
    vision: &mut Option<Vision>,
    requests: &mut Requests,
) -> Option<usize> {
    let mut picked = None;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        let mut command =
            |ui: &mut Ui, command: AppCommand, of: Option<&str>, enabled: bool| {
                if icon_button(ui, &command, of, enabled, false) {
                    requests.actions.push(Action::Do(command));
                }
            };
        let open = top.front.is_some();
        command(ui, AppCommand::Open, None, true);
        command(ui, AppCommand::Save, None, open);
        let (undo, redo) = top.steps;
        command(ui, AppCommand::Undo, undo, undo.is_some());
        command(ui, AppCommand::Redo, redo, redo.is_some());
        ui.separator();
        for (index, tab) in top.tabs.iter().enumerate() {
            let front = top.front == Some(index);
            let mark = if tab.unsaved { " •" } else { "" };
            let mut text = RichText::new(format!("{}{mark}", short(&tab.title)));
            if front {
                text = text.family(theme::strong());
            }
            let button = egui::Button::new(text).frame_when_inactive(false).selected(front);
            let hint = if tab.unsaved { "Not saved yet" } else { "Saved" };
            if ui.add(button).on_hover_text(hint).clicked() {
                picked = Some(index);
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.menu_button("…", |ui| {
                for command in [
                    AppCommand::SaveAs,
                    AppCommand::Revert,
                    AppCommand::Close,
                    AppCommand::Theme,
                ] {
                    let shortcut = command.shortcut();
                    let mut button = egui::Button::new(command.label());
                    if let Some(shortcut) = shortcut {
                        button = button.shortcut_text(ui.ctx().format_shortcut(&shortcut));
                    }
                    let enabled = match command {
                        AppCommand::Theme => true,
                        AppCommand::Revert => open && top.saved,
                        _ => open,
                    };
                    if ui.add_enabled(enabled, button).on_hover_text(command.hint()).clicked() {
                        requests.actions.push(Action::Do(command));
                        ui.close();
                    }
                }
                ui.separator();
                ui.label(crate::window::widgets::quiet(ui, "Surround"));
                ui.horizontal(|ui| surrounds(ui, settings));
                ui.separator();
                ui.label(crate::window::widgets::quiet(ui, "See the board as people do who"));
                for (seen, words) in [
                    (None, "see all colours"),
                    (Some(Vision::Protan), "lack red (protan)"),
                    (Some(Vision::Deutan), "lack green (deutan)"),
                    (Some(Vision::Tritan), "lack blue (tritan)"),
                ] {
                    if ui.selectable_label(*vision == seen, words).clicked() {
                        *vision = seen;
                    }
                }
            })
            .response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, "More"));
            if !open {
                return;
            }
            if let Some(seen) = *vision {
                let words = match seen {
                    Vision::Protan => "Seen without red",
                    Vision::Deutan => "Seen without green",
                    Vision::Tritan => "Seen without blue",
                };
                let text = RichText::new(words).color(theme::palette(ui).caution);
                let hint = "The colours are not as they are: press to see them all again";
                if ui.button(text).on_hover_text(hint).clicked() {
                    *vision = None;
                }
            }
            if !top.board {
                return;
            }
            let mut command = |ui: &mut Ui, command: AppCommand, on: bool| {
                if icon_button(ui, &command, None, open, on) {
                    requests.actions.push(Action::Do(command));
                }
            };
            command(ui, AppCommand::Fit, false);
            command(ui, AppCommand::Corner, settings.corner);
            command(ui, AppCommand::Hidden, settings.hidden);
            command(ui, AppCommand::Dimensions, settings.dimensions);
        });
    });
    picked
}

fn surrounds(ui: &mut Ui, settings: &mut Settings) {
    let palette = theme::palette(ui);
    for grey in SURROUNDS {
        let (rect, response) =
            ui.allocate_exact_size(egui::vec2(24.0, 24.0), egui::Sense::click());
        let on = settings.surround == grey;
        let edge = if on || response.hovered() || response.has_focus() {
            egui::Stroke::new(2.0, palette.accent)
        } else {
            egui::Stroke::new(1.0, palette.line)
        };
        let fill = egui::Color32::from_gray(grey);
        ui.painter().rect(rect, 4.0, fill, edge, egui::StrokeKind::Inside);
        response.widget_info(|| {
            let text = format!("Surround of grey {grey}");
            egui::WidgetInfo::selected(egui::Role::RadioButton, true, on, text)
        });
        if response
            .on_hover_text("The grey round the board; colour is judged best on a middle one")
            .clicked()
        {
            settings.surround = grey;
        }
    }
}

/// A title that leaves room for others.
fn short(title: &str) -> String {
    const MOST: usize = 26;
    if title.chars().count() <= MOST {
        return title.to_owned();
    }
    let head: String = title.chars().take(MOST - 1).collect();
    format!("{head}…")
}
