//! Paints a [`Drawing`] with egui: the same description that `sightedge picture` paints.
//!
//! egui blends in gamma space and does not smooth raw meshes. So a factor of light is turned
//! into the alpha that has nearly the same effect there, and straight edges are smoothed here:
//! a pixel that an edge cuts gets the share of colour that lies on it.

use egui::{Color32, Mesh, Pos2, Rect, Shape, Stroke, TextureId, pos2, vec2};
use sightedge_core::drawing::{
    Align, Band, Board, Cutout, Dimension, Drawing, Fill, Item, Line, Measure, Pen, Picture,
    Shade, Shadow, Stand, Text, TextRole, Tone, Zone, ZoneKind, srgb_from_linear,
};
use sightedge_core::geometry::{Rect as BoardRect, Side};
use sightedge_core::spec::WorkId;

use sightedge_pictures::colour::Vision;

use super::lens::{Lens, mm};

/// A texture for a picture: which part of it (0 to 1 across and down) it shows.
#[derive(Clone, Copy, Debug)]
pub struct Shown {
    /// The texture.
    pub texture: TextureId,
    /// The part of the picture it holds.
    pub part: Rect,
}

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
    };
    for item in &drawing.items {
        match item {
            Item::Fill(fill) => brush.fill(fill),
            Item::Picture(picture) => brush.picture(*picture, pictures),
            Item::Board(board) => brush.board(board),
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
}

/// Black with the alpha that leaves `light` of what is under it, blended in gamma space.
fn dim(light: f32) -> Color32 {
    let kept = srgb_from_linear(light.clamp(0.0, 1.0));
    Color32::from_black_alpha(byte((1.0 - kept) * 255.0))
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a byte first"
)]
fn byte(value: f32) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}

