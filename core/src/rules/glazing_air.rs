//! A picture must not touch its glazing: moisture and pressure stick them together.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;

/// For a sheet held under a mat. Source: from memory.
const HELD: Length = Length::MM;
/// For a floated one. Source: from memory.
const FLOATED: Length = Length::mm(3);

pub(super) const RULE: Rule =
    Rule { id: "glazing-air", judges: "whether the picture keeps clear of the glazing", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((packed, _)) = case.framed() else { return };
    let least = if packed.floated { FLOATED } else { HELD };
    if packed.air >= least {
        return;
    }
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Caution,
        place: Place::default(),
        measured: Amount::Length(packed.air),
        required: Amount::Length(least),
        source: "from memory",
        message: format!(
            "There is only {} of air between picture and glazing{}. It needs {}, or the print \
             may stick to the glazing. Use a thicker mat or a spacer.",
            case.against(packed.air, least),
            if packed.floated { ", and a floated sheet can rise" } else { "" },
            case.text(least),
        ),
        remedy: None,
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::spec::WindowBy;
    /// Source: from memory: a mat of 4-ply keeps a held sheet clear; a float needs more.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(overlap: &str, thickness: &str, spacer: Option<&str>, wanted: &str) {
            let mut document = framed_in("16x20", "16 1/8x20 1/8");
            let mat = mat(&mut document);
            mat.openings[0].window_by =
                WindowBy::Reveal(sides(overlap).map(|overlap| -overlap));
            mat.layers[0].board.thickness = inches(thickness);
            mat.assembly.package.spacer = spacer.map(inches);
            check(&document, RULE.id, wanted);
        }
        case("1/8", "1mm", None, "");
        case("1/8", ".999mm", None, "caution");
        case("1/8", ".5mm", Some(".5mm"), "");
        case("-1/4", "1.5mm", None, "caution");
        case("-1/4", "1.5mm", Some("1.5mm"), "");
    }

    #[test]
    fn in_words() {
        let framed = |overlap: &str, thickness: &str| {
            let framed = framed_in("16x20", "16 1/8x20 1/8");
            let mut document = with_overlaps(framed, overlap);
            mat(&mut document).layers[0].board.thickness = inches(thickness);
            document
        };
        says(
            &framed("1/8", "1/64"),
            RULE.id,
            "There is only 1/64 in of air between picture and glazing. It needs 3/64 in, or \
             the print may stick to the glazing. Use a thicker mat or a spacer.",
            "",
        );
        says(
            &metric(framed("-6mm", "1.4mm")),
            RULE.id,
            "There is only 1.4 mm of air between picture and glazing, and a floated sheet can \
             rise. It needs 3 mm, or the print may stick to the glazing. Use a thicker mat or \
             a spacer.",
            "",
        );
    }
}
