//! Everything that follows from a document, derived at once and never saved.

use crate::assembly::{Assembly, assembly};
use crate::command::apply;
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
    pub assembly: Assembly,
    /// What is written on the print and its mat; `None` where nothing is wanted, or where a
    /// rule says why it cannot be.
    pub inscription: Option<Inscription>,
    /// What would fail, the worst first.
    pub findings: Vec<Finding>,
}

/// Derives all that follows from `variant` of `document`.
pub fn derive(document: &Document, variant: &Variant, tables: &Tables) -> Derived {
    let layout = layout(document, &variant.mat);
    let assembly = assembly(document, &variant.mat, &layout);
    let inscription = inscription(document, &variant.mat, &layout);
    let case = Case {
        document,
        variant: variant.id,
        mat: &variant.mat,
        layout: &layout,
        assembly: &assembly,
        inscription: inscription.as_ref(),
        tables,
    };
    let mut findings = judge(&case);
    if variant.mat.cut_board().is_some() {
        keep_ways_out(&case, &mut findings);
    }
    Derived { inscription: inscription.and_then(Result::ok), layout, assembly, findings }
}

/// A mat that is partly cut gives way only where it is not: ways out are kept that still clear
/// their finding and bring no worse one.
fn keep_ways_out(case: &Case<'_>, findings: &mut [Finding]) {
    let before: Vec<_> = findings.iter().map(|one| (one.place, one.severity)).collect();
    for finding in findings {
        let Some(remedy) = &finding.remedy else { continue };
        let mut changed = case.document.clone();
        let done = apply(&mut changed, &remedy.command).is_ok();
        let Some(variant) = changed.variant(case.variant).filter(|_| done) else {
            finding.remedy = None;
            continue;
        };
        let layout = layout(&changed, &variant.mat);
        let assembly = assembly(&changed, &variant.mat, &layout);
        let inscription = inscription(&changed, &variant.mat, &layout);
        let after = judge(&Case {
            document: &changed,
            mat: &variant.mat,
            layout: &layout,
            assembly: &assembly,
            inscription: inscription.as_ref(),
            ..*case
        });
        let leads_out = after.iter().all(|after| {
            let same = after.rule == finding.rule && after.place == finding.place;
            let worse = after.severity > finding.severity
                && before.iter().all(|(place, severity)| {
                    *place != after.place || *severity < after.severity
                });
            !same && !worse
        });
        if !leads_out {
            finding.remedy = None;
        }
    }
}