impl Brush<'_> {
    /// The colour of light as it is seen, in egui's form.
    fn colour(&self, tone: Tone) -> Color32 {
        let made = tone.colour();
        let rgb = [made.red, made.green, made.blue];
        let [red, green, blue] = self.vision.map_or(rgb, |vision| vision.see(rgb));
        Color32::from_rgb(red, green, blue)
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

    fn shade(&mut self, shade: &Shade) {
        let edge = self.pixels(shade.edge);
        for (side, band) in shade.bands.each() {
            let reach = mm(band.reach) * self.lens.scale * self.ppp;
            let across = match side {
                Side::Top | Side::Bottom => edge.height(),
                Side::Left | Side::Right => edge.width(),
            };
            if !(reach > 0.25 && band.strength > 0.0) {
                continue;
            }
            let steps = steps(reach);
            for step in 0..steps {
                let (near, far) = (share(step, steps), share(step + 1, steps));
                let (from, to) = ((near * reach).min(across), (far * reach).min(across));
                let tint = |at: f32| dim(band.light(f64::from(at) * band.reach.to_mm()));
                self.band(edge, side, (from, to), (tint(near), tint(far)));
            }
        }
    }

    /// A strip along the inside of one side of `edge`, from one distance to another.
    fn band(&mut self, edge: Rect, side: Side, at: (f32, f32), tints: (Color32, Color32)) {
        let (l, t, r, b) = (edge.left(), edge.top(), edge.right(), edge.bottom());
        let corners = match side {
            Side::Top => [(l, t + at.0), (r, t + at.0), (r, t + at.1), (l, t + at.1)],
            Side::Bottom => [(l, b - at.0), (r, b - at.0), (r, b - at.1), (l, b - at.1)],
            Side::Left => [(l + at.0, t), (l + at.0, b), (l + at.1, b), (l + at.1, t)],
            Side::Right => [(r - at.0, t), (r - at.0, b), (r - at.1, b), (r - at.1, t)],
        };
        self.quad(corners, [tints.0, tints.0, tints.1, tints.1]);
    }

    fn shadow(&mut self, shadow: &Shadow) {
        let of = self.pixels(shadow.of);
        let reach = mm(shadow.band.reach) * self.lens.scale * self.ppp;
        if !(reach > 0.25 && of.width() > 0.0 && of.height() > 0.0) {
            return;
        }
        let across = ramp(of.left(), of.right(), reach, &shadow.band);
        let down = ramp(of.top(), of.bottom(), reach, &shadow.band);
        let first = u32::try_from(self.mesh.vertices.len()).unwrap_or(0);
        for (y, dark_y) in &down {
            for (x, dark_x) in &across {
                let at = self.point(*x, *y);
                self.mesh.colored_vertex(at, dim(1.0 - shadow.band.strength * dark_x * dark_y));
            }
        }
        let columns = u32::try_from(across.len()).unwrap_or(0);
        let rows = u32::try_from(down.len()).unwrap_or(0);
        for row in 0..rows.saturating_sub(1) {
            for column in 0..columns.saturating_sub(1) {
                let a = first + row * columns + column;
                self.mesh.add_triangle(a, a + 1, a + columns);
                self.mesh.add_triangle(a + 1, a + columns + 1, a + columns);
            }
        }
    }

    fn zone(&mut self, zone: &Zone) {
        let tint = match zone.kind {
            ZoneKind::Overlap => self.inks.hidden.gamma_multiply(0.28),
            ZoneKind::HiddenImage => self.inks.hidden.gamma_multiply(0.5),
        };
        self.flush();
        let points: Vec<Pos2> = zone.path.points.iter().map(|p| self.lens.screen(*p)).collect();
        if points.len() == 4 {
            self.painter.add(Shape::convex_polygon(points, tint, Stroke::NONE));
        } else {
            // A frame-shaped zone: its outline alone tells it.
            self.painter.add(Shape::closed_line(points, Stroke::new(1.0, tint)));
        }
    }

    fn snapped(&self, at: Pos2) -> Pos2 {
        let half = |value: f32| ((value * self.ppp).floor() + 0.5) / self.ppp;
        pos2(half(at.x), half(at.y))
    }

    fn line(&mut self, line: &Line) {
        self.flush();
        let mut points: Vec<Pos2> =
            line.points.iter().map(|p| self.snapped(self.lens.screen(*p))).collect();
        if line.closed
            && let Some(first) = points.first().copied()
        {
            points.push(first);
        }
        let thin = 1.0 / self.ppp;
        match line.pen {
            Pen::Hidden => {
                let stroke = Stroke::new(thin.max(1.0), self.inks.hidden);
                self.painter.extend(Shape::dashed_line(&points, stroke, 6.0, 4.0));
            }
            Pen::Fine => {
                self.painter.add(Shape::line(points, Stroke::new(thin, self.inks.line)));
            }
            Pen::Edge => {
                self.painter
                    .add(Shape::line(points, Stroke::new(thin.max(1.0), self.inks.line)));
            }
            Pen::Section => {
                self.painter.add(Shape::line(points, Stroke::new(1.6, self.inks.line)));
            }
        }
    }

    fn text(&mut self, text: &Text, ink: Color32) {
        self.flush();
        let size = mm(text.height) * self.lens.scale;
        let font = egui::FontId::proportional(match text.role {
            TextRole::Figure | TextRole::Label => size.clamp(9.0, 18.0),
            // True to the board, whether or not it can be read from here.
            TextRole::Hand => size.clamp(2.0, 400.0),
        });
        let words = match text.role {
            TextRole::Hand => text.text.clone(),
            TextRole::Figure | TextRole::Label => crate::wording::set(&text.text),
        };
        let galley = self.painter.layout_no_wrap(words, font, ink);
        let (long, high) = (galley.size().x, galley.size().y);
        let at = self.lens.screen(text.at);
        let along = match text.align {
            Align::Start => 0.0,
            Align::Middle => long / 2.0,
            Align::End => long,
        };
        let rise = match text.stand {
            Stand::On => high,
            Stand::Beside => high / 2.0,
        };
        let (corner, angle) = if text.turned {
            (at + vec2(-rise, along), -std::f32::consts::FRAC_PI_2)
        } else {
            (at - vec2(along, rise), 0.0)
        };
        let whole = |value: f32| (value * self.ppp).round() / self.ppp;
        let corner = pos2(whole(corner.x), whole(corner.y));
        let mut shape = egui::epaint::TextShape::new(corner, galley, ink);
        shape.angle = angle;
        self.painter.add(shape);
    }

    fn dimension(&mut self, dimension: &Dimension) {
        self.flush();
        let ink = match dimension.measure {
            Measure::Border(_) => self.inks.board,
            _ => self.inks.line,
        };
        let stroke = Stroke::new(1.0 / self.ppp.max(1.0), ink);
        for [from, to] in dimension.strokes() {
            let (from, to) =
                (self.snapped(self.lens.screen(from)), self.snapped(self.lens.screen(to)));
            self.painter.line_segment([from, to], stroke);
        }
        self.text(&dimension.figure, ink);
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

/// Strips for a gradient of so many pixels.
fn steps(reach: f32) -> u8 {
    byte(reach / 1.5).clamp(3, 14)
}

fn share(step: u8, steps: u8) -> f32 {
    f32::from(step) / f32::from(steps.max(1))
}

/// Where a shadow's darkness changes along one direction, and how dark it is there.
fn ramp(from: f32, to: f32, reach: f32, band: &Band) -> Vec<(f32, f32)> {
    let count = steps(reach);
    let dark_at = |share: f32| band.dark(f64::from(share) * band.reach.to_mm());
    let mut stops = Vec::with_capacity(usize::from(count) * 2 + 2);
    for step in (0..=count).rev() {
        stops.push((from - share(step, count) * reach, dark_at(share(step, count))));
    }
    for step in 0..=count {
        stops.push((to + share(step, count) * reach, dark_at(share(step, count))));
    }
    stops
}

fn whole(rect: Rect) -> Rect {
    Rect::from_min_max(rect.min.round(), rect.max.round())
}
