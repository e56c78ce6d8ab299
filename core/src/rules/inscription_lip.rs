//! The frame's lip leaves the number and the signature on the mat to see.

use super::inscription_hidden::{out_of, what};
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;
use crate::spec::Front;

pub(super) const RULE: Rule = Rule {
    id: "inscription-lip",
    judges: "whether the frame's lip hides the number or the signature",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((made, wanted, window)) = case.written() else { return };
    let Some((_, framed)) = case.framed() else { return };
    if wanted.lettering.front != Front::Mat {
        return;
    }
    let seen = case.board().inset(framed.hidden);
    for one in &made.front {
        // What stands off the board has its own rule.
        if out_of(one.place, case.board()).is_some() {
            continue;
        }
        let Some((side, out)) = out_of(one.place, seen) else { continue };
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Fault,
            place: Place::side(window, side),
            measured: Amount::Length(out),
            required: Amount::Length(Length::ZERO),
            source: "derived from lip and allowance",
            message: format!(
                "The frame's lip hides {} of {} on the mat. Widen the border, or write in the \
                 margin.",
                case.some(out),
                what(one)
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::material::Tables;
    use crate::spec::BoardBy;

    /// Source: derived (D): a 1/4 in lip hides 1/4 in below, the package resting on it.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(front: Front, bottom: Length, wanted: &str) {
            let mut document = inscribed(|lettering, _| lettering.front = front);
            let mat = mat(&mut document);
            let BoardBy::Borders(sides) = &mut mat.board_by else {
                panic!("the reference's borders are given")
            };
            sides.bottom = bottom;
            mat.assembly.package.frame = Tables::shipped().frame("gallery-wood").cloned();
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        let room = Length::mm(10) + Length::inch_1000ths(60);
        let clear = room + Length::inches(0, 1, 4);
        case(Front::Mat, clear, "");
        case(Front::Mat, clear - Length::um(1), "fault bottom, fault bottom");
        case(Front::Mat, room, "fault bottom, fault bottom");
        case(Front::Nothing, room, "");
    }

    /// The line ends 10 mm and .060 in below the window: on a border of 1/2 in, a lip of 1/4 in
    /// hides .2037 in of it.
    #[test]
    fn in_words() {
        let on_mat = inscribed(|wish, _| wish.front = Front::Mat);
        let mut document = with_borders(on_mat, "4 1/2,4 5/16,1/2,3 13/16");
        assembly_of(&mut document).package.frame =
            Tables::shipped().frame("gallery-wood").cloned();
        says(
            &document,
            RULE.id,
            "The frame's lip hides 13/64 in of the number on the mat. Widen the border, or write \
             in the margin.",
            "",
        );
        reads(
            &found(&document, RULE.id)[1],
            "The frame's lip hides 13/64 in of the place to sign on the mat. Widen the border, or \
             write in the margin.",
            "",
        );
    }
}
