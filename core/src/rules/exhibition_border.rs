//! Houses that show work often ask for a least border. A rule one opts into. The figures are in
//! `least_border`.

use super::least_border::exhibition;
use super::remedy::widen;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "exhibition-border",
    judges: "whether the top mat's borders are as wide as exhibitions ask, where that is on",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    if !case.mat.exhibition {
        return;
    }
    for (_, window) in case.windows() {
        let Some(top) = window.top() else { continue };
        for (side, border) in top.borders.each() {
            let wanted = exhibition(case.unit(), case.layout.exact.outer, side);
            if border.is_negative() || border >= wanted {
                continue;
            }
            findings.push(Finding {
                rule: RULE.id,
                severity: Severity::Caution,
                place: Place::top_layer(window, side),
                measured: Amount::Length(border),
                required: Amount::Length(wanted),
                source: "college exhibition handouts",
                message: format!(
                    "The {} border is {} wide. On a board of this size the exhibition rule \
                     asks for {}, and a hanging committee may turn the piece away. Widen the \
                     border.",
                    side.name(),
                    case.against(border, wanted),
                    case.text(wanted),
                ),
                remedy: widen(case, side, border, |outer| exhibition(case.unit(), outer, side)),
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::BoardBy;

    #[track_caller]
    fn case(unit: Unit, sheet: &str, borders: &str, wanted: &str) {
        let mut document = plan(unit, sheet);
        mat(&mut document).board_by = BoardBy::Borders(sides(borders));
        check(&document, RULE.id, "");
        mat(&mut document).exhibition = true;
        check(&document, RULE.id, wanted);
    }

    /// Source: college exhibition handouts. A window of 7 x 10 in makes an 11 x 14 in board.
    #[test]
    fn limits() {
        case(Inch, "7 1/4x10 1/4", "2", "");
        case(Inch, "10 1/4x7 1/4", "2", "");
        case(Inch, "7 1/4x10 1/4", "2,2,1.9999,1.9999", "caution bottom, caution left");
        case(Inch, "7 1/4x10.26", "2", "caution bottom");
        case(Inch, "7 1/4x11", "2,2,3,2", "");
        case(Inch, "7 1/4x11", "1.9999,2,2.9999,2", "caution top, caution bottom");
        case(Inch, "8x10", "2 5/8", "caution bottom");
        case(Millimetre, "210x297mm", "50mm,50mm,75mm,50mm", "");
        case(
            Millimetre,
            "210x297mm",
            "50mm,49.999mm,74.999mm,50mm",
            "caution right, caution bottom",
        );
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "8x10");
        mat(&mut document).board_by = BoardBy::Borders(sides("2 5/8"));
        mat(&mut document).exhibition = true;
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The bottom border is 2 5/8 in wide. On a board of this size the exhibition rule \
             asks for 3 in, and a hanging committee may turn the piece away. Widen the \
             border."
        );
        assert_eq!(remedy, "Widen the bottom border to 3 in");
    }

    #[test]
    fn in_millimetres() {
        let mut document = metric(bordered("210x297mm", "50mm,49mm,75mm,50mm"));
        mat(&mut document).exhibition = true;
        says(
            &document,
            RULE.id,
            "The right border is 49 mm wide. On a board of this size the exhibition rule asks \
             for 50 mm, and a hanging committee may turn the piece away. Widen the border.",
            "Widen the right border to 50 mm",
        );
    }
}
