//! The reference piece, and the outside readers that tests call.
#![allow(dead_code, reason = "each test file uses a part of it")]
#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "only tests call it")]

pub(crate) mod studio;

use std::path::{Path, PathBuf};
use std::process::Command;

use sightedge_core::date::Date;
use sightedge_core::derived::{Derived, derive};
use sightedge_core::geometry::{Point, Rect, Sides, Size};
use sightedge_core::length::{Length, Unit, parse};
use sightedge_core::material::Tables;
use sightedge_core::spec::{
    Angle, Bevel, BoardBy, Document, InHand, Layer, LayerId, Picture, Placement, Ruler, Start,
    WindowBy, Work,
};
use sightedge_papers::{Archive, House, Kind, Order, Paper, PaperFile, write};

/// The project's folder.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

pub(crate) fn inches(text: &str) -> Length {
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
    mat.board_by = BoardBy::Borders(Sides::new(
        inches("4 1/2"),
        inches("4 5/16"),
        inches("5 1/2"),
        inches("3 13/16"),
    ));
    mat.layers.push(Layer { id: LayerId(2), ..mat.layers[0].clone() });
    let opening = &mut mat.openings[0];
    let quarter = inches("1/4");
    opening.window_by = WindowBy::Reveal(Sides::new(quarter, quarter, inches("3/8"), quarter));
    opening.offsets.insert(LayerId(2), Sides::all(inches("3/16")));
    document
}

/// Plans of every kind: the reference piece; the A4 sheet whose figures on the ruler differ from
/// the exact ones; a window in hand; four layers cut in every manner; a lying picture.
pub(crate) fn plans() -> Vec<Document> {
    let mut on_the_ruler = started("ruler", Unit::Millimetre, ["210mm", "297mm"], None);
    on_the_ruler.ruler = Ruler::new(Unit::Inch, 16).unwrap();
    let mat = &mut on_the_ruler.variants[0].mat;
    // The image fills the sheet: covered by as much as the mat lies on it.
    mat.openings[0].window_by = WindowBy::Reveal(Sides::all(Length::mm(-3)));
    let outer = Size::new(inches("16"), inches("20"));
    mat.board_by = BoardBy::Outer { size: outer, placement: Placement::Centred };

    let mut in_hand = reference();
    "hand".clone_into(&mut in_hand.id);
    let mat = &mut in_hand.variants[0].mat;
    mat.layers.truncate(1);
    mat.openings[0].offsets.clear();
    mat.openings[0].window_by = WindowBy::InHand(InHand {
        sight: Size::new(inches("11.53"), inches("15.61")),
        overlap_left: inches("3/4"),
        overlap_top: inches("1.27"),
    });
    let outer = Size::new(inches("20.02"), inches("26"));
    mat.board_by = BoardBy::Outer { size: outer, placement: Placement::Centred };

    vec![reference(), on_the_ruler, in_hand, four_layers(), lying()]
}

/// The three demo pictures, each matted and framed.
pub(crate) fn framed() -> Vec<Document> {
    let tables = Tables::shipped();
    let mut upright = reference();
    "framed-1".clone_into(&mut upright.id);
    let mut lying = lying();
    "framed-2".clone_into(&mut lying.id);
    "Long ebb".clone_into(&mut lying.works[0].title);
    let mut third =
        started("framed-3", Unit::Millimetre, ["420mm", "594mm"], Some(["360mm", "480mm"]));
    "mooring.jpg".clone_into(&mut third.works[0].picture.path);
    "Mooring".clone_into(&mut third.works[0].title);
    for (document, frame) in [
        (&mut upright, "gallery-wood"),
        (&mut lying, "deep-wood"),
        (&mut third, "narrow-metal"),
    ] {
        let assembly = &mut document.variants[0].mat.assembly;
        assembly.package.frame = tables.frame(frame).cloned();
        assembly.hanging.rings_apart = Some(Length::mm(380));
        assembly.hanging.rise = Some(Length::mm(60));
        assembly.hanging.rings_below = Some(Length::mm(160));
    }
    vec![upright, lying, third]
}

