//! A T hinge stands up above the sheet: on a floated sheet it is seen.

use super::{Case, Rule};
use crate::command::Command;
use crate::finding::Remedy;
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;
use crate::spec::HingeKind;

pub(super) const RULE: Rule =
    Rule { id: "hinge-float", judges: "whether a floated sheet has T hinges", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged() {
        let least = window.overlap.each().iter().map(|(_, overlap)| *overlap).max();
        let floated = least.is_some_and(Length::is_negative);
        if !floated || sheet.hinges.kind != HingeKind::T {
            continue;
        }
        let mut hinging = case.mat.assembly.hinging.clone();
        hinging.kind = None;
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Fault,
            place: Place::window(window),
            measured: Amount::Word("T hinges"),
            required: Amount::Word("V or pass-through hinges"),
            source: "Library of Congress, Matting and Hinging Works of Art on Paper",
            message:
                "The sheet is floated but hangs from T hinges, whose cross-pieces show above \
                 it. Use V hinges or pass-through hinges, which stay out of sight."
                    .to_owned(),
            remedy: Some(Remedy {
                words: "Use hinges that suit a floated sheet".to_owned(),
                command: Command::SetHinging(case.variant, hinging),
            }),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::spec::WindowBy;
    /// Source: Library of Congress: V hinges for floated sheets.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(overlap: &str, kind: HingeKind, wanted: &str) {
            let mut document = hinged_at("8x10", &["1", "7"]);
            let mat = mat(&mut document);
            mat.openings[0].window_by =
                WindowBy::Reveal(sides(overlap).map(|overlap| -overlap));
            mat.assembly.hinging.kind = Some(kind);
            check(&document, RULE.id, wanted);
        }
        case("-1/4", HingeKind::T, "fault");
        case("-1/4", HingeKind::V, "");
        case("-1/4", HingeKind::PassThrough, "");
        case("1/8", HingeKind::T, "");
    }

    #[test]
    fn in_words() {
        let mut document = overlapping("8x10", "-1/4");
        assembly_of(&mut document).hinging.kind = Some(HingeKind::T);
        says(
            &document,
            RULE.id,
            "The sheet is floated but hangs from T hinges, whose cross-pieces show above it. \
             Use V hinges or pass-through hinges, which stay out of sight.",
            "Use hinges that suit a floated sheet",
        );
    }
}
