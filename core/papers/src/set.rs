//! Pages set, to be written or shown.

use std::collections::{BTreeMap, BTreeSet};

use sightedge_core::spec::WorkId;

use crate::direction::cleaned;
use crate::faces::Foreign;
use crate::picture::{self, Placed};
use crate::{
    Archive, Kind, Order, PagePixels, PaperFile, PapersError, describe, frame, items, page,
    paint, pdf, place, words,
};

/// A paper whose pages are laid out, to be written or shown.
pub struct LaidOut {
    pages: Vec<items::Page>,
    pictures: BTreeMap<String, Placed>,
    about: pdf::About,
    archive: Archive,
    notes: Vec<String>,
}

impl std::fmt::Debug for LaidOut {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Laid").field("about", &self.about).finish_non_exhaustive()
    }
}

impl LaidOut {
    /// Width and height of each page, in millimetres.
    pub fn sizes(&self) -> Vec<[f64; 2]> {
        self.pages.iter().map(|page| page.size.map(|side| side * words::POINT)).collect()
    }

    /// What the person should know, as in [`PaperFile::notes`].
    pub fn notes(&self) -> &[String] {
        &self.notes
    }

    /// One page as pixels, `ppi` of them an inch (10 to 600); `None` where there is no such
    /// page.
    pub fn pixels(&self, page: usize, ppi: f64) -> Option<PagePixels> {
        let page = self.pages.get(page)?;
        Some(paint::pixels(page, &self.pictures, ppi.clamp(10.0, 600.0)))
    }

    /// The PDF.
    ///
    /// # Errors
    /// Where a PDF of its kind may not hold what stands on the pages.
    pub fn pdf(&self) -> Result<Vec<u8>, PapersError> {
        pdf::write(&self.pages, &self.pictures, &self.about, self.archive)
    }
}

/// Writes one paper of a plan as a PDF. Slow enough (tens of milliseconds) to be called off
/// the frame; it may be called from any thread.
///
/// # Errors
/// Where a PDF of its kind may not hold what stands on the pages.
pub fn write(kind: Kind, order: &Order<'_>) -> Result<PaperFile, PapersError> {
    let laid = lay_out(kind, order)?;
    Ok(PaperFile { bytes: laid.pdf()?, pages: laid.pages.len(), notes: laid.notes })
}

/// Sets the pages of one paper. As slow as [`write()`].
///
/// # Errors
/// Where this program was built without the typesetter.
pub fn lay_out(kind: Kind, order: &Order<'_>) -> Result<LaidOut, PapersError> {
    let Order { document, variant, derived, paper, date, house, .. } = *order;
    let plan = frame::Plan { document, variant, derived, paper, date, house };
    let mut notes = Vec::new();
    let mut names = BTreeMap::new();
    let mut pictures = BTreeMap::new();
    if matches!(kind, Kind::Sheet | Kind::Client) {
        place_pictures(order, &mut names, &mut pictures, &mut notes);
    }
    let pages = describe::describe(kind, &plan, order, &names);
    let ident = format!("{}-{}", document.id, kind.key());
    Ok(set_pages(pages, pictures, order.archive, ident, notes))
}

/// Sets what stands on the pages, with typefaces that have its letters.
pub(crate) fn set_pages(
    mut pages: page::Pages,
    pictures: BTreeMap<String, Placed>,
    archive: Archive,
    ident: String,
    mut notes: Vec<String>,
) -> LaidOut {
    let mut missing = BTreeSet::new();
    for text in pages.texts() {
        let lacks = Foreign::of(text).missing;
        *text = cleaned(text, &lacks);
        missing.extend(lacks);
    }
    let placed = place::place(&pages);
    let items = placed.iter().flat_map(|page| &page.parts).flat_map(items::Part::items);
    for item in items {
        if let items::Item::Text { text, .. } = item {
            missing.extend(&text.missing);
        }
    }
    if !missing.is_empty() {
        let list: Vec<_> =
            missing.iter().map(|c| format!("{c} (U+{:04X})", u32::from(*c))).collect();
        notes.push(format!(
            "No typeface on this machine has {}: a ? stands for it. Install one that has it, \
             and write the papers again.",
            list.join(", ")
        ));
    }
    let page::Pages { title, keywords, date, .. } = pages;
    let about = pdf::About { title, keywords, date, ident };
    LaidOut { pages: placed, pictures, about, archive, notes }
}

fn place_pictures(
    order: &Order<'_>,
    names: &mut BTreeMap<WorkId, String>,
    pictures: &mut BTreeMap<String, Placed>,
    notes: &mut Vec<String>,
) {
    let [wide, high] = order.paper.size();
    for window in &order.derived.layout.bench.openings {
        let Some(work) = order.document.work(window.work) else { continue };
        let Some(path) = (order.picture)(work) else { continue };
        // No larger than the page's upper part; the picture keeps its proportions.
        let size = window.image.size;
        let (w, h) = (size.width.to_mm().max(1.0), size.height.to_mm().max(1.0));
        let share = (wide * 0.6 / w).min(high * 0.4 / h);
        match picture::place(&path, w * share, h * share) {
            Ok(placed) => {
                notes.extend(placed.note.clone());
                let name = format!("picture-{}.jpg", work.id);
                pictures.insert(name.clone(), placed);
                names.insert(work.id, name);
            }
            Err(words) => {
                notes.push(format!("{words}. The page has a grey area instead."));
            }
        }
    }
}
