//! Nothing of a hinge is seen, and nothing stands out beyond board or backing.

use super::hinge_corner;
use super::hinge_overlap::laps;
use super::remedy::evenly;
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::hinges::{self, Hinge, HingePlan};
use crate::layout::Window;
use crate::length::{Length, Round};
use crate::spec::{Assembly, Mat};

/// A pocket or strip reaches over the sheet by so much at least. Source: from memory.
const LEAST_REACH: Length = Length::mm(2);

pub(super) const RULE: Rule = Rule {
    id: "hinge-shows",
    judges: "whether a hinge, pocket or strip shows or sticks out past the board",
    judge,
};

/// What is in a place where it must not be; hinges are counted from the left, from 1.
#[derive(Clone, Copy)]
enum Out {
    /// A hinge stands out beyond the board or its backing.
    Board(usize),
    /// A hinge stands out beside the sheet.
    Sheet(usize),
    /// It is seen in the window.
    Window,
}

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged() {
        let plan = &sheet.hinges;
        let ground = case.board().intersection(case.layout.exact.backing).unwrap_or_default();
        let mut worst: Option<(Length, Out)> = None;
        let mut report = |by: Length, out| {
            if by.is_positive() && worst.is_none_or(|(worst, _)| by > worst) {
                worst = Some((by, out));
            }
        };
        for (number, hinge) in (1..).zip(&plan.hinges) {
            // Where it is beside the sheet, that alone is reported, not what follows from it.
            report(beside(window, hinge), Out::Sheet(number));
            for part in [Some(hinge.tab), hinge.cross].into_iter().flatten() {
                report(-part.within(ground).least(), Out::Board(number));
            }
            // Above a sheet whose top edge is in the window, it is seen.
            if hinge.rise.is_positive() {
                report(-window.overlap.top, Out::Window);
            }
        }
        if !plan.kind.sticks() {
            report(plan.reach.max(LEAST_REACH) - plan.most_reach, Out::Window);
        }
        let Some((by, out)) = worst else { continue };
        let some = case.some(by);
        let (message, remedy) = match out {
            Out::Sheet(number) => {
                let message = format!(
                    "Hinge {number} from the left sticks out {some} past the side of the \
                     sheet: {}.",
                    wanted(case, window, plan)
                );
                (message, move_in(case, window, plan))
            }
            Out::Board(number) => {
                let message = format!(
                    "Hinge {number} from the left sticks out {some} past the board or its \
                     backing. Shorten the hinge, widen the border, or choose another kind of \
                     hinge."
                );
                (message, None)
            }
            Out::Window => {
                let message = format!(
                    "The {} show in the window by {some}. Choose another kind.",
                    plan.kind.name()
                );
                (message, None)
            }
        };
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Fault,
            place: Place::window(window),
            measured: Amount::Length(by),
            required: Amount::Length(Length::ZERO),
            source: "common practice",
            message,
            remedy,
        });
    }
}

/// How far a hinge's tab stands out beside its sheet.
fn beside(window: &Window, hinge: &Hinge) -> Length {
    let left = window.sheet.left() - hinge.tab.left();
    left.max(hinge.tab.right() - window.sheet.right())
}

/// The middles, from the sheet's left edge, at which a tab ends no nearer than `corner` to a
/// corner of the sheet; `None` where it is too wide for that.
fn middles(window: &Window, plan: &HingePlan, corner: Length) -> Option<(Length, Length)> {
    let (before, after) = plan.hinges.first()?.width.halves();
    let (first, last) = (before + corner, window.sheet.size.width - after - corner);
    (first <= last).then_some((first, last))
}

/// What is wanted of hinges beside the sheet.
fn wanted(case: &Case<'_>, window: &Window, plan: &HingePlan) -> String {
    let width = case.text(plan.hinges.first().map(|hinge| hinge.width).unwrap_or_default());
    match middles(window, plan, Length::ZERO) {
        Some((first, last)) => format!(
            "its tab is {width} wide, so keep its middle {} to {} from the sheet's left edge",
            first.sensible(case.unit(), Round::Up),
            last.sensible(case.unit(), Round::Down)
        ),
        None => format!(
            "its tab is {width} wide and the sheet only {}, so make the tab narrower",
            case.text(window.sheet.size.width)
        ),
    }
}

