//! A work, a size and an edition registered in one transaction.

use rusqlite::Transaction;

use super::failures::Attempt;
use super::{prints, query, write};
use crate::{
    EditionId, Error, Format, FormatId, NewFormat, Note, Registration, TakenOver, Tier, WorkId,
    WorkRef,
};

pub(super) fn register(
    tx: &Transaction<'_>,
    what: &Registration,
    note: &Note,
) -> Attempt<(WorkId, Option<EditionId>)> {
    let Registration { work, format, alone, edition, tiers, out } = what;
    let work = match work {
        WorkRef::New(work, catalogue) => write::add_work(tx, work, catalogue.as_deref(), note)?,
        WorkRef::Existing(work) => *work,
    };
    let format = match format {
        Some(format) => Some(size(tx, work, format, *alone && edition.is_some(), note)?),
        None => None,
    };
    let Some(edition) = edition else { return Ok((work, None)) };
    let mut edition = edition.clone();
    edition.format = format.filter(|_| *alone);
    let id = write::open_edition(tx, work, &edition, note)?;
    for (from, price) in tiers {
        let tier = Tier { edition: id, from: *from, price: price.clone() };
        write::set_tier(tx, &tier, note)?;
    }
    if let Some((from, to, sold)) = out {
        let taken = TakenOver { edition: id, from: *from, to: *to, sold: sold.clone() };
        prints::take_over(tx, &taken, note)?;
    }
    Ok((work, Some(id)))
}

/// Adds the size; or finds one that is in the record and has no edition yet.
fn size(
    tx: &Transaction<'_>,
    work: WorkId,
    format: &NewFormat,
    awaits_edition: bool,
    note: &Note,
) -> Attempt<FormatId> {
    let measured = !format.measures_as(&NewFormat::default());
    let same = |one: &&Format| {
        if measured { one.what.measures_as(format) } else { one.what == *format }
    };
    let formats = query::formats(tx, work)?;
    let Some(existing) = formats.iter().find(same) else {
        return write::add_format(tx, work, format, note);
    };
    if awaits_edition && !query::has_edition(tx, existing.id)? {
        return Ok(existing.id);
    }
    Err(Error::refused(
        "the work is printed in that size already: choose another size. A second edition of one \
         size would break what the buyers of the first were promised",
    )
    .into())
}
