//! What would fail: one file a rule, each with its number and that number's source.
//!
//! A rule reads a [`Case`] (the plan, its layout, the tables) and adds its findings. It never
//! changes anything and never fails; the order of [`RULES`] is the order of what is shown
//! within one severity. Rules judge the exact figures, strips as the bench has them.
//!
//! A window or a sheet without a size makes the other figures of a window meaningless: only
//! `off-board` reports it. So it is for a border that lies outside the board.

mod case;
mod least_border;
mod remedy;

mod activity_test;
mod as_cut;
mod bag_size;
mod board_chemistry;
mod edge_on_edge;
mod exhibition_border;
mod frame_fit;
mod frame_lip;
mod gap;
mod glazing_air;
mod hanging_hooks;
mod hanging_wire;
mod hidden_image;
mod hinge_adhesive;
mod hinge_behind_image;
mod hinge_corner;
mod hinge_count;
mod hinge_float;
mod hinge_gap;
mod hinge_hold;
mod hinge_locating;
mod hinge_outer;
mod hinge_overlap;
mod hinge_reversible;
mod hinge_room;
mod hinge_share;
mod hinge_shows;
mod hinge_spacing;
mod hinge_strength;
mod hinge_wetting;
mod inscription_behind_image;
mod inscription_hidden;
mod inscription_hinge;
mod inscription_lip;
mod inscription_numerals;
mod inscription_record;
mod inscription_words;
mod large_board;
mod light_bottom;
mod mat_corners;
mod mixed_hold;
mod movement_jam;
mod movement_overlap;
mod movement_travel;
mod narrow_border;
mod narrow_top;
mod off_board;
mod overlap;
mod package_depth;
mod paper_unknown;
mod print_at_bench;
mod print_size;
mod proportion;
mod proud_mat;
mod resolution;
mod undermat_offset;
mod uneven_borders;
mod uneven_strips;

pub use print_at_bench::{AtBench, PRINT_AT_BENCH, Whereabouts, print_at_bench};
pub use print_size::{PRINT_SIZE, print_size};

use crate::assembly::Assembly;
use crate::finding::{Finding, Severity};
use crate::inscription::Inscription;
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
    /// What follows behind the mat.
    pub assembly: &'a Assembly,
    /// What is written, or why it cannot be; `None` where nothing is wanted.
    pub inscription: Option<&'a Result<Inscription, String>>,
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
    as_cut::RULE,
    edge_on_edge::RULE,
    overlap::RULE,
    proud_mat::RULE,
    undermat_offset::RULE,
    uneven_strips::RULE,
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
    hinge_shows::RULE,
    hinge_corner::RULE,
    hinge_outer::RULE,
    hinge_overlap::RULE,
    hinge_count::RULE,
    hinge_spacing::RULE,
    hinge_share::RULE,
    hinge_strength::RULE,
    hinge_room::RULE,
    hinge_hold::RULE,
    hinge_locating::RULE,
    hinge_float::RULE,
    hinge_adhesive::RULE,
    hinge_wetting::RULE,
    hinge_gap::RULE,
    hinge_reversible::RULE,
    hinge_behind_image::RULE,
    mat_corners::RULE,
    movement_overlap::RULE,
    movement_jam::RULE,
    movement_travel::RULE,
    paper_unknown::RULE,
    board_chemistry::RULE,
    activity_test::RULE,
    package_depth::RULE,
    frame_fit::RULE,
    frame_lip::RULE,
    glazing_air::RULE,
    hanging_wire::RULE,
    hanging_hooks::RULE,
    bag_size::RULE,
    inscription_words::RULE,
    inscription_record::RULE,
    inscription_numerals::RULE,
    inscription_hidden::RULE,
    inscription_lip::RULE,
    inscription_hinge::RULE,
    inscription_behind_image::RULE,
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
pub(crate) use testing::worked as worked_example;
#[cfg(test)]
mod tests;
