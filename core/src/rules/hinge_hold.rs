//! Pockets and strips still hold the sheet when it has dried and slid as far as it can.

use super::case::by_unit;
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::hinges::HingePlan;
use crate::length::{Length, Round};
use crate::movement::Movement;
use crate::spec::Hinging;

/// What must be left of the hold: 1/64 in or 0.5 mm. Source: from memory.
const LEAST: (Length, Length) = (Length::inches(0, 1, 64), Length::um(500));

pub(super) const RULE: Rule = Rule {
    id: "hinge-hold",
    judges: "whether pockets or strips still hold the sheet at its driest",
    judge,
};

/// What is left of the hold, and how bad that is; `None` where it does, and for hinges that
/// stick. The paper's movement counts once the plan describes the paper.
pub(super) fn judged(
    case: &Case<'_>,
    movement: &Movement,
    plan: &HingePlan,
) -> Option<(Severity, Length)> {
    let least = by_unit(case.unit(), LEAST.0, LEAST.1);
    let severity = |hold: Length| {
        (hold < least).then_some(if hold.is_positive() {
            Severity::Caution
        } else {
            Severity::Fault
        })
    };
    let at_rest = plan.least_hold(Length::ZERO, Length::ZERO)?;
    if let Some(severity) = severity(at_rest) {
        return Some((severity, at_rest));
    }
    if !case.mat.assembly.describes_paper() {
        return None;
    }
    let moved = movement.bound.dry.moved.sums();
    let [across, down] = [moved.width, moved.height].map(|by| (-by).max(Length::ZERO));
    let dry = plan.least_hold(across, down)?;
    let found = severity(dry)?;
    Some((if movement.certain { found } else { Severity::Note }, dry))
}

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let least = by_unit(case.unit(), LEAST.0, LEAST.1);
    for (window, sheet) in case.hinged() {
        let plan = &sheet.hinges;
        // `hinge-shows` reports what reaches nowhere.
        if !plan.reach.is_positive() {
            continue;
        }
        let Some((severity, hold)) = judged(case, &sheet.movement, plan) else { continue };
        let left = if hold.is_positive() {
            format!("only {} of the sheet is left in them", case.finely_against(hold, least))
        } else {
            "it slips out of them".to_owned()
        };
        findings.push(Finding {
            rule: RULE.id,
            severity,
            place: Place::window(window),
            measured: Amount::Length(hold),
            required: Amount::Length(least),
            source: "derived from reach, slack and the paper's shrinkage; from memory",
            message: format!(
                "The {} reach {} over the sheet and leave {} of slack, so the sheet can slide \
                 and shrink until {left}. Leave less slack, cover more of the sheet, or use \
                 hinges.",
                plan.kind.name(),
                case.text(plan.reach),
                case.text(plan.slack),
            ),
            remedy: less_room(case, &sheet.movement, plan),
        });
    }
}

/// As much room as the sheet needs at its dampest and no more, where it is then held.
fn less_room(case: &Case<'_>, movement: &Movement, plan: &HingePlan) -> Option<Remedy> {
    let grown = movement.bound.damp.moved.sums();
    let slack = grown.width.max(grown.height).max(Length::ZERO);
    let slack = slack.rounded(case.unit(), Round::Up);
    let after = HingePlan { slack, ..plan.clone() };
    if slack >= plan.slack || !slack.is_positive() || judged(case, movement, &after).is_some() {
        return None;
    }
    let hinging = Hinging { slack: Some(slack), ..case.mat.assembly.hinging.clone() };
    Some(Remedy {
        words: format!("Leave {} of slack", case.exact(slack)),
        command: Command::SetHinging(case.variant, hinging),
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Inch;
    use crate::material::{Humidity, Paper, Rate};
    use crate::spec::{Document, Grain, Hangs, HingeKind, WindowBy};

    fn held_by(kind: HingeKind, overlap: &str, slack: &str) -> Document {
        let mut document = plan(Inch, "8x10");
        let mat = mat(&mut document);
        mat.openings[0].window_by = WindowBy::Reveal(sides(overlap).map(|overlap| -overlap));
        mat.assembly.hinging.kind = Some(kind);
        mat.assembly.hinging.slack = Some(inches(slack));
        document
    }

    /// Source: derived (D): strips reach 1/8 - 1/32 = 3/32 in over the sheet, pockets 1/4 in;
    /// the sheet slides by the room, and 1/64 in must be left.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(kind: HingeKind, slack: &str, wanted: &str) {
            assert_eq!(summary(&held_by(kind, "1/8", slack), RULE.id), wanted);
        }
        case(HingeKind::Strips, "1/16", "");
        case(HingeKind::Strips, "5/64", "");
        case(HingeKind::Strips, ".0782", "caution");
        case(HingeKind::Strips, "3/32", "fault");
        case(HingeKind::Corners, "1/8", "");
        case(HingeKind::Corners, "1/4", "fault");
        case(HingeKind::T, "1/4", "");
    }

    /// Source: derived (D): 8 in × 0.015 × 20 % = .024 in across and 10 in × 0.003 × 20 % =
    /// .006 in down; strips of 3/32 in with 1/16 in of room keep 1/32 - .024 in, under 1/64.
    #[test]
    fn at_its_driest() {
        let mut document = held_by(HingeKind::Strips, "1/8", "1/16");
        let assembly = assembly_of(&mut document);
        assembly.paper = Some(Paper {
            along: Rate::read("0.003"),
            across: Rate::read("0.015"),
            ..Paper::default()
        });
        assembly.grain = Some(Grain::Height);
        assembly.hinged_at = Humidity::read("50");
        assembly.hangs_at = Humidity::read("30")
            .zip(Humidity::read("60"))
            .map(|(dry, damp)| Hangs { dry, damp });
        check(&document, RULE.id, "caution");
        // The sheet grows by .012 in: 1/64 in of room holds it.
        assert_eq!(words(&document, RULE.id).1, "Leave 1/64 in of slack");
        assembly_of(&mut document).grain = None;
        check(&document, RULE.id, "note");
    }

    /// Strips that reach 3/32 in over the sheet: 7/64 in of room lets it out, .085 in leaves
    /// .00875 in of it. At 60 % the sheet may grow by 0.3 % of 10 in, .03 in.
    #[test]
    fn in_words() {
        says(
            &held_by(HingeKind::Strips, "1/8", "7/64"),
            RULE.id,
            "The edge strips reach 3/32 in over the sheet and leave 7/64 in of slack, so the \
             sheet can slide and shrink until it slips out of them. Leave less slack, cover \
             more of the sheet, or use hinges.",
            "Leave 1/32 in of slack",
        );
        says(
            &held_by(HingeKind::Strips, "1/8", ".085"),
            RULE.id,
            "The edge strips reach 3/32 in over the sheet and leave 5/64 in of slack, so the \
             sheet can slide and shrink until only 0.009 in of the sheet is left in them. \
             Leave less slack, cover more of the sheet, or use hinges.",
            "Leave 1/32 in of slack",
        );
    }
}
