//! The lip of the frame hides some of the border, never the window.

use super::case::by_unit;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;

/// Border left to see: 1/4 in or 6 mm. Source: from memory.
const LEAST: (Length, Length) = (Length::inches(0, 1, 4), Length::mm(6));

pub(super) const RULE: Rule = Rule {
    id: "frame-lip",
    judges: "whether the frame's lip leaves enough border showing",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((packed, framed)) = case.framed() else { return };
    let least = by_unit(case.unit(), LEAST.0, LEAST.1);
    for (side, seen) in packed.visible_border.each() {
        if seen >= least {
            continue;
        }
        findings.push(Finding {
            rule: RULE.id,
            severity: if seen.is_negative() { Severity::Fault } else { Severity::Caution },
            place: Place { side: Some(side), ..Place::default() },
            measured: Amount::Length(seen),
            required: Amount::Length(least),
            source: "derived from lip and allowance; from memory (1/4 in)",
            message: format!(
                "The frame's lip hides {} at the {} and leaves only {} of the border showing. \
                 Widen the border, or choose a frame with a narrower lip.",
                case.text(framed.hidden.of(side)),
                side.name(),
                if seen.is_negative() { "nothing".to_owned() } else { case.text(seen) },
            ),
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
    use crate::spec::BoardBy;
    /// Source: derived (D): a 1/4 in lip hides 1/4 in below and, with 1/8 in of allowance, 1/8
    /// in above.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(borders: &str, wanted: &str) {
            let mut document = plan(Inch, "8x10");
            let mat = mat(&mut document);
            mat.board_by = BoardBy::Borders(sides(borders));
            mat.assembly.package.frame = Tables::shipped().frame("gallery-wood").cloned();
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        case("2,2,1/2,2", "");
        case("3/8,2,.4999,2", "caution bottom");
        case(".3749,2,2,2", "caution top");
        case("2,2,.2499,2", "fault bottom");
    }

    #[test]
    fn in_words() {
        let framed = |borders: &str| {
            let mut document = bordered("8x10", borders);
            assembly_of(&mut document).package.frame =
                Tables::shipped().frame("gallery-wood").cloned();
            document
        };
        says(
            &framed("2,2,3/8,2"),
            RULE.id,
            "The frame's lip hides 1/4 in at the bottom and leaves only 1/8 in of the border \
             showing. Widen the border, or choose a frame with a narrower lip.",
            "",
        );
        says(
            &framed("2,2,1/8,2"),
            RULE.id,
            "The frame's lip hides 1/4 in at the bottom and leaves only nothing of the border \
             showing. Widen the border, or choose a frame with a narrower lip.",
            "",
        );
    }
}
