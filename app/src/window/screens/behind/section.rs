//! The section through the package, to scale.

use egui::{CentralPanel, Frame, Rect, Role, Sense, Ui, Vec2, WidgetInfo, vec2};
use sightedge_core::plates;

use crate::window::canvas::Lens;
use crate::window::canvas::paint::{Inks, paint};
use crate::window::context::View;
use crate::window::theme;

/// Text of figures, in points.
const FIGURE: f32 = 12.0;
/// The section with its names at the largest, in points.
const LARGEST: Vec2 = vec2(720.0, 560.0);

pub(super) fn show(ui: &mut Ui, view: &View<'_>) {
    let palette = theme::palette(ui);
    CentralPanel::default().frame(Frame::new().fill(palette.panel)).show(ui, |ui| {
        let room = ui.available_rect_before_wrap();
        let response = ui.interact(room, ui.scope_id().with("section"), Sense::hover());
        ui.advance_cursor_after_rect(room);
        let Some(packed) = &view.derived.assembly.package else { return };
        let words = format!(
            "Section through the package: {} layers, {} deep",
            packed.layers.len(),
            sightedge_service::wording::at_least(packed.depth, view.unit())
        );
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &words));
        // Figures keep their size on the screen while the drawing fills the room: the scale
        // follows from the room that they leave.
        // Larger than so it shows nothing more.
        let part = Rect::from_center_size(room.center(), room.size().min(LARGEST));
        let mut height = view.unit().length().scaled(1, 8);
        let mut lens = Lens::fit(sightedge_core::geometry::Rect::default(), room);
        for _ in 0..4 {
            let drawing = plates::package(packed, view.unit(), height);
            lens = Lens::fit(drawing.bounds, part.shrink(24.0));
            height = lens.length(FIGURE);
        }
        let drawing = plates::package(packed, view.unit(), height);
        let lens = lens.on_pixels(ui.pixels_per_point());
        let inks = Inks { line: palette.text, board: palette.text, hidden: palette.accent };
        let painter = ui.painter_at(room);
        paint(&painter, lens, &drawing, inks, None, &|_| Vec::new());
        let about = if packed.framed.is_some() {
            "Section through the lower side of the frame, to scale. The package rests on the \
             rabbet."
        } else {
            "Section through the layers, to scale. No frame is chosen."
        };
        let at = room.left_top() + vec2(16.0, 14.0);
        let font = egui::FontId::proportional(theme::SMALL);
        painter.text(at, egui::Align2::LEFT_TOP, about, font, palette.quiet);
    });
}
