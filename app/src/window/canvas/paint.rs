//! Paints a [`Drawing`] with egui: the same description that `sightedge picture` paints.
//!
//! egui blends in gamma space and does not smooth raw meshes. So a factor of light is turned
//! into the alpha that has nearly the same effect there, and straight edges are smoothed here:
//! a pixel that an edge cuts gets the share of colour that lies on it.

mod light;
mod lines;
mod moulding;

use egui::{Color32, Mesh, Pos2, Rect, Shape, Stroke, pos2};
use sightedge_core::drawing::{Board, Cutout, Drawing, Fill, Item, Picture, Tone};
use sightedge_core::geometry::{Rect as BoardRect, Side};
use sightedge_core::spec::WorkId;

use sightedge_pictures::colour::Vision;

use super::lens::Lens;
use crate::window::display::Display;
use crate::window::textures::Shown;

/// Inks of lines and texts.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Inks {
    /// Lines and figures on the surround.
    pub line: Color32,
    /// Lines and figures on the board itself.
    pub board: Color32,
    /// What is hidden.
    pub hidden: Color32,
}

/// Paints `drawing` through `lens`; `pictures` gives the textures of a work, the coarser first.
pub(crate) fn paint(
    painter: &egui::Painter,
    lens: Lens,
    drawing: &Drawing,
    inks: Inks,
    vision: Option<Vision>,
    pictures: &dyn Fn(WorkId) -> Vec<Shown>,
) {
    let mut brush = Brush {
        painter,
        lens,
        ppp: painter.pixels_per_point(),
        mesh: Mesh::default(),
        inks,
        vision,
        display: Display::of(painter.ctx()),
    };
    for item in &drawing.items {
        match item {
            Item::Fill(fill) => brush.fill(fill),
            Item::Picture(picture) => brush.picture(*picture, pictures),
            Item::Board(board) => brush.board(board),
            Item::Moulding(moulding) => brush.moulding(moulding),
            Item::Shade(shade) => brush.shade(shade),
            Item::Shadow(shadow) => brush.shadow(shadow),
            Item::Zone(zone) => brush.zone(zone),
            Item::Line(line) => brush.line(line),
            Item::Text(text) => brush.text(text, inks.line),
            Item::Dimension(dimension) => brush.dimension(dimension),
        }
    }
    brush.flush();
}

struct Brush<'a> {
    painter: &'a egui::Painter,
    lens: Lens,
    ppp: f32,
    mesh: Mesh,
    inks: Inks,
    vision: Option<Vision>,
    display: Display,
}

