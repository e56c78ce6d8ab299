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
//! sheet · card · template · steps · buying · order_list    the papers
//! purchases                what is bought, as a list of lines
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
mod cutting_plan;
mod error;
mod grid;
mod kind;
mod names;
mod paper;
mod piece;
mod purchases;
#[cfg(not(feature = "printouts"))]
mod without;

#[cfg(feature = "printouts")]
mod buying;
#[cfg(feature = "printouts")]
mod card;
#[cfg(feature = "printouts")]
mod client;
#[cfg(feature = "printouts")]
mod describe;
#[cfg(feature = "printouts")]
mod direction;
#[cfg(feature = "printouts")]
mod faces;
#[cfg(feature = "printouts")]
mod frame;
#[cfg(feature = "printouts")]
mod inscription;
#[cfg(feature = "printouts")]
mod items;
#[cfg(feature = "printouts")]
mod marks;
#[cfg(feature = "printouts")]
mod order_list;
#[cfg(feature = "printouts")]
mod page;
#[cfg(feature = "printouts")]
mod paint;
#[cfg(feature = "printouts")]
mod pdf;
#[cfg(feature = "printouts")]
mod picture;
#[cfg(feature = "printouts")]
mod place;
#[cfg(feature = "printouts")]
mod set;
#[cfg(feature = "printouts")]
mod shape;
#[cfg(feature = "printouts")]
mod sheet;
#[cfg(feature = "printouts")]
mod sheets;
#[cfg(feature = "printouts")]
mod steps;
#[cfg(feature = "printouts")]
mod studio;
#[cfg(feature = "printouts")]
mod tables;
#[cfg(feature = "printouts")]
mod tags;
#[cfg(feature = "printouts")]
mod template;
#[cfg(feature = "printouts")]
mod tiles;
#[cfg(feature = "printouts")]
mod words;

use std::path::PathBuf;

use sightedge_core::date::Date;
use sightedge_core::derived::Derived;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Variant, Work};
use sightedge_core::steps::Step;

pub use archive::Archive;
pub use batch::{Choice, Outcome, Progress, Written, day_of, write_all, write_plan};
pub use cutting_plan::{CutLine, CutSheet, CuttingPlan};
pub use error::PapersError;
pub use grid::{Grid, LEAST_LABEL};
pub use kind::Kind;
pub use names::{safe, unique};
pub use paper::Paper;
pub use piece::{House, Piece, StudioOrder, StudioPaper};
pub use purchases::{Group, OrderList, Purchase, purchases, purchases_csv};
#[cfg(feature = "printouts")]
pub use set::{LaidOut, lay_out, write};
#[cfg(feature = "printouts")]
pub use shape::forget;
#[cfg(feature = "printouts")]
pub use studio::lay_out_studio;
#[cfg(not(feature = "printouts"))]
pub use without::{LaidOut, forget, lay_out, lay_out_studio, write};

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
    /// Whose papers they are.
    pub house: &'a House,
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
