//! The same pages as PDF/A-1b, through a validator that nobody here wrote.

mod support;

use std::path::Path;

use sightedge_papers::{Archive, Kind, Paper};
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

/// Source: ISO 19005-1 level B, as Apache `PDFBox`'s preflight (Debian's `libpdfbox2-java`)
/// checks it.
#[test]
fn every_paper_is_a_valid_pdf_a_1b() {
    let jars = JARS.map(|jar| format!("/usr/share/java/{jar}.jar"));
    if let Some(missing) = jars.iter().find(|jar| !Path::new(jar.as_str()).exists()) {
        assert!(std::env::var_os("CI").is_none(), "{missing} is wanted");
        println!("not run: {missing} is not installed");
        return;
    }
    for kind in Kind::ALL {
        let made = made(&reference(), kind, Paper::Letter, Archive::A1b);
        let path = file(&format!("a1b-{}.pdf", kind.key()), &made.bytes);
        let validator = "org.apache.pdfbox.preflight.Validator_A1b";
        let arguments = ["-cp", &jars.join(":"), validator, path.to_str().unwrap()];
        let Some(said) = ask_text("java", &arguments) else { return };
        assert!(said.contains("is a valid PDF/A-1b file"), "{kind:?}: {said}");
    }
}
