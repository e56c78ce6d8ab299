//! Sizes of type, read from the PDFs: no text of a printout is smaller than 8 points, and what is
//! read at arm's length is as large as that needs.

#![allow(clippy::unwrap_used, reason = "a helper of tests")]

mod support;

use std::collections::BTreeMap;

use sightedge_core::geometry::Size;
use sightedge_core::length::Unit;
use sightedge_core::spec::Document;
use sightedge_papers::{Archive, Group, Kind, Paper, purchases, purchases_csv};
use support::{ask_text, closed_up, derived, file, framed, inches, made, plans};

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

/// Every text of one paper with its size.
#[track_caller]
fn texts_of(document: &Document, kind: Kind) -> Option<Vec<(f64, String)>> {
    let made = made(document, kind, Paper::usual(document.unit), Archive::A2aUa1);
    texts(&file(&format!("arm-{}-{}.pdf", document.id, kind.key()), &made.bytes))
}

/// A card is pinned up 70 cm away: stops of 20 points or more, one a side; the diagram's figures
/// of 10 or more.
#[test]
fn stops_are_read_at_arms_length() {
    for document in plans().into_iter().chain(framed()) {
        let Some(texts) = texts_of(&document, Kind::Cutter) else { return };
        let mat = &document.variants[0].mat;
        let sign = format!(" {}", document.unit.sign());
        let layers = mat.layers.iter().filter(|layer| !mat.is_made(layer.id)).count();
        let is_stop = |(size, text): &&(f64, String)| *size > 19.8 && text.ends_with(&sign);
        let stops = texts.iter().filter(is_stop).count();
        assert_eq!(stops, layers * 4, "{}: {texts:?}", document.id);
        let backs: Vec<_> = texts.iter().filter(|(_, text)| text == "Back").collect();
        assert_eq!(backs.len(), layers, "{}: {texts:?}", document.id);
        assert!(backs.iter().all(|(size, _)| *size > 9.8), "{backs:?}");
    }
}

/// Steps are read at arm's length, and no page has one alone.
#[test]
fn steps_are_read_at_arms_length() {
    for document in plans().into_iter().chain(framed()) {
        let Some(texts) = texts_of(&document, Kind::Steps) else { return };
        let size = |start: &str| {
            let found = texts.iter().find(|(_, text)| text.starts_with(start));
            found.map_or(0.0, |(size, _)| *size)
        };
        assert!(size("Clear the bench") > 12.8, "{texts:?}");
        assert!(size("Clean bench") > 10.8, "{texts:?}");
        let made = made(&document, Kind::Steps, Paper::usual(document.unit), Archive::A2aUa1);
        let path = file(&format!("pages-{}.pdf", document.id), &made.bytes);
        let Some(read) = ask_text("pdftotext", &[path.to_str().unwrap(), "-"]) else { return };
        for page in read.split('\u{c}').filter(|page| page.contains("Done")) {
            assert!(page.matches("Done").count() > 1, "one step alone on {page}");
        }
    }
}

/// Source: trade reference (D): outside = rabbet + 2 × (face − lip); length = outside perimeter,
/// each piece at its longest edge, and eight cuts of a saw of 1/8 in (common practice). Rabbet
/// 20 1/8 × 26 1/8, face 3/4, lip 1/4: outside 21 1/8 × 27 1/8, 96 1/2 + 1 in.
#[test]
fn what_is_bought_for_a_frame() {
    let all = framed();
    let document = &all[0];
    let derived = derived(document);
    let mat = &document.variants[0].mat;
    let list = purchases([(document, mat, &derived)]);
    let line = |group: Group| list.iter().find(|one| one.group == group).unwrap();
    let moulding = line(Group::Moulding);
    let size = |width, height| Some(Size::new(inches(width), inches(height)));
    assert_eq!(moulding.size, size("21 1/8", "27 1/8"));
    assert_eq!(moulding.length, Some(inches("97 1/2")));
    assert_eq!(moulding.length_text(Unit::Inch).as_deref(), Some("97 1/2 in (8.2 ft)"));
    assert_eq!(line(Group::Glazing).size, size("20", "26"));
    assert_eq!(line(Group::Filler).size, size("20", "26"));
    let boards: Vec<_> = list.iter().filter(|one| one.group == Group::Boards).collect();
    assert_eq!(boards.iter().map(|one| one.pieces).sum::<u32>(), 2, "{boards:?}");
    let hardware = |what: &str| list.iter().find(|one| one.what.starts_with(what)).unwrap();
    assert_eq!((hardware("Rings").pieces, hardware("Bumpers").pieces), (2, 2));
    assert!(list.iter().all(|one| one.group != Group::Bags));
    // The same twice is bought twice, on the same lines.
    let twice = purchases([(document, mat, &derived), (document, mat, &derived)]);
    assert_eq!(twice.len(), list.len());
    let moulding = twice.iter().find(|one| one.group == Group::Moulding).unwrap();
    assert_eq!((moulding.pieces, moulding.length), (2, Some(inches("195"))));
    let csv = purchases_csv(&list, Unit::Inch).unwrap();
    assert!(
        csv.contains("Mouldings,\"Gallery, wood\",1,21 1/8 in,27 1/8 in,97 1/2 in,536.6"),
        "{csv}"
    );
}
