//! Nothing open yet: what to do first, and a place to do it.

use std::path::PathBuf;

use egui::{Align2, Key, RichText, Ui, vec2};

use crate::window::context::Requests;
use crate::window::request::{Action, AppCommand};
use crate::window::theme;
use crate::window::widgets::quiet;

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
    requests: &mut Requests,
) {
    let room = ui.available_rect_before_wrap();
    let width = 440.0_f32.min(room.width() - 48.0);
    let height = if recent.is_empty() { 216.0 } else { 400.0 };
    let area = Align2::CENTER_CENTER.align_size_within_rect(vec2(width, height), room);
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        ui.spacing_mut().item_spacing.y = 8.0;
        ui.label(
            RichText::new("Open the picture to be matted")
                .family(theme::strong())
                .size(theme::HEADING),
        );
        ui.label(
            "You see the mat round it at true proportion. Drag its edges: the reveal, the \
             weight below, the undermat. The checks say at once what would fail.",
        );
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            let primary = egui::Button::new(
                RichText::new("Open a picture…").color(theme::palette(ui).on_accent),
            )
            .fill(theme::palette(ui).accent)
            .min_size(vec2(150.0, 34.0));
            if ui.add(primary).clicked() {
                requests.actions.push(Action::Do(AppCommand::Open));
            }
            let demo = egui::Button::new("Open the demo").min_size(vec2(130.0, 34.0));
            if ui.add(demo).on_hover_text(AppCommand::OpenDemo.hint()).clicked() {
                requests.actions.push(Action::Do(AppCommand::OpenDemo));
            }
        });
        ui.label(quiet(ui, "Or drop it on this window, or type where it is:"));
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
            ui.label(RichText::new("Opened lately").family(theme::strong()));
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
