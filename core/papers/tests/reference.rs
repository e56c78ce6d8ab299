//! The reference piece in every paper and drawing, read back by readers nobody here wrote.

#![allow(clippy::unwrap_used, reason = "a helper of tests")]

mod support;

use sightedge_core::command::{Measured, apply, as_cut};
use sightedge_core::export::{dxf, svg};
use sightedge_core::geometry::{Seen, Size};
use sightedge_core::length::Unit;
use sightedge_core::plates::{CutAt, cuts};
use sightedge_core::spec::{Document, LayerId, OpeningId, VariantId};
use sightedge_papers::{Archive, Kind, Paper};
use support::{ask, ask_text, closed_up, derived, file, inches, made, python, reference};

/// The text of one paper, closed up.
fn text(kind: Kind) -> Option<String> {
    text_of(&reference(), kind)
}

fn text_of(document: &Document, kind: Kind) -> Option<String> {
    let made = made(document, kind, Paper::Letter, Archive::A2aUa1);
    assert_eq!(made.notes, Vec::<String>::new(), "{kind:?}");
    let cut = document.variants[0].mat.cut_board().map_or("", |_| "-cut");
    let path = file(&format!("text-{}{cut}.pdf", kind.key()), &made.bytes);
    let read = ask_text("pdftotext", &["-layout", path.to_str().unwrap(), "-"])?;
    Some(closed_up(&read))
}

#[track_caller]
fn holds(text: &str, wanted: &[&str]) {
    for figure in wanted {
        assert!(text.contains(&closed_up(figure)), "{figure} is missing in:\n{text}");
    }
}

/// The text without its line breaks, for sentences that run over several lines.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Source: poppler's `pdftotext -bbox`: no word of a step runs into the column where one writes
/// when it was done, 34 mm wide within a margin of 13 mm on Letter.
#[test]
fn steps_leave_room_for_their_dates() {
    let made = made(&reference(), Kind::Steps, Paper::Letter, Archive::A2aUa1);
    let path = file("room.pdf", &made.bytes);
    let arguments = ["-bbox", "-f", "1", "-l", "1", path.to_str().unwrap(), "-"];
    let Some(read) = ask_text("pdftotext", &arguments) else { return };
    // As in <word xMin="1" yMin="2" xMax="3" yMax="4">Done</word>.
    let words: Vec<([f64; 4], &str)> = read
        .lines()
        .filter_map(|line| {
            let parts: Vec<&str> = line.trim().strip_prefix("<word ")?.split('"').collect();
            let at = [1, 3, 5, 7].map(|n| parts[n].parse().unwrap());
            Some((at, parts[8].strip_prefix('>')?.strip_suffix("</word>")?))
        })
        .collect();
    let done = || words.iter().filter(|(_, word)| *word == "Done").map(|(at, _)| at[1]);
    assert!(done().count() > 4, "{read}");
    let (first, last) = (done().fold(f64::MAX, f64::min), done().fold(0.0, f64::max));
    let column = (215.9 - 13.0 - 34.0) / 25.4 * 72.0;
    for ([left, top, right, _], word) in &words {
        let of_a_step = *top >= first - 1.0 && *top <= last;
        let across = *left < column - 1.0 && *right > column + 1.0;
        assert!(
            !(of_a_step && across),
            "{word} ends at {right}, the column begins at {column}"
        );
    }
}

