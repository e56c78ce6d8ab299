//! Taking back what was put right of a work, its sizes, an edition or its prices.

use sightedge_studio::{Correction, WorkId};

use super::unchanged;
use crate::window::screens::editions::messages::{Outcome, Undo};
use crate::window::screens::editions::undo::{at_once, undone};

/// Takes a correction back, unless something else was said since.
pub(super) fn corrected_back(
    work: WorkId,
    made: Correction,
    before: Correction,
    what: String,
) -> Undo {
    let told = what.clone();
    Undo::By(
        what,
        Box::new(move |record| {
            if let Some(now) = &made.work {
                unchanged(now, &record.work(work)?.what, "the work")?;
            }
            let sizes = record.formats(work)?;
            for (id, now) in &made.formats {
                let there = sizes.iter().find(|size| Some(size.id) == *id);
                unchanged(&Some(now), &there.map(|size| &size.what), "a size of the work")?;
            }
            if let Some((id, now)) = &made.edition {
                unchanged(now, &record.edition(*id)?.what, "the edition")?;
            }
            for tier in &made.tiers {
                let there = record.tiers(tier.edition)?;
                let there = there.iter().find(|other| other.from == tier.from);
                unchanged(&Some(tier), &there, "a price of the edition")?;
            }
            record.correct(work, &before, &at_once())?;
            Ok(Outcome { said: undone(&told), look: Some(work), ..Outcome::default() })
        }),
    )
}