/// Four layers, cut in every manner, under a title of ninety characters.
pub(crate) fn four_layers() -> Document {
    let mut document = reference();
    "four".clone_into(&mut document.id);
    "Slack water below the old sluice, seen from the ferry steps on the first cold morning of it"
        .chars()
        .take(90)
        .collect::<String>()
        .clone_into(&mut document.works[0].title);
    let mat = &mut document.variants[0].mat;
    let first = mat.layers[0].clone();
    mat.layers.truncate(1);
    for (id, bevel) in [
        (2, Bevel::Straight),
        (3, Bevel::Reverse(Angle::from_tenths(450).unwrap())),
        (4, Bevel::Open(Angle::from_tenths(600).unwrap())),
    ] {
        mat.layers.push(Layer { id: LayerId(id), bevel, ..first.clone() });
        let offset = Sides::new(inches("3/16"), inches("3/16"), inches("1/4"), inches("3/16"));
        mat.openings[0].offsets.insert(LayerId(id), offset);
    }
    document
}

/// A lying picture in one layer, in millimetres.
pub(crate) fn lying() -> Document {
    let mut document =
        started("lying", Unit::Millimetre, ["483mm", "329mm"], Some(["440mm", "147mm"]));
    "long-ebb.jpg".clone_into(&mut document.works[0].picture.path);
    let border = Length::mm(50);
    document.variants[0].mat.board_by =
        BoardBy::Borders(Sides::new(border, border, Length::mm(60), border));
    document
}

/// A plan as a new one starts.
fn started(id: &str, unit: Unit, sheet: [&str; 2], image: Option<[&str; 2]>) -> Document {
    let size = |[wide, high]: [&str; 2]| {
        Size::new(parse(wide, unit).unwrap(), parse(high, unit).unwrap())
    };
    let sheet = size(sheet);
    let image = image.map_or(sheet, size);
    let at = Point::new(
        (sheet.width - image.width).halves().0,
        (sheet.height - image.height).halves().0,
    );
    let picture = Picture {
        path: "slack-water.jpg".to_owned(),
        sha256: "0".repeat(64),
        width_px: 2200,
        height_px: 3000,
    };
    let image = Rect::new(at, image);
    let mut document =
        Start { id: id.to_owned(), unit, picture, sheet, image }.plan(Tables::shipped());
    "Low tide".clone_into(&mut document.works[0].title);
    document
}

/// Whole and fraction closed up: a reader of PDFs tells the narrow space between both or not.
pub(crate) fn closed_up(text: &str) -> String {
    let small = |c: char| "½¼¾⅛⅜⅝⅞⁰¹²³⁴⁵⁶⁷⁸⁹".contains(c);
    let letters: Vec<char> = text.replace('\u{a0}', " ").chars().collect();
    let narrow = |at: usize| {
        let before = at.checked_sub(1).is_some_and(|before| letters[before].is_ascii_digit());
        before && letters.get(at + 1).is_some_and(|c| small(*c)) && letters[at] == ' '
    };
    (0..letters.len()).filter(|at| !narrow(*at)).map(|at| letters[at]).collect()
}

/// What follows from a plan.
pub(crate) fn derived(document: &Document) -> Derived {
    derive(document, &document.variants[0], Tables::shipped())
}

/// One paper of a plan, with the demo picture, on the first of March 2026.
#[track_caller]
pub(crate) fn made(
    document: &Document,
    kind: Kind,
    paper: Paper,
    archive: Archive,
) -> PaperFile {
    let derived = derived(document);
    let picture = |work: &Work| Some(root().join("assets/demo").join(&work.picture.path));
    let order = Order {
        document,
        variant: &document.variants[0],
        derived: &derived,
        picture: &picture,
        paper,
        date: Date::new(2026, 3, 1).unwrap(),
        tables: Tables::shipped(),
        steps: None,
        archive,
        house: &House::default(),
    };
    write(kind, &order).unwrap()
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
