//! Adhesive goes on the paper margin, not behind the image, when there is a margin.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Side;
use crate::length::Length;

pub(super) const RULE: Rule = Rule {
    id: "hinge-behind-image",
    judges: "whether adhesive ends up behind the image",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged().filter(|(_, sheet)| sheet.hinges.behind_image) {
        let margin = (window.image.top() - window.sheet.top()).max(Length::ZERO);
        let hold = sheet.hinges.hinges.first().map(|hinge| hinge.hold).unwrap_or_default();
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Note,
            place: Place::side(window, Side::Top),
            measured: Amount::Length(margin),
            required: Amount::Length(hold),
            source: "common practice",
            message: format!(
                "The margin above the image is {}, but the hinges hold {} of the sheet, so \
                 some adhesive ends up behind the image. Shorten the hold, or use corner \
                 pockets or edge strips.",
                case.text(margin),
                case.text(hold),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: common practice; hold at least 1/8 in (Library of Congress).
    #[test]
    fn limits() {
        #[track_caller]
        fn case(margin: &str, hold: Option<&str>, wanted: &str) {
            let mut document = hinged_at("8x10", &["1", "7"]);
            document.works[0].image.at.y = inches(margin);
            document.works[0].image.size.height -= inches(margin);
            let hinging = &mut assembly_of(&mut document).hinging;
            hinging.hold = hold.map(inches);
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        case("0", None, "note top");
        case(".1249", None, "note top");
        case("1/8", None, "");
        case("1/4", Some("1/4"), "");
        case("1/4", Some(".2501"), "note top");
    }

    #[test]
    fn in_words() {
        let mut document = hinged_at("8x10", &["1", "7"]);
        document.works[0].image.at.y = inches("1/16");
        document.works[0].image.size.height -= inches("1/16");
        says(
            &document,
            RULE.id,
            "The margin above the image is 1/16 in, but the hinges hold 3/16 in of the sheet, \
             so some adhesive ends up behind the image. Shorten the hold, or use corner \
             pockets or edge strips.",
            "",
        );
    }
}
