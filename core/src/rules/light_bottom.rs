//! A bottom narrower than the top makes a piece look as if it slid down.

use super::remedy::{moved, wide_enough, with_backing};
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Remedy, Severity};
use crate::geometry::{Side, Sides, Size};
use crate::length::Length;
use crate::spec::BoardBy;

pub(super) const RULE: Rule = Rule {
    id: "light-bottom",
    judges: "whether the bottom border is narrower than the top one",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(borders) = case.placed_borders() else { return };
    // Less than a ruler step is a slip and not intended: uneven-borders reports it.
    if borders.top - borders.bottom < case.document.ruler.step() {
        return;
    }
    let (described, of) = case.described_borders(borders);
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Note,
        place: case.group_side(Side::Bottom),
        measured: Amount::Length(described.bottom),
        required: Amount::Length(described.top),
        source: "photographic-society and artists' guides",
        message: format!(
            "The bottom border{of} is {}, narrower than the top at {}, so the picture looks \
             as if it had slid down. Make the bottom as wide as the top, or wider.",
            case.text(described.bottom),
            case.text(described.top),
        ),
        remedy: remedy(case, borders).map(|command| Remedy {
            words: "Make the bottom as wide as the top".to_owned(),
            command,
        }),
    });
}

fn remedy(case: &Case<'_>, borders: Sides<Length>) -> Option<Command> {
    let even = borders.with(Side::Bottom, borders.top);
    even_out(case, borders, even)
}

/// The borders evened out: by a wider one where borders are given, else by moving the window
/// to the middle between both.
pub(super) fn even_out(
    case: &Case<'_>,
    borders: Sides<Length>,
    even: Sides<Length>,
) -> Option<Command> {
    if case.layout.in_hand {
        return None;
    }
    let more = even.minus(borders);
    match case.mat.board_by {
        BoardBy::Borders(_) => {
            let (outer, sums) = (case.layout.exact.outer, more.sums());
            let outer = Size::new(outer.width + sums.width, outer.height + sums.height);
            let stock = case.tables.stock.iter().any(|row| outer.fits(row.size));
            // A Note's way out must not lead to a Caution: not past the stock sheets, not
            // into what is asked of a larger board's borders.
            (stock && wide_enough(case, outer, even)).then(|| {
                let command = Command::SetBoardBy(case.variant, BoardBy::Borders(even));
                with_backing(case, command, outer)
            })
        }
        BoardBy::Outer { .. } => {
            let middle = |first: Length, last: Length, changed: bool| {
                if changed { (first + last).halves().0 - first } else { Length::ZERO }
            };
            let across = more.left != Length::ZERO || more.right != Length::ZERO;
            let down = more.top != Length::ZERO || more.bottom != Length::ZERO;
            moved(
                case,
                middle(borders.left, borders.right, across),
                middle(borders.top, borders.bottom, down),
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::Placement;

    #[track_caller]
    fn case(unit: Unit, board_by: BoardBy, wanted: &str) {
        let mut document = plan(unit, "200x250mm");
        mat(&mut document).board_by = board_by;
        check(&document, RULE.id, wanted);
        if !wanted.is_empty() {
            assert_eq!(words(&document, RULE.id).1, "Make the bottom as wide as the top");
        }
    }

    /// Source: photographic-society and artists' guides.
    #[test]
    fn limits() {
        let borders = |text| BoardBy::Borders(sides(text));
        case(Inch, borders("3"), "");
        case(Inch, borders("3,3,2 15/16,3"), "note bottom");
        case(Inch, borders("3,3,2.9376,3"), "");
        case(Millimetre, borders("60mm,60mm,59mm,60mm"), "note bottom");
        case(Millimetre, borders("60mm,60mm,59.001mm,60mm"), "");
        case(Millimetre, borders("60mm,60mm,65mm,60mm"), "");
        let outer = |placement| BoardBy::Outer { size: size("14x18"), placement };
        case(Inch, outer(Placement::Centred), "");
        case(Inch, outer(Placement::BottomExtra(inches("-1/2"))), "note bottom");
        case(
            Inch,
            outer(Placement::Free { left: inches("3"), top: inches("4 1/2") }),
            "note bottom",
        );
    }

    #[test]
    fn in_words() {
        says(
            &bordered("8x10", "3,3,2 1/2,3"),
            RULE.id,
            "The bottom border is 2 1/2 in, narrower than the top at 3 in, so the picture \
             looks as if it had slid down. Make the bottom as wide as the top, or wider.",
            "Make the bottom as wide as the top",
        );
        says(
            &metric(bordered("200x250mm", "60mm,60mm,55mm,60mm")),
            RULE.id,
            "The bottom border is 55 mm, narrower than the top at 60 mm, so the picture looks \
             as if it had slid down. Make the bottom as wide as the top, or wider.",
            "Make the bottom as wide as the top",
        );
    }
}
