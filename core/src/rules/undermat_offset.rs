//! An undermat must show: wide enough to be cut evenly, and wider than its own bevel.

use super::case::by_unit;
use super::remedy::{wide_enough, with_backing};
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::{Sides, Size};
use crate::layout::{Cut, Window};
use crate::length::Length;
use crate::spec::{BoardBy, OpeningId};

/// Less can't be cut evenly by hand: 1/16 in or 1.6 mm. Source: framers' glossary.
const LEAST: (Length, Length) = (Length::inches(0, 1, 16), Length::um(1600));
/// A fine undermat: 1/8 in or 3 mm. Source: framers' glossary; common practice.
const FINE: (Length, Length) = (Length::inches(0, 1, 8), Length::mm(3));

/// The least strip in the plan's unit.
pub(super) fn least(case: &Case<'_>) -> Length {
    by_unit(case.unit(), LEAST.0, LEAST.1)
}

pub(super) const RULE: Rule = Rule {
    id: "undermat-offset",
    judges: "whether each undermat shows enough, and more than its bevel",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let least = least(case);
    for (opening, window) in case.windows() {
        for cut in window.layers.iter().skip(1) {
            for (side, offset) in cut.offset.each() {
                let flat = cut.flat.of(side);
                // off-board reports layers that cross.
                if offset.is_negative() || (offset >= least && flat.is_positive()) {
                    continue;
                }
                let name = side.name();
                let found = offset.thickness(case.unit());
                let (severity, required, message) = if flat.is_positive() {
                    let message = format!(
                        "The undermat's offset at the {name} is {}. Less than {} can't be cut \
                         evenly by hand, and every waver will show. Make it wider.",
                        case.against(offset, least),
                        case.text(least),
                    );
                    (Severity::Caution, least, message)
                } else if cut.bevel.is_positive() {
                    let message = format!(
                        "The undermat's offset at the {name} is {found} and its bevel {}, so \
                         only the bevel shows and none of the undermat's face. Make the \
                         offset wider than the bevel.",
                        cut.bevel.thickness(case.unit()),
                    );
                    (Severity::Fault, cut.bevel.max(least), message)
                } else {
                    let message = format!(
                        "The undermat's offset at the {name} is {found}, so none of the \
                         undermat shows. Make it at least {}.",
                        case.text(least),
                    );
                    (Severity::Fault, least, message)
                };
                findings.push(Finding {
                    rule: RULE.id,
                    severity,
                    place: Place { layer: Some(cut.layer), ..Place::side(window, side) },
                    measured: Amount::Length(offset),
                    required: Amount::Length(required),
                    source: "framers' glossary; common practice",
                    message,
                    remedy: widen_offset(case, opening.id, window, cut),
                });
            }
        }
    }
}

/// A fine offset on every side of that undermat that has too little.
pub(super) fn widen_offset(
    case: &Case<'_>,
    opening: OpeningId,
    window: &Window,
    cut: &Cut,
) -> Option<Remedy> {
    let fine = by_unit(case.unit(), FINE.0, FINE.1);
    let least = least(case);
    let wanted = fine.max((cut.bevel + least).ceil_to(case.document.ruler.step()));
    let wider = cut.offset.map(|offset| {
        let enough = offset >= least && offset > cut.bevel;
        if enough { offset } else { wanted }
    });
    let outer = fits(case, window, wider.minus(cut.offset))?;
    if case.layout.in_hand {
        return None;
    }
    let command = Command::SetOffset(case.variant, opening, cut.layer, wider);
    Some(Remedy {
        words: format!("Set the undermat's offset to {}", case.exact(wanted)),
        command: with_backing(case, command, outer),
    })
}

/// The board of a mat whose windows above some layer are so much wider, the innermost staying
/// where it is; `None` where their borders would become too narrow. What is cut already gives
/// way nowhere: there the window below does.
pub(super) fn fits(case: &Case<'_>, window: &Window, more: Sides<Length>) -> Option<Size> {
    let outer = case.layout.exact.outer;
    if case.mat.cut_board().is_some() {
        return Some(outer);
    }
    match case.mat.board_by {
        BoardBy::Outer { size, .. } => {
            wide_enough(case, size, window.top()?.borders.minus(more)).then_some(size)
        }
        BoardBy::Borders(_) => {
            let sums = more.sums();
            Some(Size::new(outer.width + sums.width, outer.height + sums.height))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::{Bevel, LayerId};

    fn double(
        unit: Unit,
        thickness: &str,
        bevel: Bevel,
        offset: &str,
    ) -> crate::spec::Document {
        let mut document = reference();
        document.unit = unit;
        document.ruler = crate::spec::Ruler::usual(unit);
        let mat = mat(&mut document);
        mat.layers[1].board.thickness = inches(thickness);
        mat.layers[1].bevel = bevel;
        mat.openings[0].offsets.insert(LayerId(2), sides(offset));
        document
    }

    #[track_caller]
    fn case(unit: Unit, thickness: &str, bevel: Bevel, offset: &str, wanted: &str) {
        check(&double(unit, thickness, bevel, offset), RULE.id, wanted);
    }

    /// Source: framers' glossary; the flat is derived (offset less bevel).
    #[test]
    fn limits() {
        let open = Bevel::default();
        case(Inch, ".060", open, "1/16", "");
        case(Inch, ".060", open, "1/16,.0624,1/4,.0601", "caution right, caution left");
        case(Inch, ".060", open, "1/4,.060,.059,0", "fault right, fault bottom, fault left");
        case(Inch, ".125", open, "1/4,1/8,.126,1/4", "fault right");
        case(Millimetre, "1.4mm", open, "3mm,1.5mm,1.4mm,3mm", "fault bottom, caution right");
        case(Inch, ".060", Bevel::Straight, "1/16,1/32,0,1/4", "fault bottom, caution right");
        // Layers that cross are off-board's.
        case(Inch, ".060", open, "1/4,1/4,-1/4,1/4", "");
    }

    #[test]
    fn in_words() {
        let document = double(Inch, ".060", Bevel::default(), "3/16,3/16,3/16,.05");
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The undermat's offset at the left is 0.05 in and its bevel 0.06 in, so only the \
             bevel shows and none of the undermat's face. Make the offset wider than the \
             bevel."
        );
        assert_eq!(remedy, "Set the undermat's offset to 1/8 in");
        let thick = double(Inch, ".125", Bevel::default(), "1/8");
        assert_eq!(words(&thick, RULE.id).1, "Set the undermat's offset to 3/16 in");
    }

    #[test]
    fn a_narrow_one_and_none_in_words() {
        says(
            &double(Inch, ".030", Bevel::default(), "3/16,3/64,3/16,3/16"),
            RULE.id,
            "The undermat's offset at the right is 3/64 in. Less than 1/16 in can't be cut \
             evenly by hand, and every waver will show. Make it wider.",
            "Set the undermat's offset to 1/8 in",
        );
        says(
            &double(Millimetre, "1.4mm", Bevel::default(), "5mm,5mm,5mm,1.5mm"),
            RULE.id,
            "The undermat's offset at the left is 1.5 mm. Less than 1.6 mm can't be cut \
             evenly by hand, and every waver will show. Make it wider.",
            "Set the undermat's offset to 3 mm",
        );
        says(
            &double(Inch, ".060", Bevel::Straight, "3/16,3/16,0,3/16"),
            RULE.id,
            "The undermat's offset at the bottom is 0 in, so none of the undermat shows. Make \
             it at least 1/16 in.",
            "Set the undermat's offset to 1/8 in",
        );
    }
}
