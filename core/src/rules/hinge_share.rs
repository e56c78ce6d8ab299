//! Hinges share the sheet's weight about evenly: one that bears most of it gives first.

use super::remedy::evenly;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::hinges::{furthest_outer, shares};

/// At most so many hundredths of an even share. Source: common practice; as hinges are planned,
/// the outer two at the corners, the inner ones bear up to 1 1/2 times as much.
const MOST: i128 = 150;

pub(super) const RULE: Rule = Rule {
    id: "hinge-share",
    judges: "whether the hinges share the sheet's weight about evenly",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged() {
        let edge = window.sheet.size.width;
        let places: Vec<_> = sheet.hinges.hinges.iter().map(|hinge| hinge.x).collect();
        let borne = shares(edge, &places);
        let Ok(count) = i128::try_from(places.len()) else { continue };
        let Some((index, most)) = borne.iter().enumerate().max_by_key(|(_, share)| **share)
        else {
            continue;
        };
        let limit = edge.scaled(MOST, 100 * count);
        // `hinge-outer` reports a side that hangs free.
        let outer = furthest_outer(edge, case.unit());
        let free = places.first().is_none_or(|first| *first > outer)
            || places.last().is_none_or(|last| edge - *last > outer);
        if count < 2 || free || *most <= limit {
            continue;
        }
        let percent = |length: crate::length::Length| {
            i64::try_from(i128::from(length.units()) * 10_000 / i128::from(edge.units()).max(1))
                .unwrap_or(10_000)
        };
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Percent(percent(*most)),
            required: Amount::Percent(percent(limit)),
            source: "common practice",
            message: format!(
                "Hinge {} from the left carries {} % of the sheet's weight; an even share is \
                 {} %. It will give first, and the others after it. Space the hinges evenly.",
                index + 1,
                (percent(*most) + 50) / 100,
                (10_000 / count + 50) / 100,
            ),
            remedy: evenly(case),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: derived: each hinge bears the edge that is nearest to it.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(sheet: &str, at: &[&str], wanted: &str) {
            check(&hinged_at(sheet, at), RULE.id, wanted);
        }
        case("13x19", &["1", "12"], "");
        // Even is 8, at most 12: from half way between the first two to half way between the
        // last, 3 1/2 to 14; then the last one from half way to the end, 12 and 12 1/8.
        case("24x30", &["1", "6", "22"], "");
        case("24x30", &["1", "2", "22"], "");
        case("24x30", &["1", "1 3/4", "22"], "caution");
        // `hinge-outer` reports a side that hangs free.
        case("24x30", &["1", "1 3/4", "21"], "");
        // Even is 6, at most 9: 2 to 12 and 12 to 23 are 10 1/2; then 7 and 12 leave 8.
        case("24x30", &["1", "4 1/4", "12", "23"], "caution");
        case("24x30", &["1", "7", "13", "23"], "");
        case("24x30", &[], "");
        case("30x22", &[], "");
        case("13x19", &["6"], "");
    }

    #[test]
    fn says_which_and_how_much() {
        let document = hinged_at("24x30", &["1", "4 1/4", "12", "23"]);
        says(
            &document,
            RULE.id,
            "Hinge 3 from the left carries 39 % of the sheet's weight; an even share is 25 %. \
             It will give first, and the others after it. Space the hinges evenly.",
            "Place the hinges evenly along the edge",
        );
    }
}
