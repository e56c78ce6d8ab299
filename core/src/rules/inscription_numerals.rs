//! An edition writes its proofs in one way.

use super::{Case, Rule};
use crate::catalogue::{Kind, Notation};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "inscription-numerals",
    judges: "whether a proof is numbered as its edition numbers proofs",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((_, wanted, window)) = case.written() else { return };
    let recorded = &wanted.recorded;
    let already_written = wanted.lettering.already_written.trim();
    let Some((read, numerals)) = Notation::read(already_written) else { return };
    let proof = read.kind != Kind::Numbered && !read.kind.single();
    if recorded.notation != Some(read) || !proof || numerals == recorded.numerals {
        return;
    }
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Caution,
        place: Place::window(window),
        measured: Amount::Word(numerals.key()),
        required: Amount::Word(recorded.numerals.key()),
        source: "the studio's record; galleries' print guides",
        message: format!(
            "The print already says “{already_written}”, but the proofs of this edition are \
             written “{}”. Keep to one way.",
            read.text(recorded.numerals)
        ),
        remedy: None,
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::catalogue::Numerals;
    use crate::spec::Front;

    /// Source: galleries' print guides: AP II/V or AP 2/5.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(kind: Kind, numerals: Numerals, already_written: &str, wanted: &str) {
            let document = inscribed(|lettering, recorded| {
                lettering.front = Front::Nothing;
                already_written.clone_into(&mut lettering.already_written);
                recorded.notation = Some(Notation { kind, number: 2, of: 5 });
                recorded.numerals = numerals;
            });
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        case(Kind::Artist, Numerals::Roman, "AP II/V", "");
        case(Kind::Artist, Numerals::Roman, "AP 2/5", "caution");
        case(Kind::Artist, Numerals::Fraction, "AP 2/5", "");
        case(Kind::Artist, Numerals::Fraction, "ap ii/v", "caution");
        case(Kind::Artist, Numerals::Fraction, "ap i/v", "");
        case(Kind::Numbered, Numerals::Roman, "2/5", "");
    }

    #[test]
    fn in_words() {
        let document = inscribed(|wish, recorded| {
            wish.front = Front::Nothing;
            "AP 2/5".clone_into(&mut wish.already_written);
            recorded.notation = Some(Notation { kind: Kind::Artist, number: 2, of: 5 });
        });
        says(
            &document,
            RULE.id,
            "The print already says “AP 2/5”, but the proofs of this edition are written “AP \
             II/V”. Keep to one way.",
            "",
        );
    }
}