/// Source: the reference piece, worked out by hand (D).
#[test]
fn the_plan_sheet_has_every_figure() {
    let Some(text) = text(Kind::Sheet) else { return };
    holds(&text, &["Slack water", "2026-03-01", "20 × 26 in", "508 × 660.4 mm"]);
    holds(&text, &["11 ⅞", "11.995", "16.12", "11 ½", "15 ⅝", "11.62", "15.745"]);
    holds(
        &text,
        &["4 ½", "4 ⁵⁄₁₆", "5 ½", "3 ¹³⁄₁₆", "4 ¹¹⁄₁₆", "5 ¹¹⁄₁₆", "³⁄₁₆", "0.1275", "0.06"],
    );
    holds(
        &text,
        &["1 ¼", "2 ⅛", "3 ⁷⁄₁₆", "3 ¾", "3 ⁹⁄₁₆", "3 ¼", "4 ¹⁵⁄₁₆", "4 ¾", "6 ¹⁄₁₆", "4 ¼"],
    );
    holds(&text, &["Section through the bottom", "Inscription", "Client", "Artist", "Checks"]);
}

/// Source: derived (D), the reference piece with its top mat cut 1/16 in too wide: its borders are
/// 4 1/2, 4 1/4, 5 1/2, 3 13/16 in, and nothing of it is left to cut.
#[test]
fn what_is_cut_is_marked_and_has_no_stops() {
    let mut document = reference();
    let measured = Measured {
        outer: None,
        layer: Some(LayerId(1)),
        sight: Size::new(inches("11 15/16"), inches("16")),
        left: inches("4 1/4"),
        top: inches("4 1/2"),
        seen: Seen::Back,
    };
    let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
    apply(&mut document, &command).unwrap();
    let Some(card) = text_of(&document, Kind::Cutter) else { return };
    let sheet = text_of(&document, Kind::Sheet).unwrap();
    for text in [&card, &sheet] {
        holds(text, &["cut, as measured", "11 ¹⁵⁄₁₆", "4 ¼", "3 ¹³⁄₁₆"]);
        assert!(!flowing(text).contains("Cut the top mat first"), "{text}");
    }
    assert!(
        flowing(&card).contains("The top mat is cut already. Before each undermat"),
        "{card}"
    );
    assert_eq!(flowing(&card).matches("past each corner").count(), 1, "the undermat's alone");
    holds(&card, &["Adds up across: 4 ¼ + 11 ¹⁵⁄₁₆ + 3 ¹³⁄₁₆ = 20 in"]);
}

/// Source: the reference piece, worked out by hand (D).
#[test]
fn the_card_has_every_stop() {
    let Some(text) = text(Kind::Cutter) else { return };
    holds(&text, &["Blank 20 × 26 in", "Blank 19 ½ × 25 ½ in"]);
    assert!(flowing(&text).contains("Cut the top mat first. Before each undermat"), "{text}");
    // From the back: right is the front's left.
    for row in [
        ["Right", "3 ¹³⁄₁₆", ""],
        ["Left", "4 ⁵⁄₁₆", ""],
        ["Top", "4 ¹¹⁄₁₆", ""],
        ["Right", "4", ""],
        ["Bottom", "5 ¹¹⁄₁₆", ""],
        ["Left", "4 ½", ""],
    ] {
        let found = text.lines().any(|line| {
            let mut at = 0;
            row.iter().map(|part| closed_up(part)).all(|part| match line[at..].find(&part) {
                Some(place) => {
                    at += place + part.len();
                    true
                }
                None => false,
            })
        });
        assert!(found, "{row:?} in:\n{text}");
    }
    let loose = "top 4 ⁷⁄₁₆, right 3 ¾, bottom 5 ⁷⁄₁₆, left 4 ¼ in";
    assert!(flowing(&text).contains(&closed_up(loose)), "{text}");
    holds(&text, &["4 ⁵⁄₁₆ + 11 ⅞ + 3 ¹³⁄₁₆ = 20 in", "4 ¹¹⁄₁₆ + 15 ⅝ + 5 ¹¹⁄₁₆ = 26 in"]);
}

#[test]
fn the_other_papers_say_what_they_are() {
    if let Some(text) = text(Kind::Steps) {
        holds(
            &text,
            &["Inscribe the back", "Cut the mat", "Cut the undermats", "dust", "Sign the mat"],
        );
    }
    if let Some(text) = text(Kind::Template) {
        holds(&text, &["Print at 100 %", "Tile 1 of", "100 mm", "4 in", "Over-cut 0.06 in"]);
    }
}

