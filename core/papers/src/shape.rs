//! Texts as glyphs at their places: the one shaper that both measures and draws.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;

use parley::fontique::{Collection, CollectionOptions, FontInfoOverride, SourceCache};
use parley::{
    BaseDirection, FontContext, FontData, FontFamily, FontFamilyName, FontWeight, Layout,
    LayoutContext, StyleProperty,
};

use crate::direction::{apart, cleaned};
use crate::faces::{Foreign, own};

/// The size that texts are shaped at, in points: large enough that nothing is rounded.
const SIZE: f32 = 1000.0;
/// What the shaper calls the papers' own typeface.
const OWN: &str = "own";
/// Longer texts are not remembered: none comes twice.
const REMEMBERED: usize = 200;

/// A text on one line, from its beginning on its base line. Lengths are in ems.
#[derive(Clone, Debug)]
pub(crate) struct Shaped {
    /// What the glyphs stand for.
    pub(crate) text: String,
    /// From left to right.
    pub(crate) runs: Vec<Run>,
    pub(crate) width: f64,
    /// Letters that no typeface has: a question mark is drawn for each.
    pub(crate) missing: BTreeSet<char>,
}

/// Glyphs of one typeface.
#[derive(Clone, Debug)]
pub(crate) struct Run {
    pub(crate) face: FontData,
    /// Where on its axes a variable typeface stands: by tag, and as its tables count.
    pub(crate) variations: Vec<([u8; 4], f32)>,
    pub(crate) coordinates: Vec<i16>,
    /// Where the first glyph's pen stands.
    pub(crate) x: f32,
    pub(crate) glyphs: Vec<Glyph>,
}

/// One glyph.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Glyph {
    pub(crate) id: u32,
    /// From the pen, right and down.
    pub(crate) offset: [f32; 2],
    /// How far the pen goes on.
    pub(crate) advance: f32,
    /// The bytes of the text that it stands for.
    pub(crate) text: Range<usize>,
}

thread_local! {
    static SHAPER: RefCell<Shaper> = RefCell::new(Shaper::new());
}

/// Shapes a text; `strong` in the heavier face.
pub(crate) fn shape(text: &str, strong: bool) -> Arc<Shaped> {
    SHAPER.with_borrow_mut(|shaper| shaper.shape(text, strong))
}

/// A shaper with its typefaces; each thread has its own.
struct Shaper {
    fonts: FontContext,
    layouts: LayoutContext<()>,
    /// Files of the system that the shaper knows by now.
    known: BTreeSet<String>,
    /// By the face and the text.
    shaped: [BTreeMap<String, Arc<Shaped>>; 2],
}

impl Shaper {
    fn new() -> Self {
        let options = CollectionOptions { shared: false, system_fonts: false };
        let mut collection = Collection::new(options);
        for data in own() {
            let named =
                FontInfoOverride { family_name: Some(OWN), ..FontInfoOverride::default() };
            collection.register_fonts(data.clone(), Some(named));
        }
        Self {
            fonts: FontContext { collection, source_cache: SourceCache::default() },
            layouts: LayoutContext::new(),
            known: BTreeSet::new(),
            shaped: [BTreeMap::new(), BTreeMap::new()],
        }
    }

    fn shape(&mut self, text: &str, strong: bool) -> Arc<Shaped> {
        let face = usize::from(strong);
        if let Some(shaped) = self.shaped[face].get(text) {
            return Arc::clone(shaped);
        }
        let mut foreign = Foreign::of(text);
        let mut shaped = self.line(text, strong, &foreign);
        // A typeface may have a letter and yet none for the whole of a cluster.
        let lost = shaped.undrawn();
        if !lost.is_empty() {
            foreign.missing.extend(lost);
            shaped = self.line(text, strong, &foreign);
        }
        let shaped = Arc::new(shaped);
        if text.len() <= REMEMBERED {
            self.shaped[face].insert(text.to_owned(), Arc::clone(&shaped));
        }
        shaped
    }

    fn line(&mut self, text: &str, strong: bool, foreign: &Foreign) -> Shaped {
        for face in &foreign.faces {
            if self.known.insert(face.name.clone()) {
                let name = Some(face.name.as_str());
                let named =
                    FontInfoOverride { family_name: name, ..FontInfoOverride::default() };
                self.fonts.collection.register_fonts(face.data.clone(), Some(named));
            }
        }
        let text = apart(cleaned(text, &foreign.missing));
        let names = std::iter::once(OWN).chain(foreign.faces.iter().map(|f| f.name.as_str()));
        let family: Vec<_> = names.map(FontFamilyName::named).collect();
        let mut builder = self.layouts.ranged_builder(&mut self.fonts, &text, 1.0, false);
        builder.set_base_direction(BaseDirection::Ltr);
        builder.push_default(StyleProperty::FontFamily(FontFamily::List(family.into())));
        builder.push_default(StyleProperty::FontSize(SIZE));
        let weight = FontWeight::new(if strong { 600.0 } else { 400.0 });
        builder.push_default(StyleProperty::FontWeight(weight));
        let mut layout: Layout<()> = builder.build(&text);
        layout.break_all_lines(None);
        let (runs, width) = runs(&layout, &text);
        Shaped { text, runs, width: f64::from(width), missing: foreign.missing.clone() }
    }
}

