//! What is written can be read: in the window where it stands in the margin, on the board where
//! it stands on the mat, on the sheet where it stands on the back.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::{Rect, Side};
use crate::inscription::Written;
use crate::length::Length;
use crate::spec::Front;

pub(super) const RULE: Rule =
    Rule { id: "inscription-hidden", judges: "whether the writing can be read", judge };

/// How far `place` stands out of `within`, and at which side it does most.
pub(super) fn out_of(place: Rect, within: Rect) -> Option<(Side, Length)> {
    let room = place.within(within);
    let (side, least) = room.each().into_iter().min_by_key(|(_, room)| *room)?;
    least.is_negative().then_some((side, -least))
}

/// What a line on the front is, in words.
pub(super) fn what(one: &Written) -> &'static str {
    if one.sign { "the place to sign" } else { "the number" }
}

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((made, wanted, window)) = case.written() else { return };
    let mut found = |side: Side, out: Length, source, message: String| {
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Fault,
            place: Place::side(window, side),
            measured: Amount::Length(out),
            required: Amount::Length(Length::ZERO),
            source,
            message,
            remedy: None,
        });
    };
    for one in &made.front {
        let (within, where_to, source) = match wanted.lettering.front {
            Front::Nothing => continue,
            Front::Margin => (
                window.sight,
                "is {} under the mat. Show more paper there, or write on the mat.",
                "derived from the window and the hand's height",
            ),
            Front::Mat => (
                case.board(),
                "runs {} off the board. Widen the border, or write in the margin.",
                "derived from the board and the hand's height",
            ),
        };
        if let Some((side, out)) = out_of(one.place, within) {
            let message = where_to.replace("{}", &case.some(out));
            found(side, out, source, format!("On the front, {} {message}", what(one)));
        }
    }
    for one in &made.back {
        if let Some((side, out)) = out_of(one.place, window.sheet) {
            let what = match one.text.as_str() {
                "" => "the place to sign".to_owned(),
                text => format!("“{text}”"),
            };
            let message = format!(
                "On the back, {what} runs {} off the sheet. Shorten it, or write it on two \
                 lines.",
                case.some(out)
            );
            found(side, out, "derived from the sheet and the hand's height", message);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::spec::BoardBy;

    /// Source: derived (D): 3 mm and a hand's 7 mm below the image, 3/8 in of which shows on
    /// the reference piece; on the mat the bevel's .060 in besides.
    #[test]
    fn limits() {
        #[track_caller]
        fn on_mat(bottom: Length, wanted: &str) {
            let mut document = inscribed(|lettering, _| lettering.front = Front::Mat);
            let BoardBy::Borders(sides) = &mut mat(&mut document).board_by else {
                panic!("the reference's borders are given")
            };
            sides.bottom = bottom;
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        let document = inscribed(|lettering, _| lettering.front = Front::Margin);
        assert_eq!(summary(&document, RULE.id), "fault bottom, fault bottom");
        let document = inscribed(|lettering, _| lettering.front = Front::Nothing);
        assert_eq!(summary(&document, RULE.id), "");
        let room = Length::mm(10) + Length::inch_1000ths(60);
        on_mat(room, "");
        on_mat(room - Length::um(1), "fault bottom, fault bottom");
        let long = inscribed(|lettering, _| {
            lettering.front = Front::Nothing;
            lettering.back = vec!["a long line ".repeat(20)];
        });
        assert_eq!(summary(&long, RULE.id), "fault left");
    }

    #[test]
    fn in_words() {
        // 3 mm and 7 mm below the image, of which 3/8 in shows.
        let margin = inscribed(|wish, _| wish.front = Front::Margin);
        says(
            &margin,
            RULE.id,
            "On the front, the number is 1/64 in under the mat. Show more paper there, or \
             write on the mat.",
            "",
        );
        reads(
            &found(&margin, RULE.id)[1],
            "On the front, the place to sign is 1/64 in under the mat. Show more paper there, \
             or write on the mat.",
            "",
        );
        // 10 mm and the bevel's .060 in on a border of 1/4 in: 5.17 mm.
        let on_mat = inscribed(|wish, _| wish.front = Front::Mat);
        says(
            &metric(with_borders(on_mat, "4 1/2,4 5/16,1/4,3 13/16")),
            RULE.id,
            "On the front, the number runs 5.2 mm off the board. Widen the border, or write \
             in the margin.",
            "",
        );
        // 279 letters of 2 mm and 5 mm clear of the right on a sheet 13 in wide: 232.8 mm.
        let long = inscribed(|wish, _| {
            wish.front = Front::Nothing;
            wish.back = vec!["ebb and flood ".repeat(20)];
        });
        let line = ["ebb and flood"; 20].join(" ");
        says(
            &long,
            RULE.id,
            &format!(
                "On the back, “{line}” runs 9 11/64 in off the sheet. Shorten it, or write it \
                 on two lines."
            ),
            "",
        );
    }
}