#[test]
fn equal_input_gives_equal_bytes() {
    for kind in Kind::ALL {
        let one = made(&reference(), kind, Paper::A4, Archive::A2aUa1);
        sightedge_papers::forget();
        let two = made(&reference(), kind, Paper::A4, Archive::A2aUa1);
        assert!(one.bytes == two.bytes, "{kind:?}");
    }
}

/// Source: ISO 32000-1 as read by qpdf; ISO 216 and ANSI for the page boxes as read by poppler.
#[test]
fn outside_readers_find_no_fault() {
    for (paper, size) in [(Paper::A4, "595.276 x 841.89"), (Paper::Letter, "612 x 792")] {
        for kind in Kind::ALL {
            let made = made(&reference(), kind, paper, Archive::A2aUa1);
            let path = file(&format!("{paper:?}-{}.pdf", kind.key()), &made.bytes);
            let path = path.to_str().unwrap();
            ask("qpdf", &["--check", path]);
            if let Some(facts) = ask_text("pdfinfo", &[path]) {
                let lies = kind == Kind::Template;
                let turned: Vec<_> = size.split(" x ").collect();
                let wanted = if lies {
                    format!("{} x {}", turned[1], turned[0])
                } else {
                    size.to_owned()
                };
                assert!(facts.contains(&wanted), "{wanted} in {facts}");
                assert!(facts.contains("Slack water"), "{facts}");
                assert!(facts.contains("Tagged:          yes"), "{facts}");
                // With type of 8 points two undermats' figures need a second page.
                let pages = facts.contains("Pages:           1\n")
                    || facts.contains("Pages:           2\n");
                assert!(kind != Kind::Sheet || pages, "{facts}");
            }
            if let Some(fonts) = ask_text("pdffonts", &[path]) {
                for line in fonts.lines().skip(2) {
                    assert!(line.contains("yes yes yes"), "not embedded: {line}");
                }
            }
        }
    }
}

/// Source: the sizes wanted of a mailed sheet: each without its picture under 60 KiB.
#[test]
fn a_sheet_is_small() {
    let mut document = reference();
    document.works[0].picture.path = "nothing-here.jpg".to_owned();
    let made = made(&document, Kind::Sheet, Paper::Letter, Archive::A2aUa1);
    assert!(made.notes.len() == 1, "{:?}", made.notes);
    assert!(made.bytes.len() < 60 << 10, "{} bytes", made.bytes.len());
}

/// Source: a 100 mm bar is 100 / 25.4 × 600 = 2362.2 pixels at 600 dpi, by poppler.
#[test]
fn a_bar_of_100_mm_measures_100_mm() {
    let made = made(&reference(), Kind::Template, Paper::A4, Archive::A2aUa1);
    let path = file("bar.pdf", &made.bytes);
    let arguments = ["-r", "600", "-gray", "-f", "1", "-l", "1", path.to_str().unwrap()];
    let Some(pgm) = ask("pdftoppm", &arguments) else { return };
    let fields: Vec<&[u8]> = pgm.splitn(4, u8::is_ascii_whitespace).collect();
    let wide: usize = std::str::from_utf8(fields[1]).unwrap().parse().unwrap();
    // The height and the largest value stand before the pixels.
    let start = pgm.len() - pgm.len() / wide * wide;
    let dark = |row| <[u8]>::split(row, |pixel| *pixel > 127).map(<[u8]>::len);
    let runs: Vec<usize> = pgm[start..].chunks(wide).flat_map(dark).collect();
    // Ticks at both ends stand half out: their stroke is 0.15 mm, 3.5 pixels, wide.
    let bar = |mm: f64| mm / 25.4 * 600.0;
    for mm in [100.0, 101.6] {
        let near = runs
            .iter()
            .map(|run| (f64::from(u32::try_from(*run).unwrap()) - bar(mm) - bar(0.15)).abs())
            .fold(f64::MAX, f64::min);
        assert!(near <= 1.0, "{mm} mm is off by {near} pixels");
    }
}

