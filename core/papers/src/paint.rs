//! Pages as pixels: the same items that the PDF holds, by the painter that the window's letters
//! come from.

use std::collections::BTreeMap;
use std::sync::Arc;

use sightedge_pictures::{CancelToken, Limits, Target, preview};
use vello_cpu::kurbo::{Affine, Cap, Join, Rect, Shape, Stroke};
use vello_cpu::peniko::color::PremulRgba8;
use vello_cpu::peniko::{Color, ImageQuality, ImageSampler};
use vello_cpu::{Glyph, Image, ImageSource, Pixmap, RenderContext, Resources};

use crate::PagePixels;
use crate::items::{Ink, Item, MITRE, Page, Part};
use crate::picture::Placed;
use crate::place::single;
use crate::shape::Run;

/// Points in an inch.
const POINTS: f64 = 72.0;
/// What stands where a picture can no longer be read.
const NO_PICTURE: Ink = Ink::grey(140);

/// Paints a page, `ppi` pixels an inch.
pub(crate) fn pixels(page: &Page, pictures: &BTreeMap<String, Placed>, ppi: f64) -> PagePixels {
    let scale = ppi / POINTS;
    let [width, height] = page.size.map(|side| side_of(side * scale));
    let mut painter = Painter {
        context: RenderContext::new(width, height),
        resources: Resources::new(),
        base: Affine::scale(scale),
        scale,
        pictures,
    };
    painter.fill(&Rect::new(0.0, 0.0, page.size[0], page.size[1]), Ink::grey(255));
    for item in page.parts.iter().flat_map(Part::items) {
        painter.item(item);
    }
    let Painter { mut context, mut resources, .. } = painter;
    context.flush();
    let mut map = Pixmap::new(width, height);
    context.render(&mut map, &mut resources);
    let rgba = map.data_as_u8_slice().to_vec();
    PagePixels { width: width.into(), height: height.into(), rgba }
}

/// So many whole pixels.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped first"
)]
fn side_of(pixels: f64) -> u16 {
    pixels.round().clamp(1.0, f64::from(u16::MAX)) as u16
}

struct Painter<'a> {
    context: RenderContext,
    resources: Resources,
    base: Affine,
    scale: f64,
    pictures: &'a BTreeMap<String, Placed>,
}

impl Painter<'_> {
    fn item(&mut self, item: &Item) {
        self.context.set_transform(self.base);
        match item {
            Item::Text { text, place, size, ink } => {
                self.context.set_paint(colour(*ink));
                for run in &text.runs {
                    self.run(run, *place, *size);
                }
            }
            Item::Fill { path, ink } => self.fill(path, *ink),
            Item::Line { path, pen } => {
                let mut stroke = Stroke::new(pen.width)
                    .with_caps(Cap::Butt)
                    .with_join(Join::Miter)
                    .with_miter_limit(f64::from(MITRE));
                if let Some(dash) = pen.dash {
                    stroke = stroke.with_dashes(0.0, dash);
                }
                self.context.set_stroke(stroke);
                self.context.set_paint(colour(pen.ink));
                self.context.stroke_path(path);
            }
            Item::Picture { name, place, clip } => {
                self.context.push_clip_path(&clip.to_path(0.1));
                self.picture(name, *place);
                self.context.pop_clip_path();
            }
        }
    }

    fn fill(&mut self, shape: &impl Shape, ink: Ink) {
        self.context.set_transform(self.base);
        self.context.set_paint(colour(ink));
        self.context.fill_path(&shape.to_path(0.1));
    }

    fn run(&mut self, run: &Run, place: Affine, size: f64) {
        self.context.set_transform(self.base * place);
        let size = single(size);
        let mut pen = run.x * size;
        let mut glyphs = Vec::with_capacity(run.glyphs.len());
        for glyph in &run.glyphs {
            let [right, down] = glyph.offset.map(|part| part * size);
            glyphs.push(Glyph { id: glyph.id, x: pen + right, y: down });
            pen += glyph.advance * size;
        }
        self.context
            .glyph_run(&mut self.resources, &run.face)
            .font_size(size)
            .hint(false)
            .normalized_coords(&run.coordinates)
            .fill_glyphs(glyphs.into_iter());
    }

    /// The picture at just the pixels it covers, so that nothing more is scaled.
    fn picture(&mut self, name: &str, place: Rect) {
        let longest = side_of((place.width().max(place.height()) * self.scale).ceil());
        let target = Target::Longest(u32::from(longest));
        let read = self.pictures.get(name).and_then(|placed| {
            preview(&placed.path, target, &Limits::default(), &CancelToken::default()).ok()
        });
        let map = read.and_then(|read| {
            let side = |side| u16::try_from(side).ok();
            let (width, height) = (side(read.size.width)?, side(read.size.height)?);
            Some(Pixmap::from_parts(on_white(&read.rgba), width, height))
        });
        let Some(map) = map else { return self.fill(&place, NO_PICTURE) };
        let size = [map.width(), map.height()].map(f64::from);
        let [right, down] = [place.width() / size[0], place.height() / size[1]];
        let sampler = ImageSampler::new().with_quality(ImageQuality::Medium);
        self.context.set_paint(Image { image: ImageSource::Pixmap(Arc::new(map)), sampler });
        let fit = Affine::translate((place.x0, place.y0));
        self.context.set_paint_transform(fit * Affine::scale_non_uniform(right, down));
        self.context.fill_rect(&place);
        self.context.reset_paint_transform();
    }
}

fn colour(ink: Ink) -> Color {
    let [r, g, b] = ink.rgb;
    Color::from_rgb8(r, g, b).with_alpha(ink.cover)
}

/// On white, as paper is.
fn on_white(rgba: &[u8]) -> Vec<PremulRgba8> {
    let pixel = |pixel: &[u8]| match *pixel {
        [r, g, b, 255] => PremulRgba8 { r, g, b, a: 255 },
        [r, g, b, a] => {
            let over = |part: u8| {
                let part = u16::from(part) * u16::from(a) + 255 * (255 - u16::from(a));
                u8::try_from(part / 255).unwrap_or(255)
            };
            PremulRgba8 { r: over(r), g: over(g), b: over(b), a: 255 }
        }
        _ => PremulRgba8 { r: 255, g: 255, b: 255, a: 255 },
    };
    rgba.chunks_exact(4).map(pixel).collect()
}
