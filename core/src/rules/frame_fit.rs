//! What goes into a frame is a little smaller than its rabbet, and not too much.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::Side;

pub(super) const RULE: Rule =
    Rule { id: "frame-fit", judges: "whether the mat fits the frame", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some((packed, framed)) = case.framed() else { return };
    let allowance = framed.allowance;
    for (side, play, name) in
        [(Side::Top, framed.play.height, "height"), (Side::Left, framed.play.width, "width")]
    {
        let (severity, message) = if play.is_negative() {
            let turned = packed.contents.turned();
            let turns =
                turned.width <= framed.rabbet.width && turned.height <= framed.rabbet.height;
            let turn = if turns { " Turned a quarter it would go in." } else { "" };
            (
                Severity::Stop,
                format!(
                    "The mat is {} more than the rabbet in {name} and does not go in.{turn}",
                    case.some(-play)
                ),
            )
        } else if play >= framed.frame.lip {
            (
                Severity::Stop,
                format!(
                    "The mat is {} less than the rabbet in {name} and the lip covers only {}: its \
                     edge can show.",
                    case.text(play),
                    case.text(framed.frame.lip)
                ),
            )
        } else if play < allowance {
            (
                Severity::Caution,
                format!(
                    "The mat is only {} less than the rabbet in {name}: {} is usual, or boards \
                     swell and jam.",
                    case.against(play, allowance),
                    case.text(allowance)
                ),
            )
        } else {
            continue;
        };
        findings.push(Finding {
            rule: RULE.id,
            severity,
            place: Place { side: Some(side), ..Place::default() },
            measured: Amount::Length(play),
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
        case("16 1/4x20 1/8", "stop left");
        case("16.1249x20 1/8", "caution left");
        case("16x20", "caution top, caution left");
        case("15.9999x20 1/8", "stop left");
        case("20 1/8x16 1/8", "stop top, stop left");
    }
}
