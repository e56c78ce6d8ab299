//! A mat is cut from one sheet of board.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule = Rule {
    id: "large-board",
    judges: "whether the mat can be cut from a stock sheet of board",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let outer = case.layout.exact.outer;
    let Some(largest) = case.tables.largest_stock() else { return };
    if case.tables.stock.iter().any(|row| outer.fits(row.size)) {
        return;
    }
    let (measured, required) = if outer.long() > largest.long() {
        (outer.long(), largest.long())
    } else {
        (outer.short(), largest.short())
    };
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Caution,
        place: Place::default(),
        measured: Amount::Length(measured),
        required: Amount::Length(required),
        source: "stock sheets in the table of boards",
        message: format!(
            "The mat is {}, and no stock sheet is larger than {}. Find a larger sheet before \
             you promise it, or make the mat smaller.",
            case.size_text(outer),
            case.size_text(largest),
        ),
        remedy: None,
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::{BoardBy, Placement};

    #[track_caller]
    fn case(unit: Unit, outer: &str, wanted: &str) {
        let mut document = plan(unit, "8x10");
        mat(&mut document).board_by =
            BoardBy::Outer { size: size(outer), placement: Placement::Centred };
        check(&document, RULE.id, wanted);
    }

    /// Source: the stock sheets of the trade: 40 x 60 in is the largest; common practice.
    #[test]
    fn limits() {
        case(Inch, "40x60", "");
        case(Inch, "60x40", "");
        case(Inch, "40x60.0001", "caution");
        case(Inch, "60x40.0001", "caution");
        case(Millimetre, "1016x1524mm", "");
        case(Millimetre, "1016.001x1524mm", "caution");
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "8x10");
        mat(&mut document).board_by =
            BoardBy::Outer { size: size("42x30"), placement: Placement::Centred };
        check(&document, RULE.id, "");
        mat(&mut document).board_by =
            BoardBy::Outer { size: size("42x41"), placement: Placement::Centred };
        let first = found(&document, RULE.id).remove(0);
        assert_eq!(first.measured, Amount::Length(inches("41")));
        assert_eq!(first.required, Amount::Length(inches("40")));
        assert!(first.message.starts_with(
            "The mat is 42 × 41 in, and no stock sheet is larger than 40 × 60 in."
        ));
    }

    #[test]
    fn the_whole_words() {
        says(
            &on_board("8x10", "42x41"),
            RULE.id,
            "The mat is 42 × 41 in, and no stock sheet is larger than 40 × 60 in. Find a \
             larger sheet before you promise it, or make the mat smaller.",
            "",
        );
        says(
            &metric(on_board("8x10", "1100x1200mm")),
            RULE.id,
            "The mat is 1100 × 1200 mm, and no stock sheet is larger than 1016 × 1524 mm. \
             Find a larger sheet before you promise it, or make the mat smaller.",
            "",
        );
    }
}
