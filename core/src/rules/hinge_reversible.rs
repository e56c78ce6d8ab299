//! What cannot be undone has no place on a picture of value.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule =
    Rule { id: "hinge-reversible", judges: "whether the hinges can be removed", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let lasting = case.mat.assembly.hinging.tissue.as_ref().filter(|tissue| !tissue.reversible);
    let Some(tissue) = lasting else { return };
    for (window, _) in case.hinged().filter(|(_, sheet)| sheet.hinges.kind.sticks()) {
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Word("not reversible"),
            required: Amount::Word("reversible with water"),
            source: "Library of Congress; NPS Conserve O Gram 14/1",
            message: format!(
                "{} does not come off with water: whoever takes the picture out of its mat \
                 will tear it, or need solvents. Use pasted tissue or gummed paper.",
                tissue.name
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
    /// Source: Library of Congress; NPS Conserve O Gram 14/1.
    #[test]
    fn limits() {
        for (tissue, wanted) in [("ps-tissue", "caution"), ("gummed-paper", ""), ("", "")] {
            let mut document = hinged_at("8x10", &["1", "7"]);
            assembly_of(&mut document).hinging.tissue =
                Tables::shipped().tissue(tissue).cloned();
            check(&document, RULE.id, wanted);
        }
    }

    #[test]
    fn in_words() {
        let mut document = hinged_at("8x10", &["1", "7"]);
        assembly_of(&mut document).hinging.tissue =
            Tables::shipped().tissue("ps-tissue").cloned();
        says(
            &document,
            RULE.id,
            "Pressure-sensitive tissue tape, 1 in (25 mm) does not come off with water: \
             whoever takes the picture out of its mat will tear it, or need solvents. Use \
             pasted tissue or gummed paper.",
            "",
        );
    }
}
