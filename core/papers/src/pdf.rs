//! Pages as a PDF that archives keep and that is read aloud.

use std::collections::BTreeMap;

use krilla::color::{luma, rgb};
use krilla::configure::validate::{Accessibility, Archival};
use krilla::configure::{Configuration, ConfigurationBuilder};
use krilla::geom::{Path, PathBuilder, Point, Size, Transform};
use krilla::image::Image;
use krilla::metadata::{DateTime, Metadata, TextDirection};
use krilla::num::NormalizedF32;
use krilla::outline::Outline;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, Paint, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph, Tag};
use krilla::{Document, SerializeSettings};
use vello_cpu::kurbo::{BezPath, PathEl};

use crate::items::{Ink, Item, MITRE, Page, Pen};
use crate::picture::{Placed, image_of};
use crate::place::single;
use crate::shape::Run;
use crate::tags::Tags;
use crate::{Archive, PapersError};

/// What a PDF says of itself.
#[derive(Clone, Debug)]
pub(crate) struct About {
    pub(crate) title: String,
    pub(crate) keywords: Vec<String>,
    /// Year, month and day.
    pub(crate) date: (u16, u8, u8),
    /// The same for the same paper of the same plan.
    pub(crate) ident: String,
}

/// Writes pages.
///
/// # Errors
/// What the rules forbid, in words.
pub(crate) fn write(
    pages: &[Page],
    pictures: &BTreeMap<String, Placed>,
    about: &About,
    archive: Archive,
) -> Result<Vec<u8>, PapersError> {
    let mut document = Document::new_with(SerializeSettings {
        configuration: configuration(archive)?,
        // Colours that are the same on every device.
        no_device_cs: true,
        ..SerializeSettings::default()
    });
    let mut writer = Writer { pictures, fonts: BTreeMap::new(), images: BTreeMap::new() };
    let mut tags = Tags::new(archive);
    for (number, page) in pages.iter().enumerate() {
        // No page is smaller. Source: ISO 32000-1, Annex C.
        let [w, h] = page.size.map(|side| single(side).max(3.0));
        let settings = PageSettings::from_wh(w, h)
            .ok_or_else(|| PapersError::Pdf(format!("a page of {w} × {h} points")))?;
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        for part in &page.parts {
            tags.part(part, number, &mut surface, &mut |item, surface| {
                writer.item(item, surface)
            })?;
        }
        surface.finish();
        sheet.finish();
    }
    document.set_tag_tree(tags.finish());
    // One page or a few need no bookmarks; the standard wants an outline all the same.
    document.set_outline(Outline::new());
    let (year, month, day) = about.date;
    let date = DateTime::new(year).month(month).day(day).hour(0).minute(0).second(0);
    document.set_metadata(
        Metadata::new()
            .title(about.title.clone())
            .authors(vec!["Sightedge".to_owned()])
            .creator("Sightedge".to_owned())
            .keywords(about.keywords.clone())
            .language("en".to_owned())
            .text_direction(TextDirection::LeftToRight)
            .document_id(about.ident.clone())
            .creation_date(date),
    );
    document.finish().map_err(|error| PapersError::Pdf(error.to_string()))
}

fn configuration(archive: Archive) -> Result<Configuration, PapersError> {
    let new = ConfigurationBuilder::new();
    let made = match archive {
        Archive::A2aUa1 => new
            .with_archival_validator(Archival::A2_A)
            .with_accessibility_validator(Accessibility::UA1),
        Archive::A1b => new.with_archival_validator(Archival::A1_B),
    };
    made.finish().map_err(|error| PapersError::Pdf(format!("{error:?}")))
}

/// Which typeface: its bytes, which of them, and where it stands on its axes.
type Face = (u64, u32, Vec<i16>);

struct Writer<'a> {
    pictures: &'a BTreeMap<String, Placed>,
    fonts: BTreeMap<Face, Font>,
    images: BTreeMap<String, Image>,
}

