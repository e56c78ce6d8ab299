//! The board at true proportion with the picture in its window; the board is the control.

mod drag;
mod edges;
mod finding_label;
mod fit;
pub(crate) mod grips;
mod hand;
mod lens;
pub(crate) mod overlay;
pub(crate) mod paint;
pub(crate) mod piece;
mod true_size;

use egui::{Color32, Rect, Response, Sense, Ui, vec2};
use sightedge_core::finding::Place;
use sightedge_core::geometry::Rect as BoardRect;
use sightedge_core::plates::{self, Look};

pub(crate) use finding_label::for_keyboard;
pub use lens::{Camera, Lens};

use sightedge_pictures::colour::Vision;

use crate::window::display::Display;
use crate::window::handle::{Handle, HandleContext};
use crate::window::request::Action;
use crate::window::session::PlanSession;
use crate::window::textures::{Shown, Wanted};
use drag::Drag;
use fit::{fit_all, fitted, whole};
use grips::Grips;

/// What of the board is shown beside it.
#[derive(Clone, Copy, Debug)]
#[expect(clippy::struct_excessive_bools, reason = "switches of a person's own, each by itself")]
pub struct Shows {
    /// Dimension lines.
    pub dimensions: bool,
    /// The outline of what is hidden.
    pub hidden: bool,
    /// The magnified corner.
    pub corner: bool,
    /// The frame round the mat: the finished piece, without dimension lines.
    pub frame: bool,
    /// The grey round the board.
    pub surround: u8,
    /// Whose eyes it is seen with; `None` for those that see all colours.
    pub vision: Option<Vision>,
    /// What is under the pointer, magnified.
    pub magnifier: bool,
}

/// The canvas of one plan: its view, and what is dragged.
#[derive(Debug)]
pub struct Canvas {
    camera: Camera,
    grips: Grips<Handle>,
    drag: Option<Drag>,
    /// The place that a finding points at.
    pub pointed: Option<Place>,
    room: Rect,
    /// What a drag of what is under the pointer would do, for the line at the foot.
    hint: Option<String>,
}

/// Half the width of the strip that takes hold of an edge, in points.
const GRIP: f32 = 5.0;

impl Default for Canvas {
    fn default() -> Self {
        Self {
            camera: Camera::default(),
            grips: Grips::default(),
            drag: None,
            pointed: None,
            room: Rect::NOTHING,
            hint: None,
        }
    }
}

/// What is wanted of a picture that a lens shows within `room`.
pub(crate) fn wanted(
    lens: Lens,
    room: Rect,
    image: BoardRect,
    pixels_per_point: f32,
) -> Option<Wanted> {
    let shown = lens.screen_rect(image);
    let (min, max) = (shown.min * pixels_per_point, shown.max * pixels_per_point);
    let size = max.round() - min.round();
    if !(size.x >= 1.0 && size.y >= 1.0) {
        return None;
    }
    let seen = shown.intersect(room);
    let share = |value: f32, from: f32, to: f32| (value - from) / (to - from);
    let part = Rect::from_min_max(
        egui::pos2(
            share(seen.left(), shown.left(), shown.right()),
            share(seen.top(), shown.top(), shown.bottom()),
        ),
        egui::pos2(
            share(seen.right(), shown.left(), shown.right()),
            share(seen.bottom(), shown.top(), shown.bottom()),
        ),
    );
    let size = sightedge_pictures::Size::new(pixels(size.x), pixels(size.y));
    Some(Wanted { size, seen: part })
}

impl Canvas {
    /// Shows all of the board again.
    pub fn fit(&mut self) {
        (self.camera.fit, self.camera.true_size) = (true, false);
    }

    /// Shows the board as large as it really is: what was in the middle stays there.
    pub fn true_size(&mut self) {
        (self.camera.fit, self.camera.true_size) = (false, true);
    }

    /// Whether the board is as large as it really is.
    pub const fn is_true_size(&self) -> bool {
        self.camera.true_size
    }

    /// Larger or smaller, about the middle.
    pub fn zoom(&mut self, factor: f32) {
        if let Some(lens) = self.camera.lens {
            self.camera.lens = Some(lens.zoomed(factor, self.room.center()));
            (self.camera.fit, self.camera.true_size) = (false, false);
        }
    }

    /// What a drag of what is under the pointer would do, if anything is there.
    pub fn hint(&self) -> Option<&str> {
        self.hint.as_deref()
    }

    /// How large the board is shown: pixels of the screen for each pixel at true size is not
    /// known here, so in points a millimetre.
    pub fn scale(&self) -> Option<f32> {
        self.camera.lens.map(|lens| lens.scale)
    }

    /// What is wanted of the picture: its size in pixels of the screen, and what of it is seen.
    pub fn wanted(&self, image: BoardRect, pixels_per_point: f32) -> Option<Wanted> {
        wanted(self.camera.lens?, self.room, image, pixels_per_point)
    }