/// Source: the reference piece (D), in the coordinates that `pikepdf` reads from the page.
#[test]
fn templates_are_true_to_a_thousandth() {
    let made = made(&reference(), Kind::Template, Paper::A4, Archive::A2aUa1);
    let path = file("true.pdf", &made.bytes);
    // Every straight stroke on the first page, in millimetres from its upper left corner.
    let script = "import sys, pikepdf\n\
        d = pikepdf.open(sys.argv[1])\np = d.pages[0]\n\
        high = float(p.mediabox[3])\n\
        m = (1, 0, 0, 1, 0, 0)\nstack = []\nat = None\n\
        def see(x, y):\n\
        \x20   return ((m[0]*x + m[2]*y + m[4])*25.4/72, (high - (m[1]*x + m[3]*y + m[5]))*25.4/72)\n\
        for args, op in pikepdf.parse_content_stream(p):\n\
        \x20   op = str(op)\n\
        \x20   if op == 'q': stack.append(m)\n\
        \x20   elif op == 'Q': m = stack.pop()\n\
        \x20   elif op == 'cm':\n\
        \x20       a, b, c, d, e, f = [float(v) for v in args]\n\
        \x20       m = (a*m[0]+b*m[2], a*m[1]+b*m[3], c*m[0]+d*m[2], c*m[1]+d*m[3], e*m[0]+f*m[2]+m[4], e*m[1]+f*m[3]+m[5])\n\
        \x20   elif op in ('m', 'l'):\n\
        \x20       to = see(*[float(v) for v in args])\n\
        \x20       if op == 'l': print(*at, *to)\n\
        \x20       at = to\n";
    let Some(read) = ask_text(&python(), &["-c", script, path.to_str().unwrap()]) else {
        return;
    };
    let strokes: Vec<Vec<f64>> = read
        .lines()
        .map(|line| line.split(' ').map(|number| number.parse().unwrap()).collect())
        .collect();
    let near = |a: f64, b: f64| (a - b).abs() < 0.001;
    let across =
        |long: f64| strokes.iter().any(|s| near(s[1], s[3]) && near((s[2] - s[0]).abs(), long));
    assert!(across(100.0) && across(101.6), "the bars in {read}");
    // The board's corner lies at the page's margin, 13 mm from its left; the sheet's left edge
    // 3 1/4 in from it, the sight edge 4 in, the image 4 1/4 in.
    let upright = |x: f64| {
        strokes.iter().find(|s| near(s[0], x) && near(s[2], x) && (s[1] - s[3]).abs() > 8.0)
    };
    for (edge, x) in [("board", 0.0), ("sheet", 82.55), ("sight", 101.6), ("image", 107.95)] {
        assert!(upright(13.0 + x).is_some(), "{edge} in {read}");
    }
    // From the board's top: sheet 3 7/16 in, sight edge 4 11/16 in, image 4 15/16 in.
    let board = upright(13.0).map(|s| s[1].min(s[3])).unwrap();
    for (edge, y) in [("sheet", 87.3125), ("sight", 119.0625), ("image", 125.4125)] {
        let found = strokes.iter().any(|s| near(s[1], board + y) && near(s[3], board + y));
        assert!(found, "{edge} in {read}");
    }
    for s in &strokes {
        let inside =
            s.iter().all(|v| *v > 6.0) && s[0].max(s[2]) < 291.0 && s[1].max(s[3]) < 204.0;
        assert!(inside, "{s:?} is outside what prints");
    }
}

