//! What goes into a frame is a little smaller than its rabbet, and not too much.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Side;

pub(super) const RULE: Rule =
    Rule { id: "frame-fit", judges: "whether the mat fits the frame", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((packed, framed)) = case.framed() else { return };
    let allowance = framed.allowance;
    let (outer, contents, beyond) = (case.layout.exact.outer, packed.contents, packed.beyond);
    // The package rests on the rabbet's bottom; sideways it may lie at either end.
    let [down, across] = [beyond.top, beyond.left.max(beyond.right)];
    let what = |larger| if larger { "backing" } else { "mat" };
    for (side, play, beyond, name, what) in [
        (Side::Top, framed.play.height, down, "height", what(contents.height > outer.height)),
        (Side::Left, framed.play.width, across, "width", what(contents.width > outer.width)),
    ] {
        // From the rabbet to the mat's own edge, which is what shows.
        let open = play + beyond;
        let (severity, message, measured) = if play.is_negative() {
            let turned = contents.turned();
            let turns =
                turned.width <= framed.rabbet.width && turned.height <= framed.rabbet.height;
            let turn = if turns { " It would fit if you turned it a quarter." } else { "" };
            (
                Severity::Fault,
                format!(
                    "The {what} is {} larger than the rabbet in {name}, so it does not fit \
                     the frame.{turn}",
                    case.some(-play)
                ),
                play,
            )
        } else if open >= framed.frame.lip {
            (
                Severity::Fault,
                format!(
                    "In {name}, the mat can slide {} away from the rabbet, and the lip covers \
                     only {}, so its edge can show. Make the mat larger, or choose a smaller \
                     frame.",
                    case.text(open),
                    case.text(framed.frame.lip)
                ),
                open,
            )
        } else if play < allowance {
            (
                Severity::Caution,
                format!(
                    "The {what} is only {} smaller than the rabbet in {name}. Leave {}, or \
                     the boards will jam when they swell.",
                    case.against(play, allowance),
                    case.text(allowance)
                ),
                play,
            )
        } else {
            continue;
        };
        findings.push(Finding {
            rule: RULE.id,
            severity,
            place: Place { side: Some(side), ..Place::default() },
            measured: Amount::Length(measured),
            required: Amount::Length(allowance),
            source: "workshop tutorial (1/8 in in all)",
            message,
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: workshop tutorial: contents 1/8 in smaller, both sides together; a 1/4 in lip.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(rabbet: &str, wanted: &str) {
            check(&framed_in("16x20", rabbet), RULE.id, wanted);
        }
        case("16 1/8x20 1/8", "");
        case("16.2499x20.2499", "");
        case("16 1/4x20 1/8", "fault left");
        case("16.1249x20 1/8", "caution left");
        case("16x20", "caution top, caution left");
        case("15.9999x20 1/8", "fault left");
        case("20 1/8x16 1/8", "fault top, fault left");
    }

    /// Source: derived (D): what goes in is the larger of mat and backing; what the lip must
    /// cover is the mat's own edge.
    #[test]
    fn a_larger_backing() {
        #[track_caller]
        fn case(backing: &str, rabbet: &str, wanted: &str) {
            let mut document = framed_in("24x32", rabbet);
            mat(&mut document).backing.size = Some(size(backing));
            check(&document, RULE.id, wanted);
        }
        case("26x34", "24 1/8x32 1/8", "fault top, fault left");
        case("24 1/8x32 1/8", "24 1/4x32 1/4", "");
        case("24 1/4x32 1/4", "24 3/8x32 3/8", "fault top, fault left");
        case("23x31", "24 1/8x32 1/8", "");
        let mut document = framed_in("24x32", "24 1/8x32 1/8");
        mat(&mut document).backing.size = Some(size("26x34"));
        let (message, _) = words(&document, RULE.id);
        assert!(
            message.starts_with("The backing is 1 7/8 in larger than the rabbet"),
            "{message}"
        );
    }

    #[test]
    fn in_words() {
        let case = |rabbet: &str, words: &str| {
            says(&framed_in("16x20", rabbet), RULE.id, words, "");
        };
        case(
            "15 7/8x20 1/8",
            "The mat is 1/8 in larger than the rabbet in width, so it does not fit the frame.",
        );
        case(
            "20 1/8x16 1/8",
            "The mat is 3 7/8 in larger than the rabbet in height, so it does not fit the \
             frame. It would fit if you turned it a quarter.",
        );
        case(
            "16 1/4x20 1/8",
            "In width, the mat can slide 1/4 in away from the rabbet, and the lip covers only \
             1/4 in, so its edge can show. Make the mat larger, or choose a smaller frame.",
        );
        case(
            "16 1/16x20 1/8",
            "The mat is only 1/16 in smaller than the rabbet in width. Leave 1/8 in, or the \
             boards will jam when they swell.",
        );
        let mut larger = framed_in("24x32", "24 1/8x32 1/8");
        mat(&mut larger).backing.size = Some(size("26x34"));
        says(
            &larger,
            RULE.id,
            "The backing is 1 7/8 in larger than the rabbet in height, so it does not fit the \
             frame.",
            "",
        );
        says(
            &metric(framed_in("400x500mm", "402x503mm")),
            RULE.id,
            "The mat is only 2 mm smaller than the rabbet in width. Leave 3 mm, or the boards \
             will jam when they swell.",
            "",
        );
    }
}
