//! The reference piece in every paper and drawing, read back by readers nobody here wrote.

mod support;

use sightedge_core::export::{dxf, svg};
use sightedge_core::length::Unit;
use sightedge_core::plates::{CutAt, Seen, cuts};
use sightedge_papers::{Archive, Kind, Paper};
use support::{ask, ask_text, derived, file, made, python, reference};

/// The text of one paper, with ordinary spaces.
fn text(kind: Kind) -> Option<String> {
    let made = made(&reference(), kind, Paper::Letter, Archive::A2aUa1);
    assert_eq!(made.told, Vec::<String>::new(), "{kind:?}");
    let path = file(&format!("text-{}.pdf", kind.key()), &made.bytes);
    let read = ask_text("pdftotext", &["-layout", path.to_str().unwrap(), "-"])?;
    Some(read.replace('\u{a0}', " "))
}

#[track_caller]
fn holds(text: &str, wanted: &[&str]) {
    for figure in wanted {
        assert!(text.contains(figure), "{figure} is missing in:\n{text}");
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
    holds(&text, &["Section through the bottom", "Inscription", "Client", "Maker", "Checks"]);
}

/// Source: the reference piece, worked out by hand (D).
#[test]
fn the_card_has_every_stop() {
    let Some(text) = text(Kind::Cutter) else { return };
    holds(&text, &["Blank 20 × 26 in", "Blank 19 ½ × 25 ½ in"]);
    // From the back: right is the front's left.
    for row in [
        ["Right", "3 ¹³⁄₁₆", ""],
        ["Left", "4 ⁵⁄₁₆", ""],
        ["Top", "4 ¹¹⁄₁₆", "4 ⁷⁄₁₆"],
        ["Right", "4", "3 ¾"],
        ["Bottom", "5 ¹¹⁄₁₆", "5 ⁷⁄₁₆"],
        ["Left", "4 ½", "4 ¼"],
    ] {
        let found = text.lines().any(|line| {
            let mut at = 0;
            row.iter().all(|part| match line[at..].find(part) {
                Some(place) => {
                    at += place + part.len();
                    true
                }
                None => false,
            })
        });
        assert!(found, "{row:?} in:\n{text}");
    }
    holds(&text, &["4 ⁵⁄₁₆ + 11 ⅞ + 3 ¹³⁄₁₆ = 20 in", "4 ¹¹⁄₁₆ + 15 ⅝ + 5 ¹¹⁄₁₆ = 26 in"]);
}

#[test]
fn the_other_papers_say_what_they_are() {
    if let Some(text) = text(Kind::Steps) {
        holds(
            &text,
            &["Inscribe the back", "Cut the mat", "Cut the liners", "dust", "Sign the mat"],
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
                assert!(
                    kind != Kind::Sheet || facts.contains("Pages:           1\n"),
                    "{facts}"
                );
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
    assert!(made.told.len() == 1, "{:?}", made.told);
    assert!(made.bytes.len() < 60 << 10, "{} bytes", made.bytes.len());
}

/// Source: a 100 mm bar is 100 / 25.4 × 600 = 2362.2 pixels at 600 dpi, by poppler.
#[test]
fn a_bar_of_100_mm_measures_100_mm() {
    let made = made(&reference(), Kind::Template, Paper::A4, Archive::A2aUa1);
    let path = file("bar.pdf", &made.bytes);
    let arguments = ["-r", "600", "-gray", "-f", "1", "-l", "1", path.to_str().unwrap()];
    let Some(pgm) = ask("pdftoppm", &arguments) else { return };
    let fields: Vec<&[u8]> = pgm.splitn(4, |byte| byte.is_ascii_whitespace()).collect();
    let wide: usize = std::str::from_utf8(fields[1]).unwrap().parse().unwrap();
    // The height and the largest value stand before the pixels.
    let start = pgm.len() - pgm.len() / wide * wide;
    let longest =
        |row: &[u8]| row.split(|pixel| *pixel > 127).map(<[u8]>::len).max().unwrap_or_default();
    let runs: Vec<usize> = pgm[start..].chunks(wide).map(longest).collect();
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
        \x20   p = [tuple(round(v, 6) for v in q[:2]) for q in (e.get_points('xy') if e.dxftype() == 'LWPOLYLINE' else e.points())]\n\
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
                "TOP_LAYER_CUT True [(0.0, 660.4), (508.0, 660.4), (508.0, 0.0), (0.0, 0.0)]",
                "TOP_LAYER_CUT True [(96.8375, 546.1), (398.4625, 546.1), (398.4625, 139.7)",
                "LINER_CUT True [(6.35, 654.05)",
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