/// Source: `ezdxf`'s audit and an XML parser that nobody here wrote.
#[test]
fn machines_can_read_the_drawings() {
    let document = reference();
    let mat = &document.variants[0].mat;
    let parts = cuts(mat, &derived(&document).layout, Unit::Inch, CutAt::Sight, Seen::Front);
    let script = "import sys, ezdxf\nfrom ezdxf import recover\n\
        d, a = recover.readfile(sys.argv[1])\nassert not a.errors and not a.fixes, (a.errors, a.fixes)\n\
        d = ezdxf.readfile(sys.argv[1])\nassert not d.audit().errors\n\
        assert d.header['$INSUNITS'] == 4\n\
        for e in d.modelspace():\n\
        \x20   p = [tuple(round(float(v), 6) for v in list(q)[:2]) for q in (e.get_points('xy') if e.dxftype() == 'LWPOLYLINE' else e.points())]\n\
        \x20   print(e.dxf.layer, e.is_closed, p)\n";
    for version in [dxf::Version::R12, dxf::Version::R2000] {
        let path =
            file(&format!("{version:?}.dxf"), dxf::write(&parts, version, "x").as_bytes());
        let Some(read) = ask_text(&python(), &["-c", script, path.to_str().unwrap()]) else {
            continue;
        };
        // The top layer's window: 3 13/16 in from the left, 4 1/2 in from the top.
        holds(
            &read,
            &[
                "TOP_MAT_CUT True [(0.0, 660.4), (508.0, 660.4), (508.0, 0.0), (0.0, 0.0)]",
                "TOP_MAT_CUT True [(96.8375, 546.1), (398.4625, 546.1), (398.4625, 139.7)",
                "UNDERMAT_CUT True [(6.35, 654.05)",
            ],
        );
        assert!(!read.contains("False"), "{read}");
    }
    let path = file("cut.svg", svg::write(&parts, "Slack <water>", "x").as_bytes());
    let script = "import sys, xml.etree.ElementTree as E\nr = E.parse(sys.argv[1]).getroot()\n\
        print(r.get('width'), r.get('viewBox'), len(list(r.iter('{http://www.w3.org/2000/svg}path'))))";
    if let Some(read) = ask_text("python3", &["-c", script, path.to_str().unwrap()]) {
        assert_eq!(read.trim(), "508mm 0 0 508 660.4 9");
    }
}

/// Source: ISO 32000-1, 14.8 and ISO 14289-1 as poppler's `pdfinfo -struct-text` reads the tags.
#[test]
fn readers_aloud_find_headings_tables_and_figures() {
    let made = made(&reference(), Kind::Sheet, Paper::Letter, Archive::A2aUa1);
    let path = file("tags.pdf", &made.bytes);
    let arguments = ["-struct-text", path.to_str().unwrap()];
    let Some(read) = ask_text("pdfinfo", &arguments) else { return };
    let read = closed_up(&read);
    let lines: Vec<&str> = read.lines().map(str::trim).collect();
    let count = |kind: &str| lines.iter().filter(|line| line.starts_with(kind)).count();
    assert_eq!(lines.first().copied(), Some("Document"), "{read}");
    assert_eq!([count("H1"), count("Table")], [2, 3], "{read}");
    assert!(count("H2") >= 5 && count("Figure") >= 4, "{read}");
    // Each row has its head, and no cell is outside a row.
    let rows: Vec<&[&str]> = lines.split(|line| line.starts_with("TR")).skip(1).collect();
    assert!(rows.len() > 15, "{read}");
    for row in &rows {
        let heads = row.iter().filter(|line| line.starts_with("TH")).count();
        assert!(heads >= 1, "{row:?} in\n{read}");
    }
    // Lines stay apart.
    assert!(lines.contains(&"\"20 × 26\"") && lines.contains(&"\"508 × 660.4\""), "{read}");
    holds(&read, &["\"Slack water\"", "\"Top\"", "\"Sizes, width × height\"", "\"4 ⁵⁄₁₆\""]);
}
