//! Painting the items, strip by strip.

use super::cover::{Strip, Window, add, share};
use super::curve::{CURVE, grain};
use super::{Pixels, View};
use crate::drawing::{
    Board, Drawing, Fill, Item, Line, Moulding, Pen, Picture, Shade, Shadow, Tone, Zone,
    ZoneKind,
};
use crate::geometry::{Path, Point, Side};

type Light = [f32; 3];

/// Where there is no picture: a light grey, lighter than the surround and duller than paper.
const PLACEHOLDER: f32 = 0.56;
/// Lines: nearly black.
const INK: Light = [0.02; 3];

/// One strip while it is painted.
struct Canvas<'a> {
    view: &'a View,
    strip: Strip,
    light: Vec<Light>,
    /// Used for one item at a time and left at nothing.
    mask: Vec<f32>,
    face: Vec<f32>,
    part: Vec<f32>,
    bevel: Vec<[f32; 4]>,
}

/// Paints the strips that begin at the rows given.
pub(super) fn strips(
    drawing: &Drawing,
    view: &View,
    pictures: &[Option<Pixels>],
    width: usize,
    strips: Vec<(usize, &mut [u8])>,
) {
    let curve = &*CURVE;
    let ground = light(drawing.ground.unwrap_or(Tone::grey(1.0)));
    let empty = Strip { width, top: 0, rows: 0 };
    let mut canvas = Canvas {
        view,
        strip: empty,
        light: Vec::new(),
        mask: Vec::new(),
        face: Vec::new(),
        part: Vec::new(),
        bevel: Vec::new(),
    };
    for (top, rgba) in strips {
        canvas.begin(Strip { width, top, rows: rgba.len() / 4 / width }, ground);
        let mut pictures = pictures.iter();
        for item in &drawing.items {
            match item {
                Item::Fill(Fill { path, tone }) => canvas.fill(path, light(*tone), 1.0),
                Item::Picture(picture) => {
                    canvas.picture(picture, pictures.next().and_then(Option::as_ref));
                }
                Item::Board(board) => canvas.board(board),
                Item::Moulding(moulding) => canvas.moulding(moulding),
                Item::Shade(shade) => canvas.shade(shade),
                Item::Shadow(shadow) => canvas.shadow(shadow),
                Item::Zone(Zone { path, kind }) => canvas.fill(path, INK, tint(*kind)),
                Item::Line(line) => canvas.line(line),
                Item::Dimension(dimension) => {
                    for [from, to] in dimension.strokes() {
                        canvas.stroke(from, to, weight(Pen::Fine));
                    }
                }
                // No typeface here.
                Item::Text(_) => {}
            }
        }
        for (index, (pixel, light)) in rgba.chunks_exact_mut(4).zip(&canvas.light).enumerate() {
            let grain = grain(index % width, top + index / width);
            for (byte, light) in pixel.iter_mut().zip(light) {
                *byte = curve.byte(*light, grain);
            }
        }
    }
}

fn light(tone: Tone) -> Light {
    [tone.red, tone.green, tone.blue]
}

fn mix(under: &mut Light, over: Light, share: f32) {
    for (under, over) in under.iter_mut().zip(over) {
        *under += (over - *under) * share;
    }
}

/// How strongly a zone is tinted.
const fn tint(kind: ZoneKind) -> f32 {
    match kind {
        ZoneKind::Overlap => 0.12,
        ZoneKind::HiddenImage => 0.24,
    }
}

/// How many pixels wide a pen draws.
const fn weight(pen: Pen) -> f64 {
    match pen {
        Pen::Section => 2.0,
        Pen::Edge => 1.5,
        Pen::Hidden | Pen::Fine => 1.0,
    }
}

