//! A bag is a little larger than what goes in.

use super::case::by_unit;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Size;
use crate::length::Length;

/// Larger each way by at least: 1/8 in or 3 mm. Source: from memory.
const LEAST: (Length, Length) = (Length::inches(0, 1, 8), Length::mm(3));

pub(super) const RULE: Rule =
    Rule { id: "bag-size", judges: "whether the piece fits its bag", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(packed) = &case.assembly.package else { return };
    let Some(bag) = &case.mat.assembly.package.bag else { return };
    let more = by_unit(case.unit(), LEAST.0, LEAST.1);
    let least = Size::new(packed.contents.width + more, packed.contents.height + more);
    if packed.framed.is_some() || least.fits(bag.size) {
        return;
    }
    let goes_in = packed.contents.fits(bag.size);
    let short = (least.long() - bag.size.long()).max(least.short() - bag.size.short());
    findings.push(Finding {
        rule: RULE.id,
        severity: if goes_in { Severity::Caution } else { Severity::Fault },
        place: Place::default(),
        measured: Amount::Length(more - short),
        required: Amount::Length(more),
        source: "common practice; from memory (1/8-1/4 in larger)",
        message: format!(
            "The bag is {}, but the piece{}, {}, needs at least {}. Choose a larger bag.",
            case.size_text(bag.size),
            if packed.contents == case.layout.exact.outer { "" } else { " with its backing" },
            case.size_text(packed.contents),
            case.size_text(least),
        ),
        remedy: None,
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Inch;
    use crate::material::Bag;
    use crate::spec::{BoardBy, Placement};
    /// Source: common practice; from memory: 1/8 to 1/4 in larger each way.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(bag: &str, wanted: &str) {
            let mut document = plan(Inch, "8x10");
            let mat = mat(&mut document);
            mat.board_by =
                BoardBy::Outer { size: size("16x20"), placement: Placement::Centred };
            mat.assembly.package.bag = Some(Bag { size: size(bag), ..Bag::default() });
            check(&document, RULE.id, wanted);
        }
        case("16 1/8x20 1/8", "");
        case("20 1/8x16 1/8", "");
        case("16.1249x20 1/4", "caution");
        case("15.9999x20 1/4", "fault");
    }

    /// Source: derived (D): a backing that is larger than the mat goes into the bag as well.
    #[test]
    fn a_larger_backing_goes_in_too() {
        let mut document = plan(Inch, "8x10");
        let mat = mat(&mut document);
        mat.board_by = BoardBy::Outer { size: size("16x16"), placement: Placement::Centred };
        mat.backing.size = Some(size("18x18"));
        mat.assembly.package.bag = Some(Bag { size: size("16 1/4x16 1/4"), ..Bag::default() });
        check(&document, RULE.id, "fault");
        let (message, _) = words(&document, RULE.id);
        assert!(message.contains("with its backing, 18 × 18 in, needs at least 18 1/8"));
        assembly_of(&mut document).package.bag =
            Some(Bag { size: size("18 1/8x18 1/8"), ..Bag::default() });
        check(&document, RULE.id, "");
    }

    #[test]
    fn in_words() {
        let bagged = |outer: &str, backing: Option<&str>, bag: &str| {
            let mut document = on_board("8x10", outer);
            mat(&mut document).backing.size = backing.map(size);
            assembly_of(&mut document).package.bag =
                Some(Bag { size: size(bag), ..Bag::default() });
            document
        };
        says(
            &bagged("16x20", None, "16x20 1/4"),
            RULE.id,
            "The bag is 16 × 20 1/4 in, but the piece, 16 × 20 in, needs at least 16 1/8 × 20 \
             1/8 in. Choose a larger bag.",
            "",
        );
        says(
            &bagged("16x16", Some("18x18"), "16 1/4x16 1/4"),
            RULE.id,
            "The bag is 16 1/4 × 16 1/4 in, but the piece with its backing, 18 × 18 in, needs \
             at least 18 1/8 × 18 1/8 in. Choose a larger bag.",
            "",
        );
        says(
            &metric(bagged("400x500mm", None, "400x500mm")),
            RULE.id,
            "The bag is 400 × 500 mm, but the piece, 400 × 500 mm, needs at least 403 × 503 \
             mm. Choose a larger bag.",
            "",
        );
    }
}
