//! The size that a picture's own resolution asks for, beside the size it is printed at.
//!
//! What a file states is no decision and no part of a plan: it comes as an argument, from
//! whoever has read the file. So this is not one of [`super::RULES`].

use super::case::by_unit;
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::{Point, Rect, Size};
use crate::layout::Window;
use crate::length::Length;
use crate::spec::{Document, Work};

/// As in the headless output.
pub const PRINT_SIZE: &str = "print-size";

/// A resolution rounded to a whole number moves a size by up to one part in so many (150 ppi
/// and more; our own choice).
const ROUNDED: i128 = 200;

/// A Note where the size that `work`'s file states (its pixels at its resolution) is not the
/// size at which the plan prints it; `window` is the one it is seen through.
pub fn print_size(
    document: &Document,
    work: &Work,
    window: &Window,
    stated: Size,
) -> Option<Finding> {
    let image = work.image.size;
    if !(stated.is_positive() && image.is_positive()) {
        return None;
    }
    // A step of a coarse ruler: common practice.
    let step = by_unit(document.unit, Length::inches(0, 1, 16), Length::mm(2));
    let agrees = |stated: Length, printed: Length| {
        (stated - printed).abs() <= step.max(printed.scaled(1, ROUNDED))
    };
    if agrees(stated.width, image.width) && agrees(stated.height, image.height) {
        return None;
    }
    let text = |size: Size| size.extent_text(|length| length.near(document.unit));
    let across = (stated.width - image.width).abs() >= (stated.height - image.height).abs();
    let of = |size: Size| Amount::Length(if across { size.width } else { size.height });
    let fits = stated.width <= work.sheet.width && stated.height <= work.sheet.height;
    let remedy = fits.then(|| Remedy {
        words: format!("Set the image to {}", text(stated)),
        command: Command::SetPaper(work.id, work.sheet, middled(work, stated)),
    });
    Some(Finding {
        rule: PRINT_SIZE,
        severity: Severity::Note,
        place: Place::window(window),
        measured: of(image),
        required: of(stated),
        source: "the picture's file",
        message: format!(
            "The file is set to print at {}, but the plan has an image of {} on a sheet of \
             {}. Measure your print and enter its size.",
            text(stated),
            text(image),
            text(work.sheet),
        ),
        remedy,
    })
}

/// An image of that size about the middle of the old one, kept on the sheet it fits.
fn middled(work: &Work, size: Size) -> Rect {
    let at = |from: Length, old: Length, new: Length, sheet: Length| {
        let (by, _) = (old - new).halves();
        (from + by).min(sheet - new).max(Length::ZERO)
    };
    let Rect { at: from, size: old } = work.image;
    let x = at(from.x, old.width, size.width, work.sheet.width);
    let y = at(from.y, old.height, size.height, work.sheet.height);
    Rect::new(Point::new(x, y), size)
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::command::apply;
    use crate::layout::layout;
    use crate::length::Unit::{self, Inch, Millimetre};

    fn judged(document: &Document, stated: Size) -> Option<Finding> {
        let layout = layout(document, &document.variants[0].mat);
        print_size(document, &document.works[0], &layout.exact.openings[0], stated)
    }

    #[track_caller]
    fn case(unit: Unit, printed: &str, stated: &str, wanted: bool) {
        let finding = judged(&plan(unit, printed), size(stated));
        assert_eq!(
            finding.is_some(),
            wanted,
            "{printed} printed, {stated} stated: {finding:?}"
        );
    }

    /// Source: common practice (a sixteenth, 2 mm); our own (one part in 200).
    #[test]
    fn limits() {
        case(Inch, "8x10", "8x10", false);
        case(Inch, "8x10", "8 1/16x10", false);
        case(Inch, "8x10", "8 5/64x10", true);
        case(Inch, "8x10", "8x9 59/64", true);
        case(Inch, "8x10", "10x8", true);
        // Half a percent of 20 in is a tenth.
        case(Inch, "16x20", "16x20.1", false);
        case(Inch, "16x20", "16x20.11", true);
        case(Millimetre, "200x250mm", "202x248mm", false);
        case(Millimetre, "200x250mm", "202.1x250mm", true);
        case(Inch, "8x10", "0x10", false);
    }

    #[test]
    fn in_words_and_mended() {
        let mut document = plan(Inch, "8x10");
        let found = judged(&document, size("6x9")).unwrap();
        assert_eq!(
            found.message,
            "The file is set to print at 6 × 9 in, but the plan has an image of 8 × 10 in on \
             a sheet of 8 × 10 in. Measure your print and enter its size."
        );
        assert_eq!(found.severity, Severity::Note);
        assert_eq!(found.measured, Amount::Length(inches("8")));
        assert_eq!(found.required, Amount::Length(inches("6")));
        let remedy = found.remedy.unwrap();
        assert_eq!(remedy.words, "Set the image to 6 × 9 in");
        apply(&mut document, &remedy.command).unwrap();
        let image = document.works[0].image;
        assert_eq!((image.at.x, image.at.y), (inches("1"), inches("1/2")), "about its middle");
        assert_eq!(judged(&document, size("6x9")), None, "mended");
        // What does not go on the sheet is no way out.
        assert_eq!(judged(&document, size("9x12")).unwrap().remedy, None);
    }

    #[test]
    fn in_millimetres() {
        reads(
            &judged(&plan(Millimetre, "200x250mm"), size("180x240mm")).unwrap(),
            "The file is set to print at 180 × 240 mm, but the plan has an image of 200 × 250 \
             mm on a sheet of 200 × 250 mm. Measure your print and enter its size.",
            "Set the image to 180 × 240 mm",
        );
    }
}
