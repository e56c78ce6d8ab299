//! What would fail: one file a rule, each with its number and that number's source.
//!
//! A rule reads a [`Case`] (the plan, its layout, the tables) and adds its findings. It never
//! changes anything and never fails; the order of [`RULES`] is the order of what is shown
//! within one severity. Rules judge the exact figures.
//!
//! What makes the other figures of a window meaningless (a window or a sheet of no size) is
//! told by `off-board` alone; so is a border that lies outside the board.

mod case;
mod remedy;

mod edge_on_edge;
mod exhibition_border;
mod gap;
mod hidden_image;
mod large_board;
mod light_bottom;
mod liner_offset;
mod mixed_hold;
mod narrow_border;
mod narrow_top;
mod off_board;
mod overlap;
mod proportion;
mod proud_mat;
mod resolution;
mod uneven_borders;

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
pub const RULES: &[Rule] = &[
    off_board::RULE,
    edge_on_edge::RULE,
    overlap::RULE,
    proud_mat::RULE,
    liner_offset::RULE,
    narrow_border::RULE,
    mixed_hold::RULE,
    gap::RULE,
    exhibition_border::RULE,
    hidden_image::RULE,
    large_board::RULE,
    proportion::RULE,
    resolution::RULE,
    narrow_top::RULE,
    light_bottom::RULE,
    uneven_borders::RULE,
];

/// What all rules find: the worst first, then in the order of [`RULES`], then by place.
pub fn judge(case: &Case<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for rule in RULES {
        let before = findings.len();
        (rule.judge)(case, &mut findings);
        if let Some(own) = findings.get_mut(before..) {
            own.sort_by_key(|finding| finding.place);
        }
    }
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    findings
}

/// The worst of them, if any.
pub fn worst(findings: &[Finding]) -> Option<Severity> {
    findings.iter().map(|finding| finding.severity).max()
}

#[cfg(test)]
mod testing;
#[cfg(test)]
mod tests;
