//! A sheet that grows against pockets, strips or the end of the board buckles.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "movement-jam",
    judges: "whether the sheet has room to grow in damp air",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.moving() {
        let movement = &sheet.movement;
        let damp = &movement.bound.damp;
        let grown = damp.moved.sums();
        let (needed, room, what) = if sheet.hinges.kind.sticks() {
            let clear = window.sheet.within(case.board()).minus(damp.moved).least();
            let at_rest = window.sheet.within(case.board()).least();
            (at_rest - clear, at_rest, "the edge of the board")
        } else {
            (grown.width.max(grown.height), sheet.hinges.slack, "its pockets or strips")
        };
        if needed <= room || room.is_negative() {
            continue;
        }
        findings.push(Finding {
            rule: RULE.id,
            severity: if movement.certain { Severity::Fault } else { Severity::Note },
            place: Place::window(window),
            measured: Amount::Length(needed),
            required: Amount::Length(room),
            source: "derived from the paper's growth; slack from memory (1-2 mm)",
            message: format!(
                "At {} % humidity the sheet grows by up to {}, but has only {} before {what}, \
                 so it will buckle. Give it more room.",
                damp.humidity.text(),
                case.finely_against(needed, room),
                case.fine(room),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::spec::{BoardBy, HingeKind};
    /// Source: derived; slack from memory: 22 in × 0.003 × 10 % and 17 in × 0.015 × 10 %.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(slack: &str, wanted: &str) {
            let mut document = worked();
            let hinging = &mut assembly_of(&mut document).hinging;
            hinging.kind = Some(HingeKind::Strips);
            hinging.slack = Some(inches(slack));
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        // 431.8 mm × 0.15 % = 0.6477 mm.
        case(".6477mm", "");
        case(".6476mm", "fault");
        case("1.5mm", "");
    }

    /// Source: derived (D): held 1 in from its left edge, the worked example grows by 0.6096 mm
    /// at the right; the board ends there where the mat's border is hardly wider than the overlap.
    #[test]
    fn the_end_of_the_board() {
        for (border, wanted) in [("3.7846mm", ""), ("3.7845mm", "fault"), ("2", "")] {
            let mut document = worked();
            let mut borders = sides("2");
            borders.right = inches(border);
            mat(&mut document).board_by = BoardBy::Borders(borders);
            assert_eq!(summary(&document, RULE.id), wanted, "{border}");
        }
    }

    /// 431.8 mm × 0.15 % = 0.6477 mm, .0255 in; held 1 in from its left edge, 0.6096 mm of it at
    /// the right, .024 in, where the board ends 3.7 - 3.175 mm from the sheet.
    #[test]
    fn in_words() {
        let mut strips = worked();
        let hinging = &mut assembly_of(&mut strips).hinging;
        hinging.kind = Some(HingeKind::Strips);
        hinging.slack = Some(inches(".02"));
        says(
            &strips,
            RULE.id,
            "At 60 % humidity the sheet grows by up to 0.026 in, but has only 0.020 in before \
             its pockets or strips, so it will buckle. Give it more room.",
            "",
        );
        says(
            &metric(with_borders(worked(), "2,3.7mm,2,2")),
            RULE.id,
            "At 60 % humidity the sheet grows by up to 0.61 mm, but has only 0.53 mm before \
             the edge of the board, so it will buckle. Give it more room.",
            "",
        );
    }
}