impl Brush<'_> {
    /// The colour of light as it is seen, in egui's form, for the monitor that shows it.
    fn colour(&self, tone: Tone) -> Color32 {
        let made = tone.colour();
        let rgb = [made.red, made.green, made.blue];
        self.display.colour(self.vision.map_or(rgb, |vision| vision.see(rgb)))
    }

    /// On the screen, in pixels.
    fn pixels(&self, rect: BoardRect) -> Rect {
        let rect = self.lens.screen_rect(rect);
        Rect::from_min_max(
            (rect.min.to_vec2() * self.ppp).to_pos2(),
            (rect.max.to_vec2() * self.ppp).to_pos2(),
        )
    }

    fn point(&self, x: f32, y: f32) -> Pos2 {
        pos2(x / self.ppp, y / self.ppp)
    }

    fn flush(&mut self) {
        if !self.mesh.is_empty() {
            self.painter.add(Shape::mesh(std::mem::take(&mut self.mesh)));
        }
    }

    /// A quad with a colour at each corner, in pixels.
    fn quad(&mut self, corners: [(f32, f32); 4], colours: [Color32; 4]) {
        let first = u32::try_from(self.mesh.vertices.len()).unwrap_or(0);
        for ((x, y), colour) in corners.into_iter().zip(colours) {
            let at = self.point(x, y);
            self.mesh.colored_vertex(at, colour);
        }
        self.mesh.add_triangle(first, first + 1, first + 2);
        self.mesh.add_triangle(first, first + 2, first + 3);
    }

    /// A rectangle whose edges lie on whole pixels.
    fn solid(&mut self, x: (f32, f32), y: (f32, f32), colour: Color32) {
        if x.1 > x.0 && y.1 > y.0 && colour.a() > 0 {
            let corners = [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)];
            self.quad(corners, [colour; 4]);
        }
    }

    /// A rectangle anywhere: pixels that its edges cut get their share.
    fn block(&mut self, rect: Rect, colour: Color32) {
        if !(rect.width() > 0.0 && rect.height() > 0.0) {
            return;
        }
        for (x, across) in spans(rect.left(), rect.right()) {
            for (y, down) in spans(rect.top(), rect.bottom()) {
                self.solid(x, y, colour.gamma_multiply(across * down));
            }
        }
    }

    /// All of `outer` but `hole`, both anywhere.
    fn ring(&mut self, outer: Rect, hole: Rect, colour: Color32) {
        // Solid up to the pixels that the hole's edges cut.
        let cut = Rect::from_min_max(hole.min.floor(), hole.max.ceil());
        let (left, right) = (outer.left().min(cut.left()), outer.right().max(cut.right()));
        for (x, across) in spans(left, right) {
            for (y, down) in spans(outer.top(), cut.top()) {
                self.solid(x, y, colour.gamma_multiply(across * down));
            }
            for (y, down) in spans(cut.bottom(), outer.bottom()) {
                self.solid(x, y, colour.gamma_multiply(across * down));
            }
        }
        for (from, to) in [(left, cut.left()), (cut.right(), right)] {
            for (x, across) in spans(from, to) {
                self.solid(x, (cut.top(), cut.bottom()), colour.gamma_multiply(across));
            }
        }
        self.rim(hole, |_| colour);
    }

    /// The pixels that the edges of `hole` cut, each with the share outside of it.
    fn rim(&mut self, hole: Rect, colour: impl Fn(Side) -> Color32) {
        for (x, across) in spans(hole.left(), hole.right()) {
            for (y, down) in spans(hole.top(), hole.bottom()) {
                let share = 1.0 - across * down;
                if share > 0.0 {
                    let side = if down < 1.0 && across < 1.0 {
                        let upper = y.0 < hole.center().y;
                        if upper { Side::Top } else { Side::Bottom }
                    } else if across < 1.0 {
                        if x.0 < hole.center().x { Side::Left } else { Side::Right }
                    } else if y.0 < hole.center().y {
                        Side::Top
                    } else {
                        Side::Bottom
                    };
                    self.solid(x, y, colour(side).gamma_multiply(share));
                }
            }
        }
    }

    fn fill(&mut self, fill: &Fill) {
        let bounds = fill.path.bounds();
        if fill.path == bounds.path() {
            let rect = self.pixels(bounds);
            let tone = self.colour(fill.tone);
            self.block(rect, tone);
            return;
        }
        // Sloped, as a bevel in a section: egui smooths it.
        self.flush();
        let points: Vec<Pos2> = fill.path.points.iter().map(|p| self.lens.screen(*p)).collect();
        self.painter.add(Shape::convex_polygon(points, self.colour(fill.tone), Stroke::NONE));
    }

    fn board(&mut self, board: &Board) {
        let outer = self.pixels(board.outline.bounds());
        let face = self.colour(board.tone);
        match board.windows.as_slice() {
            [] => self.block(outer, face),
            windows => {
                for window in windows {
                    self.bevels(window);
                }
                // One window is served; more would need the outline parted between them.
                let hole = self.pixels(windows[0].face.bounds());
                self.ring(outer, hole, face);
            }
        }
    }

    fn bevels(&mut self, window: &Cutout) {
        if window.bevels.is_empty() {
            return;
        }
        // A pixel more on the outside, where the board's face comes on top.
        let outer = self.pixels(window.face.bounds()).expand(1.0);
        let sight = self.pixels(window.sight.bounds());
        let inner = Rect::from_min_max(sight.min.floor(), sight.max.ceil());
        // In the order of the sides.
        let tones: Vec<Color32> =
            window.bevels.iter().map(|face| self.colour(face.tone)).collect();
        let tone = |side: Side| {
            let index = Side::ALL.iter().position(|one| *one == side).unwrap_or(0);
            tones.get(index).copied().unwrap_or(Color32::TRANSPARENT)
        };
        for side in Side::ALL {
            let (a, b, c, d) = match side {
                Side::Top => {
                    (outer.left_top(), outer.right_top(), inner.right_top(), inner.left_top())
                }
                Side::Right => (
                    outer.right_top(),
                    outer.right_bottom(),
                    inner.right_bottom(),
                    inner.right_top(),
                ),
                Side::Bottom => (
                    outer.right_bottom(),
                    outer.left_bottom(),
                    inner.left_bottom(),
                    inner.right_bottom(),
                ),
                Side::Left => (
                    outer.left_bottom(),
                    outer.left_top(),
                    inner.left_top(),
                    inner.left_bottom(),
                ),
            };
            let corners = [a, b, c, d].map(|corner| (corner.x, corner.y));
            self.quad(corners, [tone(side); 4]);
        }
        self.rim(sight, tone);
    }

    fn picture(&mut self, picture: Picture, pictures: &dyn Fn(WorkId) -> Vec<Shown>) {
        self.flush();
        let image = whole(self.pixels(picture.image));
        let clip = whole(self.pixels(picture.clip));
        let (min, max) =
            (self.point(clip.left(), clip.top()), self.point(clip.right(), clip.bottom()));
        let clip_points = Rect::from_min_max(min, max);
        let painter =
            self.painter.with_clip_rect(self.painter.clip_rect().intersect(clip_points));
        let shown = pictures(picture.work);
        if shown.is_empty() {
            painter.rect_filled(clip_points, 0.0, Color32::from_gray(206));
            return;
        }
        for Shown { texture, part } in shown {
            let at = |share: Pos2| {
                let x = (image.left() + share.x * image.width()).round();
                let y = (image.top() + share.y * image.height()).round();
                self.point(x, y)
            };
            let place = Rect::from_min_max(at(part.min), at(part.max));
            let all = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            painter.image(texture, place, all, Color32::WHITE);
        }
    }
}

/// From one edge to the other in pixels: the cut pixel, the whole ones, the cut pixel, each
/// with its share.
fn spans(from: f32, to: f32) -> Vec<((f32, f32), f32)> {
    if to <= from {
        return Vec::new();
    }
    let (first, last) = (from.floor(), to.ceil());
    if last - first <= 1.0 {
        return vec![((first, last), to - from)];
    }
    let (inner, outer) = (from.ceil(), to.floor());
    let mut spans = Vec::with_capacity(3);
    if inner > from {
        spans.push(((first, inner), inner - from));
    }
    if outer > inner {
        spans.push(((inner, outer), 1.0));
    }
    if to > outer {
        spans.push(((outer, last), to - outer));
    }
    spans
}

fn whole(rect: Rect) -> Rect {
    Rect::from_min_max(rect.min.round(), rect.max.round())
}