impl Canvas<'_> {
    fn begin(&mut self, strip: Strip, ground: Light) {
        self.strip = strip;
        self.light.clear();
        self.light.resize(strip.pixels(), ground);
        self.mask.resize(strip.pixels(), 0.0);
        self.face.resize(strip.pixels(), 0.0);
        self.part.resize(strip.pixels(), 0.0);
        self.bevel.resize(strip.pixels(), [0.0; 4]);
    }

    fn points(&self, path: &Path) -> Vec<(f64, f64)> {
        path.points.iter().map(|point| self.view.point(*point)).collect()
    }

    /// The indices of each row of a window.
    fn rows(&self, window: Window) -> impl Iterator<Item = std::ops::Range<usize>> + use<> {
        let width = self.strip.width;
        let ((x0, x1), (y0, y1)) = (window.columns, window.rows);
        (y0..y1).map(move |y| y * width + x0.min(x1)..y * width + x1)
    }

    fn fill(&mut self, path: &Path, tone: Light, opacity: f32) {
        let points = self.points(path);
        self.fill_points(&points, tone, opacity);
    }

    fn fill_points(&mut self, points: &[(f64, f64)], tone: Light, opacity: f32) {
        let window = add(&mut self.mask, &self.strip, points, opacity);
        for row in self.rows(window) {
            for (light, mask) in self.light[row.clone()].iter_mut().zip(&mut self.mask[row]) {
                mix(light, tone, std::mem::take(mask));
            }
        }
    }

    fn picture(&mut self, picture: &Picture, pixels: Option<&Pixels>) {
        let Some(pixels) = pixels else {
            return self.fill(&picture.clip.path(), [PLACEHOLDER; 3], 1.0);
        };
        let curve = &*CURVE;
        let [left, top, right, bottom] = self.view.rect(picture.clip);
        let [from_x, from_y, across, down] = self.view.touched(picture.image);
        let ((x0, x1), (y0, y1)) = {
            let window = self.strip.window(left, top, right, bottom);
            (window.columns, window.rows)
        };
        let taken = |n: usize, from: f64, count: f64, have: u32| {
            let place = (n as f64 + 0.5 - from) / count * f64::from(have);
            (place.clamp(0.0, f64::from(have) - 1.0)) as usize
        };
        let columns: Vec<(usize, f32)> = (x0..x1)
            .map(|x| (taken(x, from_x, across, pixels.width) * 4, share(x, left, right)))
            .collect();
        for y in y0..y1 {
            let row_down = share(y + self.strip.top, top, bottom);
            let row = taken(y + self.strip.top, from_y, down, pixels.height);
            let row = &pixels.rgba[row * pixels.width as usize * 4..];
            let start = y * self.strip.width;
            let lights = &mut self.light[start + x0..start + x1];
            for (under, (at, across)) in lights.iter_mut().zip(&columns) {
                let over = [row[*at], row[at + 1], row[at + 2]].map(|part| curve.linear(part));
                mix(under, over, across * row_down);
            }
        }
    }

    /// The board covers what its outline holds and no window leaves open. Where face and
    /// bevel share a pixel, each has its part of the board's colour there: so mitres and
    /// edges show nothing of what lies beneath.
    fn board(&mut self, board: &Board) {
        let (strip, view) = (self.strip, self.view);
        let points = self.points(&board.outline);
        let whole = add(&mut self.mask, &strip, &points, 1.0);
        let mut touched = Vec::with_capacity(board.windows.len() * 6);
        for window in &board.windows {
            let points = self.points(&window.sight);
            touched.push(add(&mut self.mask, &strip, &points, -1.0));
            let points = self.points(&window.face);
            touched.push(add(&mut self.face, &strip, &points, 1.0));
            for bevel in &window.bevels {
                let points = bevel.corners.map(|corner| view.point(corner));
                let place = add(&mut self.part, &strip, &points, 1.0);
                self.bevel_face(place, light(bevel.tone));
                touched.push(place);
            }
        }
        let tone = light(board.tone);
        for row in self.rows(whole) {
            let beneath = self.light[row.clone()].iter_mut();
            let parts = self.mask[row.clone()].iter().zip(&self.face[row.clone()]);
            for ((under, (mask, face)), bevel) in beneath.zip(parts).zip(&self.bevel[row]) {
                if *mask <= 0.0 {
                    continue;
                }
                let [red, green, blue, sloping] = *bevel;
                if *mask >= 1.0 && sloping <= 0.0 {
                    *under = tone;
                    continue;
                }
                let over = if sloping <= 0.0 {
                    tone
                } else {
                    let flat = (1.0 - face).max(0.0);
                    let mut over = [red, green, blue];
                    for (over, tone) in over.iter_mut().zip(tone) {
                        *over = (*over + tone * flat) / (flat + sloping);
                    }
                    over
                };
                mix(under, over, mask.min(1.0));
            }
        }
        for window in touched.into_iter().chain([whole]) {
            for row in self.rows(window) {
                self.mask[row.clone()].fill(0.0);
                self.face[row.clone()].fill(0.0);
                self.bevel[row].fill([0.0; 4]);
            }
        }
    }

    /// Adds one side of a bevel, where it covers the pixels of `place`.
    fn bevel_face(&mut self, place: Window, tone: Light) {
        for row in self.rows(place) {
            for (sum, share) in self.bevel[row.clone()].iter_mut().zip(&mut self.part[row]) {
                let share = std::mem::take(share);
                for (sum, tone) in sum.iter_mut().zip([tone[0], tone[1], tone[2], 1.0]) {
                    *sum += tone * share;
                }
            }
        }
    }

    /// Each pixel by its distance from the outer edge; one that a mitre or an edge of the profile
    /// crosses is the mean of a few places within it.
    fn moulding(&mut self, moulding: &Moulding) {
        /// Places within a pixel, each way.
        const WITHIN: [f64; 3] = [1.0 / 6.0, 0.5, 5.0 / 6.0];
        let [left, top, right, bottom] = self.view.rect(moulding.outer);
        let inner = self.view.rect(moulding.opening());
        let scale = self.view.scale;
        let window = self.strip.window(left, top, right, bottom);
        let (x0, x1) = window.columns;
        for (y, row) in (window.rows.0..).zip(self.rows(window)) {
            let y = y + self.strip.top;
            let down = share(y, top, bottom);
            let hole_down = share(y, inner[1], inner[3]);
            for (x, light) in (x0..x1).zip(&mut self.light[row]) {
                let hole = share(x, inner[0], inner[2]) * hole_down;
                let cover = share(x, left, right) * down - hole;
                if cover <= 0.0 {
                    continue;
                }
                let mut sum = [0.0; 3];
                for (dx, dy) in WITHIN.into_iter().flat_map(|dx| WITHIN.map(|dy| (dx, dy))) {
                    let (px, py) = (x as f64 + dx, y as f64 + dy);
                    let at = [
                        (py - top, Side::Top),
                        (right - px, Side::Right),
                        (bottom - py, Side::Bottom),
                        (px - left, Side::Left),
                    ];
                    let near = at.into_iter().min_by(|a, b| a.0.total_cmp(&b.0));
                    let (distance, side) = near.unwrap_or((0.0, Side::Top));
                    let tone = moulding.tone(side, distance / scale);
                    for (sum, part) in sum.iter_mut().zip(self::light(tone)) {
                        *sum += part / 9.0;
                    }
                }
                mix(light, sum, cover.min(1.0));
            }
        }
    }

    fn shade(&mut self, shade: &Shade) {
        let [left, top, right, bottom] = self.view.rect(shade.edge);
        let window = self.strip.window(left, top, right, bottom);
        let (edge, bands, scale) = (self.view.rect(shade.edge), shade.bands, self.view.scale);
        let columns: Vec<f32> = (window.columns.0..window.columns.1)
            .map(|x| {
                let x = x as f64 + 0.5;
                bands.left.light((x - edge[0]) / scale)
                    * bands.right.light((edge[2] - x) / scale)
            })
            .collect();
        for (y, row) in (window.rows.0..).zip(self.rows(window)) {
            let y = (y + self.strip.top) as f64 + 0.5;
            let down = bands.top.light((y - edge[1]) / scale)
                * bands.bottom.light((edge[3] - y) / scale);
            for (light, across) in self.light[row].iter_mut().zip(&columns) {
                *light = light.map(|part| part * (across * down));
            }
        }
    }

    fn shadow(&mut self, shadow: &Shadow) {
        let band = shadow.band;
        let reach = band.reach.to_mm().max(0.0) * self.view.scale;
        let [left, top, right, bottom] = self.view.rect(shadow.of);
        if left >= right || top >= bottom {
            return;
        }
        let window =
            self.strip.window(left - reach, top - reach, right + reach, bottom + reach);
        let scale = self.view.scale;
        let dark = |n: usize, from: f64, to: f64| {
            let middle = n as f64 + 0.5;
            band.dark((from - middle).max(middle - to) / scale)
        };
        let columns: Vec<f32> =
            (window.columns.0..window.columns.1).map(|x| dark(x, left, right)).collect();
        for (y, row) in (window.rows.0..).zip(self.rows(window)) {
            let down = band.strength * dark(y + self.strip.top, top, bottom);
            for (light, across) in self.light[row].iter_mut().zip(&columns) {
                *light = light.map(|part| part * (1.0 - across * down));
            }
        }
    }

    fn line(&mut self, line: &Line) {
        let back = line.closed.then(|| line.points.first()).flatten();
        let ends = line.points.iter().skip(1).chain(back);
        for (from, to) in line.points.iter().zip(ends) {
            if line.pen == Pen::Hidden {
                self.dashes(*from, *to);
            } else {
                self.stroke(*from, *to, weight(line.pen));
            }
        }
    }

    /// Six pixels drawn, four left out.
    fn dashes(&mut self, from: Point, to: Point) {
        let ((ax, ay), (bx, by)) = (self.view.point(from), self.view.point(to));
        let long = (bx - ax).hypot(by - ay);
        // Far more than any picture has pixels: nothing to be seen.
        if !(long > 0.0 && long < 1e6) {
            return;
        }
        let at = |along: f64| (ax + (bx - ax) * along / long, ay + (by - ay) * along / long);
        let mut along = 0.0;
        while along < long {
            self.stroke_px(at(along), at((along + 6.0).min(long)), weight(Pen::Hidden));
            along += 10.0;
        }
    }

    fn stroke(&mut self, from: Point, to: Point, width: f64) {
        self.stroke_px(self.view.point(from), self.view.point(to), width);
    }

    fn stroke_px(&mut self, (ax, ay): (f64, f64), (bx, by): (f64, f64), width: f64) {
        let long = (bx - ax).hypot(by - ay);
        if long <= 0.0 {
            return;
        }
        let (x, y) = ((by - ay) / long * width / 2.0, (ax - bx) / long * width / 2.0);
        let points = [(ax + x, ay + y), (bx + x, by + y), (bx - x, by - y), (ax - x, ay - y)];
        self.fill_points(&points, INK, 1.0);
    }
}
