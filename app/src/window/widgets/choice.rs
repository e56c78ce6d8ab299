//! A choice of a few words, side by side.

use egui::{Role, Ui, WidgetInfo, vec2};

use super::fitted;
use super::hint::with_row_hint;
use crate::window::theme;

/// Shows `options` side by side across `width`; gives the one that was pressed and is not
/// the chosen one.
pub fn choice<T: Copy + PartialEq>(
    ui: &mut Ui,
    name: &str,
    chosen: Option<T>,
    options: &[(T, &str)],
    width: f32,
) -> Option<T> {
    let palette = theme::palette(ui);
    let mut picked = None;
    let count = f32::from(u8::try_from(options.len().max(1)).unwrap_or(u8::MAX));
    let each = width / count;
    let (rect, _) = ui.allocate_exact_size(vec2(width, theme::ROW), egui::Sense::hover());
    ui.painter().rect(
        rect,
        4.0,
        palette.trough,
        egui::Stroke::new(1.0, palette.line),
        egui::StrokeKind::Inside,
    );
    let mut left = rect.left();
    for (value, label) in options {
        let part =
            egui::Rect::from_min_size(egui::pos2(left, rect.top()), vec2(each, theme::ROW));
        left += each;
        let id = ui.make_persistent_id((name, *label));
        let response = ui.interact(part, id, egui::Sense::click());
        let on = chosen == Some(*value);
        if on {
            ui.painter().rect(
                part.shrink(2.0),
                3.0,
                palette.raised,
                egui::Stroke::new(1.0, palette.line),
                egui::StrokeKind::Inside,
            );
        }
        if response.has_focus() {
            ui.painter().rect_stroke(
                part.shrink(1.0),
                4.0,
                egui::Stroke::new(1.5, palette.accent),
                egui::StrokeKind::Inside,
            );
        }
        let ink = if on || response.hovered() { palette.text } else { palette.quiet };
        let shown = fitted(ui, label, each - 6.0);
        ui.painter().text(
            part.center(),
            egui::Align2::CENTER_CENTER,
            &shown,
            egui::FontId::proportional(theme::BODY),
            ink,
        );
        let text = format!("{name}: {label}");
        response.widget_info(|| {
            WidgetInfo::selected(Role::RadioButton, ui.is_enabled(), on, &text)
        });
        if response.clicked() && !on {
            picked = Some(*value);
        }
        let response = if shown == *label { response } else { response.on_hover_text(*label) };
        with_row_hint(ui, response);
    }
    picked
}

/// An entry of a menu; says whether it was taken and is another one. The menu closes by the
/// keyboard as by the mouse.
pub fn entry(ui: &mut Ui, chosen: bool, words: &str) -> bool {
    let taken = ui.selectable_label(chosen, words).clicked();
    if taken {
        ui.close();
    }
    taken && !chosen
}
