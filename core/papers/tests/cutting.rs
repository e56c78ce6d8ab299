//! The plan of cutting, read back by readers nobody here wrote.

#![allow(clippy::unwrap_used, reason = "a helper of tests")]

mod support;

use sightedge_core::date::Date;
use sightedge_papers::{Archive, CutLine, CutSheet, CuttingPlan, Paper};
use support::{ask, ask_text, closed_up, file};

/// So many cuts and pieces on one sheet of 32 × 40 in.
fn plan(cuts: u8) -> CuttingPlan {
    let place = |n: u8| [f64::from(n) * 20.0, 0.0, 20.0, 500.0];
    let sheet = CutSheet {
        name: "White cotton, sheet 1 of 1".to_owned(),
        about: "32 × 40 in, 2 alike".to_owned(),
        size: [812.8, 1016.0],
        pieces: (0..cuts)
            .map(|n| (place(n), vec!["Ebb".to_owned(), "mat".to_owned()]))
            .collect(),
        windows: (0..cuts).map(|n| [f64::from(n) * 20.0 + 4.0, 4.0, 12.0, 480.0]).collect(),
        rests: vec![(
            [0.0, 500.0, 812.8, 516.0],
            vec!["left".to_owned(), "32 × 20".to_owned()],
        )],
        cuts: (0..cuts).map(|n| [place(n)[0], 0.0, place(n)[0], 500.0]).collect(),
        first: Some("A, 32 × 40 in, trim 1/8 in off each edge".to_owned()),
        lines: (0..cuts)
            .map(|n| CutLine {
                piece: format!("A{n}, 20 × 30 in"),
                edge: "left edge",
                stop: format!("{n} in"),
                falls: ["first", "second"].map(|which| format!("{which} of cut {n}")).into(),
            })
            .collect(),
    };
    CuttingPlan {
        title: "Low water".to_owned(),
        date: Date::new(2026, 3, 1).unwrap(),
        paper: Paper::A4,
        sheets: vec![sheet],
        totals: vec![["Boards".to_owned(), "2 sheets".to_owned(), "25.00".to_owned()]],
    }
}

/// Source: ISO 32000-1 as read by qpdf and poppler.
#[test]
fn every_cut_and_total_is_on_it() {
    for cuts in [0, 1, 12, 40] {
        let made = plan(cuts).write(Archive::A2aUa1).unwrap();
        assert_eq!(made.notes, Vec::<String>::new(), "{cuts} cuts");
        let path = file(&format!("cutting-{cuts}.pdf"), &made.bytes);
        let path = path.to_str().unwrap();
        ask("qpdf", &["--check", path]);
        let Some(text) = ask_text("pdftotext", &["-layout", path, "-"]) else { continue };
        let text = closed_up(&text);
        for words in [
            "Low water",
            "2026-03-01",
            "32 × 40 in, 2 alike",
            "trim 1/8 in off each edge",
            "from the named edge of the named piece",
            "2 sheets",
            "25.00",
        ] {
            assert!(text.contains(&closed_up(words)), "{cuts} cuts: {words} in\n{text}");
        }
        for n in 0..cuts {
            for words in [
                format!("A{n}, 20 × 30 in"),
                "left edge".to_owned(),
                format!("{n} in"),
                format!("first of cut {n}"),
                format!("second of cut {n}"),
            ] {
                assert!(text.contains(&closed_up(&words)), "{words}, {cuts} cuts: {text}");
            }
        }
    }
}

#[test]
fn equal_input_gives_equal_bytes() {
    let made = || plan(3).write(Archive::A2aUa1).unwrap();
    assert!(made().bytes == made().bytes, "two runs differ");
}
