//! Changes of settings, works, formats and editions, each within one transaction.

use rusqlite::{Transaction, params};

use super::failures::Attempt;
use super::{currency, query, validate};
use crate::{
    Correction, Edition, EditionId, Error, FormatId, NewEdition, NewFormat, NewWork, Note,
    Tier, Work, WorkId,
};

pub(super) fn add_work(
    tx: &Transaction<'_>,
    work: &NewWork,
    catalogue: Option<&str>,
    note: &Note,
) -> Attempt<WorkId> {
    validate::note(note)?;
    validate::work(work)?;
    let catalogue = match catalogue {
        Some(given) => {
            validate::catalogue(given)?;
            given.to_owned()
        }
        None => next_catalogue(tx)?,
    };
    let sql =
        "INSERT INTO work (catalogue, title, maker, taken, printed, medium, process, paper,
                   signed, authorised, master, others, picture, sha256, notes, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16,
                   ?17)";
    let NewWork {
        title,
        maker,
        taken,
        printed,
        medium,
        process,
        paper,
        signed,
        authorised,
        master,
        others,
        picture,
        sha256,
        notes,
    } = work;
    tx.prepare_cached(sql)?.execute(params![
        catalogue, title, maker, taken, printed, medium, process, paper, signed, authorised,
        master, others, picture, sha256, notes, note.at, note.why
    ])?;
    Ok(WorkId(tx.last_insert_rowid()))
}

fn next_catalogue(tx: &Transaction<'_>) -> Attempt<String> {
    let highest: i64 =
        tx.query_row("SELECT coalesce(max(id), 0) FROM work", [], |row| row.get(0))?;
    for number in highest + 1.. {
        let candidate = format!("W{number:04}");
        let sql = "SELECT EXISTS (SELECT 1 FROM work WHERE catalogue = ?1)";
        let taken: bool = tx.prepare_cached(sql)?.query_row([&candidate], |row| row.get(0))?;
        if !taken {
            return Ok(candidate);
        }
    }
    Err(Error::refused(
        "the catalogue numbers the program gives are used up: type one of your own",
    )
    .into())
}

pub(super) fn correct_work(
    tx: &Transaction<'_>,
    id: WorkId,
    work: &NewWork,
    note: &Note,
) -> Attempt<()> {
    let there = existing_work(tx, id)?;
    update_work(tx, &Work { what: work.clone(), ..there }, note)
}

fn update_work(tx: &Transaction<'_>, work: &Work, note: &Note) -> Attempt<()> {
    validate::note(note)?;
    let Work { id, catalogue, withdrawn, what } = work;
    validate::catalogue(catalogue)?;
    validate::work(what)?;
    let sql = "UPDATE work SET title = ?2, maker = ?3, taken = ?4, printed = ?5, medium = ?6,
                   process = ?7, paper = ?8, signed = ?9, authorised = ?10, master = ?11,
                   others = ?12, picture = ?13, sha256 = ?14, notes = ?15, catalogue = ?16,
                   withdrawn = ?17, at = ?18, why = ?19
               WHERE id = ?1";
    let NewWork {
        title,
        maker,
        taken,
        printed,
        medium,
        process,
        paper,
        signed,
        authorised,
        master,
        others,
        picture,
        sha256,
        notes,
    } = what;
    tx.prepare_cached(sql)?.execute(params![
        id.0, title, maker, taken, printed, medium, process, paper, signed, authorised, master,
        others, picture, sha256, notes, catalogue, withdrawn, note.at, note.why
    ])?;
    Ok(())
}

pub(super) fn add_format(
    tx: &Transaction<'_>,
    work: WorkId,
    format: &NewFormat,
    note: &Note,
) -> Attempt<FormatId> {
    validate::note(note)?;
    validate::format(format)?;
    existing_work(tx, work)?;
    let sql = "INSERT INTO format (work, name, image_w, image_h, sheet_w, sheet_h, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)";
    let NewFormat { name, image_w, image_h, sheet_w, sheet_h } = format;
    tx.prepare_cached(sql)?.execute(params![
        work.0, name, image_w, image_h, sheet_w, sheet_h, note.at, note.why
    ])?;
    Ok(FormatId(tx.last_insert_rowid()))
}

