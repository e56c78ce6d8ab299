//! Taking back what was put right of a work, its sizes, an edition or its prices.

use sightedge_studio::WorkId;

use crate::window::screens::editions::messages::{Outcome, Undo};
use crate::window::screens::editions::undo::{at_once, undone};
use sightedge_service::record::{self, Corrected};

/// Takes a correction back, unless something else was said since; `None` where nothing was put
/// right, or it is for good.
pub(super) fn corrected_back(work: WorkId, corrected: Corrected, what: String) -> Option<Undo> {
    let Corrected { made, back } = corrected;
    let (back, told) = (back?, what.clone());
    Some(Undo::By(
        what,
        Box::new(move |record| {
            record::correct_back(record, work, &made, &back, &at_once())?;
            Ok(Outcome { said: undone(&told), look: Some(work), ..Outcome::default() })
        }),
    ))
}