/// The glyphs of a line, and how wide it is.
fn runs(layout: &Layout<()>, text: &str) -> (Vec<Run>, f32) {
    let mut runs = Vec::new();
    let mut x = 0.0;
    for run in layout.lines().flat_map(|line| line.runs().collect::<Vec<_>>()) {
        let start = x;
        let mut glyphs: Vec<Glyph> = Vec::new();
        // Letters that an earlier or a later glyph stands for, where many are one.
        let mut further: Option<Range<usize>> = None;
        for cluster in run.visual_clusters() {
            let range = cluster.text_range();
            if cluster.is_ligature_continuation() {
                if !cluster.is_rtl()
                    && let Some(last) = glyphs.last_mut()
                {
                    last.text.end = last.text.end.max(range.end);
                } else {
                    further = Some(further.map_or(range.clone(), |f| range.start..f.end));
                }
                continue;
            }
            let range = range.start..further.take().map_or(range.end, |f| f.end.max(range.end));
            let directs = |c| matches!(c, '\u{200e}' | '\u{200f}' | '\u{2066}'..='\u{2069}');
            let silent = text.get(range.clone()).is_some_and(|part| part.chars().all(directs));
            for glyph in cluster.glyphs().filter(|_| !silent) {
                let offset = [glyph.x / SIZE, glyph.y / SIZE];
                let advance = glyph.advance / SIZE;
                glyphs.push(Glyph { id: glyph.id, offset, advance, text: range.clone() });
                x += advance;
            }
        }
        if glyphs.is_empty() {
            continue;
        }
        let synthesis = run.synthesis();
        let variations = synthesis.variation_settings().iter();
        runs.push(Run {
            face: run.font().clone(),
            variations: variations.map(|(tag, at)| (tag.into_bytes(), *at)).collect(),
            coordinates: run.normalized_coords().iter().map(|at| at.to_bits()).collect(),
            x: start,
            glyphs,
        });
    }
    (runs, x)
}

impl Shaped {
    /// The letters that no glyph was found for.
    fn undrawn(&self) -> Vec<char> {
        let glyphs = self.runs.iter().flat_map(|run| &run.glyphs);
        let letters = glyphs
            .filter(|glyph| glyph.id == 0)
            .filter_map(|glyph| self.text.get(glyph.text.clone()));
        letters.flat_map(str::chars).filter(|c| *c != '?').collect()
    }
}

/// Forgets the texts that this thread shaped, so that thousands of papers take no more room
/// than a few.
pub fn forget() {
    SHAPER.with_borrow_mut(|shaper| shaper.shaped.iter_mut().for_each(BTreeMap::clear));
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The letters of a text from left to right, as they are drawn.
    fn seen(text: &str) -> String {
        let shaped = shape(text, false);
        let glyphs = shaped.runs.iter().flat_map(|run| &run.glyphs);
        glyphs.map(|glyph| &shaped.text[glyph.text.clone()]).collect()
    }

    #[test]
    fn a_letter_without_a_typeface_is_reported() {
        let shaped = shape("Tide \u{10fff0}\u{f6c5}", false);
        assert_eq!(shaped.text, "Tide ??");
        assert_eq!(shaped.missing, BTreeSet::from(['\u{f6c5}', '\u{10fff0}']));
        assert!(shaped.undrawn().is_empty(), "{shaped:?}");
    }

    #[test]
    fn what_is_never_drawn_needs_no_typeface() {
        for c in ['\0', '\u{ad}', '\u{200b}', '\u{200d}', '\u{200e}', '\u{2060}', '\u{2067}']
            .into_iter()
            .chain(['\u{202e}', '\u{fe0f}', '\u{feff}', '\u{e0101}'])
        {
            let shaped = shape(&format!("a{c}b"), false);
            assert_eq!(shaped.missing, BTreeSet::new(), "{c:?}");
            assert!((shaped.width - shape("ab", false).width).abs() < 1e-6, "{c:?}");
        }
    }

    #[test]
    fn what_came_before_changes_nothing() {
        let glyphs = |text| {
            let shaped = shape(text, true);
            let runs = shaped.runs.iter().map(|run| (run.face.index, run.glyphs.clone()));
            (runs.collect::<Vec<_>>(), shaped.width.to_bits())
        };
        let before = glyphs("Slack water שקע");
        shape("大津 ∮ ꙮ ♘ ቋ", true);
        forget();
        assert_eq!(glyphs("Slack water שקע"), before);
    }

    #[test]
    fn what_measures_is_what_draws() {
        for text in ["AV To 11 ⅞ × 4 ⁵⁄₁₆ in", "efficient flow", "Прилив", " a  b "]
        {
            let shaped = shape(text, false);
            let advances: f32 =
                shaped.runs.iter().flat_map(|run| &run.glyphs).map(|g| g.advance).sum();
            assert!((f64::from(advances) - shaped.width).abs() < 1e-4, "{text}");
            assert_eq!(seen(text), text);
        }
        // Pairs of letters stand closer than each alone.
        let alone = shape("A", false).width + shape("V", false).width;
        assert!(shape("AV", false).width < alone, "no kerning");
    }
}
