//! Words and slanting lines on the drawing of a sheet.

use egui::{Align2, Color32, FontId, Painter, Rect, Stroke, Ui, pos2, vec2};

use crate::window::theme;
use crate::window::widgets::fitted;

/// Lines of text in the middle of a place; as many as have room. What is drawn there already
/// is covered by the ground, where there is one.
pub(super) fn label(
    ui: &Ui,
    painter: &Painter,
    place: Rect,
    lines: &[String],
    (ink, ground): (Color32, Option<Color32>),
) {
    let each = 16.0;
    let room = place.shrink(6.0);
    let lines: Vec<&String> = lines.iter().filter(|line| !line.is_empty()).collect();
    let mut many = 0;
    while many < lines.len() && each * real_count(many + 1) <= room.height() {
        many += 1;
    }
    if room.width() < 28.0 {
        return;
    }
    let mut y = room.center().y - each * real_count(many) / 2.0 + each / 2.0;
    for line in lines.into_iter().take(many) {
        let text = fitted(ui, line, room.width());
        let font = FontId::proportional(theme::SMALL);
        let text = painter.layout_no_wrap(text, font, ink);
        let at = pos2(room.center().x, y);
        let rect = Align2::CENTER_CENTER.anchor_size(at, text.size());
        if let Some(ground) = ground {
            painter.rect_filled(rect.expand2(vec2(2.0, 0.0)), 0.0, ground);
        }
        painter.galley(rect.min, text, ink);
        y += each;
    }
}

fn real_count(count: usize) -> f32 {
    f32::from(u8::try_from(count).unwrap_or(u8::MAX))
}

/// Slanting lines over what is left.
pub(super) fn hatch(painter: &Painter, place: Rect, ink: Color32) {
    let painter = painter.with_clip_rect(place.intersect(painter.clip_rect()));
    let mut x = place.left() - place.height();
    while x < place.right() {
        let from = pos2(x, place.bottom());
        let to = pos2(x + place.height(), place.top());
        painter.line_segment([from, to], Stroke::new(1.0, ink));
        x += 10.0;
    }
}
