//! egui's triangles in pixels, blended in gamma space as egui's own painters do it.

#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "pixels: held within the image before they become an index"
)]

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use egui::epaint::{ClippedPrimitive, Primitive, Vertex};
use egui::{ImageData, Pos2, Rect, TextureId, TexturesDelta};
use egui_kittest::TestRenderer;

/// Colours premultiplied by their alpha, 0 to 1, row by row.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Image {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) pixels: Vec<[f32; 4]>,
}

/// The textures so far, and the painter of frames.
#[derive(Default)]
pub(crate) struct Raster {
    textures: BTreeMap<TextureId, Image>,
}

struct Plug(Rc<RefCell<Raster>>);

impl TestRenderer for Plug {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        self.0.borrow_mut().take(delta);
    }
}

impl Image {
    /// Of eight bits a part, row by row.
    pub(crate) fn of(rgba: &[u8], width: u32, height: u32) -> Self {
        let pixels = rgba.as_chunks::<4>().0.iter().map(|p| p.map(|v| f32::from(v) / 255.0));
        Self { width: width as usize, height: height as usize, pixels: pixels.collect() }
    }

    /// Of the pixels a pixel round that place, the one most like `here`: an edge may lie
    /// between two.
    pub(crate) fn nearest(&self, here: &[f32; 4], x: f32, y: f32) -> [f32; 4] {
        let apart = |other: &[f32; 4]| {
            (0..3).map(|i| (here[i] - other[i]).abs()).fold(0.0_f32, f32::max)
        };
        let (x, y) = ((x - 0.5).round() as isize, (y - 0.5).round() as isize);
        let around = (-1..=1).flat_map(|dy| (-1..=1).map(move |dx| (x + dx, y + dy)));
        let found = around.map(|(x, y)| self.at(x.max(0) as usize, y.max(0) as usize));
        found.min_by(|a, b| apart(a).total_cmp(&apart(b))).unwrap_or_default()
    }

    pub(crate) fn at(&self, x: usize, y: usize) -> [f32; 4] {
        self.pixels[y.min(self.height - 1) * self.width + x.min(self.width - 1)]
    }

    /// Between its four pixels, the edge's own beyond it.
    fn sample(&self, u: f32, v: f32) -> [f32; 4] {
        let x = (u * self.width as f32 - 0.5).clamp(0.0, (self.width - 1) as f32);
        let y = (v * self.height as f32 - 0.5).clamp(0.0, (self.height - 1) as f32);
        let (left, top) = (x.floor(), y.floor());
        let corner = |dx, dy| self.at(left as usize + dx, top as usize + dy);
        let mix = |a: [f32; 4], b: [f32; 4], t: f32| {
            std::array::from_fn(|i| a[i] + (b[i] - a[i]) * t)
        };
        let upper = mix(corner(0, 0), corner(1, 0), x - left);
        let lower = mix(corner(0, 1), corner(1, 1), x - left);
        mix(upper, lower, y - top)
    }
}

/// What the window gives its textures to.
pub(crate) fn plug(raster: &Rc<RefCell<Raster>>) -> impl TestRenderer + 'static {
    Plug(Rc::clone(raster))
}

impl Raster {
    fn take(&mut self, delta: &mut TexturesDelta) {
        for (id, deltas) in std::mem::take(&mut delta.set) {
            for change in deltas {
                let ImageData::Color(image) = &change.image;
                let [width, height] = image.size;
                let colours = image.pixels.iter();
                let pixels = colours.map(|c| c.to_array().map(|part| f32::from(part) / 255.0));
                match change.pos {
                    None => {
                        let pixels = pixels.collect();
                        self.textures.insert(id, Image { width, height, pixels });
                    }
                    Some([left, top]) => {
                        let whole = self.textures.get_mut(&id).unwrap();
                        for (index, pixel) in pixels.enumerate() {
                            let (x, y) = (left + index % width, top + index / width);
                            whole.pixels[y * whole.width + x] = pixel;
                        }
                    }
                }
            }
        }
        for id in std::mem::take(&mut delta.free) {
            self.textures.remove(&id);
        }
    }

