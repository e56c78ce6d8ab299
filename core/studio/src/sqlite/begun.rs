//! A work, a size and an edition begun in one transaction.

use rusqlite::Transaction;

use super::failures::Step;
use super::{asked, done, prints};
use crate::{
    Begun, EditionId, Error, Format, FormatId, NewFormat, Note, TakenOver, Tier, Whose, WorkId,
};

pub(super) fn begin(
    tx: &Transaction<'_>,
    what: &Begun,
    note: &Note,
) -> Step<(WorkId, Option<EditionId>)> {
    let Begun { whose, format, alone, edition, tiers, out } = what;
    let work = match whose {
        Whose::New(work, catalogue) => done::add_work(tx, work, catalogue.as_deref(), note)?,
        Whose::There(work) => *work,
    };
    let format = match format {
        Some(format) => Some(size(tx, work, format, *alone && edition.is_some(), note)?),
        None => None,
    };
    let Some(edition) = edition else { return Ok((work, None)) };
    let mut edition = edition.clone();
    edition.format = format.filter(|_| *alone);
    let id = done::open_edition(tx, work, &edition, note)?;
    for (from, price) in tiers {
        let tier = Tier { edition: id, from: *from, price: price.clone() };
        done::set_tier(tx, &tier, note)?;
    }
    if let Some((from, to, sold)) = out {
        let taken = TakenOver { edition: id, from: *from, to: *to, sold: sold.clone() };
        prints::take_over(tx, &taken, note)?;
    }
    Ok((work, Some(id)))
}

/// The size, added; or the one that is there and waits for its edition.
fn size(
    tx: &Transaction<'_>,
    work: WorkId,
    format: &NewFormat,
    waits: bool,
    note: &Note,
) -> Step<FormatId> {
    let measured = !format.measures_as(&NewFormat::default());
    let same = |one: &&Format| {
        if measured { one.what.measures_as(format) } else { one.what == *format }
    };
    let formats = asked::formats(tx, work)?;
    let Some(there) = formats.iter().find(same) else {
        return done::add_format(tx, work, format, note);
    };
    if waits && !asked::has_edition(tx, there.id)? {
        return Ok(there.id);
    }
    Err(Error::refused(
        "the work is printed in that size already, and another one is wanted: a second edition \
         of one size would break what the buyers of the first were promised",
    )
    .into())
}
