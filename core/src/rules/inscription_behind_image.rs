//! A margin too narrow for the lines sends them behind the image.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Side;
use crate::inscription::{CLEAR, LINE};
use crate::spec::Back;

pub(super) const RULE: Rule = Rule {
    id: "inscription-behind-image",
    judges: "whether the margin has room for the writing on the back",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((made, wanted, window)) = case.written() else { return };
    if !made.behind_image || wanted.lettering.behind != Back::Margin || made.back.is_empty() {
        return;
    }
    let margin = window.sheet.bottom() - window.image.bottom();
    let lines = i64::try_from(made.back.len()).unwrap_or(0);
    let needed = LINE * lines + CLEAR * 2;
    findings.push(Finding {
        rule: RULE.id,
        severity: Severity::Note,
        place: Place::side(window, Side::Bottom),
        measured: Amount::Length(margin),
        required: Amount::Length(needed),
        source: "common practice; the hand's height from memory",
        message: format!(
            "The margin below the image is {}, and writing {lines} on the back takes {}, so \
             some of it ends up behind the image. Press lightly, or it may show on the face.",
            case.against(margin, needed),
            case.text(needed),
            lines = if lines == 1 { "one line".to_owned() } else { format!("{lines} lines") },
        ),
        remedy: None,
    });
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::geometry::{Point, Rect};
    use crate::length::Length;
    use crate::spec::Front;

    /// Source: derived (D): four lines of 7 mm and 5 mm clear on both sides are 38 mm.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(margin: Length, place: Back, wanted: &str) {
            let mut document = inscribed(|lettering, _| {
                lettering.front = Front::Nothing;
                lettering.behind = place;
            });
            let work = &mut document.works[0];
            let mut size = work.image.size;
            size.height = work.sheet.height - work.image.at.y - margin;
            work.image = Rect::new(Point::new(work.image.at.x, work.image.at.y), size);
            assert_eq!(summary(&document, RULE.id), wanted);
        }
        case(Length::mm(38), Back::Margin, "");
        case(Length::mm(38) - Length::um(1), Back::Margin, "note bottom");
        case(Length::ZERO, Back::Margin, "note bottom");
        case(Length::ZERO, Back::Image, "");
    }

    /// Four lines of 7 mm and 5 mm clear on both sides are 38 mm, one line is 17 mm.
    #[test]
    fn in_words() {
        let mut four = inscribed(|wish, _| wish.front = Front::Nothing);
        four.works[0].image.size.height = inches("16 1/2");
        says(
            &four,
            RULE.id,
            "The margin below the image is 1 in, and writing 4 lines on the back takes 1 1/2 \
             in, so some of it ends up behind the image. Press lightly, or it may show on the \
             face.",
            "",
        );
        let mut one = metric(inscribed(|wish, _| {
            wish.front = Front::Nothing;
            wish.back = vec!["{title}".to_owned()];
        }));
        one.works[0].image.size.height = inches("17");
        says(
            &one,
            RULE.id,
            "The margin below the image is 12.7 mm, and writing one line on the back takes 17 \
             mm, so some of it ends up behind the image. Press lightly, or it may show on the \
             face.",
            "",
        );
    }
}
