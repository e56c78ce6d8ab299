//! The main button of a place: the one that most will press there. It has a key.

use egui::{Button, Response, RichText, Ui, Vec2};

use crate::window::request::AppCommand;
use crate::window::theme;

/// Shows the button, at least so large; says whether it was pressed, by the mouse or by its key.
/// `off` says why it cannot be pressed now.
pub fn main_button(
    ui: &mut Ui,
    words: &str,
    size: Vec2,
    off: Option<&str>,
) -> (Response, bool) {
    let palette = theme::palette(ui);
    let text = RichText::new(words).color(palette.on_accent);
    let button = Button::new(text).fill(palette.accent).min_size(size);
    let response = ui.add_enabled(off.is_none(), button);
    if response.has_focus() {
        // On the accent, the usual mark of focus would not be seen.
        let stroke = egui::Stroke::new(1.5, palette.text);
        let ring = response.rect.expand(2.0);
        ui.painter().rect_stroke(ring, 6.0, stroke, egui::StrokeKind::Middle);
    }
    let shortcut = AppCommand::MAIN;
    let keyed = off.is_none()
        && ui.memory(|memory| memory.is_above_modal_layer(ui.layer_id()))
        && ui.input_mut(|input| input.consume_shortcut(&shortcut));
    let key = ui.ctx().format_shortcut(&shortcut);
    let response = response.on_hover_text(format!("{words} ({key})"));
    let response = response.on_disabled_hover_text(off.unwrap_or_default());
    let pressed = response.clicked() || keyed;
    (response, pressed)
}
