//! Corrections of a work, its sizes, its edition or its prices, in one step.

use std::path::Path;

use sightedge_pictures::{CancelToken, content_hash};
use sightedge_studio::{
    Correction, Edition, Error, Format, NewEdition, NewFormat, NewWork, Note, Price, Record,
    Tier, Work, WorkId,
};

use super::prices::tiers;
use super::register::titled;

/// What is so from now on, each part beside what the person saw there.
#[derive(Clone, Debug, Default)]
pub struct Correcting {
    /// Its catalogue number: as the person saw it, and the right one. Needs a reason.
    pub catalogue: Option<(String, String)>,
    /// Whether the work is withdrawn from the lists, as it is where it was entered by mistake. Needs
    /// a reason; bringing it back needs none.
    pub withdrawn: Option<bool>,
    /// Of the work. Its picture is read anew where it is another file, or its digest is left out.
    pub work: Option<(Work, NewWork)>,
    /// Of its sizes; one that was never said has nothing beside it.
    pub sizes: Vec<(Option<Format>, NewFormat)>,
    /// Of an edition.
    pub edition: Option<EditionTerms>,
}

/// An edition and what its prints cost.
#[derive(Clone, Debug)]
pub struct EditionTerms {
    /// What the person saw there.
    pub was: Edition,
    /// What it is from now on.
    pub now: NewEdition,
    /// What its prints cost, as the person saw it.
    pub tiers: Vec<Tier>,
    /// From which number on they are to cost how much.
    pub prices: Vec<(u32, Price)>,
}

/// What was corrected.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Corrected {
    /// What is another than before; [`Correction::default`] where all was so already.
    pub made: Correction,
    /// What says the same as before again; `None` where nothing can.
    pub back: Option<Correction>,
}

impl Corrected {
    /// Whether anything is another than before.
    pub fn any(&self) -> bool {
        self.made != Correction::default()
    }
}

/// Corrects what differs: all of it, or nothing.
///
/// # Errors
/// Where others changed it meanwhile, or a part of it is refused.
pub fn correct(
    record: &mut dyn Record,
    work: WorkId,
    what: Correcting,
    note: &Note,
) -> Result<Corrected, Error> {
    let (mut made, mut back) = (Correction::default(), Correction::default());
    let mut whole = true;
    let there = record.work(work)?;
    if let Some((was, now)) = what.catalogue {
        unchanged(&was, &there.catalogue, "the catalogue number")?;
        let now = now.trim().to_owned();
        if now != was {
            explained(note, "a catalogue number is changed")?;
            (made.catalogue, back.catalogue) = (Some(now), Some(was));
        }
    }
    if let Some(withdrawn) = what.withdrawn.filter(|it| *it != there.withdrawn) {
        if withdrawn {
            explained(note, "a work is withdrawn")?;
        }
        (made.withdrawn, back.withdrawn) = (Some(withdrawn), Some(!withdrawn));
    }
    if let Some((was, mut now)) = what.work {
        titled(&now)?;
        unchanged(&was.what, &record.work(work)?.what, "the work")?;
        if (&now.picture, &now.sha256) != (&was.what.picture, &was.what.sha256) {
            now.sha256 = hash_of_picture(&now.picture)?;
        }
        if now != was.what {
            (made.work, back.work) = (Some(now), Some(was.what));
        }
    }
    let sizes = record.formats(work)?;
    for (was, now) in what.sizes {
        let Some(was) = was else {
            made.formats.push((None, now));
            // A size is never taken out again.
            whole = false;
            continue;
        };
        let still = sizes.iter().find(|one| one.id == was.id);
        unchanged(&Some(&was), &still, "a size of the work")?;
        if now != was.what {
            made.formats.push((Some(was.id), now));
            back.formats.push((Some(was.id), was.what));
        }
    }
    if let Some(EditionTerms { was, now, tiers: had, prices }) = what.edition {
        let id = was.id;
        unchanged(&was.what, &record.edition(id)?.what, "the edition")?;
        unchanged(&had, &record.tiers(id)?, "a price of the edition")?;
        for (from, price) in tiers(record, now.size, prices)? {
            let tier = Tier { edition: id, from, price };
            if !had.contains(&tier) {
                // A first price is set for good: there is none to go back to.
                let before = had.iter().rev().find(|one| one.from <= from);
                whole &= before.is_some();
                back.tiers.extend(
                    before.map(|one| Tier { price: one.price.clone(), ..tier.clone() }),
                );
                made.tiers.push(tier);
            }
        }
        if now != was.what {
            (made.edition, back.edition) = (Some((id, now)), Some((id, was.what)));
        }
    }
    if made != Correction::default() {
        record.correct(work, &made, note)?;
    }
    let back = Some(back).filter(|back| whole && *back != Correction::default());
    Ok(Corrected { made, back })
}

/// Undoes a correction, unless something else was changed since.
///
/// # Errors
/// Where others changed it meanwhile.
pub fn correct_back(
    record: &mut dyn Record,
    work: WorkId,
    made: &Correction,
    back: &Correction,
    note: &Note,
) -> Result<(), Error> {
    let there = record.work(work)?;
    if let Some(now) = &made.catalogue {
        unchanged(now, &there.catalogue, "the catalogue number")?;
    }
    if let Some(now) = &made.withdrawn {
        unchanged(now, &there.withdrawn, "the work")?;
    }
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
    record.correct(work, back, note)
}

/// What takes a work from where people look for it says why.
fn explained(note: &Note, what: &str) -> Result<(), Error> {
    if note.why.trim().is_empty() {
        return Err(Error::refused(format!(
            "{what} only with a reason: say why, so that the history tells it later"
        )));
    }
    Ok(())
}

/// What another window changed meanwhile is not written over unseen.
pub(super) fn unchanged<T: PartialEq>(was: &T, now: &T, what: &str) -> Result<(), Error> {
    if was == now {
        return Ok(());
    }
    Err(Error::refused(format!(
        "{what} was changed by another window or program while you typed, and nothing is \
         written over unseen. Leave it, look at what is there now, and correct that"
    )))
}

/// What tells the picture's content from any other.
fn hash_of_picture(picture: &str) -> Result<String, Error> {
    if picture.is_empty() {
        return Ok(String::new());
    }
    content_hash(Path::new(picture), &CancelToken::default())
        .map(|hash| hash.to_string())
        .map_err(|error| {
            Error::Unreadable(format!(
                "the picture {picture} could not be read: {error}. Choose the file, or leave it \
                 as it was"
            ))
        })
}
