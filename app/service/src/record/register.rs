//! A work, a size and an edition begun in one step.

use sightedge_studio::{
    EditionId, Error, NewEdition, NewFormat, NewWork, Note, Price, Record, Registration,
    WorkId, WorkRef,
};

use super::prices::tiers;

/// What is begun, as it was typed.
#[derive(Clone, Debug)]
pub struct Registering {
    /// The work that gets the edition or the size.
    pub work: WorkRef,
    /// The size; [`NewFormat::default`] where none is given.
    pub format: NewFormat,
    /// Whether the edition counts that size alone.
    pub alone: bool,
    /// The edition; without one, the size is added to one that counts all sizes.
    pub edition: Option<NewEdition>,
    /// From which number on prints cost how much.
    pub prices: Vec<(u32, Price)>,
    /// The first and the last number issued before the record began, and those known to be sold.
    pub out: Option<(u32, u32, Vec<u32>)>,
}

/// Begins all of it, or nothing.
///
/// # Errors
/// Where a part of it is refused.
pub fn register(
    record: &mut dyn Record,
    what: Registering,
    note: &Note,
) -> Result<(WorkId, Option<EditionId>), Error> {
    let Registering { work, format, alone, edition, prices, out } = what;
    if let WorkRef::New(new, _) = &work {
        titled(new)?;
    }
    if edition.is_none() && format.measures_as(&NewFormat::default()) {
        return Err(Error::refused(
            "no size was given: width and height of the image or the sheet are missing; give one \
             of the two",
        ));
    }
    let size = edition.as_ref().map_or(0, |edition| edition.size);
    // What is wrong with the edition itself comes first.
    let tiers = if size == 0 { Vec::new() } else { tiers(record, size, prices)? };
    let format = Some(format).filter(|format| *format != NewFormat::default());
    record.register(&Registration { work, format, alone, edition, tiers, out }, note)
}

/// A work is found by its title.
pub(super) fn titled(work: &NewWork) -> Result<(), Error> {
    if work.title.trim().is_empty() {
        return Err(Error::refused(
            "no title was given: give one to find the work by (Untitled will do)",
        ));
    }
    Ok(())
}
