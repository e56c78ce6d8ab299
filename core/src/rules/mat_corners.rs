//! Gluing the mat's corners down closes the way to the hinges.

use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};

pub(super) const RULE: Rule = Rule {
    id: "mat-corners",
    judges: "whether glue in the mat's corners can reach the sheet",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(glue) = case.mat.assembly.corners_glued else { return };
    for (window, sheet) in case.held() {
        let clear = window.sheet.within(case.board()).minus(sheet.movement.bound.damp.moved);
        // A dot reaches the sheet where it is past both edges of a corner.
        let across = clear.left.min(clear.right);
        let down = clear.top.min(clear.bottom);
        let least = across.max(down);
        let reaches = glue > least;
        findings.push(Finding {
            rule: RULE.id,
            severity: if reaches { Severity::Fault } else { Severity::Note },
            place: Place::window(window),
            measured: Amount::Length(glue),
            required: Amount::Length(least),
            source: "common practice",
            message: if reaches {
                format!(
                    "The glue reaches {} in from the mat's edges, and at its dampest the \
                     sheet starts {} in, so it can be glued down. Use less glue, or leave the \
                     corners loose.",
                    case.text(glue),
                    case.text(least),
                )
            } else {
                "The mat's corners are glued down, so the hinges can no longer be reached. \
                 Leave them loose unless you mean it."
                    .to_owned()
            },
            remedy: Some(Remedy {
                words: "Leave the corners loose".to_owned(),
                command: Command::SetCornersGlued(case.variant, None),
            }),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Inch;
    use crate::material::Humidity;
    use crate::spec::{BoardBy, Hangs};
    /// Source: common practice.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(glue: &str, wanted: &str) {
            let mut document = plan(Inch, "8x10");
            let mat = mat(&mut document);
            mat.board_by = BoardBy::Borders(sides("2"));
            mat.assembly.corners_glued = (!glue.is_empty()).then(|| inches(glue));
            // Nothing moves where the humidity stays.
            let same = Humidity::read("50").unwrap();
            mat.assembly.hangs_at = Some(Hangs { dry: same, damp: same });
            check(&document, RULE.id, wanted);
        }
        case("", "");
        case("1", "note");
        case("1 7/8", "note");
        case("1.8751", "fault");
    }

    #[test]
    fn in_words() {
        let glued = |glue: &str| {
            let mut document = bordered("8x10", "2");
            assembly_of(&mut document).corners_glued = Some(inches(glue));
            let same = Humidity::read("50").unwrap();
            assembly_of(&mut document).hangs_at = Some(Hangs { dry: same, damp: same });
            document
        };
        says(
            &glued("2"),
            RULE.id,
            "The glue reaches 2 in in from the mat's edges, and at its dampest the sheet \
             starts 1 7/8 in in, so it can be glued down. Use less glue, or leave the corners \
             loose.",
            "Leave the corners loose",
        );
        says(
            &glued("1"),
            RULE.id,
            "The mat's corners are glued down, so the hinges can no longer be reached. Leave \
             them loose unless you mean it.",
            "Leave the corners loose",
        );
    }
}
