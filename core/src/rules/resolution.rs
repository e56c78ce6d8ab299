//! Enough pixels for the size of the print.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;

/// Fewer pixels per inch look soft in the hand. Source: from memory.
const SOFT: u32 = 150;
/// Fewer are seen by a close look. Source: from memory.
const GOOD: u32 = 240;

pub(super) const RULE: Rule = Rule {
    id: "resolution",
    judges: "whether the picture has enough pixels for its size",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (opening, window) in case.windows() {
        let Some(work) = case.document.work(opening.work) else { continue };
        let (pixels, area) = (&work.picture, work.image.size);
        if pixels.width_px == 0 || pixels.height_px == 0 || !area.is_positive() {
            continue;
        }
        // Whole pixels per inch, rounded down, are below a whole limit just when the exact
        // figure is.
        let per_inch = |count: u32, length: Length| {
            i128::from(count) * i128::from(Length::INCH.units()) / i128::from(length.units())
        };
        let ppi =
            per_inch(pixels.width_px, area.width).min(per_inch(pixels.height_px, area.height));
        let ppi = u32::try_from(ppi).unwrap_or(u32::MAX);
        let (severity, wanted, why) = if ppi < SOFT {
            (Severity::Caution, SOFT, "it will look soft")
        } else if ppi < GOOD {
            (Severity::Note, GOOD, "it may look soft from close up")
        } else {
            continue;
        };
        findings.push(Finding {
            rule: RULE.id,
            severity,
            place: Place::window(window),
            measured: Amount::Ppi(ppi),
            required: Amount::Ppi(wanted),
            source: "from memory",
            message: format!(
                "At {} the picture has {ppi} pixels per inch; below {wanted} {why}. Print it \
                 smaller, or from a larger file.",
                case.size_text(area),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};

    #[track_caller]
    fn case(unit: Unit, pixels: (u32, u32), sheet: &str, wanted: &str) {
        let mut document = plan(unit, sheet);
        let picture = &mut document.works[0].picture;
        (picture.width_px, picture.height_px) = pixels;
        check(&document, RULE.id, wanted);
    }

    /// Source: from memory; the pixels of an inch are derived.
    #[test]
    fn limits() {
        case(Inch, (1920, 2400), "8x10", "");
        case(Inch, (1919, 2400), "8x10", "note");
        case(Inch, (1920, 2399), "8x10", "note");
        case(Inch, (1200, 1500), "8x10", "note");
        case(Inch, (1199, 1500), "8x10", "caution");
        case(Inch, (9999, 1499), "8x10", "caution");
        // 254 mm is 10 in.
        case(Millimetre, (2400, 2400), "254x254mm", "");
        case(Millimetre, (2399, 2400), "254x254mm", "note");
        case(Millimetre, (1500, 1499), "254x254mm", "caution");
        case(Millimetre, (0, 0), "254x254mm", "");
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "11x15");
        assert_eq!(
            words(&document, RULE.id).0,
            "At 11 × 15 in the picture has 200 pixels per inch; below 240 it may look soft \
             from close up. Print it smaller, or from a larger file."
        );
        document.works[0].picture.width_px = 1000;
        assert_eq!(found(&document, RULE.id)[0].measured, Amount::Ppi(90));
    }

    #[test]
    fn in_millimetres() {
        let mut document = plan(Millimetre, "254x254mm");
        let picture = &mut document.works[0].picture;
        (picture.width_px, picture.height_px) = (1400, 1600);
        says(
            &document,
            RULE.id,
            "At 254 × 254 mm the picture has 140 pixels per inch; below 150 it will look \
             soft. Print it smaller, or from a larger file.",
            "",
        );
    }
}
