//! What goes to the bench: the plan sheet, the cutter's card, true-size templates and the list
//! of steps as PDF, and the drawings for machines beside them.
//!
//! All of it comes from the drawings and figures of `sightedge-core`. What stands on a page,
//! and where, is computed here in millimetres; its texts are shaped once, and what comes of it
//! is written as PDF and painted for the screen. Nothing here looks at a clock, and nothing
//! comes from a network: equal input gives equal bytes.
//!
//! ```text
//! words · paper            text widths, figures as set; paper sizes, days
//! page · marks · tiles     what stands on a page; a drawing at a scale, in tiles
//! frame · tables           head and foot, tables that papers share
//! sheet · card · template · steps    the papers
//! sheets                   the plan of cutting
//! studio                   what goes with a print: labels, certificate, lists
//! describe                 which paper
//! picture                  the picture's bytes as a page needs them
//! faces · direction        typefaces; texts that run from right to left
//! shape                    texts as glyphs, measured and drawn by one shaper
//! items · place            what is painted, with what it means; how a description looks
//! archive                  which standard a PDF keeps
//! pdf · tags · paint       written as PDF with its tags; painted as pixels
//! names · batch            safe names of files; many plans at once
//! ```

mod archive;
mod batch;
mod card;
mod describe;
mod direction;
mod error;
mod faces;
mod frame;
mod inscription;
mod items;
mod marks;
mod names;
mod page;
mod paint;
mod paper;
mod pdf;
mod picture;
mod place;
mod shape;
mod sheet;
mod sheets;
mod steps;
mod studio;
mod tables;
mod tags;
mod template;
mod tiles;
mod words;

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use sightedge_core::date::Date;
use sightedge_core::derived::Derived;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Variant, Work, WorkId};
use sightedge_core::steps::Step;

use direction::cleaned;
use faces::Foreign;
use picture::Placed;

pub use archive::Archive;
pub use batch::{Choice, Outcome, Progress, Written, day_of, write_all, write_plan};
pub use describe::Kind;
pub use error::PapersError;
pub use names::{safe, unique};
pub use paper::Paper;
pub use shape::forget;
pub use sheets::{CutLine, CutSheet, CuttingPlan};
pub use studio::{Grid, LEAST_LABEL, Piece, StudioPaper, lay_out_studio};

/// A plan, and the options of its papers.
#[derive(Clone, Copy)]
pub struct Order<'a> {
    /// The plan.
    pub document: &'a Document,
    /// Which of its mats.
    pub variant: &'a Variant,
    /// What follows from it.
    pub derived: &'a Derived,
    /// Where the file of a work's picture is; `None` leaves a grey area in its place.
    pub picture: &'a dyn Fn(&Work) -> Option<PathBuf>,
    /// What is printed on.
    pub paper: Paper,
    /// The day written on the papers.
    pub date: Date,
    /// The tables that the steps name materials from.
    pub tables: &'a Tables,
    /// The steps; `None` for those that follow from the plan.
    pub steps: Option<&'a [Step]>,
    /// Which rules the PDF keeps.
    pub archive: Archive,
}

impl std::fmt::Debug for Order<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Order").field("plan", &self.document.id).finish_non_exhaustive()
    }
}

/// A paper as a PDF.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PaperFile {
    /// The PDF.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// What the person should know: a letter no typeface has, a picture that cannot be read.
    pub notes: Vec<String>,
}

/// One page as it will print.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PagePixels {
    /// Across.
    pub width: u32,
    /// Down.
    pub height: u32,
    /// Row by row from the top: red, green, blue, and 255.
    pub rgba: Vec<u8>,
}

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
    let laid = lay_out(kind, order);
    Ok(PaperFile { bytes: laid.pdf()?, pages: laid.pages.len(), notes: laid.notes })
}

/// Sets the pages of one paper. As slow as [`write()`].
pub fn lay_out(kind: Kind, order: &Order<'_>) -> LaidOut {
    let Order { document, variant, derived, paper, date, .. } = *order;
    let plan = frame::Plan { document, variant, derived, paper, date };
    let mut notes = Vec::new();
    let mut names = BTreeMap::new();
    let mut pictures = BTreeMap::new();
    if kind == Kind::Sheet {
        place_pictures(order, &mut names, &mut pictures, &mut notes);
    }
    let pages = describe::describe(kind, &plan, order, &names);
    let ident = format!("{}-{}", document.id, kind.key());
    set_pages(pages, pictures, order.archive, ident, notes)
}

/// Sets what stands on the pages, with typefaces that have its letters.
fn set_pages(
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
                notes.push(format!("{words}. The plan sheet has a grey area instead."));
            }
        }
    }
}
