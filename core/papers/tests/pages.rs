//! Pages as they will print, and letters that no typeface has.

#![allow(clippy::unwrap_used, reason = "a helper of tests")]

mod support;

use sightedge_core::date::Date;
use sightedge_papers::{Archive, Kind, LaidOut, Order, Paper, lay_out, write};
use support::{ask, ask_text, derived, file, reference, root};

fn with<T>(title: &str, then: impl Fn(&Order<'_>) -> T) -> T {
    let mut document = reference();
    title.clone_into(&mut document.works[0].title);
    let derived = derived(&document);
    let picture = |work: &sightedge_core::spec::Work| {
        Some(root().join("assets/demo").join(&work.picture.path))
    };
    let order = Order {
        document: &document,
        variant: &document.variants[0],
        derived: &derived,
        picture: &picture,
        paper: Paper::Letter,
        date: Date::new(2026, 3, 1).unwrap(),
        tables: sightedge_core::material::Tables::shipped(),
        steps: None,
        archive: Archive::A2aUa1,
        house: &sightedge_papers::House::default(),
    };
    then(&order)
}

fn laid(kind: Kind) -> LaidOut {
    with("Slack water", |order| lay_out(kind, order).unwrap())
}

/// Source: poppler's `pdftoppm` on the PDF of the same pages.
#[test]
fn the_screen_shows_what_prints() {
    for kind in [Kind::Sheet, Kind::Template] {
        let laid = laid(kind);
        let path = file(&format!("seen-{}.pdf", kind.key()), &laid.pdf().unwrap());
        let tall = kind == Kind::Sheet;
        let [wide, high] = if tall { [215.9, 279.4] } else { [279.4, 215.9] };
        for size in laid.sizes() {
            assert!((size[0] - wide).abs() < 1e-3 && (size[1] - high).abs() < 1e-3, "{size:?}");
        }
        let pages = laid.sizes().len();
        assert!(laid.pixels(pages, 72.0).is_none(), "no page after the last");
        let arguments = ["-r", "200", "-gray", "-f", "1", "-l", "1", path.to_str().unwrap()];
        let Some(pgm) = ask("pdftoppm", &arguments) else { return };
        let own = laid.pixels(0, 200.0).unwrap();
        let [wide, high] = [own.width, own.height].map(|side| usize::try_from(side).unwrap());
        assert_eq!([wide, high], if tall { [1700, 2200] } else { [2200, 1700] });
        assert_eq!(own.rgba.len(), wide * high * 4);
        let outside = &pgm[pgm.len() - wide * high..];
        // In cells of an eighth of an inch both must be alike: each smooths letters in its own way.
        let mean = |value: &dyn Fn(usize) -> f64, column: usize, row: usize| {
            let cells =
                (0..625).map(|n| value((row * 25 + n / 25) * wide + column * 25 + n % 25));
            cells.sum::<f64>() / 625.0
        };
        let ours = |at: usize| {
            let [r, g, b] = [0, 1, 2].map(|n| f64::from(own.rgba[at * 4 + n]));
            0.299 * r + 0.587 * g + 0.114 * b
        };
        let theirs = |at: usize| f64::from(outside[at]);
        let cells =
            (0..high / 25).flat_map(|row| (0..wide / 25).map(move |column| (column, row)));
        let far = cells
            .map(|(column, row)| (mean(&ours, column, row) - mean(&theirs, column, row)).abs())
            .fold(0.0, f64::max);
        assert!(far < 24.0, "{kind:?}: {far} of 255");
        assert!((0..wide * high).any(|at| ours(at) < 80.0), "something is printed");
    }
}

/// Source: poppler's `pdftotext` and `pdffonts`.
#[test]
fn letters_that_no_typeface_has_are_reported() {
    // Accents, Greek and Cyrillic are in the papers' own typeface.
    let title = "Niels Bjørn: Žluťoučký, Ελλάδα, Прилив";
    let made = with(title, |order| write(Kind::Cutter, order).unwrap());
    assert_eq!(made.notes, Vec::<String>::new());
    let path = file("accents.pdf", &made.bytes);
    if let Some(read) = ask_text("pdftotext", &[path.to_str().unwrap(), "-"]) {
        assert!(read.contains(title), "{read}");
    }
    if let Some(fonts) = ask_text("pdffonts", &[path.to_str().unwrap()]) {
        assert!(fonts.lines().skip(2).all(|line| line.contains("Inter")), "{fonts}");
    }
    // A private letter that no typeface is to have.
    let made = with("Tide \u{10fff0}", |order| write(Kind::Cutter, order).unwrap());
    let wanted = "No typeface on this machine has \u{10fff0} (U+10FFF0): a ? stands for it. \
                  Install one that has it, and write the papers again.";
    assert_eq!(made.notes, [wanted]);
    let path = file("private.pdf", &made.bytes);
    if let Some(read) = ask_text("pdftotext", &[path.to_str().unwrap(), "-"]) {
        assert!(read.contains("Tide ?"), "{read}");
    }
}
