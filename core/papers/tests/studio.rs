//! What goes with a print, read by readers that nobody here wrote.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

mod support;

use sightedge_core::length::{Length, Unit};
use sightedge_papers::{Archive, Grid, LEAST_LABEL, LaidOut, PagePixels, Paper, StudioPaper};
use support::studio::{grid, piece, set, studio_paper, studio_papers};
use support::{ask, ask_text, file, python};

fn laid(kind: &StudioPaper, count: u32) -> LaidOut {
    studio_paper(kind, count, Archive::default())
}

/// Rows of grey as a PGM, which every reader of pictures knows.
fn pgm(page: &PagePixels) -> Vec<u8> {
    let mut bytes = format!("P5 {} {} 255\n", page.width, page.height).into_bytes();
    bytes.extend(page.rgba.chunks_exact(4).map(|pixel| pixel[1]));
    bytes
}

/// What the codes on a page say, in order; `None` where no reader is installed.
#[track_caller]
fn codes(name: &str, laid: &LaidOut, page: usize) -> Option<String> {
    let path = file(&format!("{name}.pgm"), &pgm(&laid.pixels(page, 200.0).unwrap()));
    let script = "import sys, zxingcpp\nfrom PIL import Image\n\
        found = zxingcpp.read_barcodes(Image.open(sys.argv[1]))\n\
        print(' '.join(sorted(one.text for one in found)))";
    let said = ask_text(&python(), &["-c", script, path.to_str().unwrap()])?;
    Some(said.trim().to_owned())
}

/// Source: ISO/IEC 18004, as the decoder of zxing-cpp reads it.
#[test]
fn an_outside_reader_reads_every_code() {
    let sheet = laid(&StudioPaper::Labels(grid()), 10);
    assert_eq!(sheet.sizes().len(), 2, "eight on a sheet");
    // Each has its own margins and gaps, the labels are as small as they may be.
    let apart = Grid {
        columns: 3,
        rows: 8,
        width: LEAST_LABEL[0],
        height: LEAST_LABEL[1],
        left: Length::mm(12),
        top: Length::mm(15),
        across: Length::mm(4),
        down: Length::mm(3),
    };
    apart.fits(Paper::A4, Unit::Millimetre).unwrap();
    let small = laid(&StudioPaper::Labels(apart), 24);
    let single = laid(&StudioPaper::Single(LEAST_LABEL), 2);
    let all: Vec<String> = (1..=24).map(|n| format!("W{n:04}")).collect();
    for (name, laid, page, wanted) in [
        ("sheet", &sheet, 0, &all[..8]),
        ("sheet-2", &sheet, 1, &all[8..10]),
        ("small", &small, 0, &all[..]),
        ("single", &single, 1, &all[1..2]),
        ("certificate", &laid(&StudioPaper::Certificate, 1), 0, &all[..1]),
    ] {
        let Some(said) = codes(name, laid, page) else { return };
        assert_eq!(said, wanted.join(" "), "{name}");
    }
}

/// Source: poppler's `pdftotext`; ISO 32000-1 as read by qpdf.
#[test]
fn the_words_can_be_read() {
    for ((name, kind), wanted) in studio_papers().into_iter().zip([
        "Keep out of the sun",
        "Keep out of the sun",
        "15 × 11 in. (38.1 × 27.9 cm)",
        "Slack water, 2021",
        "Prices: Harbour hall",
        "2 offered at 1600.00 EUR",
    ]) {
        let bytes = laid(&kind, 3).pdf().unwrap();
        assert!(bytes.starts_with(b"%PDF-"));
        let again = laid(&kind, 3).pdf().unwrap();
        assert!(bytes == again, "equal input gives equal bytes");
        let path = file(&format!("studio-{name}.pdf"), &bytes);
        let path = path.to_str().unwrap();
        ask("qpdf", &["--check", path]);
        let Some(said) = ask_text("pdftotext", &["-layout", path, "-"]) else {
            return;
        };
        let said = said.replace('x', "×");
        assert!(said.contains(&wanted.replace('x', "×")), "{kind:?}: {said}");
        assert!(said.contains("3/25"), "{kind:?}: {said}");
    }
}

/// Source: ISO 32000-1, as poppler reads a page's size.
#[test]
fn a_single_label_is_a_page_of_its_own_size() {
    let laid = laid(&StudioPaper::Single([100, 62].map(Length::mm)), 3);
    let path = file("single.pdf", &laid.pdf().unwrap());
    let Some(said) = ask_text("pdfinfo", &[path.to_str().unwrap()]) else { return };
    let words: Vec<&str> = said.split_whitespace().collect();
    let size = words.windows(5).find(|w| w[..2] == ["Page", "size:"]).unwrap();
    let mm = |text: &str| text.parse::<f64>().unwrap() * 25.4 / 72.0;
    assert!((mm(size[2]) - 100.0).abs() < 0.01 && (mm(size[4]) - 62.0).abs() < 0.01, "{said}");
    assert!(said.contains("Pages:           3"), "{said}");
}

#[test]
fn what_has_no_room_is_reported() {
    assert!(laid(&StudioPaper::Labels(grid()), 3).notes().is_empty());
    for (size, wanted) in [
        ([63, 38].map(Length::mm), "The labels are too small for the line on care"),
        (LEAST_LABEL, "The labels are too small for all that belongs on them"),
    ] {
        let notes = laid(&StudioPaper::Single(size), 3).notes().to_vec();
        assert_eq!(notes.len(), 1, "{notes:?}");
        assert!(notes[0].starts_with(wanted), "{notes:?}");
    }
    let mut long = piece(1);
    long.medium = "pigment print on a paper of cotton, ".repeat(20);
    long.title = "water ".repeat(2000);
    long.artist = "\u{202e}x\u{0}".repeat(3000);
    for (_, kind) in studio_papers() {
        let laid = set(&kind, &[long.clone()], Archive::default());
        assert_eq!(laid.sizes().len(), 1, "{kind:?}");
        assert!(laid.pdf().is_ok(), "{kind:?}");
    }
}

#[test]
fn labels_that_do_not_fit_are_refused_in_words() {
    #[track_caller]
    fn case(change: impl FnOnce(&mut Grid), wanted: &str) {
        let mut grid = grid();
        change(&mut grid);
        assert_eq!(grid.fits(Paper::A4, Unit::Millimetre).unwrap_err(), wanted);
    }
    let size = |wide, high| [wide, high].map(Length::mm);
    assert!(Grid::centred(2, 4, size(105, 74), Paper::A4).is_some());
    case(
        |grid| grid.columns = 3,
        "3 columns of labels with a margin of 15 mm take 285 mm, and the sheet has 210 mm: take \
         fewer, smaller ones or a smaller margin",
    );
    case(
        |grid| (grid.left, grid.across) = (Length::mm(10), Length::mm(21)),
        "2 columns of labels with a margin of 10 mm take 211 mm, and the sheet has 210 mm: take \
         fewer, smaller ones or a smaller margin",
    );
    case(
        |grid| grid.rows = 0,
        "2 × 0 labels can’t be printed: give 1 to 20 columns and 1 to 20 rows",
    );
    case(
        |grid| grid.height = Length::mm(10),
        "a label of 90 mm × 10 mm has no room for what stands on it, or is too large: give 50 mm × \
         30 mm to 500 mm × 500 mm",
    );
    case(|grid| grid.down = Length::mm(-1), "the gap between rows is -1 mm: give 0 or more");
}
