//! The mat must lie within the backing board.

use super::remedy::full_backing;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;

pub(super) const RULE: Rule =
    Rule { id: "proud-mat", judges: "whether the mat sticks out past the backing", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    if !case.layout.exact.outer.is_positive() {
        return;
    }
    for (side, inside) in case.board().within(case.layout.exact.backing).each() {
        if !inside.is_negative() {
            continue;
        }
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Fault,
            place: Place { side: Some(side), ..Place::default() },
            measured: Amount::Length(-inside),
            required: Amount::Length(Length::ZERO),
            source: "common practice",
            message: format!(
                "The mat sticks out {} past the backing at the {}, and will be knocked loose \
                 when the package goes into the frame. Make the backing at least as large as \
                 the mat, {}.",
                case.some(-inside),
                side.name(),
                case.size_text(case.layout.exact.outer),
            ),
            remedy: Some(full_backing(case)),
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
    fn case(unit: Unit, outer: &str, backing: Option<&str>, wanted: &str) {
        let mut document = plan(unit, "200x250mm");
        let mat = mat(&mut document);
        mat.board_by = BoardBy::Outer { size: size(outer), placement: Placement::Centred };
        mat.backing.size = backing.map(size);
        check(&document, RULE.id, wanted);
    }

    /// Source: common practice: nothing stands out, on any side.
    #[test]
    fn limits() {
        case(Inch, "16x20", None, "");
        case(Inch, "16x20", Some("16x20"), "");
        case(Inch, "16x20", Some("17x20"), "");
        case(Inch, "16x20", Some("15.9999x20"), "fault right, fault left");
        case(Inch, "16x20", Some("17x19 7/8"), "fault top, fault bottom");
        case(Millimetre, "400x500mm", Some("500x400mm"), "fault top, fault bottom");
        case(Millimetre, "400x500mm", Some("399.999x500mm"), "fault right, fault left");
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "8x10");
        let mat = mat(&mut document);
        mat.board_by = BoardBy::Outer { size: size("16x20"), placement: Placement::Centred };
        mat.backing.size = Some(size("15x20"));
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The mat sticks out 1/2 in past the backing at the right, and will be knocked \
             loose when the package goes into the frame. Make the backing at least as large \
             as the mat, 16 × 20 in."
        );
        assert_eq!(remedy, "Make the backing as large as the mat");
    }

    #[test]
    fn in_millimetres() {
        let mut document = metric(on_board("200x250mm", "400x500mm"));
        mat(&mut document).backing.size = Some(size("400x490mm"));
        says(
            &document,
            RULE.id,
            "The mat sticks out 5 mm past the backing at the top, and will be knocked loose \
             when the package goes into the frame. Make the backing at least as large as the \
             mat, 400 × 500 mm.",
            "Make the backing as large as the mat",
        );
    }
}
