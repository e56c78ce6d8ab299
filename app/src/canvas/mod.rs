//! The board at true proportion with the picture in its window; the board is the control.

mod drag;
mod hand;
mod lens;
pub(crate) mod overlay;
pub(crate) mod paint;

use egui::{Color32, Rect, Response, Sense, Ui, vec2};
use sightedge_core::finding::Place;
use sightedge_core::geometry::Rect as BoardRect;
use sightedge_core::plates::{self, Look};

pub(crate) use hand::{Typing, hold_keys, type_on};
pub use lens::{Eye, Lens};
pub use paint::Shown;

use sightedge_pictures::colour::Vision;

use crate::action::Action;
use crate::desk::Desk;
use crate::handle::{Bench, Handle};
use crate::textures::Wanted;
use drag::Drag;

/// What of the board is shown beside it.
#[derive(Clone, Copy, Debug)]
pub struct Shows {
    /// Dimension lines.
    pub dimensions: bool,
    /// The outline of what is hidden.
    pub hidden: bool,
    /// The magnified corner.
    pub corner: bool,
    /// The grey round the board.
    pub surround: u8,
    /// Whose eyes it is seen with; `None` for those that see all colours.
    pub vision: Option<Vision>,
}

/// The canvas of one plan: how it is looked at, and what is in hand.
#[derive(Debug)]
pub struct Canvas {
    eye: Eye,
    drag: Option<Drag>,
    /// What is typed for the selected handle.
    typed: Option<String>,
    /// The handle that has the focus.
    selected: Option<Handle>,
    /// The place that a finding points at.
    pub pointed: Option<Place>,
    room: Rect,
    /// Whether the board stays where the hand left it, though all of it is kept in view.
    left: bool,
    /// What was shown beside the board in the last frame: its room changes with that.
    beside: (bool, bool),
}

/// Half the width of the strip that takes hold of an edge, in points.
const GRIP: f32 = 5.0;

impl Default for Canvas {
    fn default() -> Self {
        Self {
            eye: Eye::default(),
            drag: None,
            typed: None,
            selected: None,
            pointed: None,
            room: Rect::NOTHING,
            left: false,
            beside: (false, false),
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
        self.eye.fit = true;
        self.left = false;
    }

    /// Nearer or farther, about the middle.
    pub fn zoom(&mut self, factor: f32) {
        if let Some(lens) = self.eye.lens {
            self.eye.lens = Some(lens.zoomed(factor, self.room.center()));
            self.eye.fit = false;
        }
    }

    /// The handle that is selected.
    pub const fn selected(&self) -> Option<Handle> {
        self.selected
    }

    /// How large the board is shown: pixels of the screen for each pixel at true size is not
    /// known here, so in points a millimetre.
    pub fn scale(&self) -> Option<f32> {
        self.eye.lens.map(|lens| lens.scale)
    }

    /// What is wanted of the picture: its size in pixels of the screen, and what of it is seen.
    pub fn wanted(&self, image: BoardRect, pixels_per_point: f32) -> Option<Wanted> {
        wanted(self.eye.lens?, self.room, image, pixels_per_point)
    }

    /// Shows the board and takes the asks of the hand.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        shows: Shows,
        pictures: &[Shown],
    ) -> Vec<Action> {
        let mut actions = Vec::new();
        let room = ui.available_rect_before_wrap();
        if self.room != room {
            self.room = room;
            self.left = false;
        }
        let ground =
            ui.interact(self.room, ui.scope_id().with("ground"), Sense::click_and_drag());
        ui.advance_cursor_after_rect(self.room);
        let beside = (shows.dimensions, shows.corner);
        if self.beside != beside {
            self.beside = beside;
            self.left = false;
        }
        let painter = ui.painter_at(self.room);
        let surround = Color32::from_gray(shows.surround);
        painter.rect_filled(self.room, 0.0, surround);
        let Some(bench) = desk.bench() else { return actions };

        let lens = self.look(ui, bench, shows, &ground);
        let look = Look { surround: shows.surround, ..Look::default() };
        let front = plates::front(&bench.variant.mat, &bench.layout.exact, &look);
        let inks = overlay::inks(
            shows.surround,
            bench.variant.mat.layers.first().map(|l| l.board.colour),
        );
        paint::paint(&painter, lens, &front, inks, shows.vision, &|_| pictures.to_vec());
        overlay::plates(&painter, lens, bench, shows, inks);
        overlay::writing(&painter, lens, desk, inks);
        if let Some(place) = self.pointed {
            overlay::place(ui, &painter, lens, bench, place);
        }

        self.handles(ui, desk, lens, &mut actions);
        self.keys(ui, desk, &mut actions);
        if let Some(drag) = &self.drag {
            overlay::riding(ui, &painter, lens, bench, drag);
        } else if let (Some(typed), Some(handle)) = (&self.typed, self.selected) {
            overlay::typing(ui, &painter, lens, bench, handle, typed);
        }
        if shows.corner {
            overlay::corner(ui, self.room, bench, shows, inks);
        }
        actions
    }

    /// Where the board is seen in this frame: anchored while a hand moves something, else as
    /// panned and zoomed, else all of it.
    fn look(&mut self, ui: &Ui, bench: Bench<'_>, shows: Shows, ground: &Response) -> Lens {
        let board = BoardRect::at_origin(bench.layout.exact.outer);
        let pixels = ui.pixels_per_point();
        if let Some(drag) = &self.drag {
            let lens = drag.lens(bench);
            self.eye.lens = Some(lens);
            self.left = true;
            return lens;
        }
        self.eye.follow(ui, ground);
        let margin: f32 = if shows.dimensions { 72.0 } else { 40.0 };
        // Under the eye that just looked at it nothing jumps, as long as all is in view.
        let stays = |lens: Lens| {
            self.left && self.room.shrink(margin / 2.0).contains_rect(lens.screen_rect(board))
        };
        let lens = match self.eye.lens {
            Some(lens) if !self.eye.fit || stays(lens) => lens,
            _ => {
                self.left = false;
                let beside = |part: Rect| fitted(bench, shows, part, margin);
                if shows.corner {
                    // Above the corner or beside it, whichever leaves the board larger.
                    let corner = overlay::corner_rect(self.room);
                    let above = beside(self.room.with_max_y(corner.top()));
                    let beside = beside(self.room.with_min_x(corner.right()));
                    if above.scale >= beside.scale { above } else { beside }
                } else {
                    beside(self.room)
                }
            }
        }
        .on_pixels(pixels);
        self.eye.lens = Some(lens);
        lens
    }
}

/// All of the board in `room`, with `margin` round it; where its dimensions need more, with all
/// of them.
fn fitted(bench: Bench<'_>, shows: Shows, room: Rect, margin: f32) -> Lens {
    let board = BoardRect::at_origin(bench.layout.exact.outer);
    let mut lens = Lens::fit(board, room.shrink(margin.min(room.width() / 6.0)));
    if shows.dimensions {
        let (figures, unit) = (&bench.layout.bench, bench.document.unit);
        // Figures keep their size on the screen, so that a smaller board needs more room again.
        for _ in 0..3 {
            let height = lens.length(overlay::FIGURE);
            let all = plates::dimensions(figures, unit, height).bounds;
            if room.contains_rect(lens.screen_rect(all)) {
                break;
            }
            lens = Lens::fit(all, room);
        }
    }
    lens
}

/// A colour of a board or a picture, which is no part of the theme.
pub fn srgb(red: u8, green: u8, blue: u8) -> Color32 {
    Color32::from_rgb(red, green, blue)
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

/// Tells on the canvas why there is no picture; says whether its button was pressed.
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
