//! A sheet is held on all sides or floated on all.

use super::overlap::HELD;
use super::remedy::overlaps;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::layout::Window;
use crate::spec::{Opening, WindowBy, usual_overlap};

pub(super) const RULE: Rule = Rule {
    id: "mixed-hold",
    judges: "whether the mat covers some edges of the sheet and leaves others free",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (opening, window) in case.windows() {
        let sides = window.overlap.each();
        let names = |which: fn(&crate::length::Length) -> bool| {
            let names = sides.iter().filter(|(_, overlap)| which(overlap));
            names.map(|(side, _)| side.name()).collect::<Vec<_>>()
        };
        let held = names(|overlap| *overlap > HELD);
        let floated = names(|overlap| *overlap < -HELD);
        if held.is_empty() || floated.is_empty() {
            continue;
        }
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Count(u32::try_from(held.len()).unwrap_or(0)),
            required: Amount::Count(4),
            source: "common practice",
            message: format!(
                "The mat covers the sheet's edge at the {} and leaves it free at the {}. \
                 Covered edges stay flat and free ones curl: cover all four, or float all \
                 four.",
                listed(&held),
                listed(&floated),
            ),
            remedy: remedy(case, (opening, window)),
        });
    }
}

/// As in `top, right and left`.
fn listed(names: &[&str]) -> String {
    match names {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        _ => names.concat(),
    }
}

fn remedy(case: &Case<'_>, of: (&Opening, &Window)) -> Option<Remedy> {
    let usual = usual_overlap(case.unit());
    let wanted = of.1.overlap.map(|overlap| (overlap <= HELD).then_some(usual));
    let words = match of.0.window_by {
        WindowBy::Reveal(_) => {
            format!("Cover all four edges, the free ones by {}", case.exact(usual))
        }
        WindowBy::InHand(_) => "Move the sheet so that every edge is covered".to_owned(),
    };
    Some(Remedy { words, command: overlaps(case, of, wanted)? })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};

    #[track_caller]
    fn case(unit: Unit, overlaps: &str, wanted: &str) {
        let mut document = plan(unit, "200x250mm");
        let reveal = sides(overlaps).map(|overlap| -overlap);
        mat(&mut document).openings[0].window_by = WindowBy::Reveal(reveal);
        check(&document, RULE.id, wanted);
    }

    /// Source: common practice.
    #[test]
    fn limits() {
        case(Inch, "1/8", "");
        case(Inch, "-1/8", "");
        case(Inch, "1/8,1/8,-1/4,1/8", "caution");
        case(Millimetre, ".501mm,-.501mm,3mm,3mm", "caution");
        case(Millimetre, ".5mm,-.501mm,-3mm,-3mm", "");
        case(Millimetre, "3mm,-.5mm,3mm,3mm", "");
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "8x10");
        mat(&mut document).openings[0].window_by =
            WindowBy::Reveal(sides("-1/8,-1/8,1/4,-1/8"));
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The mat covers the sheet's edge at the top, right and left and leaves it free at \
             the bottom. Covered edges stay flat and free ones curl: cover all four, or float \
             all four."
        );
        assert_eq!(remedy, "Cover all four edges, the free ones by 1/8 in");
    }

    #[test]
    fn in_millimetres() {
        says(
            &metric(overlapping("200x250mm", "3mm,-3mm,3mm,3mm")),
            RULE.id,
            "The mat covers the sheet's edge at the top, bottom and left and leaves it free \
             at the right. Covered edges stay flat and free ones curl: cover all four, or \
             float all four.",
            "Cover all four edges, the free ones by 3 mm",
        );
    }
}
