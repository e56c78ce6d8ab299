//! Hooks are rated against weight; two of them keep a picture straight and share it.

use super::case::grams;
use super::{Case, Rule};
use crate::finding::{Amount, Finding, Place, Severity};
use crate::package::Hung;

/// At least so many times what it carries. Source: weak.
const LEAST: f64 = 2.0;

pub(super) const RULE: Rule =
    Rule { id: "hanging-hooks", judges: "whether the hooks carry the weight", judge };

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(packed) = &case.assembly.package else { return };
    let hanging = &case.mat.assembly.hanging;
    if let Some(rated) = hanging.hook_rated_g {
        let share = Hung::grams(packed.hung.hook_n);
        let wanted = share * packed.hung.factor;
        let found = f64::from(rated);
        if found < wanted {
            let (has, needs) = case.rated(rated, wanted);
            findings.push(Finding {
                rule: RULE.id,
                severity: if found < share * LEAST {
                    Severity::Fault
                } else {
                    Severity::Caution
                },
                place: Place::default(),
                measured: Amount::Grams(rated),
                required: Amount::Grams(grams(wanted)),
                source: "weak source (at least twice); common practice (four times)",
                message: format!(
                    "Each hook carries {} and is rated for only {has}. Use hooks rated for \
                     {needs}, {} times what they carry, in a wall that holds as much.",
                    case.mass(share),
                    packed.hung.factor
                ),
                remedy: None,
            });
        }
    }
    if hanging.rings_apart.is_some() && packed.hung.hooks == 1 {
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Note,
            place: Place::default(),
            measured: Amount::Count(1),
            required: Amount::Count(2),
            source: "common practice",
            message:
                "On one hook a picture tilts, and if that hook fails the picture falls. Use \
                 two hooks, rated for the wall and the weight. Heavy or public work follows \
                 local codes and a licensed installer."
                    .to_owned(),
            remedy: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::Inch;
    use crate::spec::Hooks;
    /// Source: weak (at least twice); common practice (four times): each of two hooks carries
    /// half of 4 kg.
    #[test]
    fn limits() {
        #[track_caller]
        fn case(rated: u32, hooks: Hooks, wanted: &str) {
            let mut document = plan(Inch, "8x10");
            let assembly = assembly_of(&mut document);
            assembly.package.mass_g = Some(4000);
            assembly.hanging.rings_apart = Some(inches("12"));
            assembly.hanging.hooks = hooks;
            assembly.hanging.hook_rated_g = Some(rated);
            check(&document, RULE.id, wanted);
        }
        let two = Hooks::Two(inches("6"));
        case(8001, two, "");
        case(7999, two, "caution");
        case(3999, two, "fault");
        case(16_001, Hooks::One, "note");
        case(8001, Hooks::One, "caution, note");
    }

    #[test]
    fn in_words() {
        let hung = |rated: u32, hooks: Hooks| {
            let mut document = plan(Inch, "8x10");
            let behind = assembly_of(&mut document);
            behind.package.mass_g = Some(4000);
            behind.hanging.rings_apart = Some(inches("12"));
            behind.hanging.hooks = hooks;
            behind.hanging.hook_rated_g = Some(rated);
            document
        };
        // 2 kg are 4.409 lb, 5 kg 11.02 lb, and four times 2 kg 17.64 lb.
        let weak = hung(5000, Hooks::Two(inches("6")));
        says(
            &weak,
            RULE.id,
            "Each hook carries 4.4 lb and is rated for only 11 lb. Use hooks rated for 17.7 \
             lb, 4 times what they carry, in a wall that holds as much.",
            "",
        );
        says(
            &metric(weak),
            RULE.id,
            "Each hook carries 2 kg and is rated for only 5 kg. Use hooks rated for 8 kg, 4 \
             times what they carry, in a wall that holds as much.",
            "",
        );
        says(
            &hung(20_000, Hooks::One),
            RULE.id,
            "On one hook a picture tilts, and if that hook fails the picture falls. Use two \
             hooks, rated for the wall and the weight. Heavy or public work follows local \
             codes and a licensed installer.",
            "",
        );
    }
}
