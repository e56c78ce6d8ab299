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
        let (missing, give) = if assembly.paper.is_none() {
            ("name the paper", "Name the paper and its grain")
        } else if known {
            ("say which way the grain runs", "Give the grain")
        } else if grain {
            ("say how far the paper moves", "Give the paper's growth")
        } else {
            (
                "say how far the paper moves or which way its grain runs",
                "Give the paper's growth and its grain",
            )
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
                "The plan does not {missing}. The sheet's width may change by anything from {} \
                 (usual) to {} (at worst). {give}.",
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
            "The plan does not say which way the grain runs. The sheet's width may change by \
             anything from 0.010 in (usual) to 0.051 in (at worst). Give the grain.",
            "",
        );
        says(
            &without(|behind| behind.paper = None),
            RULE.id,
            "The plan does not name the paper. The sheet's width may change by anything from \
             0.051 in (usual) to 0.102 in (at worst). Name the paper and its grain.",
            "",
        );
        let mut unmeasured = metric(without(|behind| behind.paper = Some(Paper::default())));
        says(
            &unmeasured,
            RULE.id,
            "The plan does not say how far the paper moves. The sheet's width may change by \
             anything from 1.30 mm (usual) to 2.59 mm (at worst). Give the paper's growth.",
            "",
        );
        assembly_of(&mut unmeasured).grain = None;
        says(
            &unmeasured,
            RULE.id,
            "The plan does not say how far the paper moves or which way its grain runs. The \
             sheet's width may change by anything from 1.30 mm (usual) to 2.59 mm (at worst). \
             Give the paper's growth and its grain.",
            "",
        );
    }

    use crate::material::Paper;
}
