//! What is cut cannot follow the plan any more: where the plan was changed since, one of both
//! gives way.

use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::Size;
use crate::layout::Window;
use crate::length::Length;
use crate::spec::{BoardBy, InHand, Opening, Placement, WindowBy};

pub(super) const RULE: Rule = Rule {
    id: "as-cut",
    judges: "whether the plan still matches the board and the window already cut",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(board) = case.mat.cut_board() else { return };
    another_print(case, findings);
    board_changed(case, board, findings);
    for (opening, window) in case.windows() {
        window_changed(case, opening, window, findings);
    }
}

/// One mat is one print's: for the next one it is cut again, as planned.
fn another_print(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let now = case.document.inscribed.as_ref().and_then(|own| own.recorded.which());
    let of = case.mat.planned.as_ref().and_then(|planned| planned.print);
    if now.is_none() || of.is_none() || now == of {
        return;
    }
    let cut = case.mat.openings.iter().flat_map(|opening| {
        let layers = opening.cut.keys();
        layers.map(|layer| Command::CutAnew(case.variant, opening.id, *layer))
    });
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Caution,
        place: Place::default(),
        measured: Amount::Word("a mat cut for another print"),
        required: Amount::Word("a mat for the print at the bench"),
        source: "derived",
        message:
            "The mat entered as cut was cut for another print. The print at the bench still \
             needs a mat of its own."
                .to_owned(),
        remedy: Some(Remedy {
            words: "Cut a mat for this print".to_owned(),
            command: Command::Together("cut again", cut.collect()),
        }),
    });
}

/// The plan's board, or its borders, are others than those that were cut.
fn board_changed(case: &Case<'_>, board: Size, findings: &mut Vec<Finding>) {
    let Some(window) = case.layout.exact.openings.first() else { return };
    let cut = case.size_text(board);
    let (measured, required, has) = match case.mat.board_by {
        BoardBy::Outer { size, .. } if size != board => {
            (board.long(), size.long(), format!("the plan now has {}", case.size_text(size)))
        }
        BoardBy::Borders(planned) => {
            let Some(top) = window.top() else { return };
            let sides = planned.zip(top.borders, |planned, cut| (planned, cut));
            let Some((side, (planned, cut))) =
                sides.each().into_iter().find(|(_, (planned, cut))| planned != cut)
            else {
                return;
            };
            let name = side.name();
            let (is, plan) = (case.text(cut), case.text(planned));
            let words = format!("its {name} border is {is}, and the plan now has {plan}");
            (cut, planned, words)
        }
        BoardBy::Outer { .. } => return,
    };
    let at = case.layout.exact.group().at;
    let placement = Placement::Free { left: at.x, top: at.y };
    let keep = BoardBy::Outer { size: board, placement };
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Caution,
        place: Place::default(),
        measured: Amount::Length(measured),
        required: Amount::Length(required),
        source: "derived",
        message: format!(
            "The mat is already cut, on a board of {cut}; {has}. Keep the board you cut, or \
             cut the mat again.",
        ),
        remedy: Some(Remedy {
            words: format!("Keep the board as cut, {cut}"),
            command: Command::SetBoardBy(case.variant, keep),
        }),
    });
}

