//! How far a sheet moves depends on its paper and grain.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::movement::State;

pub(super) const RULE: Rule =
    Rule { id: "paper-unknown", judges: "whether paper and grain are known", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged().filter(|(_, sheet)| !sheet.movement.certain) {
        let assembly = &case.mat.assembly;
        let known =
            assembly.paper.as_ref().is_some_and(|p| p.along.is_some() && p.across.is_some());
        let grain = assembly.grain.is_some();
        let missing = match (known, grain) {
            (true, _) => "which way the grain runs",
            (false, _) if assembly.paper.is_none() => "no paper",
            (false, true) => "how far its paper moves",
            (false, false) => "how far its paper moves and which way the grain runs",
        };
        let (names, give) = if assembly.paper.is_none() {
            ("names", " Name the paper and its grain.")
        } else if known {
            ("does not say", " Say which.")
        } else {
            ("does not say", " Give the paper's growth and its grain.")
        };
        let range = |state: &State| state.moved.sums().width.abs();
        let movement = &sheet.movement;
        let bound = range(&movement.bound.dry).max(range(&movement.bound.damp));
        let ordinary = movement.ordinary.as_ref().map(|r| range(&r.dry).max(range(&r.damp)));
        let ordinary = ordinary.unwrap_or(bound);
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Note,
            place: Place::window(window),
            measured: Amount::Length(ordinary),
            required: Amount::Length(bound),
            source: "from memory (ordinary); Conservation Science (RSC), chapter 3 (bound)",
            message: format!(
                "The plan {names} {missing}: the sheet's width changes by {} to {}, between the \
                 ordinary and the upper bound.{give}",
                case.fine(ordinary),
                case.fine(bound),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: derived: unknown paper or grain is a Note, never a Fault; and only once something
    /// was decided.
    #[test]
    fn limits() {
        let mut document = worked();
        check(&document, RULE.id, "");
        assembly_of(&mut document).grain = None;
        check(&document, RULE.id, "note");
        assembly_of(&mut document).paper = None;
        check(&document, RULE.id, "note");
        *assembly_of(&mut document) = crate::spec::Assembly::default();
        check(&document, RULE.id, "");
    }

    /// 17 in × 20 %: 0.003 and 0.015 of the paper, 0.015 and 0.03 where it is not known.
    #[test]
    fn in_words() {
        let without = |change: fn(&mut crate::spec::Assembly)| {
            let mut document = worked();
            change(assembly_of(&mut document));
            document
        };
        says(
            &without(|behind| behind.grain = None),
            RULE.id,
            "The plan does not say which way the grain runs: the sheet's width changes by 0.010 \
             in to 0.051 in, between the ordinary and the upper bound. Say which.",
            "",
        );
        says(
            &without(|behind| behind.paper = None),
            RULE.id,
            "The plan names no paper: the sheet's width changes by 0.051 in to 0.102 in, between \
             the ordinary and the upper bound. Name the paper and its grain.",
            "",
        );
        let mut unmeasured = metric(without(|behind| behind.paper = Some(Paper::default())));
        says(
            &unmeasured,
            RULE.id,
            "The plan does not say how far its paper moves: the sheet's width changes by 1.30 mm \
             to 2.59 mm, between the ordinary and the upper bound. Give the paper's growth and \
             its grain.",
            "",
        );
        assembly_of(&mut unmeasured).grain = None;
        says(
            &unmeasured,
            RULE.id,
            "The plan does not say how far its paper moves and which way the grain runs: the \
             sheet's width changes by 1.30 mm to 2.59 mm, between the ordinary and the upper \
             bound. Give the paper's growth and its grain.",
            "",
        );
    }

    use crate::material::Paper;
}
