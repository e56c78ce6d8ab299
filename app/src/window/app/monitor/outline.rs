//! The shape that a thing on the screen is compared with: drawn on whole pixels, its right edge
//! moved by the hand or by keys.

use egui::{
    Color32, Key, Mesh, Modifiers, Rect, Role, Sense, Shape, Ui, WidgetInfo, pos2, vec2,
};
use sightedge_service::monitors::{Measured, Scale, Thing, widths};

use crate::window::theme;

/// The shape of one thing.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Outline {
    thing: Thing,
    /// Its width in pixels; whole where it is drawn and kept.
    wide: f64,
    /// Whether it was shown before: at first, its edge has the focus.
    shown: bool,
}

/// What came of a frame.
pub(super) struct Shown {
    /// Whether Enter was pressed on the edge.
    pub(super) kept: bool,
}

/// Pixels a millimetre of a screen of which nothing is known, at scale 1: 96 to the inch.
const USUAL: f64 = 96.0 / 25.4;
/// Half the width of what takes hold of the edge, in points.
const GRIP: f32 = 10.0;

impl Outline {
    /// As large as the thing is by what is known of the screen.
    pub(super) fn new(ui: &Ui, thing: Thing, scale: Option<Scale>) -> Self {
        let native = ui.ctx().native_pixels_per_point().unwrap_or(1.0);
        let per_mm = scale.map_or(USUAL * f64::from(native), Scale::per_mm);
        Self { thing, wide: (per_mm * thing.mm().0).round(), shown: false }
    }

    pub(super) const fn thing(&self) -> Thing {
        self.thing
    }

    /// What is kept of it on a screen of so many pixels across.
    pub(super) fn measured(&self, across: u32) -> Measured {
        Measured { thing: self.thing, wide: self.wide.round(), across }
    }

    /// How wide it is, in points.
    pub(super) fn points(&self, ui: &Ui) -> f32 {
        narrow(self.wide.round()) / ui.pixels_per_point()
    }

    /// What it says of the screen so far.
    pub(super) fn words(&self) -> String {
        let measured = self.measured(1);
        Scale::Measured(measured.per_mm(1), measured).words()
    }

    /// Shows it, no higher than `high`, and follows the hand.
    pub(super) fn show(&mut self, ui: &mut Ui, high: f32) -> Shown {
        let ppp = ui.pixels_per_point();
        let most = f64::from((ui.available_width() * ppp).floor());
        let range = widths(self.thing);
        let range = *range.start()..=range.end().min(most);
        self.wide = self.wide.clamp(*range.start(), *range.end());
        let (across, down) = self.thing.mm();
        let height = narrow(self.wide / across * down) / ppp;
        let height = height.min(high).max(60.0);
        let (room, _) =
            ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
        let left_top = (room.min.to_vec2() * ppp).round();
        let size = vec2(narrow(self.wide.round()), (height * ppp).round());
        let pixels = Rect::from_min_size(left_top.to_pos2(), size);
        let points = |x: f32, y: f32| pos2(x / ppp, y / ppp);
        let edge = pixels.right() / ppp;

        let id = ui.scope_id().with("right edge");
        let grip = Rect::from_x_y_ranges(edge - GRIP..=edge + GRIP, room.y_range());
        let response = ui.interact(grip, id, Sense::DRAG | Sense::FOCUSABLE);
        if !std::mem::replace(&mut self.shown, true) {
            response.request_focus();
        }
        ui.memory_mut(|memory| {
            let arrows = egui::EventFilter {
                horizontal_arrows: true,
                vertical_arrows: true,
                ..egui::EventFilter::default()
            };
            memory.set_focus_lock_filter(id, arrows);
        });
        if response.hovered() || response.dragged() {
            ui.set_cursor_icon(egui::CursorIcon::ResizeHorizontal);
        }
        let mut by = f64::from(response.drag_delta().x * ppp);
        let mut kept = false;
        if response.has_focus() {
            by += keys(ui);
            kept = ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter));
        }
        if by != 0.0 {
            self.wide = (self.wide + by).clamp(*range.start(), *range.end());
            ui.request_repaint();
        }
        response.widget_info(|| {
            let mut info = WidgetInfo::labeled(Role::Slider, true, "Right edge");
            info.current_text_value = Some(format!("{} pixels", self.wide.round()));
            info
        });

        let palette = theme::palette(ui);
        let mut mesh = Mesh::default();
        let mut block = |from: (f32, f32), to: (f32, f32), colour: Color32| {
            mesh.add_colored_rect(
                Rect::from_min_max(points(from.0, from.1), points(to.0, to.1)),
                colour,
            );
        };
        let (left, top) = (pixels.left(), pixels.top());
        let (right, bottom) = (pixels.right(), pixels.bottom());
        block((left, top), (right, bottom), palette.accent);
        if matches!(self.thing, Thing::RulerMm | Thing::RulerInches) {
            let (steps, bold) = if self.thing == Thing::RulerMm { (150, 10) } else { (48, 8) };
            for step in 1..steps {
                let at = (left + size.x * share(step, steps)).round();
                let deep = if step % bold == 0 { 0.6 } else { 0.3 };
                block((at, top), (at + 1.0, top + size.y * deep), palette.on_accent);
            }
        }
        // Outside of the shape, so that its own edge stays what it is.
        let on = response.has_focus() || response.hovered() || response.dragged();
        let mark = if on { palette.text } else { palette.line };
        block((right + 2.0, top), (right + 4.0, bottom), mark);
        ui.painter().add(Shape::mesh(mesh));
        Shown { kept }
    }
}

/// How far the arrow keys move the edge, in pixels.
fn keys(ui: &Ui) -> f64 {
    let mut by = 0.0;
    ui.input_mut(|input| {
        for (key, sign) in [
            (Key::ArrowLeft, -1.0),
            (Key::ArrowDown, -1.0),
            (Key::ArrowRight, 1.0),
            (Key::ArrowUp, 1.0),
        ] {
            for (modifiers, step) in [(Modifiers::SHIFT, 10.0), (Modifiers::NONE, 1.0)] {
                let times = input.count_and_consume_key(modifiers, key);
                by += sign * step * f64::from(u32::try_from(times).unwrap_or(0));
            }
        }
    });
    by
}

fn share(step: u16, steps: u16) -> f32 {
    f32::from(step) / f32::from(steps)
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "a few thousand pixels"
)]
const fn narrow(value: f64) -> f32 {
    value as f32
}
