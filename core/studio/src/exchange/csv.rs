//! One table a file.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use sightedge_core::export::csv::{Table, cell, text_of};

use crate::{
    Dump, Edition, EditionId, Entry, Error, Format, FormatId, Kind, Money, NewEdition,
    NewFormat, NewWork, Print, PrintDetails, PrintId, Setting, State, Tier, Work, WorkId,
};

const SETTINGS: &str = "settings.csv";
const WORKS: &str = "works.csv";
const FORMATS: &str = "formats.csv";
const EDITIONS: &str = "editions.csv";
const PRICES: &str = "prices.csv";
const PRINTS: &str = "prints.csv";
const HISTORY: &str = "history.csv";

/// The files, in the order in which they are written.
pub const TABLES: [&str; 7] = [SETTINGS, WORKS, FORMATS, EDITIONS, PRICES, PRINTS, HISTORY];

fn escaped(text: &str) -> String {
    cell(text).into_owned()
}

fn unescaped(cell: String) -> String {
    match text_of(&cell) {
        text if text.len() == cell.len() => cell,
        text => text.to_owned(),
    }
}

#[derive(Serialize, Deserialize)]
struct SettingRow {
    form: u32,
    key: String,
    value: String,
}

#[derive(Serialize, Deserialize)]
struct WorkRow {
    id: i64,
    catalogue: String,
    title: String,
    maker: String,
    taken: Option<i64>,
    printed: Option<i64>,
    medium: String,
    // Tables of form 1 have no such columns.
    #[serde(default)]
    process: String,
    paper: String,
    #[serde(default)]
    signed: String,
    #[serde(default)]
    authorised: String,
    #[serde(default)]
    master: String,
    #[serde(default)]
    others: String,
    picture: String,
    sha256: String,
    notes: String,
    #[serde(default)]
    withdrawn: bool,
}

#[derive(Serialize, Deserialize)]
struct FormatRow {
    id: i64,
    work: i64,
    name: String,
    image_w: i64,
    image_h: i64,
    sheet_w: i64,
    sheet_h: i64,
}

#[derive(Serialize, Deserialize)]
struct EditionRow {
    id: i64,
    work: i64,
    format: Option<i64>,
    name: String,
    size: u32,
    proof_share: u32,
    artist: u32,
    printer: u32,
    hors_commerce: u32,
    trial: u32,
    roman: bool,
}

#[derive(Serialize, Deserialize)]
struct PriceRow {
    edition: i64,
    from: u32,
    cents: i64,
    currency: String,
}

#[derive(Serialize, Deserialize)]
struct PrintRow {
    id: i64,
    edition: i64,
    kind: String,
    number: u32,
    live: bool,
    replaces: Option<i64>,
    format: Option<i64>,
    state: String,
    place: String,
    printed: String,
    matted: String,
    plan: String,
    plan_file: String,
    cents: Option<i64>,
    currency: String,
    buyer: String,
}

#[derive(Serialize, Deserialize)]
struct EntryRow {
    id: i64,
    at: String,
    subject: String,
    subject_id: i64,
    what: String,
    why: String,
    /// Exported under this name, as JSON is.
    #[serde(rename = "told")]
    payload: String,
}

/// A record as tables: each file's name and content. The same record always gives the same
/// bytes.
///
/// # Errors
/// Where a table cannot be written, which no record of this program brings about.
pub fn to_csv(dump: &Dump) -> Result<Vec<(&'static str, String)>, Error> {
    let Dump { version, settings, works, formats, editions, tiers, prints, history } = dump;
    // The form stands in the first table, which therefore always has a row.
    let form = SettingRow { form: *version, key: String::new(), value: String::new() };
    let settings = settings.iter().map(|one| SettingRow {
        form: *version,
        key: escaped(&one.key),
        value: escaped(&one.value),
    });
    Ok(vec![
        (SETTINGS, table(std::iter::once(form).chain(settings))?),
        (WORKS, table(works.iter().map(work_row))?),
        (FORMATS, table(formats.iter().map(format_row))?),
        (EDITIONS, table(editions.iter().map(edition_row))?),
        (PRICES, table(tiers.iter().map(price_row))?),
        (PRINTS, table(prints.iter().map(print_row))?),
        (HISTORY, table(history.iter().map(entry_row))?),
    ])
}

