//! The entries of the record in words.

use std::path::Path;

use serde_json::Value;
use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit};
use sightedge_studio::{Entry, Money, NewFormat, PrintDetails, State};

use super::moving::keeps_place;
use crate::wording;

/// The entry at that place of a history in words: what is so from then on, and was not before.
pub fn entry_in_words(entries: &[Entry], at: usize, unit: Unit) -> String {
    let Some(entry) = entries.get(at) else { return String::new() };
    let before = entries.iter().take(at).rev().find(|one| same(one, entry));
    words(entry, before, unit)
}

/// Whether two entries are of the same thing.
fn same(one: &Entry, other: &Entry) -> bool {
    // Those of prices bear the edition's id; each price is a thing of its own.
    let first = |entry: &Entry| (entry.subject == "tier").then(|| read(entry)["first"].clone());
    (&one.subject, one.subject_id) == (&other.subject, other.subject_id)
        && first(one) == first(other)
}

fn read(entry: &Entry) -> Value {
    serde_json::from_str(&entry.payload).unwrap_or_default()
}

/// How a figure of an entry is told.
#[derive(Clone, Copy)]
enum As {
    Text,
    /// The name of a file, without its folder.
    File,
    Length,
    /// Roman numerals, or as a fraction.
    Numerals,
    /// A work off the lists, or back on them.
    Withdrawn,
}

const WORK: [(&str, &str, As); 15] = [
    ("catalogue", "catalogue number", As::Text),
    ("title", "title", As::Text),
    ("maker", "maker", As::Text),
    ("taken", "year taken", As::Text),
    ("printed", "year printed", As::Text),
    ("medium", "medium", As::Text),
    ("process", "process", As::Text),
    ("paper", "paper", As::Text),
    ("signed", "signed", As::Text),
    ("authorised", "authorised", As::Text),
    ("master", "negative, plate or file", As::Text),
    ("others", "other editions", As::Text),
    ("picture", "picture", As::Text),
    ("notes", "notes", As::Text),
    ("withdrawn", "", As::Withdrawn),
];
const FORMAT: [(&str, &str, As); 5] = [
    ("name", "size called", As::Text),
    ("image_w", "image width", As::Length),
    ("image_h", "image height", As::Length),
    ("sheet_w", "sheet width", As::Length),
    ("sheet_h", "sheet height", As::Length),
];
const EDITION: [(&str, &str, As); 8] = [
    ("name", "called", As::Text),
    ("size", "edition of", As::Text),
    ("proof_share", "proofs in %", As::Text),
    ("artist", "artist’s proofs", As::Text),
    ("printer", "printer’s proofs", As::Text),
    ("hors_commerce", "hors commerce", As::Text),
    ("trial", "trial proofs", As::Text),
    ("roman", "proofs numbered", As::Numerals),
];
const PRINT: [(&str, &str, As); 3] = [
    ("printed", "printed on", As::Text),
    ("matted", "matted on", As::Text),
    ("plan_file", "plan", As::File),
];

fn words(entry: &Entry, before: Option<&Entry>, unit: Unit) -> String {
    let now = read(entry);
    let was = before.map(read);
    match entry.subject.as_str() {
        "print" if replaced(&now, was.as_ref()) => {
            "replaced by a new print under its number".to_owned()
        }
        "print" => {
            let more = changes(&PRINT, &now, was.as_ref().unwrap_or(&Value::Null), unit);
            let new = (was.is_none() && now["replaces"].is_i64())
                .then(|| "in place of the destroyed one".to_owned());
            [place(&now)].into_iter().chain(new).chain(more).collect::<Vec<_>>().join(", ")
        }
        "tier" => {
            let from = now["first"].as_u64().unwrap_or(1);
            let price = price(&now).map(|price| price.to_string()).unwrap_or_default();
            format!("{price} from number {from} on")
        }
        subject => {
            let table: &[(&str, &str, As)] = match subject {
                "work" => &WORK,
                "format" => &FORMAT,
                _ => &EDITION,
            };
            let Some(was) = was else {
                let all = changes(table, &now, &Value::Null, unit);
                return format!("entered: {}", all.join("; "));
            };
            let changed = changes(table, &now, &was, unit);
            if changed.is_empty() { "kept as it was".to_owned() } else { changed.join("; ") }
        }
    }
}

/// Whether a destroyed print gave its number to another by this.
fn replaced(now: &Value, was: Option<&Value>) -> bool {
    let destroyed = |value: &Value| value["state"] == "destroyed";
    destroyed(now)
        && now["live"] == 0
        && was.is_some_and(|was| destroyed(was) && was["live"] == 1)
}

/// Each figure that is another than before.
fn changes(table: &[(&str, &str, As)], now: &Value, was: &Value, unit: Unit) -> Vec<String> {
    let differs = |row: &&(&str, &str, As)| now[row.0] != was[row.0];
    let line = |(key, word, how): &(&str, &str, As)| {
        if matches!(how, As::Withdrawn) {
            let words = if now[*key] == 1 { "withdrawn" } else { "brought back" };
            return Some(words.to_owned());
        }
        let (new, old) = (figure(&now[*key], *how, unit), figure(&was[*key], *how, unit));
        match (new.is_empty(), old.is_empty()) {
            (true, true) => None,
            (false, true) => Some(format!("{word} {new}")),
            (true, false) => Some(format!("{word} nothing (was {old})")),
            (false, false) => Some(format!("{word} {new} (was {old})")),
        }
    };
    table.iter().filter(differs).filter_map(line).collect()
}

