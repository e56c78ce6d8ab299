//! Nothing of a hinge is seen, and nothing stands out beyond board or backing.

use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::length::Length;

/// A pocket or strip reaches over the sheet by so much at least. Source: from memory.
const LEAST_REACH: Length = Length::mm(2);

pub(super) const RULE: Rule = Rule {
    id: "hinge-shows",
    judges: "whether a hinge, pocket or strip shows or leaves the board",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged() {
        let plan = &sheet.hinges;
        let ground = case.board().meet(case.layout.exact.backing).unwrap_or_default();
        let mut worst: Option<(Length, &str)> = None;
        let mut tell = |out: Length, what| {
            if out.is_positive() && worst.is_none_or(|(worst, _)| out > worst) {
                worst = Some((out, what));
            }
        };
        for hinge in &plan.hinges {
            for part in [Some(hinge.tab), hinge.cross].into_iter().flatten() {
                tell(-part.within(ground).least(), "stands out beyond the board");
            }
            let beside = window.sheet.left() - hinge.tab.left();
            let beside = beside.max(hinge.tab.right() - window.sheet.right());
            tell(beside, "stands out beside the sheet");
            // Above a sheet whose top edge is in the window, it is seen.
            if hinge.rise.is_positive() {
                tell(-window.overlap.top, "shows in the window");
            }
        }
        if !plan.kind.sticks() {
            tell(plan.reach.max(LEAST_REACH) - plan.most_reach, "shows in the window");
        }
        let Some((out, what)) = worst else { continue };
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Stop,
            place: Place::window(window),
            measured: Amount::Length(out),
            required: Amount::Length(Length::ZERO),
            source: "common practice",
            message: format!(
                "With {}, something {what} by {}. Choose another kind, or move the hinges.",
                plan.kind.name(),
                case.some(out),
            ),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Inch;
    use crate::spec::{Fixing, HingeAt, HingeKind, Meets};
    #[track_caller]
    fn case(overlap: &str, kind: HingeKind, at: &[&str], wanted: &str) {
        let mut document = plan(Inch, "8x10");
        let mat = mat(&mut document);
        mat.openings[0].meets = Meets::Reveal(sides(overlap).map(|overlap| -overlap));
        mat.behind.hinging.kind = Some(kind);
        mat.behind.hinging.at = at
            .iter()
            .enumerate()
            .map(|(n, x)| HingeAt { x: inches(x), locates: n == 0 })
            .collect();
        check(&document, RULE.id, wanted);
    }

    /// Source: common practice: nothing of a hinge is seen.
    #[test]
    fn limits() {
        case("1/8", HingeKind::T, &[], "");
        case("1/8", HingeKind::T, &["1", "7"], "");
        case("1/8", HingeKind::T, &["3/4", "7"], "");
        case("1/8", HingeKind::T, &[".7499", "7"], "stop");
        case("1/8", HingeKind::T, &["1", "7.2501"], "stop");
        case("-1/8", HingeKind::V, &[], "");
        case("-1/8", HingeKind::PassThrough, &[], "");
        case("-1/8", HingeKind::T, &[], "stop");
        case("-1/8", HingeKind::Corners, &[], "stop");
        case("1/8", HingeKind::Corners, &[], "");
        case("1/8", HingeKind::Strips, &[], "");
        case("1/16", HingeKind::Strips, &[], "stop");
    }

    /// Source: common practice: nothing stands out beyond board or backing. Above the sheet are
    /// 1 7/8 in; the yielding hinge stands up by 1/8 + 1/2 in and what it is longer.
    #[test]
    fn beyond_the_board() {
        for (longer, backing, wanted) in [
            ("1 1/4", None, ""),
            ("1.2501", None, "stop"),
            ("1/2", Some("13 3/4x13 1/4"), ""),
            ("1/2", Some("13 3/4x11.4999"), "stop"),
        ] {
            let mut document = hinged_at("8x10", &["1", "7"]);
            let mat = mat(&mut document);
            mat.fixing = Fixing::Borders(sides("2"));
            mat.behind.hinging.longer = Some(inches(longer));
            mat.backing.size = backing.map(size);
            check(&document, RULE.id, wanted);
        }
    }
}
