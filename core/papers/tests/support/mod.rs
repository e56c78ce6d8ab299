//! The reference piece, and the outside readers that tests call.
#![allow(dead_code, reason = "each test file uses a part of it")]
#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "only tests call it")]

use std::path::{Path, PathBuf};
use std::process::Command;

use sightedge_core::derived::{Derived, derive};
use sightedge_core::geometry::{Point, Rect, Sides, Size};
use sightedge_core::length::{Length, Unit, parse};
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Fixing, Layer, LayerId, Meets, Picture, Start, Work};
use sightedge_papers::{Archive, Date, Kind, Made, Order, Paper, Templates, write};

/// The project's folder.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn inches(text: &str) -> Length {
    parse(text, Unit::Inch).unwrap()
}

/// The reference piece of the trade reference: 13 × 19 in sheet, 11 × 15 in image, two layers.
pub(crate) fn reference() -> Document {
    let sheet = Size::new(inches("13"), inches("19"));
    let image = Rect::new(
        Point::new(inches("1"), inches("1 1/2")),
        Size::new(inches("11"), inches("15")),
    );
    let picture = Picture {
        path: "slack-water.jpg".to_owned(),
        sha256: "0".repeat(64),
        width_px: 2200,
        height_px: 3000,
    };
    let start =
        Start { id: "7f3a9c21d04e".to_owned(), unit: Unit::Inch, picture, sheet, image };
    let mut document = start.plan(Tables::shipped());
    "Slack water".clone_into(&mut document.works[0].title);
    let mat = &mut document.variants[0].mat;
    mat.fixing = Fixing::Borders(Sides::new(
        inches("4 1/2"),
        inches("4 5/16"),
        inches("5 1/2"),
        inches("3 13/16"),
    ));
    mat.layers.push(Layer { id: LayerId(2), ..mat.layers[0].clone() });
    let opening = &mut mat.openings[0];
    let quarter = inches("1/4");
    opening.meets = Meets::Reveal(Sides::new(quarter, quarter, inches("3/8"), quarter));
    opening.offsets.insert(LayerId(2), Sides::all(inches("3/16")));
    document
}

/// What follows from a plan.
pub(crate) fn derived(document: &Document) -> Derived {
    derive(document, &document.variants[0], Tables::shipped())
}

/// One paper of a plan, with the demo picture, on the first of March 2026.
#[track_caller]
pub(crate) fn made(document: &Document, kind: Kind, paper: Paper, archive: Archive) -> Made {
    let derived = derived(document);
    let picture = |work: &Work| Some(root().join("assets/demo").join(&work.picture.path));
    let order = Order {
        document,
        variant: &document.variants[0],
        derived: &derived,
        picture: &picture,
        paper,
        date: Date::new(2026, 3, 1).unwrap(),
        steps: None,
        archive,
    };
    write(kind, &order, &Templates::default()).unwrap()
}

/// A file in a folder of its own.
pub(crate) fn file(name: &str, bytes: &[u8]) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("sightedge-papers-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join(name);
    std::fs::write(&path, bytes).unwrap();
    path
}

/// What an outside reader says; `None` where it is not installed, which is a failure in CI.
#[track_caller]
pub(crate) fn ask(program: &str, arguments: &[&str]) -> Option<Vec<u8>> {
    match Command::new(program).args(arguments).output() {
        Ok(output) => {
            assert!(
                output.status.success(),
                "{program} {arguments:?}: {}{}",
                String::from_utf8_lossy(&output.stdout),
                String::from_utf8_lossy(&output.stderr)
            );
            Some(output.stdout)
        }
        Err(error) => {
            assert!(std::env::var_os("CI").is_none(), "{program} is wanted: {error}");
            println!("not run: {program} is not installed ({error})");
            None
        }
    }
}

/// As [`ask`], as text.
#[track_caller]
pub(crate) fn ask_text(program: &str, arguments: &[&str]) -> Option<String> {
    ask(program, arguments).map(|bytes| String::from_utf8_lossy(&bytes).into_owned())
}

/// The Python that `tests/checkers/install` makes.
pub(crate) fn python() -> String {
    root().join(".checkers/bin/python").display().to_string()
}
