//! A made-up version before version 5, in which a plan had one work and no log, is migrated as a
//! released one would be.

use serde::Deserialize;

use super::super::{LADDER, Rung, form, read_on, v5};
use super::*;

const OLDER: u64 = VERSION - 1;

/// The ladder with one rung more.
const LONGER: [Rung; 2] =
    [(OLDER, |text, name| Ok(form::<Plan>(text, name)?.migrate())), LADDER[0]];

/// What changed is written out, and the rest is version 5's.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Plan {
    #[serde(rename = "version")]
    _version: u64,
    id: v5::text::PlanId,
    unit: v5::Unit,
    ruler: v5::Ruler,
    work: v5::Work,
    variants: Vec<v5::Variant>,
    chosen: v5::text::Count,
}

impl Plan {
    /// The same plan in the form of version 5.
    fn migrate(self) -> v5::Plan {
        let Self { _version: _, id, unit, ruler, work, variants, chosen } = self;
        v5::Plan {
            version: 5,
            id,
            unit,
            weights: None,
            ruler,
            works: vec![work],
            variants,
            chosen,
            inscribed: None,
            print: None,
            log: Vec::new(),
        }
    }
}

/// The reference piece as the older version would have written it.
fn sample() -> String {
    let text = write(&reference());
    let parts = [
        ("version: 5", "version: 4"),
        ("    works: [\n        (", "    work: ("),
        ("\n        ),\n    ],\n    variants", "\n        ),\n    variants"),
        ("    log: [],\n", ""),
    ];
    parts.into_iter().fold(text, |text, (new, old)| {
        assert!(text.contains(new), "{new} is not in {text}");
        text.replacen(new, old, 1)
    })
}

#[test]
fn a_sample_of_an_older_version_means_what_it_meant() {
    let found = read_on(&LONGER, &sample(), NAME).expect("it is read");
    assert_eq!(found, VersionedDocument { document: reference(), version: OLDER });
    let newest = read_on(&LONGER, &write(&reference()), NAME).expect("it is read");
    assert_eq!(newest, VersionedDocument { document: reference(), version: VERSION });
}

/// A refusal of an older file has its place in that file.
#[test]
fn an_older_version_is_refused_by_its_own_lines() {
    let wrong = sample().replacen("unit: inch", "unit: cubit", 1);
    let error = read_on(&LONGER, &wrong, NAME).map_err(|error| error.to_string());
    let words = "line 5, column 11: \"cubit\" is not known: use inch or millimetre";
    assert!(error.as_ref().is_err_and(|error| error.contains(words)), "{error:?}");
    let newer = sample().replacen("    chosen", "    weights: g,\n    chosen", 1);
    let error = read_on(&LONGER, &newer, NAME).map_err(|error| error.to_string());
    assert!(error.as_ref().is_err_and(|e| e.contains("no field \"weights\"")), "{error:?}");
}
