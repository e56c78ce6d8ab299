//! The program without its typesetter: what needs it says so, and what to do.

use crate::{
    Archive, CuttingPlan, Kind, Order, OrderList, PagePixels, PaperFile, PapersError,
    StudioOrder, StudioPaper,
};

/// Pages that are set: never here.
#[derive(Debug)]
pub enum LaidOut {}

impl LaidOut {
    /// Width and height of each page, in millimetres.
    pub fn sizes(&self) -> Vec<[f64; 2]> {
        match *self {}
    }

    /// What the person should know.
    pub fn notes(&self) -> &[String] {
        match *self {}
    }

    /// One page as pixels.
    pub fn pixels(&self, _page: usize, _ppi: f64) -> Option<PagePixels> {
        match *self {}
    }

    /// The PDF.
    ///
    /// # Errors
    /// None: there is no such value.
    pub fn pdf(&self) -> Result<Vec<u8>, PapersError> {
        match *self {}
    }
}

/// Would write one paper of a plan.
///
/// # Errors
/// [`PapersError::WithoutPrintouts`], always.
pub fn write(_: Kind, _: &Order<'_>) -> Result<PaperFile, PapersError> {
    Err(PapersError::WithoutPrintouts)
}

/// Would set the pages of one paper.
///
/// # Errors
/// [`PapersError::WithoutPrintouts`], always.
pub fn lay_out(_: Kind, _: &Order<'_>) -> Result<LaidOut, PapersError> {
    Err(PapersError::WithoutPrintouts)
}

/// Would set the pages of a paper that goes with prints.
///
/// # Errors
/// [`PapersError::WithoutPrintouts`], always.
pub fn lay_out_studio(_: &StudioPaper, _: &StudioOrder<'_>) -> Result<LaidOut, PapersError> {
    Err(PapersError::WithoutPrintouts)
}

impl CuttingPlan {
    /// Would write it as a PDF.
    ///
    /// # Errors
    /// [`PapersError::WithoutPrintouts`], always.
    pub fn write(&self, _: Archive) -> Result<PaperFile, PapersError> {
        Err(PapersError::WithoutPrintouts)
    }
}

impl OrderList<'_> {
    /// Would set its pages.
    ///
    /// # Errors
    /// [`PapersError::WithoutPrintouts`], always.
    pub fn lay_out(&self) -> Result<LaidOut, PapersError> {
        Err(PapersError::WithoutPrintouts)
    }
}

/// Nothing was shaped, so nothing is forgotten.
pub const fn forget() {}
