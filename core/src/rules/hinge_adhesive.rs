//! Water-based adhesive does not hold on paper between films of plastic.

use super::remedy::without_adhesive;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "hinge-adhesive",
    judges: "whether the paper takes water-based adhesive",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(paper) = &case.mat.assembly.paper else { return };
    let tissue = case.mat.assembly.hinging.tissue.as_ref();
    let pasted = tissue.is_none_or(|tissue| !tissue.pressure_sensitive);
    if paper.water_based || !pasted {
        return;
    }
    for (window, sheet) in case.hinged().filter(|(_, sheet)| sheet.hinges.kind.sticks()) {
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Word("water-based adhesive"),
            required: Amount::Word("pockets, strips or a dry method"),
            source: "Library of Congress; NPS Conserve O Gram 14/1",
            message: "This paper does not take water-based adhesive: the hinges will let go, \
                      or mark the print. Use corner pockets or edge strips, which need no \
                      adhesive on the sheet."
                .to_owned(),
            remedy: without_adhesive(case, window, sheet),
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
        #[track_caller]
        fn case(paper: &str, tissue: &str, wanted: &str) {
            let mut document = hinged_at("8x10", &["1", "7"]);
            let assembly = assembly_of(&mut document);
            assembly.paper = Tables::shipped().paper(paper).cloned();
            assembly.hinging.tissue = Tables::shipped().tissue(tissue).cloned();
            check(&document, RULE.id, wanted);
        }
        case("resin-coated-260", "kozo-medium", "caution");
        case("resin-coated-260", "ps-tissue", "");
        case("etching-300", "kozo-medium", "");
        case("cotton-300", "kozo-medium", "");
    }

    #[test]
    fn in_words() {
        let mut document = hinged_at("8x10", &["1", "7"]);
        let behind = assembly_of(&mut document);
        behind.paper = Tables::shipped().paper("resin-coated-260").cloned();
        behind.hinging.tissue = Tables::shipped().tissue("kozo-medium").cloned();
        says(
            &document,
            RULE.id,
            "This paper does not take water-based adhesive: the hinges will let go, or mark \
             the print. Use corner pockets or edge strips, which need no adhesive on the \
             sheet.",
            "Hold the sheet by edge strips",
        );
    }
}
