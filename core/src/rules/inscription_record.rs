//! The number that stands on the print is the record's.

use super::{Case, Rule};
use crate::catalogue::Notation;
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "inscription-record",
    judges: "whether the print or its mat has the number in the record",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((_, wanted, window)) = case.written() else { return };
    let already_written = wanted.lettering.already_written.trim();
    let Some(number) = wanted.recorded.notation.filter(|_| !already_written.is_empty()) else {
        return;
    };
    if Notation::read(already_written).is_some_and(|(read, _)| read == number) {
        return;
    }
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Fault,
        place: Place::window(window),
        measured: Amount::Word("another number"),
        required: Amount::Word("the number in the record"),
        source: "the studio's record",
        message: format!(
            "The print says “{already_written}”, but the record says “{}”. A buyer goes by \
             what is written: correct the one that is wrong.",
            number.text(wanted.recorded.numerals)
        ),
        remedy: None,
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::catalogue::Kind;
    use crate::spec::Front;

    /// Source: galleries' print guides: the number written is the one recorded.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(kind: Kind, already_written: &str, wanted: &str) {
            let document = inscribed(|lettering, recorded| {
                lettering.front = Front::Nothing;
                already_written.clone_into(&mut lettering.already_written);
                recorded.notation = Some(Notation { kind, number: 2, of: 5 });
            });
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        case(Kind::Numbered, "2/5", "");
        case(Kind::Numbered, " 2/5 ", "");
        case(Kind::Numbered, "", "");
        case(Kind::Numbered, "3/5", "fault");
        case(Kind::Numbered, "2/50", "fault");
        case(Kind::Numbered, "AP II/V", "fault");
        case(Kind::Numbered, "two of five", "fault");
        case(Kind::Artist, "AP II/V", "");
        case(Kind::Artist, "ap 2/5", "");
        case(Kind::BonATirer, "BAT", "fault");
    }

    #[test]
    fn in_words() {
        let document = inscribed(|wish, _| {
            wish.front = Front::Nothing;
            "2/25".clone_into(&mut wish.already_written);
        });
        says(
            &document,
            RULE.id,
            "The print says “2/25”, but the record says “3/25”. A buyer goes by what is \
             written: correct the one that is wrong.",
            "",
        );
    }
}
