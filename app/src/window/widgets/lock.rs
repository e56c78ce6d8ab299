//! A lock beside a field: closed while what it says is kept.

use egui::{Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};

use crate::window::theme;

/// Shows a lock called `name` at the right of `room`, closed or open; a press asks for the other.
pub fn lock(ui: &mut Ui, room: Rect, name: &str, closed: bool) -> Response {
    let palette = theme::palette(ui);
    let side = theme::ROW - 4.0;
    let centre = room.right_center() - vec2(side / 2.0 + 4.0, 0.0);
    let rect = Rect::from_center_size(centre, vec2(side, side));
    let id = ui.make_persistent_id(("lock", name));
    let response = ui.interact(rect, id, Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, closed, name));
    let painter = ui.painter();
    if response.hovered() {
        painter.rect_filled(rect, 4.0, palette.hover);
    }
    if response.has_focus() {
        let stroke = Stroke::new(1.5, palette.accent);
        painter.rect_stroke(rect, 4.0, stroke, StrokeKind::Inside);
    }
    let ink = if response.hovered() || closed { palette.text } else { palette.quiet };
    let body = Rect::from_center_size(centre + vec2(0.0, 3.0), vec2(10.0, 7.0));
    painter.rect_filled(body, 1.5, ink);
    // The bow: both of its legs in the body, or one of them lifted out.
    let (left, right, top) = (body.left() + 2.0, body.right() - 2.0, body.top() - 6.0);
    let end = if closed { body.top() } else { body.top() - 3.5 };
    let bow = vec![
        pos2(left, body.top()),
        pos2(left, top + 2.0),
        pos2(left + 2.0, top),
        pos2(right - 2.0, top),
        pos2(right, top + 2.0),
        pos2(right, end),
    ];
    painter.line(bow, Stroke::new(1.5, ink));
    response
}
