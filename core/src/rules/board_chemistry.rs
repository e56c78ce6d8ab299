//! What touches a picture for decades must not harm it.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::material::Grade;

pub(super) const RULE: Rule =
    Rule { id: "board-chemistry", judges: "whether the boards suit what they touch", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let touching = case.mat.layers.last().map(|layer| &layer.board);
    let tender = case.mat.assembly.paper.as_ref().is_some_and(|p| p.process.needs_unbuffered());
    for (board, what) in [(touching, "mat"), (Some(&case.mat.backing.board), "backing")] {
        let Some(board) = board else { continue };
        let (severity, message) = match board.grade {
            Grade::Lignin => (
                Severity::Caution,
                format!(
                    "The {what} that touches the picture contains lignin, which will yellow \
                     and burn the paper within a few years. Use cotton or purified pulp."
                ),
            ),
            Grade::Unknown if !case.mat.assembly.is_open() => (
                Severity::Note,
                format!(
                    "The plan does not say what the {what} that touches the picture is \
                         made of. Boards with lignin burn the paper: ask your supplier, or \
                         use cotton or purified pulp."
                ),
            ),
            Grade::CottonBuffered | Grade::PurifiedPulp if tender => (
                Severity::Caution,
                format!(
                    "The {what} that touches the picture is buffered, and alkali can harm \
                     this kind of print. Use an unbuffered board (pH 7)."
                ),
            ),
            _ => continue,
        };
        let wanted = if tender { "unbuffered cotton" } else { "cotton or purified pulp" };
        findings.push(Finding {
            rule: RULE.id,
            severity,
            place: Place::default(),
            measured: Amount::Word(board.grade.name()),
            required: Amount::Word(wanted),
            source: "CCI Notes 11/5, Canadian Conservation Institute",
            message,
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Inch;
    use crate::material::Tables;
    /// Source: CCI Notes 11/5: rag buffered, unbuffered where the process wants it, purified pulp
    /// acceptable.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(grade: Grade, paper: &str, wanted: &str) {
            let mut document = plan(Inch, "8x10");
            let mat = mat(&mut document);
            mat.layers[0].board.grade = grade;
            mat.assembly.paper = Tables::shipped().paper(paper).cloned();
            if grade == Grade::CottonUnbuffered {
                mat.backing.board.grade = grade;
            }
            check(&document, RULE.id, wanted);
        }
        case(Grade::CottonBuffered, "", "");
        case(Grade::Unknown, "", "");
        case(Grade::Unknown, "silver-fibre", "note");
        case(Grade::Lignin, "", "caution");
        case(Grade::PurifiedPulp, "silver-fibre", "");
        case(Grade::CottonBuffered, "darkroom-colour", "caution, caution");
        case(Grade::CottonUnbuffered, "darkroom-colour", "");
    }

    #[test]
    fn in_words() {
        let mounted = |grade: Grade, paper: &str| {
            let mut document = plan(Inch, "8x10");
            mat(&mut document).layers[0].board.grade = grade;
            assembly_of(&mut document).paper = Tables::shipped().paper(paper).cloned();
            document
        };
        says(
            &mounted(Grade::Lignin, ""),
            RULE.id,
            "The mat that touches the picture contains lignin, which will yellow and burn the \
             paper within a few years. Use cotton or purified pulp.",
            "",
        );
        says(
            &mounted(Grade::Unknown, "silver-fibre"),
            RULE.id,
            "The plan does not say what the mat that touches the picture is made of. Boards \
             with lignin burn the paper: ask your supplier, or use cotton or purified pulp.",
            "",
        );
        let buffered = mounted(Grade::CottonBuffered, "darkroom-colour");
        let wanted = |what| {
            format!(
                "The {what} that touches the picture is buffered, and alkali can harm this \
                 kind of print. Use an unbuffered board (pH 7)."
            )
        };
        says(&buffered, RULE.id, &wanted("mat"), "");
        reads(&found(&buffered, RULE.id)[1], &wanted("backing"), "");
    }
}
