//! Wetting the back of an inkjet print can mark its face.

use super::remedy::without_adhesive;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::material::Process;

pub(super) const RULE: Rule =
    Rule { id: "hinge-wetting", judges: "whether the back of an inkjet print gets wet", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(paper) = &case.mat.assembly.paper else { return };
    let tissue = case.mat.assembly.hinging.tissue.as_ref();
    let pasted = tissue.is_none_or(|tissue| !tissue.pressure_sensitive);
    if !(paper.water_based && paper.process == Process::Inkjet && pasted) {
        return;
    }
    for (window, sheet) in case.hinged().filter(|(_, sheet)| sheet.hinges.kind.sticks()) {
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Word("a wet back"),
            required: Amount::Word("pockets, strips or a dry method"),
            source: "common practice",
            message: "Pasting hinges wets the back of an inkjet print, which can mark its \
                      face. Use corner pockets, edge strips or a dry method, and try it on a \
                      waste print first."
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
    /// Source: common practice.
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
        case("cotton-300", "kozo-medium", "caution");
        case("cotton-300", "ps-tissue", "");
        case("resin-coated-260", "kozo-medium", "");
        case("silver-fibre", "kozo-medium", "");
    }

    #[test]
    fn in_words() {
        let mut document = hinged_at("8x10", &["1", "7"]);
        let behind = assembly_of(&mut document);
        behind.paper = Tables::shipped().paper("cotton-300").cloned();
        behind.hinging.tissue = Tables::shipped().tissue("kozo-medium").cloned();
        says(
            &document,
            RULE.id,
            "Pasting hinges wets the back of an inkjet print, which can mark its face. Use \
             corner pockets, edge strips or a dry method, and try it on a waste print first.",
            "Hold the sheet by edge strips",
        );
    }
}
