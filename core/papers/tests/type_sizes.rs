//! Sizes of type, read from the PDFs: no text of a printout is smaller than 8 points, and what is
//! read at arm's length is as large as that needs.

#![allow(clippy::unwrap_used, reason = "a helper of tests")]

mod support;

use std::collections::BTreeMap;

use sightedge_papers::{Archive, Kind, Paper};
use support::{ask_text, closed_up, file, framed, made, plans};

/// The texts of a PDF with their sizes in points, to a sixth of a point.
///
/// Source: poppler's `pdftohtml -xml`, whose sizes are whole pixels of a third of a point.
fn texts(path: &std::path::Path) -> Option<Vec<(f64, String)>> {
    let arguments = ["-xml", "-i", "-stdout", "-zoom", "3", path.to_str().unwrap()];
    let read = ask_text("pdftohtml", &arguments)?;
    let attribute = |line: &str, name: &str| {
        let rest = line.split_once(&format!("{name}=\""))?.1;
        Some(rest.split_once('"')?.0.to_owned())
    };
    let mut sizes: BTreeMap<String, f64> = BTreeMap::new();
    let mut texts = Vec::new();
    for line in read.lines().map(str::trim) {
        if line.starts_with("<fontspec") {
            let size: f64 = attribute(line, "size")?.parse().ok()?;
            sizes.insert(attribute(line, "id")?, size / 3.0);
        } else if line.starts_with("<text") {
            let size = sizes.get(&attribute(line, "font")?)?;
            let mut text = String::new();
            let mut within = false;
            for c in line.chars() {
                match c {
                    '<' => within = true,
                    '>' => within = false,
                    c if !within => text.push(c),
                    _ => {}
                }
            }
            texts.push((*size, closed_up(&text)));
        }
    }
    assert!(!texts.is_empty(), "{read}");
    Some(texts)
}

#[test]
fn no_text_is_smaller_than_eight_points() {
    let all = plans().into_iter().chain(framed());
    for document in all {
        for kind in Kind::ALL {
            let paper = Paper::usual(document.unit);
            let made = made(&document, kind, paper, Archive::A2aUa1);
            let name = format!("sizes-{}-{}.pdf", document.id, kind.key());
            let Some(texts) = texts(&file(&name, &made.bytes)) else { return };
            // What is drawn as handwriting is as large as it is written.
            let small: Vec<_> = texts.iter().filter(|(size, _)| *size < 7.8).collect();
            let handwriting = kind == Kind::Steps && document.inscribed.is_some();
            assert!(small.is_empty() || handwriting, "{name}: {small:?}");
        }
    }
}
