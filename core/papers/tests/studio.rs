//! What goes with a print, read by readers that nobody here wrote.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

mod support;

use sightedge_core::catalogue::{Order, dimensions};
use sightedge_core::length::Length;
use sightedge_papers::{
    Date, Grid, Laid, PagePixels, Paper, Piece, StudioPaper, Templates, lay_out_studio,
};
use support::{ask_text, file, python};

fn piece(number: u32) -> Piece {
    let parts = [Length::inches(15, 0, 1), Length::inches(11, 0, 1)];
    Piece {
        catalogue: format!("W{number:04}"),
        title: "Slack water".to_owned(),
        maker: "Ada Brook".to_owned(),
        year: "2021".to_owned(),
        medium: "pigment print".to_owned(),
        dimensions: dimensions(&parts, Order::InchesFirst),
        edition: format!("{number}/25"),
        price: "800.00 EUR".to_owned(),
        care: "Keep out of the sun and away from damp walls.".to_owned(),
        digest: "0".repeat(64),
    }
}

#[track_caller]
fn laid(kind: &StudioPaper, count: u32) -> Laid {
    let pieces: Vec<Piece> = (1..=count).map(piece).collect();
    let date = Date::new(2026, 3, 1).unwrap();
    lay_out_studio(kind, &pieces, Paper::A4, date, &Templates::default()).unwrap()
}

fn grid() -> Grid {
    Grid::centred(2, 4, [90, 60].map(Length::mm), Paper::A4).unwrap()
}

/// Rows of grey as a PGM, which every reader of pictures knows.
fn pgm(page: &PagePixels) -> Vec<u8> {
    let mut bytes = format!("P5 {} {} 255\n", page.width, page.height).into_bytes();
    bytes.extend(page.rgba.chunks_exact(4).map(|pixel| pixel[1]));
    bytes
}

/// Source: ISO/IEC 18004, as the decoder of zxing-cpp reads it.
#[test]
fn an_outside_reader_reads_every_code_on_a_sheet_of_labels() {
    let laid = laid(&StudioPaper::Labels(grid()), 10);
    assert_eq!(laid.sizes().len(), 2, "eight on a sheet");
    let path = file("labels.pgm", &pgm(&laid.pixels(0, 200.0).unwrap()));
    let script = "import sys, zxingcpp\nfrom PIL import Image\n\
        found = zxingcpp.read_barcodes(Image.open(sys.argv[1]))\n\
        print(' '.join(sorted(one.text for one in found)))";
    let Some(said) = ask_text(&python(), &["-c", script, path.to_str().unwrap()]) else {
        return;
    };
    assert_eq!(said.trim(), "W0001 W0002 W0003 W0004 W0005 W0006 W0007 W0008");
}

/// Source: poppler's `pdftotext`.
#[test]
fn the_words_can_be_read() {
    for (kind, wanted) in [
        (StudioPaper::Labels(grid()), "Keep out of the sun"),
        (StudioPaper::Certificate, "15 × 11 in. (38.1 × 27.9 cm)"),
        (StudioPaper::Wall, "Slack water, 2021"),
        (StudioPaper::Prices("Harbour hall".to_owned()), "Prices: Harbour hall"),
        (StudioPaper::Consignment("Harbour hall".to_owned()), "Received by, place and date"),
    ] {
        let bytes = laid(&kind, 3).pdf().unwrap();
        assert!(bytes.starts_with(b"%PDF-"));
        let again = laid(&kind, 3).pdf().unwrap();
        assert!(bytes == again, "equal input gives equal bytes");
        let path = file("studio.pdf", &bytes);
        let Some(said) = ask_text("pdftotext", &["-layout", path.to_str().unwrap(), "-"])
        else {
            return;
        };
        let said = said.replace('x', "×");
        assert!(said.contains(&wanted.replace('x', "×")), "{kind:?}: {said}");
        assert!(said.contains("3/25"), "{kind:?}: {said}");
    }
}

#[test]
fn labels_that_do_not_fit_are_none() {
    let size = |wide, high| [wide, high].map(Length::mm);
    assert!(Grid::centred(2, 4, size(105, 74), Paper::A4).is_some());
    assert_eq!(Grid::centred(3, 4, size(105, 74), Paper::A4), None);
    assert_eq!(Grid::centred(0, 4, size(105, 74), Paper::A4), None);
    assert_eq!(Grid::centred(4, 4, size(20, 10), Paper::A4), None);
}
