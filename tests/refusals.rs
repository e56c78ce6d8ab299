//! What `new` refuses, in which words, and that it refuses nothing else: what can be expressed
//! is saved. Also what bare numbers mean.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use sightedge_core::length::Unit;
use sightedge_tests::commands::{Bench, four, png, size, texts};

fn bench(name: &str) -> Bench {
    Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("refusals-{name}")).unwrap()
}

/// Refused as usage (4), in one line with these words; nothing is saved.
#[track_caller]
fn refused(bench: &Bench, options: &str, words: &str) {
    let said = bench.run(&format!("new @{} {options}", Bench::PICTURE));
    assert_eq!(said.exit, 4, "{options}: {said:?}");
    assert!(said.err.contains(words), "{options}: {}", said.err);
    assert!(said.err.starts_with("sightedge: "), "{}", said.err);
    assert_eq!(said.err.trim_end().lines().count(), 1, "{}", said.err);
    assert_eq!(said.out, "", "{options}");
    assert!(!bench.path(Bench::PLAN).exists(), "{options}: something was saved");
}

#[test]
fn what_contradicts_names_both() {
    let bench = bench("contradict");
    let placements = ["--centred", "--bottom-extra 1/2", "--bottom-ratio 6:5", "--optical"];
    let mut pairs = vec![
        ("--outer 16x20".to_owned(), "--border 2"),
        ("--window 7x9".to_owned(), "--border 2"),
        ("--overlap 1/8".to_owned(), "--reveal 1/4"),
        ("--outer 16x20 --window 7x9".to_owned(), "--overlap 1/8"),
        ("--outer 16x20 --window 7x9".to_owned(), "--reveal 1/4"),
    ];
    for (index, one) in placements.iter().enumerate() {
        pairs.push((format!("{one} "), "--border 2"));
        for other in placements.iter().skip(index + 1) {
            pairs.push((format!("--outer 16x20 {one}"), *other));
        }
    }
    assert_eq!(pairs.len(), 15);
    for (one, other) in pairs {
        for options in [format!("{one} {other}"), format!("{other} {one}")] {
            let options = format!("--sheet 8x10in {options}");
            let name = |text: &str| {
                let mut names = text.rsplit(' ').filter(|word| word.starts_with("--"));
                names.next().unwrap().to_owned()
            };
            refused(&bench, &options, &name(&one));
            refused(&bench, &options, &name(other));
            refused(&bench, &options, "cannot be used together: give one of them");
        }
    }
    let needs = "--window needs --outer too";
    refused(&bench, "--sheet 8x10in --window 7x9", needs);
    refused(&bench, "--sheet 8x10in --image-at 1,1", "--image-at needs --image too");
}

#[test]
fn what_is_no_length_or_size() {
    let bench = bench("lengths");
    let length = "is not a length: try 13 1/2, 13.5 in or 343 mm";
    let above_zero = "is not a size: give a width and a height above zero, as in --";
    let most = "is too long: give at most 100 m";
    for (options, words) in [
        ("--sheet 13.5x", "no length was typed"),
        ("--sheet thirteen", "--sheet: \"thirteen\" has 1 length"),
        ("--sheet 13", "a width and a height with x between them"),
        ("--sheet 13x19x2", "has 3 lengths"),
        ("--sheet 13,5x19", length),
        ("--sheet \"\"", "--sheet: "),
        ("--sheet 0x10in", above_zero),
        ("--sheet 8x-10in", above_zero),
        ("--sheet 8x10 --image 0in", "give a width above zero, as in --image 11in"),
        ("--sheet 8x10 --image x-1in", "a height, as in --image x15in"),
        ("--sheet 8x10 --image 0x0", above_zero),
        ("--sheet 8x10 --outer 16x0", above_zero),
        ("--sheet 8x10 --outer 16x20 --window -1x1", above_zero),
        ("--sheet 101x1m", most),
        ("--sheet 100001x1mm", most),
        ("--sheet 8x10in --outer 16x4000", most),
        ("--sheet 8x10in --overlap -100001mm", most),
        ("--sheet 8x10in --border 1,1,1,100000.001mm", most),
        ("--sheet 8x10in --outer 16x20 --bottom-extra 3937.1", most),
        ("--sheet 1e9x10in", length),
        ("--sheet 99999999999999999999x10in", "is too long: lengths go up to 1 km"),
        ("--sheet 8x10in --overlap 1/0", "divides by zero: try 13 1/2 or 27/2"),
        ("--sheet 8x10in --overlap 1/8in*1/8in", "multiplies or divides a length by a length"),
        ("--sheet 8x10in --overlap 1/8,1/8", "--overlap has 2 lengths"),
        (
            "--sheet 8x10in --overlap 1/8,1/8,1/8",
            "give one for all sides, or top, right, bottom and left",
        ),
        ("--sheet 8x10in --border 1,2,3,4,5", "--border has 5 lengths"),
        ("--sheet 8x10in --reveal 1/4,,1/4,1/4", "no length was typed"),
        (
            "--sheet 8x10in --image 6x8 --image-at 1",
            "--image-at 1 is not a place: give two lengths",
        ),
        ("--sheet 8x10in --image 6x8 --image-at 1,2,3", "from the sheet's top left corner"),
        (
            "--sheet 8x10in --undermat 1/4,1/4,1/4,1/4",
            "--undermat has 4 offsets: give at most 3",
        ),
        ("--sheet 8x10in --thickness 0", "give one above zero, as in .060in"),
        ("--sheet 8x10in --thickness -1/16", "--thickness -1/16 in is not a board's thickness"),
    ] {
        refused(&bench, options, words);
    }
}

