//! Every figure that `sightedge figures --json` writes stands on the papers, in both units.

#![allow(clippy::unwrap_used, reason = "a helper of tests")]

mod support;

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;
use sightedge_core::figures::sheet;
use sightedge_core::length::{Length, Unit, typeset};
use sightedge_core::spec::Document;
use sightedge_papers::{Archive, Kind, Paper};
use support::{ask_text, closed_up, derived, file, made, plans};

/// Every length below a value: where it stands, and its millimetres.
fn lengths(value: &Value, path: &str, found: &mut BTreeMap<String, f64>) {
    match value {
        Value::Object(map) => {
            for (name, value) in map {
                let path = format!("{path}/{name}");
                match value.as_f64().filter(|_| name.ends_with("_mm")) {
                    Some(mm) => drop(found.insert(path, mm)),
                    None => lengths(value, &path, found),
                }
            }
        }
        Value::Array(list) => {
            for (index, value) in list.iter().enumerate() {
                lengths(value, &format!("{path}/{index}"), found);
            }
        }
        _ => {}
    }
}

/// The numbers that an outside reader finds on a paper.
fn numbers(document: &Document, kind: Kind, paper: Paper) -> Option<BTreeSet<String>> {
    let made = made(document, kind, paper, Archive::A2aUa1);
    let path = file(&format!("figures-{}-{}.pdf", document.id, kind.key()), &made.bytes);
    let read = ask_text("pdftotext", &["-layout", path.to_str().unwrap(), "-"])?;
    let parts = |c: char| c.is_whitespace() || ",;:()+=×".contains(c);
    Some(closed_up(&read).split(parts).map(str::to_owned).collect())
}

/// Source: poppler's `pdftotext`.
#[test]
fn every_figure_is_on_the_papers() {
    for document in plans() {
        let paper = Paper::usual(document.unit);
        let Some(mut read) = numbers(&document, Kind::Sheet, paper) else { return };
        // What the sheet promises to hold by itself: all that is not of one blank in the cutter.
        let on_the_sheet = read.clone();
        read.extend(numbers(&document, Kind::Cutter, paper).unwrap());
        let written = sheet(&document, &document.variants[0].mat, &derived(&document).layout);
        let mut all = BTreeMap::new();
        lengths(&serde_json::to_value(&written).unwrap(), "", &mut all);
        assert!(all.len() > 80, "{}", all.len());
        let mut missing = Vec::new();
        for (path, mm) in &all {
            let length = Length::from_mm_nearest(*mm);
            // The top layer has no offset; a backing as large as the mat stands nowhere out.
            let none =
                ["/layers/0/offset/", "/backing/"].iter().any(|part| path.contains(part));
            if none && length == Length::ZERO {
                continue;
            }
            let bench = path.starts_with("/bench/");
            let of_the_blank = ["/blank", "/stops", "/drop_out", "/back"]
                .iter()
                .any(|part| path.contains(part));
            for unit in [Unit::Inch, Unit::Millimetre] {
                let text = length.text(unit);
                let number = closed_up(&typeset(text.rsplit_once(' ').unwrap().0));
                let found = if bench && !of_the_blank { &on_the_sheet } else { &read };
                // The ruler's own step is named in its own unit.
                if !found.contains(&number) && path != "/ruler_mm" {
                    missing.push(format!("{path}: {text}"));
                }
            }
        }
        assert!(missing.is_empty(), "{}: {}", document.id, missing.join("\n"));
    }
}
