//! Everything that follows from a document, derived at once and never saved.

use crate::behind::{Behind, behind};
use crate::finding::Finding;
use crate::inscription::{Inscription, inscription};
use crate::layout::{Layout, layout};
use crate::material::Tables;
use crate::rules::{Case, judge};
use crate::spec::{Document, Variant};

/// What follows from one variant of a document.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Derived {
    /// Where everything lies.
    pub layout: Layout,
    /// What lies behind the mat.
    pub behind: Behind,
    /// What is written on the print and its mat; `None` where nothing is wanted, or where a
    /// rule says why it cannot be.
    pub inscription: Option<Inscription>,
    /// What would fail, the worst first.
    pub findings: Vec<Finding>,
}

/// Derives all that follows from `variant` of `document`.
pub fn derive(document: &Document, variant: &Variant, tables: &Tables) -> Derived {
    let layout = layout(document, &variant.mat);
    let behind = behind(document, &variant.mat, &layout);
    let inscription = inscription(document, &variant.mat, &layout);
    let case = Case {
        document,
        variant: variant.id,
        mat: &variant.mat,
        layout: &layout,
        behind: &behind,
        inscription: inscription.as_ref(),
        tables,
    };
    let findings = judge(&case);
    Derived { inscription: inscription.and_then(Result::ok), layout, behind, findings }
}
