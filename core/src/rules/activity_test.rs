//! Boards round photographs should pass the photo-activity test; even that guarantees nothing.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::material::Process;

pub(super) const RULE: Rule = Rule {
    id: "activity-test",
    judges: "whether the boards pass the photo-activity test",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let photograph = case.mat.assembly.paper.as_ref().is_some_and(|paper| {
        matches!(paper.process, Process::Inkjet | Process::Colour | Process::Silver)
    });
    if !photograph || case.mat.assembly.activity_tested != Some(false) {
        return;
    }
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Note,
        place: Place::default(),
        measured: Amount::Word("not claimed"),
        required: Amount::Word("claimed"),
        source: "ISO 18916, ISO 18902",
        message: "The boards' makers do not say that they pass the photo-activity test (ISO \
                  18916), so they may harm a photograph. Choose boards that pass it. A pass does not \
                  make a board 'archival', a word the standards leave undefined."
            .to_owned(),
        remedy: None,
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Inch;
    use crate::material::Tables;
    /// Source: ISO 18916; ISO 18902.
    #[test]
    fn limits() {
        for (paper, tested, wanted) in [
            ("silver-fibre", Some(false), "note"),
            ("silver-fibre", Some(true), ""),
            ("silver-fibre", None, ""),
            ("etching-300", Some(false), ""),
        ] {
            let mut document = plan(Inch, "8x10");
            let assembly = assembly_of(&mut document);
            assembly.paper = Tables::shipped().paper(paper).cloned();
            assembly.activity_tested = tested;
            check(&document, RULE.id, wanted);
        }
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "8x10");
        assembly_of(&mut document).paper = Tables::shipped().paper("silver-fibre").cloned();
        assembly_of(&mut document).activity_tested = Some(false);
        says(
            &document,
            RULE.id,
            "The boards' makers do not say that they pass the photo-activity test (ISO 18916), so \
             they may harm a photograph. Choose boards that pass it. A pass does not make a board \
             'archival', a word the standards leave undefined.",
            "",
        );
    }
}