#[test]
fn what_is_no_choice() {
    let bench = bench("choices");
    let ratio = "is not a ratio: give bottom to top, as in 6:5";
    for (options, words) in [
        ("--unit ft", "--unit \"ft\" is not a unit here: use in or mm"),
        ("--unit", "--unit needs a value after it"),
        ("--ruler 7", "--ruler 7 does not suit this plan: use 8, 16, 32, 64 or 128"),
        ("--ruler 16 --unit mm", "use 1, 2, 5 or 10 parts of a millimetre"),
        ("--ruler -16", "does not suit this plan"),
        ("--ruler 99999999999", "does not suit this plan"),
        ("--bottom-ratio 6", ratio),
        ("--bottom-ratio 0:5", ratio),
        ("--bottom-ratio 6:-5", ratio),
        ("--bottom-ratio 6:5:4", ratio),
        ("--bottom-ratio 1.234:1", ratio),
        ("--bottom-ratio 999999:1", ratio),
        ("--bottom-ratio :", ratio),
        ("--frobnicate", "there is no option --frobnicate; see sightedge new --help"),
        ("-x", "there is no option -x; see sightedge new --help"),
        ("--sheet 8x10in", "--sheet is given twice; see sightedge new --help"),
        ("--replace=yes", "see sightedge new --help"),
        ("other.jpg", "only a picture is needed, so remove \"other.jpg\""),
    ] {
        refused(&bench, &format!("--sheet 8x10in --outer 16x20 {options}"), words);
    }
    // Its pixels say nothing of a size, and no sheet was given.
    refused(&bench, "", "gives no resolution");
    refused(&bench, "--outer 16x20", "give the paper's size, as in --sheet 13x19in");
}

/// A picture may state a resolution at which it is longer than anything on a bench.
#[test]
fn a_resolution_that_cannot_be_meant() {
    let bench = bench("resolution");
    bench.put(Bench::PICTURE, &png((45_000, 2), Some(40), [9, 9, 9]).unwrap()).unwrap();
    refused(&bench, "", "give the paper's size, as in --sheet 13x19in");
    assert_eq!(bench.new_plan("--sheet 13x19in").exit, 0);
    bench.figures("").unwrap();
}

/// Anything that can be expressed is saved, with what would fail said.
#[test]
fn whatever_can_be_expressed_is_saved() {
    #[track_caller]
    fn saved(bench: &Bench, options: &str, rule: &str) {
        let said = bench.new_plan(&format!("--sheet 8x10in {options}"));
        assert_eq!((said.exit, said.err.as_str()), (0, ""), "{options}");
        assert!(said.out.contains(rule), "{options}: {}", said.out);
        bench.figures("").unwrap();
        assert_eq!(bench.run("check @print.png").exit, 2, "{options}");
    }
    let bench = bench("saved");
    saved(&bench, "--outer 2x2", "Fault: off-board");
    saved(&bench, "--border -100000mm", "Fault: off-board");
    saved(&bench, "--outer 16x20 --overlap 20", "Fault: off-board");
    saved(&bench, "--outer 16x20 --undermat 1/4 --thickness 1/4", "Fault: undermat-offset");
    saved(&bench, "--outer 16x20 --undermat -1/4", "Fault: ");
    saved(&bench, "--outer 16x20 --undermat 0", "Fault: undermat-offset");
    saved(&bench, "--outer 16x20 --overlap 0", "Fault: edge-on-edge");
    saved(&bench, "--outer 16x20 --overlap 1mm", "Fault: overlap");
    saved(&bench, "--outer 16x20 --bottom-extra 100m", "Fault: off-board");
    saved(
        &bench,
        "--outer 16x20 --image 20x30 --image-at -9,50 --overlap 1mm",
        "Fault: overlap",
    );
    saved(&bench, "--outer 100000x100000mm --overlap 1mm", "Fault: overlap");
    saved(&bench, "--outer 16x20 --window 100x100", "Fault: off-board");
    saved(&bench, "--border 1/4", "Fault: narrow-border");
    saved(&bench, "--outer 16x20 --bottom-ratio 99999:0.01", "Fault: ");
    saved(&bench, "--image 40x60 --bottom-ratio 99999:0.01 --overlap 1mm", "Fault: overlap");
}

