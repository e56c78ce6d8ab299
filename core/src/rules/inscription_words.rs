//! A line that is to be written names only what there is.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "inscription-words",
    judges: "whether every field of the writing can be filled in",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(Err(why)) = case.inscription else { return };
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Fault,
        place: Place::default(),
        measured: Amount::Word("an unknown field"),
        required: Amount::Word("known fields"),
        source: "our own form",
        message: format!("{why}. Until then the writing is not drawn."),
        remedy: None,
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: our own form.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(line: &str, wanted: &str) {
            let document = inscribed(|lettering, _| {
                lettering.back = vec![line.to_owned()];
                lettering.front = crate::spec::Front::Nothing;
            });
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        case("{title}", "");
        case("Printed by hand", "");
        case("{prize}", "fault");
        case("{title", "fault");
        case("[{title}", "fault");
    }

    #[test]
    fn in_words() {
        let document = inscribed(|wish, _| wish.back = vec!["{prize}".to_owned()]);
        says(
            &document,
            RULE.id,
            "\"prize\" in \"{prize}\" is not a field of the record: use one of title, taken, \
             printed, maker, number, sign. Until then the writing is not drawn.",
            "",
        );
    }
}