fn work_row(work: &Work) -> WorkRow {
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
    } = &work.what;
    WorkRow {
        id: work.id.0,
        catalogue: escaped(&work.catalogue),
        title: escaped(title),
        maker: escaped(maker),
        taken: *taken,
        printed: *printed,
        medium: escaped(medium),
        process: escaped(process),
        paper: escaped(paper),
        signed: escaped(signed),
        authorised: escaped(authorised),
        master: escaped(master),
        others: escaped(others),
        picture: escaped(picture),
        sha256: escaped(sha256),
        notes: escaped(notes),
        withdrawn: work.withdrawn,
    }
}

fn format_row(format: &Format) -> FormatRow {
    let NewFormat { name, image_w, image_h, sheet_w, sheet_h } = &format.what;
    FormatRow {
        id: format.id.0,
        work: format.work.0,
        name: escaped(name),
        image_w: *image_w,
        image_h: *image_h,
        sheet_w: *sheet_w,
        sheet_h: *sheet_h,
    }
}

fn edition_row(edition: &Edition) -> EditionRow {
    let NewEdition {
        name,
        format,
        size,
        proof_share,
        artist,
        printer,
        hors_commerce,
        trial,
        roman,
    } = &edition.what;
    EditionRow {
        id: edition.id.0,
        work: edition.work.0,
        format: format.map(|format| format.0),
        name: escaped(name),
        size: *size,
        proof_share: *proof_share,
        artist: *artist,
        printer: *printer,
        hors_commerce: *hors_commerce,
        trial: *trial,
        roman: *roman,
    }
}

fn price_row(tier: &Tier) -> PriceRow {
    PriceRow {
        edition: tier.edition.0,
        from: tier.from,
        cents: tier.price.cents,
        currency: escaped(&tier.price.currency),
    }
}

fn print_row(print: &Print) -> PrintRow {
    let PrintDetails { format, state, place, printed, matted, plan, plan_file, price, buyer } =
        &print.now;
    PrintRow {
        id: print.id.0,
        edition: print.edition.0,
        kind: print.kind.key().to_owned(),
        number: print.number,
        live: print.live,
        replaces: print.replaces.map(|print| print.0),
        format: format.map(|format| format.0),
        state: state.key().to_owned(),
        place: escaped(place),
        printed: escaped(printed),
        matted: escaped(matted),
        plan: escaped(plan),
        plan_file: escaped(plan_file),
        cents: price.as_ref().map(|price| price.cents),
        currency: price.as_ref().map_or(String::new(), |price| escaped(&price.currency)),
        buyer: escaped(buyer),
    }
}

fn entry_row(entry: &Entry) -> EntryRow {
    let Entry { id, at, subject, subject_id, what, why, payload } = entry;
    EntryRow {
        id: *id,
        at: escaped(at),
        subject: subject.clone(),
        subject_id: *subject_id,
        what: what.clone(),
        why: escaped(why),
        payload: escaped(payload),
    }
}

fn table<T: Serialize>(rows: impl Iterator<Item = T>) -> Result<String, Error> {
    let written = || {
        let mut table = Table::default();
        for row in rows {
            table.fields(row)?;
        }
        table.text()
    };
    written().map_err(|error: sightedge_core::export::csv::Error| {
        Error::Unreadable(format!("the table cannot be written: {error}"))
    })
}

