//! The line at the top: open plans, what can be done, how it is shown.

use egui::{Align, Layout, Rect, RichText, Ui, UiBuilder, pos2};

use sightedge_pictures::colour::Vision;

use super::tabs::{Tab, TabEvent, tabs};
use crate::window::context::Requests;
use crate::window::request::{Action, AppCommand};
use crate::window::theme;
use crate::window::widgets::{icon_button, quiet};
use sightedge_service::settings::{SURROUNDS, Settings};

/// What the top line shows.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Top<'a> {
    /// The open plans.
    pub tabs: &'a [Tab],
    /// The one in front.
    pub front: Option<usize>,
    /// Whether the board is what is looked at.
    pub board: bool,
    /// Whether it is seen at true size.
    pub true_size: bool,
    /// Whether the one in front was ever saved.
    pub saved: bool,
    /// What undo and redo would do.
    pub steps: (Option<&'a str>, Option<&'a str>),
}

/// Between the buttons.
const BETWEEN: f32 = 4.0;
/// From this width on, in points, what shows more on the board has buttons of its own.
const ROOMY: f32 = 900.0;
/// From this width on, true size has one, too: before, the tabs need the room.
const ROOMIER: f32 = 1150.0;
/// What shows more of the board, or all of it.
const VIEWS: [AppCommand; 6] = [
    AppCommand::Dimensions,
    AppCommand::Hidden,
    AppCommand::Corner,
    AppCommand::Frame,
    AppCommand::TrueSize,
    AppCommand::Fit,
];
/// Whether a view has a button of its own in a line so wide.
fn has_button(view: &AppCommand, width: f32) -> bool {
    width >= if *view == AppCommand::TrueSize { ROOMIER } else { ROOMY }
}
/// The name of the menu at the end.
const MORE: &str = "…";

/// Shows the line from left to right; gives the tab that was pressed, if any.
pub(crate) fn top(
    ui: &mut Ui,
    top: Top<'_>,
    settings: &mut Settings,
    vision: &mut Option<Vision>,
    requests: &mut Requests,
) -> Option<TabEvent> {
    let room = ui.max_rect();
    let open = top.front.is_some();
    let (views, others): (Vec<AppCommand>, Vec<AppCommand>) =
        VIEWS.into_iter().partition(|view| has_button(view, room.width()));
    let views = if open && top.board { views } else { Vec::new() };
    let mut ends = MORE.to_owned();
    let mut wide = button_width(ui, MORE);
    if let Some(seen) = vision.filter(|_| open) {
        without(seen).clone_into(&mut ends);
        wide += button_width(ui, &ends) + BETWEEN;
    }
    wide += views.iter().map(|view| button_width(ui, view.label()) + BETWEEN).sum::<f32>();
    let (middle, right) = room.split_left_right_at_x(room.right() - wide);

    let mut left = line(ui, middle);
    let mut command = |ui: &mut Ui, command: AppCommand, of: Option<&str>, enabled: bool| {
        if icon_button(ui, &command, of, enabled, false) {
            requests.actions.push(Action::Do(command));
        }
    };
    let (undo, redo) = top.steps;
    command(&mut left, AppCommand::Open, None, true);
    command(&mut left, AppCommand::Save, None, open);
    command(&mut left, AppCommand::Undo, undo, undo.is_some());
    command(&mut left, AppCommand::Redo, redo, redo.is_some());
    left.separator();
    let from = left.cursor().left();
    let strip =
        Rect::from_min_max(pos2(from, room.top()), pos2(middle.right() - 12.0, room.bottom()));
    let pressed = tabs(ui, strip, top.tabs, top.front);

    let mut right = line(ui, right);
    if let Some(_seen) = vision.filter(|_| open) {
        let text = RichText::new(&ends).color(theme::palette(ui).caution);
        let hint = "These are not the true colours: press to see them again";
        if right.button(text).on_hover_text(hint).clicked() {
            *vision = None;
        }
    }
    for view in views {
        let on = shown(&view, settings) || (view == AppCommand::TrueSize && top.true_size);
        if icon_button(&mut right, &view, None, open, on) {
            requests.actions.push(Action::Do(view));
        }
    }
    right
        .menu_button(MORE, |ui| menu(ui, (top, others), settings, vision, requests))
        .response
        .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, "More"));
    pressed
}

/// Buttons in a row within `room`.
fn line(ui: &mut Ui, room: Rect) -> Ui {
    let layout = Layout::left_to_right(Align::Center);
    let mut line = ui.new_child(UiBuilder::new().max_rect(room).layout(layout));
    line.spacing_mut().item_spacing.x = BETWEEN;
    line
}

/// How wide a button with these words is.
fn button_width(ui: &Ui, words: &str) -> f32 {
    let font = egui::FontId::proportional(theme::BODY);
    let ink = egui::Color32::PLACEHOLDER;
    let text = ui.painter().layout_no_wrap(words.to_owned(), font, ink).size().x;
    let padding = ui.spacing().button_padding.x * 2.0;
    (text + padding).max(ui.spacing().interact_size.x).ceil() + 1.0
}

/// Whether what a view shows is shown.
const fn shown(view: &AppCommand, settings: &Settings) -> bool {
    match view {
        // A frame leaves dimension lines no room.
        AppCommand::Dimensions => settings.dimensions && !settings.frame,
        AppCommand::Hidden => settings.hidden,
        AppCommand::Corner => settings.corner,
        AppCommand::Frame => settings.frame,
        _ => false,
    }
}

const fn without(seen: Vision) -> &'static str {
    match seen {
        Vision::Protan => "Seen without red",
        Vision::Deutan => "Seen without green",
        Vision::Tritan => "Seen without blue",
    }
}

fn menu(
    ui: &mut Ui,
    (top, others): (Top<'_>, Vec<AppCommand>),
    settings: &mut Settings,
    vision: &mut Option<Vision>,
    requests: &mut Requests,
) {
    let open = top.front.is_some();
    let mut entry = |ui: &mut Ui, command: AppCommand, enabled: bool| {
        let mut button = egui::Button::new(command.label());
        if let Some(shortcut) = command.shortcut() {
            button = button.shortcut_text(ui.ctx().format_shortcut(&shortcut));
        }
        if ui.add_enabled(enabled, button).on_hover_text(command.hint()).clicked() {
            requests.actions.push(Action::Do(command));
            ui.close();
        }
    };
    entry(ui, AppCommand::SaveAs, open);
    entry(ui, AppCommand::Revert, open && top.saved);
    entry(ui, AppCommand::Close, open);
    entry(ui, AppCommand::NextPlan, top.tabs.len() > 1);
    entry(ui, AppCommand::PlanBefore, top.tabs.len() > 1);
    ui.separator();
    if open && top.board {
        // Those that have no button of their own.
        for view in others {
            entry(ui, view, true);
        }
        entry(ui, AppCommand::Client, true);
        entry(ui, AppCommand::Magnifier, true);
        ui.separator();
    }
    entry(ui, AppCommand::Theme, true);
    ui.label(quiet(ui, &format!("Text at {} %", settings.text)));
    entry(ui, AppCommand::TextLarger, true);
    entry(ui, AppCommand::TextSmaller, true);
    entry(ui, AppCommand::TextUsual, true);
    ui.separator();
    ui.label(quiet(ui, "Surround"));
    ui.horizontal(|ui| surrounds(ui, settings));
    entry(ui, AppCommand::Monitor, true);
    ui.separator();
    ui.label(quiet(ui, "See the board as people do who"));
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
    ui.separator();
    entry(ui, AppCommand::Help, true);
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