/// A bare number takes the document's unit; with none given, the first unit typed in the same
/// command; with none at all, inches, said so. A unit on the last value covers those without.
#[test]
fn what_bare_numbers_mean() {
    #[track_caller]
    fn case(bench: &Bench, options: &str, unit: &str, outer_mm: [f64; 2], said: bool) {
        let made = bench.new_plan(options);
        assert_eq!(made.exit, 0, "{options}: {}", made.err);
        let words = "no unit was given, so lengths are in inches (use --unit mm for \
                     millimetres)";
        assert_eq!(made.out.contains(words), said, "{options}: {}", made.out);
        let figures = bench.figures("").unwrap();
        assert_eq!(figures["unit"], unit, "{options}");
        let outer = ["width_mm", "height_mm"].map(|n| figures["outer"][n].as_f64().unwrap());
        let same = outer.iter().zip(outer_mm).all(|(found, mm)| (found - mm).abs() < 1e-9);
        assert!(same, "{options}: {outer:?}");
    }
    let bench = bench("units");
    let (inches, mm) = ([406.4, 508.0], [400.0, 500.0]);
    case(&bench, "--sheet 8x10 --outer 16x20", "in", inches, true);
    case(&bench, "--sheet 8x10in --outer 16x20", "in", inches, false);
    case(&bench, "--sheet 8x10 --outer 16x20\"\"", "in", inches, true);
    case(&bench, "--sheet 8x10 --outer 16x20 --unit in", "in", inches, false);
    case(&bench, "--sheet 200x300mm --outer 400x500", "mm", mm, false);
    case(&bench, "--outer 400x500 --sheet 200x300mm", "mm", mm, false);
    case(&bench, "--sheet 20x30cm --outer 400x500", "mm", mm, false);
    case(&bench, "--sheet 200x300 --outer 400x500 --unit mm", "mm", mm, false);
    case(&bench, "--sheet 20x30cm --outer 16x20in", "mm", inches, false);
    case(&bench, "--sheet 20x30cm --outer 40x50cm", "mm", mm, false);
    case(&bench, "--sheet 8x10in --outer 400x500mm", "in", mm, false);
    case(&bench, "--sheet 20x30cm --outer 16x20 --unit in", "in", inches, false);
    case(&bench, "--unit mm --sheet 8x10in --outer 400x500", "mm", mm, false);
    case(&bench, "--sheet 8x10in --outer 16inx500mm", "in", [406.4, 500.0], false);
    case(&bench, "--sheet 8x10 --outer \"1' 4x1' 8\"", "in", inches, false);
    case(&bench, "--sheet 8x10 --outer \"12 + 4x2 * 10in\"", "in", inches, false);
    // A ratio and a ruler have no unit.
    case(
        &bench,
        "--bottom-ratio 6:5 --sheet 8x10 --outer 16x20 --ruler 32",
        "in",
        inches,
        true,
    );
}

/// In lists a comma parts and decimals use a point; a unit on the last value covers those
/// without; a value may start with a minus.
#[test]
fn lists_and_signs() {
    let bench = bench("lists");
    let opening = |options: &str| {
        let figures = bench.figures_of(options).unwrap_or_else(|w| panic!("{options}: {w}"));
        figures["openings"][0].clone()
    };
    let common = "--sheet 8x10in --outer 16x20";
    for (reveal, wanted) in [
        ("-1/8", "-1/8, -1/8, -1/8, -1/8"),
        ("-1/8,0,1/4,.5", "-1/8, 0, 1/4, 1/2"),
        ("\"-1/8, 0, 1/4, 0.5in\"", "-1/8, 0, 1/4, 1/2"),
        ("-12.7,0,25.4,12.7mm", "-1/2, 0, 1, 1/2"),
        ("-12.7mm,0,1,1in", "-1/2, 0, 1, 1"),
    ] {
        let found = opening(&format!("{common} --reveal {reveal}"));
        assert_eq!(four(&found["reveal"]), wanted, "{reveal}");
        let joined = opening(&format!("{common} --reveal={reveal}"));
        assert_eq!(four(&joined["reveal"]), wanted, "--reveal={reveal}");
    }
    let image = opening(&format!("{common} --image \"6 1/2x7 5/8in\" --image-at -1/4,50.8mm"));
    assert_eq!(size(&image["image"]), "6 1/2, 7 5/8");
    let place = |what: &str, side: &str| image[what][format!("{side}_mm")].as_f64().unwrap();
    let (left, top) = (
        place("image", "left") - place("sheet", "left"),
        place("image", "top") - place("sheet", "top"),
    );
    assert!((left + 0.25).abs() < 1e-9 && (top - 50.8).abs() < 1e-9, "{left}, {top}");
    let undermats = opening(&format!("{common} --undermat 1/8,1/4,3/8in --thickness .03in"));
    let offsets = undermats["layers"].as_array().unwrap().iter().skip(1);
    let offsets: Vec<_> = offsets.map(|l| texts(&l["offset"], &["left"], Unit::Inch)).collect();
    assert_eq!(offsets, ["1/8", "1/4", "3/8"]);
    assert!(
        undermats["layers"]
            .as_array()
            .unwrap()
            .iter()
            .all(|l| l["thickness_text"] == "0.03 in")
    );
}
