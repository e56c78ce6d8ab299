//! One hinge fixes the place of a sheet; two would hold it against its own growth.

use super::{Case, Rule};
use crate::command::Command;
use crate::finding::Remedy;
use crate::finding::{Amount, Finding, Place, Severity};

pub(super) const RULE: Rule =
    Rule { id: "hinge-locating", judges: "whether there is one locating hinge", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (window, sheet) in case.hinged() {
        let hinges = &sheet.hinges.hinges;
        let locating = hinges.iter().filter(|hinge| hinge.locates).count();
        if hinges.is_empty() || locating == 1 {
            continue;
        }
        let message = if locating == 0 {
            "There is no locating hinge, so the sheet will sink and turn. Make one of the \
             hinges the locating one."
                .to_owned()
        } else {
            format!(
                "There are {locating} locating hinges. The sheet cannot grow between them and \
                 will cockle. Keep one, and hang the others loose."
            )
        };
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Caution,
            place: Place::window(window),
            measured: Amount::Count(u32::try_from(locating).unwrap_or(u32::MAX)),
            required: Amount::Count(1),
            source: "common practice",
            message,
            remedy: first_locates(case),
        });
    }
}

fn first_locates(case: &Case<'_>) -> Option<Remedy> {
    let mut hinging = case.mat.assembly.hinging.clone();
    let first = hinging.at.iter().map(|at| at.x).min()?;
    let mut found = false;
    for at in &mut hinging.at {
        at.locates = at.x == first && !found;
        found |= at.locates;
    }
    Some(Remedy {
        words: "Locate by the first hinge from the left, and hang the others loose".to_owned(),
        command: Command::SetHinging(case.variant, hinging),
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;

    /// Source: common practice.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(locates: [bool; 2], wanted: &str) {
            let mut document = hinged_at("8x10", &["1", "7"]);
            for (at, locates) in assembly_of(&mut document).hinging.at.iter_mut().zip(locates) {
                at.locates = locates;
            }
            check(&document, RULE.id, wanted);
        }
        case([true, false], "");
        case([false, true], "");
        case([true, true], "caution");
        case([false, false], "caution");
    }

    #[test]
    fn in_words() {
        let located = |locates: [bool; 2]| {
            let mut document = hinged_at("8x10", &["1", "7"]);
            for (at, locates) in assembly_of(&mut document).hinging.at.iter_mut().zip(locates) {
                at.locates = locates;
            }
            document
        };
        let remedy = "Locate by the first hinge from the left, and hang the others loose";
        says(
            &located([true, true]),
            RULE.id,
            "There are 2 locating hinges. The sheet cannot grow between them and will cockle. \
             Keep one, and hang the others loose.",
            remedy,
        );
        says(
            &located([false, false]),
            RULE.id,
            "There is no locating hinge, so the sheet will sink and turn. Make one of the \
             hinges the locating one.",
            remedy,
        );
    }
}
