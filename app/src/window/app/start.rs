//! Nothing open yet: what to do first, and a place to do it.

use std::path::PathBuf;

use egui::{Align2, Key, RichText, Ui, vec2};

use crate::window::context::Requests;
use crate::window::request::{Action, AppCommand};
use crate::window::theme;
use crate::window::widgets::{main_button, quiet};

/// What the start keeps between frames.
#[derive(Clone, Debug, Default)]
pub(crate) struct Start {
    typed: String,
}

/// Shows what to do first.
pub(crate) fn start(
    ui: &mut Ui,
    kept: &mut Start,
    recent: &[PathBuf],
    greeting: bool,
    requests: &mut Requests,
) {
    let room = ui.available_rect_before_wrap();
    let width = 440.0_f32.min(room.width() - 48.0);
    let height =
        if recent.is_empty() { 216.0 } else { 400.0 } + if greeting { 120.0 } else { 0.0 };
    let area = Align2::CENTER_CENTER.align_size_within_rect(vec2(width, height), room);
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        ui.spacing_mut().item_spacing.y = 8.0;
        ui.label(
            RichText::new("Open the picture to be matted")
                .family(theme::strong())
                .size(theme::HEADING),
        );
        ui.label(
            "You see the mat round it at true proportion. Drag its edges: reveal, borders, \
             undermats. The checks tell you at once what would fail.",
        );
        if greeting {
            greet(ui);
        }
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            let size = vec2(150.0, 34.0);
            if main_button(ui, "Open a picture…", size, None).1 {
                requests.actions.push(Action::Do(AppCommand::Open));
            }
            let demo = egui::Button::new("Open the demo").min_size(vec2(130.0, 34.0));
            if ui.add(demo).on_hover_text(AppCommand::OpenDemo.hint()).clicked() {
                requests.actions.push(Action::Do(AppCommand::OpenDemo));
            }
        });
        ui.label(quiet(ui, "Or drop it on this window, or type its path:"));
        let edit = egui::TextEdit::singleline(&mut kept.typed)
            .hint_text("/home/you/prints/picture.tif")
            .desired_width(width - 16.0)
            .min_size(vec2(width - 16.0, theme::ROW));
        let response = ui.add(edit);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Path of a picture")
        });
        if response.lost_focus()
            && ui.input(|input| input.key_pressed(Key::Enter))
            && !kept.typed.trim().is_empty()
        {
            let path = PathBuf::from(kept.typed.trim());
            requests.actions.push(Action::Do(AppCommand::OpenPath(path)));
        }
        if !recent.is_empty() {
            ui.add_space(16.0);
            ui.label(RichText::new("Opened recently").family(theme::strong()));
            for path in recent.iter().take(5) {
                let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
                let name = name.strip_suffix(".sightedge.ron").unwrap_or(&name).to_owned();
                let button = egui::Button::new(name).frame(false);
                if ui.add(button).on_hover_text(path.display().to_string()).clicked() {
                    requests.actions.push(Action::Do(AppCommand::OpenPath(path.clone())));
                }
            }
        }
    });
}

/// What to do, in three lines: shown at the first start.
pub(crate) const FIRST_STEPS: [&str; 3] = [
    "Open a picture, and give the size of its sheet and image.",
    "Drag the edges of the mat or type their sizes, and mend what the checks find.",
    "Go down the list at the left: hinges and frame, printouts, cutting, the bench, the edition. \
     F1 explains keys and words.",
];

/// The same below a board that is open already; whether they were read.
pub(crate) fn welcome(ui: &mut Ui) -> bool {
    let palette = theme::palette(ui);
    let frame = egui::Frame::new().fill(palette.hover).inner_margin(12.0);
    let panel = egui::Panel::bottom("first steps").frame(frame).resizable(false);
    let shown = panel.show(ui, |ui| {
        greet(ui);
        ui.add_space(4.0);
        ui.button("Got it").clicked()
    });
    shown.inner
}

/// Those lines, numbered.
pub(crate) fn greet(ui: &mut Ui) {
    for (index, words) in FIRST_STEPS.iter().enumerate() {
        ui.horizontal_top(|ui| {
            ui.label(RichText::new(format!("{}.", index + 1)).family(theme::strong()));
            ui.add(egui::Label::new(*words).wrap());
        });
    }
}