/// The plan asks for another window than the innermost one that is cut.
fn window_changed(
    case: &Case<'_>,
    opening: &Opening,
    window: &Window,
    findings: &mut Vec<Finding>,
) {
    let Some(last) = case.mat.layers.last() else { return };
    let Some(measured) = opening.cut.get(&last.id) else { return };
    let planned = match opening.window_by {
        WindowBy::InHand(hand) => hand.sight,
        WindowBy::Reveal(reveal) => {
            let image = window.image.size;
            let shown = reveal.sums();
            Size::new(image.width + shown.width, image.height + shown.height)
        }
    };
    if planned == measured.sight {
        return;
    }
    let hand = InHand {
        sight: measured.sight,
        overlap_left: window.overlap.left,
        overlap_top: window.overlap.top,
    };
    let off = |a: Length, b: Length| (a - b).abs();
    let wide =
        off(planned.width, measured.sight.width) >= off(planned.height, measured.sight.height);
    let pick = |size: Size| if wide { size.width } else { size.height };
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Caution,
        place: Place { layer: Some(last.id), ..Place::window(window) },
        measured: Amount::Length(pick(measured.sight)),
        required: Amount::Length(pick(planned)),
        source: "derived",
        message: format!(
            "The window is already cut, {}; the plan now asks for {}. Keep the window you \
             cut, or cut the mat again.",
            case.size_text(measured.sight),
            case.size_text(planned),
        ),
        remedy: Some(Remedy {
            words: "Keep the window as cut".to_owned(),
            command: Command::SetWindowBy(case.variant, opening.id, WindowBy::InHand(hand)),
        }),
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::command::{Measured, apply, as_cut};
    use crate::geometry::{Seen, Sides};
    use crate::spec::{Document, LayerId, OpeningId, VariantId};

    /// The reference piece with that layer cut as planned.
    fn cut(layer: u32) -> Document {
        let mut document = reference();
        let laid = crate::layout::layout(&document, &document.variants[0].mat).bench;
        let window = &laid.openings[0];
        let cut = window.layers.iter().find(|cut| cut.layer == LayerId(layer)).unwrap();
        let measured = Measured {
            outer: None,
            layer: Some(cut.layer),
            sight: cut.sight.bounds.size,
            left: cut.borders.left,
            top: cut.borders.top,
            seen: Seen::Front,
        };
        let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
        apply(&mut document, &command).unwrap();
        document
    }

    #[track_caller]
    fn case(layer: u32, change: &Command, wanted: &str) {
        let mut document = cut(layer);
        assert_eq!(summary(&document, RULE.id), "");
        apply(&mut document, change).unwrap();
        check(&document, RULE.id, wanted);
    }

    /// Source: common practice: a miscut is recorded as cut.
    #[test]
    fn what_no_longer_fits() {
        let id = VariantId(1);
        let outer = |text, placement| {
            Command::SetBoardBy(id, BoardBy::Outer { size: size(text), placement })
        };
        case(1, &outer("22x28", Placement::Centred), "caution");
        case(1, &outer("20x26", Placement::Centred), "");
        let borders = |text| Command::SetBoardBy(id, BoardBy::Borders(sides(text)));
        case(1, &borders("4 1/2,4 5/16,5 1/2,3 13/16"), "");
        case(1, &borders("4 1/2,4 5/16,5 9/16,3 13/16"), "caution");
        let reveal = |text: &str| {
            Command::SetWindowBy(id, OpeningId(1), WindowBy::Reveal(Sides::all(inches(text))))
        };
        case(1, &reveal("1/8"), "");
        case(2, &reveal("1/8"), "caution");
    }

    #[test]
    fn in_words() {
        let mut document = cut(1);
        let placement = Placement::Centred;
        mat(&mut document).board_by = BoardBy::Outer { size: size("22x28"), placement };
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The mat is already cut, on a board of 20 × 26 in; the plan now has 22 × 28 in. \
             Keep the board you cut, or cut the mat again."
        );
        assert_eq!(remedy, "Keep the board as cut, 20 × 26 in");
    }

    #[test]
    fn a_border_a_window_and_a_print_in_words() {
        let id = VariantId(1);
        let changed = |layer, change| {
            let mut document = cut(layer);
            apply(&mut document, &change).unwrap();
            document
        };
        let borders = BoardBy::Borders(sides("4 1/2,4 5/16,5 9/16,3 13/16"));
        says(
            &changed(1, Command::SetBoardBy(id, borders)),
            RULE.id,
            "The mat is already cut, on a board of 20 × 26 in; its bottom border is 5 1/2 in, \
             and the plan now has 5 9/16 in. Keep the board you cut, or cut the mat again.",
            "Keep the board as cut, 20 × 26 in",
        );
        let reveal = WindowBy::Reveal(Sides::all(inches("1/8")));
        says(
            &changed(2, Command::SetWindowBy(id, OpeningId(1), reveal)),
            RULE.id,
            "The window is already cut, 11 1/2 × 15 5/8 in; the plan now asks for 11 1/4 × 15 \
             1/4 in. Keep the window you cut, or cut the mat again.",
            "Keep the window as cut",
        );
        let mut document = cut(1);
        document.inscribed = inscribed(|_, recorded| recorded.print = Some(4)).inscribed;
        mat(&mut document).planned.as_mut().unwrap().print = Some(PrintRef::Recorded(3));
        says(
            &document,
            RULE.id,
            "The mat entered as cut was cut for another print. The print at the bench still \
             needs a mat of its own.",
            "Cut a mat for this print",
        );
    }

    use crate::spec::PrintRef;
}