impl Writer<'_> {
    fn item(&mut self, item: &Item, surface: &mut Surface<'_>) -> Result<(), PapersError> {
        match item {
            Item::Text { text, place, size, ink } => {
                let [sx, ky, kx, sy, tx, ty] = place.as_coeffs().map(single);
                surface.push_transform(&Transform::from_row(sx, ky, kx, sy, tx, ty));
                surface.set_stroke(None);
                surface.set_fill(Some(fill(*ink)));
                for run in &text.runs {
                    let font = self.font(run)?;
                    let size = single(*size);
                    let at = Point::from_xy(run.x * size, 0.0);
                    surface.draw_glyphs(at, &glyphs(run), font, &text.text, size, false);
                }
                surface.pop();
            }
            Item::Fill { path, ink } => {
                surface.set_stroke(None);
                surface.set_fill(Some(fill(*ink)));
                paint(path, surface);
            }
            Item::Line { path, pen } => {
                surface.set_fill(None);
                surface.set_stroke(Some(stroke(pen)));
                paint(path, surface);
            }
            Item::Picture { name, place, clip } => {
                let Some(image) = self.image(name)? else { return Ok(()) };
                let [w, h] = [place.width(), place.height()].map(single);
                let (Some(size), Some(clip)) = (Size::from_wh(w, h), area(clip)) else {
                    return Ok(());
                };
                surface.push_clip_path(&clip, &FillRule::NonZero);
                let [x, y] = [place.x0, place.y0].map(single);
                surface.push_transform(&Transform::from_translate(x, y));
                surface.draw_image(image, size);
                surface.pop();
                surface.pop();
            }
        }
        Ok(())
    }

    fn font(&mut self, run: &Run) -> Result<Font, PapersError> {
        let key = (run.face.data.id(), run.face.index, run.coordinates.clone());
        if let Some(font) = self.fonts.get(&key) {
            return Ok(font.clone());
        }
        let (data, _) = run.face.data.clone().into_raw_parts();
        let axes: Vec<(Tag, f32)> =
            run.variations.iter().map(|(tag, at)| (Tag::new(tag), *at)).collect();
        let font = Font::new_variable(data.into(), run.face.index, &axes)
            .ok_or_else(|| PapersError::Pdf("a typeface that cannot be read".to_owned()))?;
        self.fonts.insert(key, font.clone());
        Ok(font)
    }

    fn image(&mut self, name: &str) -> Result<Option<Image>, PapersError> {
        if let Some(image) = self.images.get(name) {
            return Ok(Some(image.clone()));
        }
        let Some(placed) = self.pictures.get(name) else { return Ok(None) };
        let image = image_of(&placed.bytes).map_err(PapersError::Pdf)?;
        self.images.insert(name.to_owned(), image.clone());
        Ok(Some(image))
    }
}

/// In ems, as the writer wants them.
fn glyphs(run: &Run) -> Vec<KrillaGlyph> {
    let glyph = |glyph: &crate::shape::Glyph| {
        let [right, down] = glyph.offset;
        let id = GlyphId::new(glyph.id);
        KrillaGlyph::new(id, glyph.advance, right, -down, 0.0, glyph.text.clone(), None)
    };
    run.glyphs.iter().map(glyph).collect()
}

fn colour(ink: Ink) -> Paint {
    match ink.rgb {
        [r, g, b] if r == g && g == b => luma::Color::new(r).into(),
        [r, g, b] => rgb::Color::new(r, g, b).into(),
    }
}

fn fill(ink: Ink) -> Fill {
    let opacity = NormalizedF32::new(ink.cover).unwrap_or(NormalizedF32::ONE);
    Fill { paint: colour(ink), opacity, rule: FillRule::NonZero }
}

fn stroke(pen: &Pen) -> Stroke {
    let dash = |dash: [f64; 2]| StrokeDash { array: dash.map(single).to_vec(), offset: 0.0 };
    Stroke {
        paint: colour(pen.ink),
        width: single(pen.width),
        miter_limit: MITRE,
        dash: pen.dash.map(dash),
        ..Stroke::default()
    }
}

fn area(rect: &vello_cpu::kurbo::Rect) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let [x0, y0, x1, y1] = [rect.x0, rect.y0, rect.x1, rect.y1].map(single);
    builder.push_rect(krilla::geom::Rect::from_ltrb(x0, y0, x1, y1)?);
    builder.finish()
}

fn paint(path: &BezPath, surface: &mut Surface<'_>) {
    let mut builder = PathBuilder::new();
    for element in path.elements() {
        let at = |point: vello_cpu::kurbo::Point| (single(point.x), single(point.y));
        match *element {
            PathEl::MoveTo(p) => builder.move_to(at(p).0, at(p).1),
            PathEl::LineTo(p) => builder.line_to(at(p).0, at(p).1),
            PathEl::QuadTo(a, p) => builder.quad_to(at(a).0, at(a).1, at(p).0, at(p).1),
            PathEl::CurveTo(a, b, p) => {
                builder.cubic_to(at(a).0, at(a).1, at(b).0, at(b).1, at(p).0, at(p).1);
            }
            PathEl::ClosePath => builder.close(),
        }
    }
    // One without any extent is nothing to paint.
    if let Some(path) = builder.finish() {
        surface.draw_path(&path);
    }
}
