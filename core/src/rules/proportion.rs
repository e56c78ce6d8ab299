//! The printed image has the picture's own proportions, or something was cropped or stretched.

use super::remedy::optical_holds;
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::layout::Window;
use crate::length::Length;
use crate::spec::{MOST_APART, Opening, WindowBy, Work, usual_overlap};

pub(super) const RULE: Rule =
    Rule { id: "proportion", judges: "whether the image has the picture's proportions", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (opening, window) in case.windows() {
        let Some(work) = case.document.work(opening.work) else { continue };
        let (pixels, area) = (&work.picture, work.image.size);
        let Some(error) = pixels.apart(area).filter(|error| *error > MOST_APART) else {
            continue;
        };
        let Some(fitting) = pixels.largest_in(area) else { continue };
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Percent(error),
            required: Amount::Percent(MOST_APART),
            source: "common practice",
            message: format!(
                "The picture is {} × {} pixels, but the image is {}: their proportions are {} \
                 apart, so the picture would be cropped or stretched. {} would fit it.",
                pixels.width_px,
                pixels.height_px,
                case.size_text(area),
                Amount::Percent(error).text(case.unit()),
                case.exact_size(fitting),
            ),
            remedy: remedy(case, opening, window, work, fitting),
        });
    }
}

/// The image area trimmed to the picture's proportions, in the middle of what it was.
fn remedy(
    case: &Case<'_>,
    opening: &Opening,
    window: &Window,
    work: &Work,
    fitting: Size,
) -> Option<Remedy> {
    let area = work.image;
    let less = Size::new(area.size.width - fitting.width, area.size.height - fitting.height);
    let (left, right) = less.width.halves();
    let (top, bottom) = less.height.halves();
    let more = Sides::new(top, right, bottom, left);
    let follows = match opening.window_by {
        WindowBy::Reveal(_) => follows(case, window, more),
        WindowBy::InHand(_) => true,
    };
    // A strip of a picture is a wrong size typed, not one to be trimmed to.
    let most = |of: Length, all: Length| of * 2 > all;
    let sound = follows
        && most(fitting.width, area.size.width)
        && most(fitting.height, area.size.height);
    sound.then(|| {
        let at =
            Point::new(area.at.x + less.width.halves().0, area.at.y + less.height.halves().0);
        Remedy {
            words: format!("Set the image to {}", case.exact_size(fitting)),
            command: Command::SetPaper(work.id, work.sheet, Rect::new(at, fitting)),
        }
    })
}

/// Whether the window can follow the image inwards: it keeps a size, it holds or floats the
/// sheet as before, and the sheet stays under the mat.
fn follows(case: &Case<'_>, window: &Window, more: Sides<Length>) -> bool {
    let (taken, sight) = (more.sums(), window.sight.size);
    let overlap = window.overlap.plus(more);
    let sides = overlap.zip(case.reach(window), |overlap, reach| (overlap, reach));
    optical_holds(case, window, taken.width)
        && sight.width > taken.width
        && sight.height > taken.height
        && sides.each().iter().all(|(side, (overlap, reach))| {
            more.of(*side) == Length::ZERO
                || (*overlap >= usual_overlap(case.unit()) && overlap <= reach)
        })
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

    /// Source: derived; half a percent is common practice.
    #[test]
    fn limits() {
        case(Inch, (2400, 3000), "8x10", "");
        case(Inch, (2412, 3000), "8x10", "");
        case(Inch, (2413, 3000), "8x10", "caution");
        case(Inch, (2388, 3000), "8x10", "");
        case(Inch, (2387, 3000), "8x10", "caution");
        case(Inch, (3000, 2400), "8x10", "caution");
        case(Millimetre, (4000, 6000), "200x300mm", "");
        case(Millimetre, (4021, 6000), "200x300mm", "caution");
        case(Millimetre, (0, 6000), "200x300mm", "");
        case(Millimetre, (u32::MAX, 1), "200x300mm", "caution");
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "8x10");
        document.works[0].picture.height_px = 3300;
        document.works[0].picture.width_px = 2200;
        let first = found(&document, RULE.id).remove(0);
        assert_eq!(first.measured, Amount::Percent(1667));
        assert_eq!(
            first.message,
            "The picture is 2200 × 3300 pixels, but the image is 8 × 10 in: their proportions \
             are 16.67 % apart, so the picture would be cropped or stretched. 6.6667 × 10 in \
             would fit it."
        );
        assert_eq!(first.remedy.unwrap().words, "Set the image to 6.6667 × 10 in");
    }

    #[test]
    fn in_millimetres() {
        let mut document = plan(Millimetre, "200x310mm");
        let picture = &mut document.works[0].picture;
        (picture.width_px, picture.height_px) = (2000, 3000);
        // 310 less 300 of 300.
        says(
            &document,
            RULE.id,
            "The picture is 2000 × 3000 pixels, but the image is 200 × 310 mm: their \
             proportions are 3.33 % apart, so the picture would be cropped or stretched. 200 \
             × 300 mm would fit it.",
            "Set the image to 200 × 300 mm",
        );
    }
}
