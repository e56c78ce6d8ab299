//! Rows of words and figures.

use egui::{TextEdit, Ui, WidgetInfo};

use crate::window::widgets;

/// The fields' width, in points.
pub(super) const WIDE: f32 = 320.0;

/// A field for words, called `name`.
pub(super) fn field(ui: &mut Ui, name: &str, text: &mut String, hint: &str, width: f32) {
    let edit = TextEdit::singleline(text).desired_width(width).hint_text(hint);
    let response = ui.add(edit).on_hover_text(name);
    let value = text.clone();
    response.widget_info(|| {
        let mut info = WidgetInfo::text_edit(true, "", &value, hint);
        info.label = Some(name.to_owned());
        info
    });
}

/// A row of one field that is called as its label.
pub(super) fn line(ui: &mut Ui, label: &str, text: &mut String, hint: &str) {
    widgets::row(ui, label, |ui| field(ui, label, text, hint, WIDE));
}

/// The width of one of `count` fields side by side.
pub(super) fn part(ui: &Ui, count: u8) -> f32 {
    let count = f32::from(count);
    (WIDE - (count - 1.0) * ui.spacing().item_spacing.x) / count
}

/// Why, for the history.
pub(super) fn why(ui: &mut Ui, text: &mut String) {
    ui.add_space(8.0);
    line(ui, "Why", text, "for the history; may be empty");
}

/// A whole number.
pub(super) fn figure(text: &str, what: &str, example: &str) -> Result<u32, String> {
    text.trim().parse().map_err(|_| format!("\"{}\" is no {what}: try {example}.", text.trim()))
}

/// A whole number, or nothing.
pub(super) fn figure_or_none(text: &str, what: &str, example: &str) -> Result<u32, String> {
    if text.trim().is_empty() { Ok(0) } else { figure(text, what, example) }
}
