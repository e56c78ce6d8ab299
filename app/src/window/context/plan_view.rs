//! What a panel may read.

use sightedge_core::derived::Derived;
use sightedge_core::finding::Finding;
use sightedge_core::geometry::Size;
use sightedge_core::layout::Window;
use sightedge_core::length::Unit;
use sightedge_core::material::{Colour, Tables};
use sightedge_core::plates::Look;
use sightedge_core::spec::{Document, Mat, Opening, Variant, VariantId, Work};
use sightedge_core::weight::Weights;

use sightedge_pictures::colour::Palette;

use crate::window::session::PlanSession;
use crate::window::textures::About;

/// What a panel may read: the plan as it is shown, and all that follows.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The plan.
    pub document: &'a Document,
    /// The variant in front.
    pub variant: VariantId,
    /// Its mat.
    pub mat: &'a Mat,
    /// The work in its window.
    pub work: &'a Work,
    /// Its window, as decided.
    pub opening: &'a Opening,
    /// Its window, as laid out.
    pub window: &'a Window,
    /// All that follows.
    pub derived: &'a Derived,
    /// Sizes and boards.
    pub tables: &'a Tables,
    /// The picture's colours, once it is there.
    pub palette: Option<&'a Palette>,
    /// What is worth saying about the picture's file.
    pub said: &'a [String],
    /// The size at which the picture's file asks to be printed.
    pub stated: Option<Size>,
    /// The white of its paper.
    pub paper: Colour,
    /// What the studio's record says of the print at the bench.
    pub at_bench: Option<&'a Finding>,
}

impl<'a> View<'a> {
    /// An open plan with the mat in front; `None` for one that has no window, which no file can
    /// hold.
    pub fn of(session: &'a PlanSession, picture: Option<&'a About>) -> Option<Self> {
        Self::of_mat(session, session.variant()?, picture)
    }

    /// The same with the mat that is to be made.
    pub fn of_chosen(session: &'a PlanSession) -> Option<Self> {
        Self::of_mat(session, session.chosen()?, None)
    }

    fn of_mat(
        session: &'a PlanSession,
        variant: &'a Variant,
        picture: Option<&'a About>,
    ) -> Option<Self> {
        let document = session.document();
        let derived = session.derived_of(variant.id)?;
        let opening = variant.mat.openings.first()?;
        Some(Self {
            document,
            variant: variant.id,
            mat: &variant.mat,
            work: document.work(opening.work)?,
            opening,
            window: derived.layout.exact.opening(opening.id)?,
            derived,
            tables: session.tables(),
            palette: picture.and_then(|picture| picture.palette.as_ref()),
            said: picture.map_or(&[], |picture| &picture.said),
            stated: picture.and_then(|picture| picture.stated),
            paper: Look::default().paper_of(&variant.mat),
            at_bench: None,
        })
    }

    /// What weights and forces are shown in.
    pub fn weights(&self) -> Weights {
        self.document.weights()
    }

    /// The plan's unit.
    pub const fn unit(&self) -> Unit {
        self.document.unit
    }
}
