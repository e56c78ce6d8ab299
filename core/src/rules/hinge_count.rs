//! A sheet hangs from two hinges or more, and from as many as its mass asks for.

use super::remedy::evenly;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule =
    Rule { id: "hinge-count", judges: "whether there are enough hinges for the sheet", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged() {
        let plan = &sheet.hinges;
        let (found, wanted) = (plan.hinges.len(), plan.needed);
        if !plan.kind.sticks() || found >= wanted {
            continue;
        }
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Count(count(found)),
            required: Amount::Count(count(wanted)),
            source: "Paschke, The Artist's Magazine, 2014 (two or more); the tissue's figure, \
                     four times over",
            message: format!(
                "The sheet has {found} of the {wanted} hinges it needs. It will turn, or fall \
                 when one of them gives. Add more hinges."
            ),
            remedy: evenly(case),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::material::{Paper, Tissue};
    /// Source: Paschke 2014: two or more.
    #[test]
    fn limits() {
        check(&hinged_at("8x10", &["4"]), RULE.id, "caution");
        check(&hinged_at("8x10", &["1", "7"]), RULE.id, "");
    }

    /// Source: derived: load = mass × 9.80665 m/s², four times over, against shear × hold.
    #[test]
    fn a_weak_joint_needs_more() {
        let mut document = hinged_at("8x10", &["1", "7"]);
        let assembly = &mut mat(&mut document).assembly;
        assembly.paper = Some(Paper { mass_gsm: Some(5000), ..Paper::default() });
        assembly.hinging.tissue =
            Some(Tissue { shear_pa: Some(20_000), reversible: true, ..Tissue::default() });
        // 258 g: 10.1 N against 3.63 N a hinge.
        check(&document, RULE.id, "caution");
        assembly_of(&mut document).hinging.tissue.as_mut().unwrap().shear_pa = Some(28_000);
        check(&document, RULE.id, "");
    }

    #[test]
    fn in_words() {
        says(
            &hinged_at("8x10", &["4"]),
            RULE.id,
            "The sheet has 1 of the 2 hinges it needs. It will turn, or fall when one of them \
             gives. Add more hinges.",
            "Place the hinges evenly along the edge",
        );
    }
}