    pub(crate) fn paint(&self, all: &[ClippedPrimitive], screen: Rect, scale: f32) -> Image {
        let width = (screen.width() * scale).round() as usize;
        let height = (screen.height() * scale).round() as usize;
        let mut image = Image { width, height, pixels: vec![[0.0; 4]; width * height] };
        for ClippedPrimitive { clip_rect, primitive } in all {
            let Primitive::Mesh(mesh) = primitive else { continue };
            let Some(texture) = self.textures.get(&mesh.texture_id) else { continue };
            let edge = |value: f32, most: usize| {
                (value * scale).round().clamp(0.0, most as f32) as usize
            };
            let clip = [
                edge(clip_rect.left(), width),
                edge(clip_rect.top(), height),
                edge(clip_rect.right(), width),
                edge(clip_rect.bottom(), height),
            ];
            for corners in mesh.indices.as_chunks::<3>().0 {
                let corners = corners.map(|index| mesh.vertices[index as usize]);
                triangle(&mut image, corners, texture, clip, scale);
            }
        }
        image
    }
}

fn triangle(
    image: &mut Image,
    corners: [Vertex; 3],
    texture: &Image,
    clip: [usize; 4],
    scale: f32,
) {
    let [a, mut b, mut c] = corners;
    let cross =
        |p: Pos2, q: Pos2, at: Pos2| (q.x - p.x) * (at.y - p.y) - (q.y - p.y) * (at.x - p.x);
    if cross(a.pos, b.pos, c.pos) < 0.0 {
        std::mem::swap(&mut b, &mut c);
    }
    let area = cross(a.pos, b.pos, c.pos);
    if area <= 0.0 {
        return;
    }
    // A pixel on an edge belongs to the one triangle whose top or left edge that is.
    let owns = |p: Pos2, q: Pos2| (p.y == q.y && q.x > p.x) || q.y < p.y;
    let inside = |weight: f32, owned: bool| weight > 0.0 || (weight == 0.0 && owned);
    let bounds = Rect::from_points(&[a.pos, b.pos, c.pos]);
    let first = |from: f32, least: usize| ((from * scale).floor().max(0.0) as usize).max(least);
    let last = |to: f32, most: usize| ((to * scale).ceil().max(0.0) as usize).min(most);
    let flat = [a.uv, b.uv, c.uv].iter().all(|uv| *uv == a.uv);
    let one = flat.then(|| texture.sample(a.uv.x, a.uv.y));
    for y in first(bounds.top(), clip[1])..last(bounds.bottom(), clip[3]) {
        for x in first(bounds.left(), clip[0])..last(bounds.right(), clip[2]) {
            let at = Pos2::new((x as f32 + 0.5) / scale, (y as f32 + 0.5) / scale);
            let (wa, wb, wc) =
                (cross(b.pos, c.pos, at), cross(c.pos, a.pos, at), cross(a.pos, b.pos, at));
            if !(inside(wa, owns(b.pos, c.pos))
                && inside(wb, owns(c.pos, a.pos))
                && inside(wc, owns(a.pos, b.pos)))
            {
                continue;
            }
            let weighed =
                |of: &dyn Fn(&Vertex) -> f32| (of(&a) * wa + of(&b) * wb + of(&c) * wc) / area;
            let texel = one
                .unwrap_or_else(|| texture.sample(weighed(&|v| v.uv.x), weighed(&|v| v.uv.y)));
            let colour: [f32; 4] = std::array::from_fn(|i| {
                weighed(&|v| f32::from(v.color.to_array()[i])) / 255.0 * texel[i]
            });
            let under = &mut image.pixels[y * image.width + x];
            // Eight bits a step, as a screen has them.
            *under = std::array::from_fn(|i| {
                ((colour[i] + under[i] * (1.0 - colour[3])) * 255.0).round() / 255.0
            });
        }
    }
}