/// What stands out moved onto the sheet, clear of its corners and on the maker's ruler where
/// there is room for it; where another hinge is in the way, all of them placed anew.
fn move_in(case: &Case<'_>, window: &Window, now: &HingePlan) -> Option<Remedy> {
    let step = case.document.ruler.step();
    let clear = middles(window, now, hinge_corner::least(case));
    let ruled = clear.map(|(first, last)| (first.ceil_to(step), last.floor_to(step)));
    let (first, last) = ruled
        .filter(|(first, last)| first <= last)
        .or(clear)
        .or_else(|| middles(window, now, Length::ZERO))?;
    let mut hinging = case.mat.assembly.hinging.clone();
    // As the plan has them: from the left.
    hinging.at.sort_by_key(|at| at.x);
    let mut moves = Vec::new();
    for (number, (at, hinge)) in (1..).zip(hinging.at.iter_mut().zip(&now.hinges)) {
        if !beside(window, hinge).is_positive() {
            continue;
        }
        let x = at.x.clamp(first, last);
        let way = if x > at.x { "right" } else { "left" };
        let by = case.exact((x - at.x).abs());
        let which = ["the first", "the second", "the third", "the fourth"];
        let which = match which.get(number - 1) {
            Some(which) if moves.is_empty() => format!("Move {which} hinge"),
            Some(which) => (*which).to_owned(),
            None if moves.is_empty() => format!("Move hinge {number}"),
            None => format!("hinge {number}"),
        };
        moves.push(format!("{which} {by} to the {way}"));
        at.x = x;
    }
    if moves.is_empty() {
        return None;
    }
    let assembly = Assembly { hinging: hinging.clone(), ..case.mat.assembly.clone() };
    let after =
        hinges::plan(case.unit(), &Mat { assembly, ..case.mat.clone() }, case.layout, window);
    let lie_clear = after.hinges.windows(2).all(|two| match two {
        [first, second] => !laps(first, second).is_positive(),
        _ => true,
    });
    if !lie_clear {
        return evenly(case);
    }
    let command = Command::SetHinging(case.variant, hinging);
    Some(Remedy { words: moves.join(", "), command })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::command::apply;
    use crate::length::Unit::Inch;
    use crate::spec::{BoardBy, HingeAt, HingeKind, WindowBy};
    #[track_caller]
    fn case(overlap: &str, kind: HingeKind, at: &[&str], wanted: &str) {
        let mut document = plan(Inch, "8x10");
        let mat = mat(&mut document);
        mat.openings[0].window_by = WindowBy::Reveal(sides(overlap).map(|overlap| -overlap));
        mat.assembly.hinging.kind = Some(kind);
        mat.assembly.hinging.at = at
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
        case("1/8", HingeKind::T, &[".7499", "7"], "fault");
        case("1/8", HingeKind::T, &["1", "7.2501"], "fault");
        case("-1/8", HingeKind::V, &[], "");
        case("-1/8", HingeKind::PassThrough, &[], "");
        case("-1/8", HingeKind::T, &[], "fault");
        case("-1/8", HingeKind::Corners, &[], "fault");
        case("1/8", HingeKind::Corners, &[], "");
        case("1/8", HingeKind::Strips, &[], "");
        case("1/16", HingeKind::Strips, &[], "fault");
    }

    /// Source: derived (D): a tab 1 1/2 in wide on a sheet of 8 in; it ends 1/8 in from the corner
    /// where its middle is 7/8 in in.
    #[test]
    fn it_names_the_hinge_and_the_remedy() {
        #[track_caller]
        fn case(at: &[&str], wanted: &str, mend: &str, after: &[&str]) {
            let mut document = hinged_at("8x10", at);
            let (message, remedy) = words(&document, RULE.id);
            assert!(message.starts_with(wanted), "{message}");
            assert_eq!(remedy, mend);
            check(&document, RULE.id, "fault");
            let first = found(&document, RULE.id).remove(0);
            if let Some(remedy) = first.remedy {
                apply(&mut document, &remedy.command).unwrap();
            }
            let laid = assembly_of(&mut document).hinging.at.clone();
            let laid: Vec<_> = laid.into_iter().map(|at| at.x).collect();
            assert_eq!(laid, after.iter().map(|x| inches(x)).collect::<Vec<_>>());
        }
        case(
            &["1", "7 1/2"],
            "Hinge 2 from the left sticks out 1/4 in past the side of the sheet: its tab is 1 \
             1/2 in wide, so keep its middle 3/4 in to 7 1/4 in from the sheet's left edge.",
            "Move the second hinge 3/8 in to the left",
            &["1", "7 1/8"],
        );
        // Given in any order, and both out.
        case(
            &["9", "-1"],
            "Hinge 1 from the left sticks out 1 3/4 in past the side",
            "Move the first hinge 1 7/8 in to the right, the second 1 7/8 in to the left",
            &["7/8", "7 1/8"],
        );
        // Another one is in the way.
        case(
            &["1/2", "2", "7"],
            "Hinge 1 from the left sticks out 1/4 in past the side",
            "Place the hinges evenly along the edge",
            &[],
        );
        let mut document = hinged_at("8x10", &["1", "7"]);
        assembly_of(&mut document).hinging.width = Some(inches("9"));
        let (message, remedy) = words(&document, RULE.id);
        assert!(
            message.contains("is 9 in wide and the sheet only 8 in, so make the tab narrower"),
            "{message}"
        );
        assert_eq!(remedy, "");
    }

    /// Source: common practice: nothing stands out beyond board or backing. Above the sheet are
    /// 1 7/8 in; the yielding hinge stands up by 1/8 + 1/2 in and what it is longer.
    #[test]
    fn beyond_the_board() {
        for (longer, backing, wanted) in [
            ("1 1/4", None, ""),
            ("1.2501", None, "fault"),
            ("1/2", Some("13 3/4x13 1/4"), ""),
            ("1/2", Some("13 3/4x11.4999"), "fault"),
        ] {
            let mut document = hinged_at("8x10", &["1", "7"]);
            let mat = mat(&mut document);
            mat.board_by = BoardBy::Borders(sides("2"));
            mat.assembly.hinging.longer = Some(inches(longer));
            mat.backing.size = backing.map(size);
            check(&document, RULE.id, wanted);
            if wanted == "fault" {
                let (message, _) = words(&document, RULE.id);
                assert!(message.starts_with("Hinge 2 from the left sticks out"), "{message}");
            }
        }
    }

    #[test]
    fn in_words() {
        says(
            &hinged_at("8x10", &["1", "7 1/2"]),
            RULE.id,
            "Hinge 2 from the left sticks out 1/4 in past the side of the sheet: its tab is 1 \
             1/2 in wide, so keep its middle 3/4 in to 7 1/4 in from the sheet's left edge.",
            "Move the second hinge 3/8 in to the left",
        );
        let mut wide = hinged_at("8x10", &["1", "7"]);
        assembly_of(&mut wide).hinging.width = Some(inches("9"));
        says(
            &wide,
            RULE.id,
            "Hinge 1 from the left sticks out 3 1/2 in past the side of the sheet: its tab is \
             9 in wide and the sheet only 8 in, so make the tab narrower.",
            "",
        );
        // Above the sheet 1 7/8 in; the yielding hinge stands up by 1/8 + 1 1/2 + 1/2 in.
        let mut tall = with_borders(hinged_at("8x10", &["1", "7"]), "2");
        assembly_of(&mut tall).hinging.longer = Some(inches("1 1/2"));
        says(
            &tall,
            RULE.id,
            "Hinge 2 from the left sticks out 1/4 in past the board or its backing. Shorten \
             the hinge, widen the border, or choose another kind of hinge.",
            "",
        );
        let mut floated = overlapping("8x10", "-1/4");
        assembly_of(&mut floated).hinging.kind = Some(HingeKind::T);
        says(
            &floated,
            RULE.id,
            "The T hinges show in the window by 1/4 in. Choose another kind.",
            "",
        );
        // Strips reach 2 mm over the sheet at least; 1.5 mm under the mat hide no more of them.
        let mut strips = metric(overlapping("200x250mm", "1.5mm"));
        assembly_of(&mut strips).hinging.kind = Some(HingeKind::Strips);
        says(
            &strips,
            RULE.id,
            "The edge strips show in the window by 0.5 mm. Choose another kind.",
            "",
        );
    }
}