/// The record in such tables. `read` returns the content of the file of that name.
///
/// # Errors
/// Says in which file and line, what was found and what to do.
pub fn from_csv(mut read: impl FnMut(&str) -> Result<String, Error>) -> Result<Dump, Error> {
    let mut settings = rows::<SettingRow>(SETTINGS, &read(SETTINGS)?)?;
    if settings.is_empty() {
        return Err(Error::Unreadable(format!(
            "{SETTINGS} has no rows; the first one gives the form of all tables. Export the \
             record again"
        )));
    }
    let form = settings.remove(0).form;
    Ok(Dump {
        version: form,
        settings: settings
            .into_iter()
            .map(|row| Setting { key: unescaped(row.key), value: unescaped(row.value) })
            .collect(),
        works: rows(WORKS, &read(WORKS)?)?.into_iter().map(work).collect(),
        formats: rows(FORMATS, &read(FORMATS)?)?.into_iter().map(format).collect(),
        editions: rows(EDITIONS, &read(EDITIONS)?)?.into_iter().map(edition).collect(),
        tiers: rows(PRICES, &read(PRICES)?)?.into_iter().map(tier).collect(),
        prints: rows(PRINTS, &read(PRINTS)?)?
            .into_iter()
            .map(print)
            .collect::<Result<_, _>>()?,
        history: rows(HISTORY, &read(HISTORY)?)?.into_iter().map(entry).collect(),
    })
}

fn rows<T: DeserializeOwned>(name: &str, text: &str) -> Result<Vec<T>, Error> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let rows = reader.deserialize();
    rows.map(|row| {
        row.map_err(|error| {
            Error::Unreadable(format!(
                "{name} is no exported table ({error}): export the record again, or correct \
                 that place"
            ))
        })
    })
    .collect()
}

fn work(row: WorkRow) -> Work {
    Work {
        id: WorkId(row.id),
        catalogue: unescaped(row.catalogue),
        withdrawn: row.withdrawn,
        what: NewWork {
            title: unescaped(row.title),
            maker: unescaped(row.maker),
            taken: row.taken,
            printed: row.printed,
            medium: unescaped(row.medium),
            process: unescaped(row.process),
            paper: unescaped(row.paper),
            signed: unescaped(row.signed),
            authorised: unescaped(row.authorised),
            master: unescaped(row.master),
            others: unescaped(row.others),
            picture: unescaped(row.picture),
            sha256: unescaped(row.sha256),
            notes: unescaped(row.notes),
        },
    }
}

fn format(row: FormatRow) -> Format {
    Format {
        id: FormatId(row.id),
        work: WorkId(row.work),
        what: NewFormat {
            name: unescaped(row.name),
            image_w: row.image_w,
            image_h: row.image_h,
            sheet_w: row.sheet_w,
            sheet_h: row.sheet_h,
        },
    }
}

fn edition(row: EditionRow) -> Edition {
    Edition {
        id: EditionId(row.id),
        work: WorkId(row.work),
        what: NewEdition {
            name: unescaped(row.name),
            format: row.format.map(FormatId),
            size: row.size,
            proof_share: row.proof_share,
            artist: row.artist,
            printer: row.printer,
            hors_commerce: row.hors_commerce,
            trial: row.trial,
            roman: row.roman,
        },
    }
}

fn tier(row: PriceRow) -> Tier {
    let price = Money { cents: row.cents, currency: unescaped(row.currency) };
    Tier { edition: EditionId(row.edition), from: row.from, price }
}

fn print(row: PrintRow) -> Result<Print, Error> {
    let wrong = |what: &str, found: &str| {
        Error::Unreadable(format!(
            "prints.csv: \"{found}\" of print {} is no {what}: export the record again, or \
             correct that place",
            row.id
        ))
    };
    let kind = Kind::of_key(&row.kind).ok_or_else(|| wrong("kind", &row.kind))?;
    let state = State::of_key(&row.state).ok_or_else(|| wrong("state", &row.state))?;
    Ok(Print {
        id: PrintId(row.id),
        edition: EditionId(row.edition),
        kind,
        number: row.number,
        live: row.live,
        replaces: row.replaces.map(PrintId),
        now: PrintDetails {
            format: row.format.map(FormatId),
            state,
            place: unescaped(row.place),
            printed: unescaped(row.printed),
            matted: unescaped(row.matted),
            plan: unescaped(row.plan),
            plan_file: unescaped(row.plan_file),
            price: row.cents.map(|cents| Money { cents, currency: unescaped(row.currency) }),
            buyer: unescaped(row.buyer),
        },
    })
}

fn entry(row: EntryRow) -> Entry {
    Entry {
        id: row.id,
        at: unescaped(row.at),
        subject: row.subject,
        subject_id: row.subject_id,
        what: row.what,
        why: unescaped(row.why),
        payload: unescaped(row.payload),
    }
}
