//! What the rules say of a place that the hand brings something to.

use sightedge_core::finding::{Finding, Severity};
use sightedge_core::geometry::Side;

/// Whether what the rules find `after` would fail because of the hand: a Stop that was not there
/// `before`, or one at a side that it moves.
pub fn bad(before: &[Finding], after: &[Finding], moved: &[Side]) -> bool {
    after.iter().any(|finding| {
        finding.severity == Severity::Stop
            && (is_new(before, finding) || is_at(finding, moved))
    })
}

/// The worst that the hand brought about and that is more than a Note: what was not there
/// `before`, or what changed at a side that it moves.
pub fn brought<'a>(
    before: &[Finding],
    after: &'a [Finding],
    moved: &[Side],
) -> Option<&'a Finding> {
    // The worst come first.
    after.iter().filter(|finding| finding.severity > Severity::Note).find(|finding| {
        is_new(before, finding) || (is_at(finding, moved) && !before.contains(finding))
    })
}

/// Whether nothing as bad was found there before.
fn is_new(before: &[Finding], finding: &Finding) -> bool {
    let same = |old: &&Finding| old.rule == finding.rule && old.place == finding.place;
    before.iter().find(same).is_none_or(|old| old.severity < finding.severity)
}

fn is_at(finding: &Finding, moved: &[Side]) -> bool {
    finding.place.side.is_some_and(|side| moved.contains(&side))
}
