//! The hinge must be weaker than the sheet: it gives before the paper does.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
/// What paper bears, in newtons per metre of width for each gram per square metre, at the
/// weak end. Source: from memory (tensile index 25-60 N m/g).
const N_PER_M_A_GSM: u32 = 25;

pub(super) const RULE: Rule = Rule {
    id: "hinge-strength",
    judges: "whether the hinge is stronger than the sheet",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let assembly = &case.mat.assembly;
    let tissue = assembly.hinging.tissue.as_ref().and_then(|tissue| tissue.tensile_n_per_m);
    let gsm = assembly.paper.as_ref().and_then(|paper| paper.mass_gsm);
    let Some((tissue, gsm)) = tissue.zip(gsm) else { return };
    let sheet = gsm.saturating_mul(N_PER_M_A_GSM);
    if tissue <= sheet {
        return;
    }
    for (window, _) in case.hinged().filter(|(_, sheet)| sheet.hinges.kind.sticks()) {
        let weights = case.document.weights();
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::NewtonsPerMetre(tissue),
            required: Amount::NewtonsPerMetre(sheet),
            source: "Library of Congress (weaker than the sheet); strength of paper from memory",
            message: format!(
                "The hinge holds {}, the sheet only about {}: in a fall the sheet would tear \
                 before the hinge gives. Use a lighter tissue.",
                weights.strength(tissue),
                weights.strength(sheet),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::material::{Paper, Tissue};
    /// Source: Library of Congress: the hinge gives before the paper does.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(gsm: u32, tensile: u32, wanted: &str) {
            let mut document = hinged_at("8x10", &["1", "7"]);
            let assembly = assembly_of(&mut document);
            assembly.paper = Some(Paper { mass_gsm: Some(gsm), ..Paper::default() });
            assembly.hinging.tissue = Some(Tissue {
                tensile_n_per_m: Some(tensile),
                reversible: true,
                ..Tissue::default()
            });
            check(&document, RULE.id, wanted);
        }
        case(100, 2500, "");
        case(100, 2501, "caution");
        case(300, 6000, "");
    }

    /// 4000 N/m and 100 g/m² × 25 N/m: 22.84 and 14.28 lb for each inch.
    #[test]
    fn in_words() {
        let mut document = hinged_at("8x10", &["1", "7"]);
        let behind = assembly_of(&mut document);
        behind.paper = Some(Paper { mass_gsm: Some(100), ..Paper::default() });
        behind.hinging.tissue =
            Some(Tissue { tensile_n_per_m: Some(4000), reversible: true, ..Tissue::default() });
        says(
            &document,
            RULE.id,
            "The hinge holds 22.8 lb for each inch of its width, the sheet only about 14.3 lb \
             for each inch of its width: in a fall the sheet would tear before the hinge \
             gives. Use a lighter tissue.",
            "",
        );
        says(
            &metric(document),
            RULE.id,
            "The hinge holds 40 N for each centimetre of its width, the sheet only about 25 N \
             for each centimetre of its width: in a fall the sheet would tear before the \
             hinge gives. Use a lighter tissue.",
            "",
        );
    }
}
