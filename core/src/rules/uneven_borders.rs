//! Opposite borders that differ by less than the ruler shows were meant to be equal.

use super::light_bottom::even_out;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Remedy, Severity};
use crate::geometry::Side;
use crate::length::Length;

/// A rounding, not a difference. Source: common practice.
const NOTHING: Length = Length::um(1);

pub(super) const RULE: Rule = Rule {
    id: "uneven-borders",
    judges: "whether opposite borders differ by less than a step of the ruler",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(borders) = case.placed_borders() else { return };
    // What is cut was measured: there is no slip left to mend.
    if case.mat.cut_board().is_some() {
        return;
    }
    let step = case.document.ruler.step();
    for (first, words) in
        [(Side::Top, "Make top and bottom equal"), (Side::Left, "Make left and right equal")]
    {
        let (one, other) = (borders.of(first), borders.of(first.opposite()));
        let off = (one - other).abs();
        if off <= NOTHING || off >= step {
            continue;
        }
        let narrow = if one < other { first } else { first.opposite() };
        let even = borders.with(narrow, one.max(other));
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Note,
            place: case.group_side(narrow),
            measured: Amount::Length(off),
            required: Amount::Length(Length::ZERO),
            source: "common practice",
            message: format!(
                "The {} border is {} narrower than the {} one, less than a step of your ruler \
                 ({}), so it will look like a slip. Make both equal, or the difference \
                 larger.",
                narrow.name(),
                case.text(off),
                narrow.opposite().name(),
                case.text(step),
            ),
            remedy: even_out(case, borders, even)
                .map(|command| Remedy { words: words.to_owned(), command }),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::{BoardBy, Placement};

    #[track_caller]
    fn case(unit: Unit, board_by: BoardBy, wanted: &str) {
        let mut document = plan(unit, "200x250mm");
        mat(&mut document).board_by = board_by;
        check(&document, RULE.id, wanted);
    }

    /// Source: common practice.
    #[test]
    fn limits() {
        let borders = |text| BoardBy::Borders(sides(text));
        case(Inch, borders("3"), "");
        case(Inch, borders("3,3,3 1/16,3"), "");
        case(Inch, borders("3,3,3.0624,3"), "note top");
        case(Inch, borders("3,2 63/64,3 1/64,3"), "note top, note right");
        case(Millimetre, borders("60mm,60.001mm,60mm,60mm"), "");
        case(Millimetre, borders("60mm,60.0011mm,60mm,60mm"), "note left");
        case(Millimetre, borders("60mm,60.999mm,60mm,60mm"), "note left");
        case(Millimetre, borders("60mm,61mm,60mm,60mm"), "");
        let outer = |placement| BoardBy::Outer { size: size("14x18"), placement };
        case(Inch, outer(Placement::BottomExtra(inches("1/32"))), "note top");
        case(Inch, outer(Placement::Centred), "");
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "8x10");
        mat(&mut document).board_by = BoardBy::Borders(sides("3,3 1/32,3 1/2,3"));
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The left border is 1/32 in narrower than the right one, less than a step of your \
             ruler (1/16 in), so it will look like a slip. Make both equal, or the difference \
             larger."
        );
        assert_eq!(remedy, "Make left and right equal");
    }

    #[test]
    fn in_millimetres() {
        says(
            &metric(bordered("200x250mm", "60mm,60mm,60.5mm,60mm")),
            RULE.id,
            "The top border is 0.5 mm narrower than the bottom one, less than a step of your \
             ruler (1 mm), so it will look like a slip. Make both equal, or the difference \
             larger.",
            "Make top and bottom equal",
        );
    }
}
