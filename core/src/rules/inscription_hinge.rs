//! One does not write where a hinge is stuck.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Side;

pub(super) const RULE: Rule = Rule {
    id: "inscription-hinge",
    judges: "whether the writing on the back is clear of hinges",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((made, _, window)) = case.written() else { return };
    let held = case.held().find(|(of, _)| of.id == window.id);
    let hinges = held.map(|(_, sheet)| sheet.hinges.hinges.as_slice()).unwrap_or_default();
    for one in &made.back {
        let met = hinges.iter().any(|hinge| {
            hinge.tab.intersection(one.place).is_some_and(|both| both.size.is_positive())
        });
        if !met {
            continue;
        }
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::side(window, Side::Top),
            measured: Amount::Word("under a hinge"),
            required: Amount::Word("clear of hinges"),
            source: "common practice",
            message: format!(
                "On the back, “{}” is under a hinge. Write fewer lines.",
                one.text
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::spec::Front;

    /// Source: common practice. The reference's sheet of 19 in holds 66 lines of 7 mm with
    /// 5 mm clear; its hinges reach down from the top.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(lines: usize, wanted: bool) {
            let document = inscribed(|lettering, _| {
                lettering.front = Front::Nothing;
                lettering.back = vec![
                    "a line as wide as the whole of the sheet is, or so: {sign}"
                        .to_owned();
                    lines
                ];
            });
            assert_eq!(summary(&document, RULE.id).contains("caution top"), wanted);
        }
        case(4, false);
        case(68, true);
    }

    #[test]
    fn in_words() {
        let line = "a line as wide as the whole of the sheet is, or so: {sign}";
        let document = inscribed(|wish, _| {
            wish.front = Front::Nothing;
            wish.back = vec![line.to_owned(); 68];
        });
        says(
            &document,
            RULE.id,
            "On the back, “a line as wide as the whole of the sheet is, or so:” is under a \
             hinge. Write fewer lines.",
            "",
        );
    }
}