    /// Shows the board and returns what its handles ask for.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        session: &PlanSession,
        shows: Shows,
        pictures: &[Shown],
    ) -> Vec<Action> {
        let mut actions = Vec::new();
        self.room = ui.available_rect_before_wrap();
        let ground =
            ui.interact(self.room, ui.scope_id().with("ground"), Sense::CLICK | Sense::DRAG);
        ui.advance_cursor_after_rect(self.room);
        let painter = ui.painter_at(self.room);
        let surround = Color32::from_gray(shows.surround);
        painter.rect_filled(self.room, 0.0, surround);
        let Some(cx) = session.handle_context() else { return actions };

        let shows = shows.of_piece();
        let whole = whole(session, cx, shows);
        let shows = self.with_room_for(cx, shows, whole);
        let lens = self.look(ui, session, (cx, shows), &ground);
        let look = Look { surround: shows.surround, ..Look::default() };
        let packed = session.derived().assembly.package.as_ref().filter(|_| shows.frame);
        let front = plates::finished(&cx.variant.mat, &cx.layout.exact, packed, &look);
        let inks = overlay::inks(
            shows.surround,
            cx.variant.mat.layers.first().map(|l| l.board.colour),
        );
        paint::paint(&painter, lens, &front, inks, shows.vision, &|_| pictures.to_vec());
        overlay::plates(&painter, lens, cx, shows, inks);
        overlay::writing(&painter, lens, session, inks);
        if let Some(place) = self.pointed {
            overlay::place(&painter, lens, cx, place);
        }

        self.handles(ui, session, lens, &mut actions);
        self.keys(ui, session, &mut actions);
        if let Some(drag) = &self.drag {
            match drag.trouble(session) {
                Some(finding) => finding_label::show(ui, &painter, drag.at, finding),
                None => overlay::riding(ui, &painter, lens, cx, drag),
            }
        } else if let Some((handle, typed)) = self.grips.typed() {
            overlay::typing(ui, &painter, lens, cx, handle, typed);
        }
        let mut room = self.room;
        if self.camera.true_size {
            room = true_size::rule(ui, room, lens);
        }
        if shows.corner {
            overlay::corner(ui, room, cx, shows, inks);
        }
        if shows.magnifier {
            let glass = true_size::Glass { lens, drawing: &front, inks, vision: shows.vision };
            true_size::magnifier(ui, room, cx, glass, pictures);
        }
        actions
    }

    /// Without dimension lines where they would leave the board too little of a small room.
    fn with_room_for(&self, cx: HandleContext<'_>, shows: Shows, whole: BoardRect) -> Shows {
        /// From this size on there is room for both, in points.
        const ROOMY: egui::Vec2 = vec2(480.0, 420.0);
        /// The board's least size beside its dimensions, as a share of that without them.
        const LEAST: f32 = 0.6;
        let roomy = self.room.width() >= ROOMY.x && self.room.height() >= ROOMY.y;
        if !shows.dimensions || !self.camera.fit || roomy {
            return shows;
        }
        let bare = Shows { dimensions: false, ..shows };
        let small = fitted(cx, shows, self.room, whole).scale
            < LEAST * fitted(cx, bare, self.room, whole).scale;
        if small { bare } else { shows }
    }

    /// Where the board is seen in this frame: in its place during a drag, else as
    /// panned and zoomed, else all of it.
    fn look(
        &mut self,
        ui: &Ui,
        session: &PlanSession,
        (cx, shows): (HandleContext<'_>, Shows),
        ground: &Response,
    ) -> Lens {
        if let Some(drag) = &self.drag {
            let lens = drag.lens(cx);
            self.camera.lens = Some(lens);
            return lens;
        }
        self.camera.follow(ui, ground);
        let mm = Display::of(ui.ctx()).points_per_mm(ui.pixels_per_point());
        self.camera.hold_true_size(mm, self.room);
        let lens = match self.camera.lens {
            Some(lens) if !self.camera.fit => lens,
            _ if shows.corner => {
                // Above the corner or beside it, whichever leaves the board larger.
                let corner = overlay::corner_rect(self.room);
                let above = fit_all(session, cx, shows, self.room.with_max_y(corner.top()));
                let beside = fit_all(session, cx, shows, self.room.with_min_x(corner.right()));
                if above.scale >= beside.scale { above } else { beside }
            }
            _ => fit_all(session, cx, shows, self.room),
        }
        .on_pixels(ui.pixels_per_point());
        self.camera.lens = Some(lens);
        lens
    }
}

impl Shows {
    /// Dimension lines have no room on a frame.
    const fn of_piece(self) -> Self {
        Self { dimensions: self.dimensions && !self.frame, ..self }
    }
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a count of pixels on a screen, above zero"
)]
fn pixels(side: f32) -> u32 {
    side.round().clamp(1.0, 1e6) as u32
}

/// Shows on the canvas why there is no picture; returns whether its button was pressed.
pub fn trouble(ui: &mut Ui, words: &str) -> bool {
    overlay::trouble(ui, words)
}

/// Room for a label beside a point, kept within `room`.
pub(crate) fn label_rect(at: egui::Pos2, size: egui::Vec2, room: Rect) -> Rect {
    let mut rect = Rect::from_min_size(at + vec2(18.0, 18.0), size);
    if rect.right() > room.right() - 4.0 {
        rect = rect.translate(vec2(-size.x - 36.0, 0.0));
    }
    if rect.bottom() > room.bottom() - 4.0 {
        rect = rect.translate(vec2(0.0, -size.y - 36.0));
    }
    rect
}
