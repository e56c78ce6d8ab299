//! The same pages as PDF/A-1b, through a validator that nobody here wrote.

mod support;

use std::path::Path;

use sightedge_papers::{Archive, Kind, Paper, StudioPaper};
use support::studio::{piece, set, studio_paper, studio_papers};
use support::{ask_text, file, made, reference};

const JARS: [&str; 7] = [
    "preflight",
    "pdfbox2",
    "fontbox2",
    "xmpbox",
    "commons-logging",
    "javax.activation",
    "jaxb-api",
];

/// Says whether a validator that nobody here wrote takes `bytes` for PDF/A-1b; nothing where it
/// is not installed.
#[track_caller]
#[expect(clippy::print_stdout, clippy::unwrap_used, reason = "a helper of tests")]
fn is_valid(name: &str, bytes: &[u8]) {
    let jars = JARS.map(|jar| format!("/usr/share/java/{jar}.jar"));
    if let Some(missing) = jars.iter().find(|jar| !Path::new(jar.as_str()).exists()) {
        assert!(std::env::var_os("CI").is_none(), "{missing} is wanted");
        println!("not run: {missing} is not installed");
        return;
    }
    let path = file(&format!("a1b-{name}.pdf"), bytes);
    let validator = "org.apache.pdfbox.preflight.Validator_A1b";
    let arguments = ["-cp", &jars.join(":"), validator, path.to_str().unwrap()];
    let Some(said) = ask_text("java", &arguments) else { return };
    assert!(said.contains("is a valid PDF/A-1b file"), "{name}: {said}");
}

/// Source: ISO 19005-1 level B, as Apache `PDFBox`'s preflight (Debian's `libpdfbox2-java`)
/// checks it.
#[test]
fn every_paper_is_a_valid_pdf_a_1b() {
    for kind in Kind::ALL {
        let made = made(&reference(), kind, Paper::Letter, Archive::A1b);
        is_valid(kind.key(), &made.bytes);
    }
}

/// Source: as above.
#[test]
fn every_paper_of_the_studio_is_a_valid_pdf_a_1b() {
    for (name, kind) in studio_papers() {
        is_valid(name, &studio_paper(&kind, 3, Archive::A1b).pdf().unwrap());
    }
}

/// Source: as above; letters from typefaces of the machine, joined and turned as their scripts
/// are.
#[test]
fn letters_of_other_scripts_are_valid_too() {
    let mut foreign = piece(1);
    "שקע שפל 12".clone_into(&mut foreign.title);
    "ماء \u{202e}3/25 ♘ e\u{303}\u{323}".clone_into(&mut foreign.artist);
    for archive in [Archive::A1b, Archive::A2aUa1] {
        let bytes = set(&StudioPaper::Certificate, &[foreign.clone()], archive).pdf().unwrap();
        if archive == Archive::A1b {
            is_valid("foreign", &bytes);
        }
        let path = file(&format!("foreign-{archive:?}.pdf"), &bytes);
        let Some(read) = ask_text("pdftotext", &[path.to_str().unwrap(), "-"]) else { return };
        assert!(read.contains("3/25") && read.contains("2026-03-01"), "{read}");
    }
}
