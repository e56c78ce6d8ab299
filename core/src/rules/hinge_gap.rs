//! The gap of a pressure-sensitive hinge is bare adhesive facing the mat.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;

pub(super) const RULE: Rule =
    Rule { id: "hinge-gap", judges: "whether the mat can stick to a hinge", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let sensitive =
        case.mat.assembly.hinging.tissue.as_ref().is_some_and(|t| t.pressure_sensitive);
    for (window, sheet) in case.hinged() {
        let gap = sheet.hinges.hinges.iter().filter(|h| h.cross.is_some()).map(|h| h.gap).max();
        let Some(gap) = gap.filter(|gap| sensitive && gap.is_positive()) else { continue };
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Length(gap),
            required: Amount::Length(Length::ZERO),
            source: "common practice",
            message: format!(
                "Between the sheet and the cross-piece, {} of each pressure-sensitive hinge \
                 is bare adhesive, which will stick to the mat. Cover it with a strip of \
                 tissue, or use pasted tissue.",
                case.text(gap),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::material::Tables;
    use crate::spec::HingeKind;
    /// Source: common practice.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(tissue: &str, kind: HingeKind, wanted: &str) {
            let mut document = hinged_at("8x10", &["1", "7"]);
            let hinging = &mut assembly_of(&mut document).hinging;
            hinging.tissue = Tables::shipped().tissue(tissue).cloned();
            hinging.kind = Some(kind);
            check(&document, RULE.id, wanted);
        }
        case("ps-tissue", HingeKind::T, "caution");
        case("ps-tissue", HingeKind::V, "");
        case("kozo-light", HingeKind::T, "");
    }

    #[test]
    fn in_words() {
        let mut document = hinged_at("8x10", &["1", "7"]);
        let hinging = &mut assembly_of(&mut document).hinging;
        hinging.tissue = Tables::shipped().tissue("ps-tissue").cloned();
        hinging.gap = Some(inches("3/16"));
        hinging.longer = Some(inches("1/4"));
        // The widest: that of the yielding hinge.
        says(
            &document,
            RULE.id,
            "Between the sheet and the cross-piece, 7/16 in of each pressure-sensitive hinge \
             is bare adhesive, which will stick to the mat. Cover it with a strip of tissue, \
             or use pasted tissue.",
            "",
        );
    }
}
