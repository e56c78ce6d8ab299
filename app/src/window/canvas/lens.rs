//! From the board to the screen and back: the only place where lengths become floats.

use egui::{CursorIcon, PointerButton, Pos2, Rect, Response, Ui, Vec2, pos2, vec2};
use sightedge_core::geometry::{Point, Rect as BoardRect};
use sightedge_core::length::Length;

/// Where the board is seen: its origin on the screen, and points of the screen a millimetre.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Lens {
    /// The board's top left corner on the screen.
    pub origin: Pos2,
    /// Points of the screen for each millimetre.
    pub scale: f32,
}

/// The smallest and the largest, in points a millimetre.
const SCALES: std::ops::RangeInclusive<f32> = 0.02..=60.0;

impl Lens {
    /// All of `board` in the middle of `room`.
    pub fn fit(board: BoardRect, room: Rect) -> Self {
        let (w, h) = (mm(board.size.width).max(1.0), mm(board.size.height).max(1.0));
        let scale = (room.width() / w).min(room.height() / h).max(*SCALES.start());
        let origin = room.center()
            - vec2(w, h) * scale / 2.0
            - vec2(mm(board.at.x), mm(board.at.y)) * scale;
        Self { origin, scale }
    }

    /// A point of the board on the screen.
    pub fn screen(&self, point: Point) -> Pos2 {
        self.origin + vec2(mm(point.x), mm(point.y)) * self.scale
    }

    /// A rectangle of the board on the screen.
    pub fn screen_rect(&self, rect: BoardRect) -> Rect {
        let far = Point::new(rect.right(), rect.bottom());
        Rect::from_min_max(self.screen(rect.at), self.screen(far))
    }

    /// A point of the screen on the board, to the unit; the person's ruler comes after.
    pub fn board(&self, at: Pos2) -> Point {
        let from = (at - self.origin) / self.scale;
        Point::new(
            Length::from_mm_nearest(f64::from(from.x)),
            Length::from_mm_nearest(f64::from(from.y)),
        )
    }

    /// A distance of the screen on the board.
    pub fn length(&self, points: f32) -> Length {
        Length::from_mm_nearest(f64::from(points / self.scale))
    }

    /// Larger or smaller by `factor`, with what is under `at` staying there.
    pub fn zoomed(self, factor: f32, at: Pos2) -> Self {
        let scale = (self.scale * factor).clamp(*SCALES.start(), *SCALES.end());
        Self { origin: at + (self.origin - at) * (scale / self.scale), scale }
    }

    /// Moved on the screen.
    pub fn moved(self, by: Vec2) -> Self {
        Self { origin: self.origin + by, ..self }
    }

    /// At so many points a millimetre, with what is under `at` staying there.
    pub fn at_scale(self, scale: f32, at: Pos2) -> Self {
        Self { scale, origin: at + (self.origin - at) * (scale / self.scale) }
    }

    /// With the board's `point` at `at` on the screen.
    pub fn with(self, point: Point, at: Pos2) -> Self {
        self.moved(at - self.screen(point))
    }

    /// Its origin on whole pixels, so that edges on whole pixels stay there.
    pub fn on_pixels(self, pixels_per_point: f32) -> Self {
        let whole = |value: f32| (value * pixels_per_point).round() / pixels_per_point;
        Self { origin: pos2(whole(self.origin.x), whole(self.origin.y)), ..self }
    }
}

/// The view of a drawing: panned and zoomed, or all of it.
#[derive(Clone, Copy, Debug)]
pub struct Camera {
    /// Where it is seen.
    pub lens: Option<Lens>,
    /// Whether all of it is kept in view.
    pub fit: bool,
    /// Whether it is kept as large as it really is.
    pub true_size: bool,
    /// Where the middle of the room was at true size.
    middle: Option<Pos2>,
}

impl Default for Camera {
    fn default() -> Self {
        Self { lens: None, fit: true, true_size: false, middle: None }
    }
}

impl Camera {
    /// The wheel zooms about the pointer, also over what lies on the ground; a drag of the
    /// ground pans.
    pub fn follow(&mut self, ui: &Ui, ground: &Response) {
        if ground.contains_pointer() {
            let (zoom, scroll, at) = ui.input(|input| {
                (input.zoom_delta(), input.smooth_scroll_delta().y, input.pointer.hover_pos())
            });
            let factor = zoom * (scroll * 0.004).exp();
            if (factor - 1.0).abs() > 1e-4
                && let (Some(lens), Some(at)) = (self.lens, at)
            {
                self.lens = Some(lens.zoomed(factor, at));
                (self.fit, self.true_size) = (false, false);
            }
        }
        if ground.dragged() {
            self.pan(ground.drag_delta());
            ui.set_cursor_icon(CursorIcon::Grabbing);
        }
    }

    /// Keeps true size while the screen, or the size of text, changes under it.
    pub fn hold_true_size(&mut self, points_per_mm: Option<f32>, room: Rect) {
        let middle = room.center();
        let before = self.middle.take().unwrap_or(middle);
        match (self.true_size, points_per_mm, self.lens) {
            (true, Some(scale), Some(lens)) => {
                // What was in the middle stays there, though the room is another one.
                self.lens = Some(lens.moved(middle - before).at_scale(scale, middle));
                self.middle = Some(middle);
            }
            // A screen of which nothing is known.
            (true, None, _) => (self.fit, self.true_size) = (true, false),
            _ => {}
        }
    }

    /// Any button but the first pans, also on a handle; it never changes the plan.
    pub fn follow_on_handle(&mut self, handle: &Response) {
        if handle.dragged() && !handle.dragged_by(PointerButton::Primary) {
            self.pan(handle.drag_delta());
        }
    }

    fn pan(&mut self, by: Vec2) {
        self.lens = self.lens.map(|lens| lens.moved(by));
        self.fit = false;
    }
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "a place on a screen needs no more than an f32 holds"
)]
pub(super) fn mm(length: Length) -> f32 {
    length.to_mm() as f32
}