fn figure(value: &Value, how: As, unit: Unit) -> String {
    match (how, value) {
        (_, Value::Null) => String::new(),
        (As::Length, value) => match value.as_i64() {
            None | Some(0) => String::new(),
            Some(units) => wording::length(Length::from_units(units), unit),
        },
        (As::Numerals, value) => {
            let roman = value.as_i64() != Some(0);
            if roman { "AP II/V" } else { "AP 2/5" }.to_owned()
        }
        (As::File, Value::String(text)) => {
            let name = Path::new(text).file_name().unwrap_or_default();
            name.to_string_lossy().into_owned()
        }
        (As::Text, Value::String(text)) => text.clone(),
        (As::Text | As::File | As::Withdrawn, other) => other.to_string(),
    }
}

/// Where a print is, what it costs, who has it.
fn place(now: &Value) -> String {
    let text = |key: &str| now[key].as_str().unwrap_or_default().to_owned();
    let Some(state) = State::of_key(&text("state")) else { return String::new() };
    let (place, buyer) = (text("place"), text("buyer"));
    details_in_words(&PrintDetails {
        state,
        place,
        buyer,
        price: price(now),
        ..PrintDetails::default()
    })
    .join(", ")
}

/// Image and sheet of a size, those that are known, each written by `text`:
/// `image 8 in × 10 in`.
pub fn size_in_words(format: &NewFormat, text: impl Fn(Size) -> String) -> Vec<String> {
    let parts = [("image", format.image()), ("sheet", format.sheet())];
    let known = parts.into_iter().filter(|(_, size)| size.width > Length::ZERO);
    known.map(|(what, size)| format!("{what} {}", text(size))).collect()
}

/// Where a print is: `at a show: Harbour`, `sold at Harbour`.
pub fn where_it_is(now: &PrintDetails) -> String {
    let state = now.state.name();
    match now.state {
        _ if now.place.is_empty() || !keeps_place(now.state) => state.to_owned(),
        State::Sold => format!("{state} at {}", now.place),
        _ => format!("{state}: {}", now.place),
    }
}

/// What is told of a print in a line: where it is, what it costs, who has it.
pub fn details_in_words(now: &PrintDetails) -> Vec<String> {
    let price = now.price.as_ref().map(Money::to_string).unwrap_or_default();
    let parts = [where_it_is(now), price, now.buyer.clone()];
    parts.into_iter().filter(|part| !part.is_empty()).collect()
}

fn price(now: &Value) -> Option<Money> {
    let currency = now["currency"].as_str().unwrap_or_default().to_owned();
    now["cents"].as_i64().map(|cents| Money { cents, currency })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(subject: &str, told: &str) -> Entry {
        Entry {
            id: 1,
            at: "2025-11-30".to_owned(),
            subject: subject.to_owned(),
            subject_id: 1,
            what: "added".to_owned(),
            why: String::new(),
            payload: told.to_owned(),
        }
    }

    #[test]
    fn entries_are_words() {
        #[track_caller]
        fn case(subject: &str, was: Option<&str>, now: &str, wanted: &str) {
            let was = was.map(|told| entry(subject, told));
            assert_eq!(words(&entry(subject, now), was.as_ref(), Unit::Inch), wanted);
        }
        let sold = r#"{"state":"sold","buyer":"B.","cents":80000,"currency":"EUR"}"#;
        case("print", None, sold, "sold, 800.00 EUR, B.");
        let there = r#"{"state":"sold","place":"Hall","buyer":"B."}"#;
        case("print", None, there, "sold at Hall, B.");
        let gone = (r#"{"state":"destroyed","live":1}"#, r#"{"state":"destroyed","live":0}"#);
        case("print", Some(gone.0), gone.1, "replaced by a new print under its number");
        // Only a print that held its number until then gave it to another by this.
        let still = r#"{"state":"destroyed","live":1,"buyer":"B."}"#;
        case("print", Some(gone.0), still, "destroyed, B.");
        case("print", None, gone.1, "destroyed");
        case("print", Some(gone.1), gone.1, "destroyed");
        case("print", Some(r#"{"state":"studio","live":1}"#), gone.1, "destroyed");
        let new = r#"{"state":"studio","replaces":3}"#;
        case("print", None, new, "in the studio, in place of the destroyed one");
        let dated = r#"{"state":"sold","printed":"2025-11-20"}"#;
        case("print", Some(sold), dated, "sold, printed on 2025-11-20");
        case("print", None, "nonsense", "");
        case(
            "work",
            None,
            r#"{"title":"Weir","taken":2021}"#,
            "entered: title Weir; year taken 2021",
        );
        case(
            "work",
            Some(r#"{"title":"Wier","taken":2021}"#),
            r#"{"title":"Weir","taken":null}"#,
            "title Weir (was Wier); year taken nothing (was 2021)",
        );
        case(
            "work",
            Some(r#"{"catalogue":"W0001","title":"Weir"}"#),
            r#"{"catalogue":"W0007","title":"Weir","withdrawn":1,"signed":"on the back"}"#,
            "catalogue number W0007 (was W0001); signed on the back; withdrawn",
        );
        case(
            "work",
            Some(r#"{"title":"Weir","withdrawn":1}"#),
            r#"{"title":"Weir"}"#,
            "brought back",
        );
        case(
            "format",
            Some(r#"{"name":"","image_w":0}"#),
            r#"{"name":"","image_w":18288000}"#,
            "image width 1 in",
        );
        case(
            "edition",
            Some(r#"{"roman":1}"#),
            r#"{"roman":0}"#,
            "proofs numbered AP 2/5 (was AP II/V)",
        );
        case(
            "tier",
            None,
            r#"{"first":11,"cents":120000,"currency":"EUR"}"#,
            "1200.00 EUR from number 11 on",
        );
    }
}
