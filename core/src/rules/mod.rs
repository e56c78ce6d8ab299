//! What would fail: one file a rule, each with its number and that number's source.
//!
//! A rule reads a [`Case`] (the plan, its layout, the tables) and adds its findings. It never
//! changes anything and never fails; the order of [`RULES`] is the order of what is shown
//! within one severity.

mod overlap;

use crate::finding::{Finding, Severity};
use crate::layout::Layout;
use crate::material::Tables;
use crate::spec::{Document, Mat, VariantId};

/// What a rule may look at.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// The plan.
    pub document: &'a Document,
    /// The variant judged.
    pub variant: VariantId,
    /// Its mat.
    pub mat: &'a Mat,
    /// Where everything lies.
    pub layout: &'a Layout,
    /// Sizes and boards.
    pub tables: &'a Tables,
}

/// A rule: its id and its judgement.
#[derive(Clone, Copy, Debug)]
pub struct Rule {
    /// As in the headless output.
    pub id: &'static str,
    /// One sentence on what it judges.
    pub judges: &'static str,
    /// Adds what it finds.
    pub judge: fn(&Case<'_>, &mut Vec<Finding>),
}

/// Every rule.
pub const RULES: &[Rule] = &[overlap::RULE];

/// What all rules find, the worst first.
pub fn judge(case: &Case<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for rule in RULES {
        (rule.judge)(case, &mut findings);
    }
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    findings
}

/// The worst of them, if any.
pub fn worst(findings: &[Finding]) -> Option<Severity> {
    findings.iter().map(|finding| finding.severity).max()
}