pub(super) fn correct_format(
    tx: &Transaction<'_>,
    id: FormatId,
    format: &NewFormat,
    note: &Note,
) -> Attempt<()> {
    validate::note(note)?;
    validate::format(format)?;
    let sql = "UPDATE format SET name = ?2, image_w = ?3, image_h = ?4, sheet_w = ?5,
                   sheet_h = ?6, at = ?7, why = ?8
               WHERE id = ?1";
    let NewFormat { name, image_w, image_h, sheet_w, sheet_h } = format;
    let changed = tx
        .prepare_cached(sql)?
        .execute(params![id.0, name, image_w, image_h, sheet_w, sheet_h, note.at, note.why])?;
    if changed == 0 {
        return Err(Error::Missing(format!(
            "there is no size {}: list the sizes of the work, or add this one first",
            id.0
        ))
        .into());
    }
    Ok(())
}

pub(super) fn open_edition(
    tx: &Transaction<'_>,
    work: WorkId,
    edition: &NewEdition,
    note: &Note,
) -> Attempt<EditionId> {
    validate::note(note)?;
    existing_work(tx, work)?;
    validate::edition(edition)?;
    let sql = "INSERT INTO edition (work, format, name, size, proof_share, artist, printer,
                   hors_commerce, trial, roman, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12)";
    write_edition(tx, sql, work.0, edition, note)?;
    Ok(EditionId(tx.last_insert_rowid()))
}

pub(super) fn change_edition(
    tx: &Transaction<'_>,
    id: EditionId,
    edition: &NewEdition,
    note: &Note,
) -> Attempt<()> {
    validate::note(note)?;
    validate::edition(edition)?;
    existing_edition(tx, id)?;
    let sql = "UPDATE edition SET format = ?2, name = ?3, size = ?4, proof_share = ?5,
                   artist = ?6, printer = ?7, hors_commerce = ?8, trial = ?9, roman = ?10,
                   at = ?11, why = ?12
               WHERE id = ?1";
    write_edition(tx, sql, id.0, edition, note)?;
    Ok(())
}

/// Runs `sql` with `id` as its first value and what an edition is after it.
fn write_edition(
    tx: &Transaction<'_>,
    sql: &str,
    id: i64,
    edition: &NewEdition,
    note: &Note,
) -> Attempt<()> {
    tx.prepare_cached(sql)?.execute(params![
        id,
        edition.format.map(|format| format.0),
        edition.name,
        edition.size,
        edition.proof_share,
        edition.artist,
        edition.printer,
        edition.hors_commerce,
        edition.trial,
        edition.roman,
        note.at,
        note.why
    ])?;
    Ok(())
}

pub(super) fn set_tier(tx: &Transaction<'_>, tier: &Tier, note: &Note) -> Attempt<()> {
    validate::note(note)?;
    existing_edition(tx, tier.edition)?;
    currency::remember(tx, &tier.price)?;
    let sql = "INSERT INTO tier (edition, first, cents, currency, at, why)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6)
               ON CONFLICT (edition, first) DO UPDATE SET cents = excluded.cents,
                   currency = excluded.currency, at = excluded.at, why = excluded.why";
    tx.prepare_cached(sql)?.execute(params![
        tier.edition.0,
        tier.from,
        tier.price.cents,
        tier.price.currency,
        note.at,
        note.why
    ])?;
    Ok(())
}

pub(super) fn correct(
    tx: &Transaction<'_>,
    id: WorkId,
    what: &Correction,
    note: &Note,
) -> Attempt<()> {
    let Correction { work, catalogue, withdrawn, formats, edition, tiers } = what;
    let was = existing_work(tx, id)?;
    let mut now = was.clone();
    if let Some(work) = work {
        now.what.clone_from(work);
    }
    if let Some(catalogue) = catalogue {
        now.catalogue.clone_from(catalogue);
    }
    now.withdrawn = withdrawn.unwrap_or(now.withdrawn);
    if now != was {
        // One entry for all that is another about the work itself.
        update_work(tx, &now, note)?;
    }
    for (format, what) in formats {
        match format {
            Some(format) => correct_format(tx, *format, what, note)?,
            None => {
                add_format(tx, id, what, note)?;
            }
        }
    }
    if let Some((edition, what)) = edition {
        change_edition(tx, *edition, what, note)?;
    }
    for tier in tiers {
        set_tier(tx, tier, note)?;
    }
    Ok(())
}

fn existing_work(tx: &Transaction<'_>, id: WorkId) -> Attempt<Work> {
    query::work(tx, id)?.ok_or_else(|| {
        Error::Missing(format!("there is no work {}: list them, or add it first", id.0)).into()
    })
}

pub(super) fn existing_edition(tx: &Transaction<'_>, id: EditionId) -> Attempt<Edition> {
    query::edition(tx, id)?.ok_or_else(|| {
        Error::Missing(format!("there is no edition {}: list them, or open it first", id.0))
            .into()
    })
}
