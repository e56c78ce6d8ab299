//! A finding's words beside the pointer, where a number is not enough.

use egui::text::{LayoutJob, TextFormat};
use egui::{FontId, Painter, Pos2, Rect, Stroke, StrokeKind, Ui, os::OperatingSystem, vec2};
use sightedge_core::finding::Finding;

use super::label_rect;
use crate::window::theme;
use sightedge_service::wording;

/// The width that a finding's words wrap at, in points.
const WIDE: f32 = 300.0;

/// What is beyond the last good place: the finding's words in the place of the number.
pub(super) fn show(ui: &Ui, painter: &Painter, at: Pos2, finding: &Finding) {
    let palette = theme::palette(ui);
    let room = painter.clip_rect().shrink(4.0);
    let mut job = LayoutJob::default();
    job.wrap.max_width = WIDE.min(room.width() - 20.0).max(80.0);
    let colour = palette.severity(finding.severity);
    let font = FontId::new(theme::BODY, theme::strong());
    job.append(finding.severity.name(), 0.0, TextFormat::simple(font, colour));
    let words = format!("  {}", wording::sentence(&finding.message));
    let font = FontId::proportional(theme::BODY);
    job.append(&words, 0.0, TextFormat::simple(font, palette.text));
    let galley = painter.layout_job(job);
    let size = galley.size() + vec2(20.0, 12.0);
    let rect = label_rect(at, size, painter.clip_rect());
    let rect = Rect::from_min_size(rect.min.max(room.min), size);
    painter.rect(rect, 5.0, palette.panel, Stroke::new(1.5, colour), StrokeKind::Inside);
    painter.galley(rect.min + vec2(10.0, 6.0), galley, palette.text);
}

/// Words about keys as they are called on this keyboard.
pub(crate) fn for_keyboard(context: &egui::Context, words: &str) -> String {
    match context.os() {
        OperatingSystem::Mac | OperatingSystem::IOS => words.replace("Ctrl", "Cmd"),
        _ => words.to_owned(),
    }
}
