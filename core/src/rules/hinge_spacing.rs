//! Between hinges too far apart a sheet sags and cockles.

use super::remedy::evenly;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::hinges::Usual;

pub(super) const RULE: Rule =
    Rule { id: "hinge-spacing", judges: "whether hinges are too far apart", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let furthest = Usual::of(case.unit()).furthest;
    for (window, sheet) in case.hinged() {
        let gaps = sheet.hinges.hinges.windows(2).filter_map(|two| match two {
            [first, second] => Some(second.x - first.x),
            _ => None,
        });
        let Some(widest) = gaps.max().filter(|gap| *gap > furthest) else { continue };
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Length(widest),
            required: Amount::Length(furthest),
            source: "from memory (10-12 in)",
            message: format!(
                "Two hinges are {} apart. Keep them within {}, or the sheet's edge will sag \
                 between them.",
                case.against(widest, furthest),
                case.text(furthest),
            ),
            remedy: evenly(case),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: from memory: not more than 10-12 in apart.
    #[test]
    fn limits() {
        check(&hinged_at("17x22", &["1", "13"]), RULE.id, "");
        check(&hinged_at("17x22", &["1", "13.0001"]), RULE.id, "caution");
        check(&hinged_at("17x22", &["1", "16"]), RULE.id, "caution");
        check(&hinged_at("17x22", &[]), RULE.id, "");
    }

    #[test]
    fn in_words() {
        says(
            &hinged_at("17x22", &["1", "16"]),
            RULE.id,
            "Two hinges are 15 in apart. Keep them within 12 in, or the sheet's edge will sag \
             between them.",
            "Place the hinges evenly along the edge",
        );
        says(
            &metric(hinged_at("500x700mm", &["25mm", "475mm"])),
            RULE.id,
            "Two hinges are 450 mm apart. Keep them within 300 mm, or the sheet's edge will \
             sag between them.",
            "Place the hinges evenly along the edge",
        );
    }
}
