//! The optical construction can leave the top narrower than the sides.

use super::remedy::can_move;
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Remedy, Severity};
use crate::geometry::{Side, Sides};
use crate::length::Length;
use crate::spec::{BoardBy, Placement};

pub(super) const RULE: Rule = Rule {
    id: "narrow-top",
    judges: "whether optical placement leaves the top narrower than the sides",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let BoardBy::Outer { size, placement: Placement::Optical } = case.mat.board_by else {
        return;
    };
    let Some(borders) = case.placed_borders() else { return };
    let sides = borders.left;
    if borders.top >= sides {
        return;
    }
    // Placed is the innermost window; the word border alone means the top mat's.
    let of = if case.mat.layers.len() > 1 { " to the undermat's window" } else { "" };
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Note,
        place: case.group_side(Side::Top),
        measured: Amount::Length(borders.top),
        required: Amount::Length(sides),
        source: "photographers' forum on the drawn construction",
        message: format!(
            "At the optical centre the top border{of} is {}, narrower than the sides at {}, \
             so on a mat of this shape the picture looks too high. Make the top as wide as \
             the sides.",
            case.against(borders.top, sides),
            case.text(sides),
        ),
        remedy: remedy(case, borders).map(|placement| Remedy {
            words: "Make the top as wide as the sides".to_owned(),
            command: Command::SetBoardBy(case.variant, BoardBy::Outer { size, placement }),
        }),
    });
}

/// Top as the sides, where that leaves the bottom no narrower than the top.
fn remedy(case: &Case<'_>, borders: Sides<Length>) -> Option<Placement> {
    let sides = borders.left;
    let extra = borders.top + borders.bottom - sides * 2;
    let down = sides - borders.top;
    let sound =
        !extra.is_negative() && !case.layout.in_hand && can_move(case, Length::ZERO, down);
    sound.then_some(Placement::BottomExtra(extra))
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::WindowBy;

    #[track_caller]
    fn case(unit: Unit, sheet: &str, outer: &str, wanted: &str) {
        let mut document = plan(unit, sheet);
        let mat = mat(&mut document);
        mat.openings[0].window_by = WindowBy::Reveal(sides("0"));
        mat.board_by = BoardBy::Outer { size: size(outer), placement: Placement::Optical };
        check(&document, RULE.id, wanted);
    }

    /// Source: photographers' forum on the construction; derived: the top is under the sides
    /// where (H - h)(W + w) < 2W(W - w).
    #[test]
    fn limits() {
        case(Inch, "8x10", "16x20", "note top");
        // (H - 10) 24 = 256: 20 2/3 in.
        case(Inch, "8x10", "16x20.6667", "");
        case(Inch, "8x10", "16x20.6666", "note top");
        case(Millimetre, "200x250mm", "400x500mm", "note top");
        case(Millimetre, "200x250mm", "400x520mm", "");
        case(Inch, "10x8", "14x11", "note top");
    }

    #[test]
    fn the_way_out_is_top_as_sides() {
        let mut document = plan(Inch, "8x10");
        mat(&mut document).openings[0].window_by = WindowBy::Reveal(sides("0"));
        mat(&mut document).board_by =
            BoardBy::Outer { size: size("16x20"), placement: Placement::Optical };
        let remedy = found(&document, RULE.id).remove(0).remedy.unwrap();
        assert_eq!(remedy.words, "Make the top as wide as the sides");
        crate::command::apply(&mut document, &remedy.command).unwrap();
        let mat = &document.variants[0].mat;
        let laid = crate::layout::layout(&document, mat);
        assert_eq!(laid.exact.openings[0].borders, sides("4,4,6,4"));
    }

    /// (20 - 10) × (16 + 8) / (4 × 16) = 3 3/4 in; (500 - 250) × (400 + 200) / 1600 = 93.75 mm.
    #[test]
    fn in_words() {
        let optical = |sheet: &str, outer: &str| {
            let mut document = overlapping(sheet, "0");
            let placement = Placement::Optical;
            mat(&mut document).board_by = BoardBy::Outer { size: size(outer), placement };
            document
        };
        says(
            &optical("8x10", "16x20"),
            RULE.id,
            "At the optical centre the top border is 3 3/4 in, narrower than the sides at 4 \
             in, so on a mat of this shape the picture looks too high. Make the top as wide \
             as the sides.",
            "Make the top as wide as the sides",
        );
        says(
            &metric(optical("200x250mm", "400x500mm")),
            RULE.id,
            "At the optical centre the top border is 93.8 mm, narrower than the sides at 100 \
             mm, so on a mat of this shape the picture looks too high. Make the top as wide \
             as the sides.",
            "Make the top as wide as the sides",
        );
        let mut double = optical("8x10", "16x20");
        let undermat = Layer { id: LayerId(2), ..mat(&mut double).layers[0].clone() };
        mat(&mut double).layers.push(undermat);
        mat(&mut double).openings[0].offsets.insert(LayerId(2), sides("3/16"));
        says(
            &double,
            RULE.id,
            "At the optical centre the top border to the undermat's window is 3 3/4 in, \
             narrower than the sides at 4 in, so on a mat of this shape the picture looks too \
             high. Make the top as wide as the sides.",
            "Make the top as wide as the sides",
        );
    }

    use crate::spec::{Layer, LayerId};
}
