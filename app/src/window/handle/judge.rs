//! What the rules say of a place that something is dragged to.

use sightedge_core::command::apply;
use sightedge_core::derived::derive;
use sightedge_core::finding::{Finding, Severity};
use sightedge_core::geometry::Side;
use sightedge_core::length::Length;
use sightedge_core::material::Tables;

use super::{Handle, HandleContext, Pull, Rest};

/// What a place is judged by.
#[derive(Clone, Copy, Debug)]
pub struct Judge<'a> {
    /// Sizes and materials.
    pub tables: &'a Tables,
    /// What the rules found before the drag.
    pub before: &'a [Finding],
}

impl Handle {
    /// The place nearest to `raw` and within `reach` of it where a drag may rest: none where the
    /// rules would find a Fault.
    pub fn rest_near(
        self,
        cx: HandleContext<'_>,
        judge: Judge<'_>,
        raw: Length,
        reach: Length,
        pull: Pull,
    ) -> Option<Rest> {
        let off = |rest: &Rest| (rest.value - raw).abs();
        let mut near = self.rests(cx, pull.across, pull.tie);
        near.retain(|rest| off(rest) <= reach);
        near.sort_by_key(off);
        let moved = self.sides(cx, pull.tie);
        near.into_iter().find(|rest| {
            let after = self.found_at(cx, judge.tables, rest.value, pull);
            after.is_some_and(|after| !bad(judge.before, &after, &moved))
        })
    }

    /// What the rules find with the handle pulled to `value`.
    fn found_at(
        self,
        cx: HandleContext<'_>,
        tables: &Tables,
        value: Length,
        pull: Pull,
    ) -> Option<Vec<Finding>> {
        let mut document = cx.document.clone();
        apply(&mut document, &self.set(cx, value, pull)?).ok()?;
        Some(derive(&document, document.variant(cx.variant.id)?, tables).findings)
    }
}

/// Whether what the rules find `after` would fail because of the drag: a Fault that was not there
/// `before`, or one at a side that it moves.
fn bad(before: &[Finding], after: &[Finding], moved: &[Side]) -> bool {
    after.iter().any(|finding| {
        finding.severity == Severity::Fault
            && (finding.is_worse_than(before) || is_at(finding, moved))
    })
}

/// The worst finding above a Note that the drag caused: one that was not there
/// `before`, or what changed at a side that it moves.
pub fn worsened<'a>(
    before: &[Finding],
    after: &'a [Finding],
    moved: &[Side],
) -> Option<&'a Finding> {
    // The worst come first.
    after.iter().filter(|finding| finding.severity > Severity::Note).find(|finding| {
        finding.is_worse_than(before) || (is_at(finding, moved) && !before.contains(finding))
    })
}

fn is_at(finding: &Finding, moved: &[Side]) -> bool {
    finding.place.side.is_some_and(|side| moved.contains(&side))
}
