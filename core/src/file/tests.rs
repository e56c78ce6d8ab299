use super::*;
use crate::geometry::Size;
use crate::length::Length;
use crate::sample::{reference, size};
use crate::spec::{BoardBy, Placement, Weight};

const NAME: &str = "slack-water.jpg.sightedge.ron";

/// The reference piece's text with `old` replaced once by `new`.
#[track_caller]
fn changed(old: &str, new: &str) -> String {
    let text = write(&reference());
    assert!(text.contains(old), "{old} is not in {text}");
    text.replacen(old, new, 1)
}

#[track_caller]
fn refused(text: &str) -> String {
    read(text, NAME).map_err(|error| error.to_string()).expect_err(text)
}

/// Replaced so, it is refused at that place with those words.
#[track_caller]
fn case(old: &str, new: &str, at: &str, words: &str) {
    let error = refused(&changed(old, new));
    let error = error.strip_prefix(NAME).expect("the file's name first");
    let (place, said) = error.split_once(": ").expect("a place, then words");
    assert_eq!(place.trim_start_matches(", "), at, "{error}");
    assert!(said.starts_with(words), "{said:?} should start with {words:?}");
    assert!(said.contains(". Correct it in a text editor"), "no remedy: {said}");
}

#[test]
fn refusals_have_place_found_wanted_and_remedy() {
    case(
        "\"13 in x 19 in\"",
        "\"13 in x 0 in\"",
        "line 20, column 21",
        "\"13 in x 0 in\" is not a size: both sides must be above zero",
    );
    case(
        "\"13 in x 19 in\"",
        "\"13 in\"",
        "line 20, column 21",
        "\"13 in\" is not a size: give a width and a height with x between them",
    );
    case(
        "left: \"1 in\"",
        "left: \"1\"",
        "line 23, column 24",
        "\"1\" has no unit: give it one, as in 13 1/2 in or 343 mm",
    );
    case(
        "left: \"1 in\"",
        "left: \"1 furlong\"",
        "line 23, column 24",
        "\"1 furlong\" is not a length: try 13 1/2, 13.5 in or 343 mm",
    );
    case("left: \"1 in\"", "left: \"2 km\"", "line 23, column 24", "\"2 km\" is not a length");
    case(
        "left: \"1 in\"",
        "left: \"2000 m\"",
        "line 23, column 24",
        "\"2000 m\" is too long: lengths go up to 1 km",
    );
    case("left: \"1 in\"", "left: 1", "line 23, column 22", "this needs text in quotes");
    case(
        "exhibition: false",
        "exibition: false",
        "line 98, column 17",
        "there is no field \"exibition\": use board_by, layers, openings, cut, backing, \
         exhibition, limits, notes, assembly or planned",
    );
    case(
        "exhibition: false",
        "exhibition: \"no\"",
        "line 98, column 28",
        "this needs true or false",
    );
    case(
        "notes: \"\",",
        "",
        "line 101, column 13",
        "the field \"notes\" is missing before this bracket: add it",
    );
    case(
        "notes: \"\",",
        "notes: \"\", notes: \"\",",
        "line 100, column 28",
        "the field \"notes\" is there twice: remove one of them",
    );
}

#[test]
fn refusals_of_words_and_numbers() {
    case(
        "unit: inch",
        "unit: cubit",
        "line 5, column 11",
        "\"cubit\" is not known: use inch or millimetre",
    );
    case("\"0.06 in\"", "\"0 in\"", "line 46, column 41", "\"0 in\" is not a thickness");
    case(
        "\"#f6f5f1\"",
        "\"white\"",
        "line 45, column 38",
        "\"white\" is not a colour: try #f4f1ea",
    );
    case(
        "cotton-buffered",
        "fine",
        "line 47, column 37",
        "\"fine\" is not a grade: use one of cotton-",
    );
    case(
        "45 degrees",
        "29.9 degrees",
        "line 49, column 38",
        "\"29.9 degrees\" is not a bevel's angle",
    );
    case(
        "45 degrees",
        "45",
        "line 49, column 38",
        "\"45\" is not a bevel's angle: give 30 to 89",
    );
    case(
        &"0".repeat(64),
        "abc",
        "line 16, column 26",
        "\"abc\" is not a SHA-256: it needs 64 digits",
    );
    case("id: \"sample\"", "id: \"\"", "line 4, column 10", "\"\" is not a plan's id");
    case(
        "width_px: 2200",
        "width_px: 0",
        "line 17, column 27",
        "0 is out of range: use a whole",
    );
    case("chosen: 1", "chosen: -1", "line 104, column 14", "this number is out of range");
    case("log: []", "log: [", "line 105, column 11", "this needs fields");
}

#[test]
fn parts_that_do_not_fit_each_other_are_refused() {
    case(
        "chosen: 1",
        "chosen: 3",
        "",
        "the chosen mat is 3, which is not in the plan: use one of its mats (1)",
    );
    case(
        "work: 1",
        "work: 7",
        "mat 1, opening 1",
        "it shows work 7, which is not in the plan: use one of its works (1)",
    );
    case(
        "layer: 2",
        "layer: 9",
        "mat 1, opening 1",
        "an offset is for layer 9, which is not in the mat: use one of its layers (1, 2)",
    );
    case("parts: 16", "parts: 10", "ruler", "no ruler has 10 parts of 1 in: use one of 8, 16");

    let mut document = reference();
    let mat = &mut document.variants[0].mat;
    mat.layers[1].id = mat.layers[0].id;
    let error = refused(&write(&document));
    assert!(error.contains(", mat 1: two layers have the id 1: change one of"), "{error}");

    for count in [0, 5] {
        let mut document = reference();
        let mat = &mut document.variants[0].mat;
        let layer = mat.layers[0].clone();
        mat.layers = vec![layer; count];
        let error = refused(&write(&document));
        let words = format!(", mat 1: the mat has {count} layers: use 1 to 4");
        assert!(error.contains(&words), "{error}");
    }

    let mut document = reference();
    document.variants[0].mat.board_by = BoardBy::Outer {
        size: size("20x24"),
        placement: Placement::BottomRatio(Weight { bottom: 0, top: 0 }),
    };
    let error = refused(&write(&document));
    assert!(error.contains(", mat 1, placement: bottom to top is 0 : 0"), "{error}");

    let mut document = reference();
    document.works.push(document.works[0].clone());
    let error = refused(&write(&document));
    assert!(error.contains(": two works have the id 1: change one of them"), "{error}");
}

#[test]
fn a_file_that_is_no_plan_of_this_version() {
    let newer = "// x\n(version: 6, whatever: { [it, holds] : 'c' }, #";
    assert_eq!(
        refused(newer),
        "slack-water.jpg.sightedge.ron: it was saved in version 6 of the plan's format, and \
         this program reads up to version 5. Open it with a newer Sightedge; nothing in it \
         was changed"
    );
    assert_eq!(refused(&changed("version: 5", "version: 77")).matches("version 77").count(), 1);
    for version in 1..=4 {
        assert_eq!(
            refused(&changed("version: 5", &format!("version: {version}"))),
            format!(
                "slack-water.jpg.sightedge.ron was saved by version {version} of the plan's \
                 format, which was never released; this program reads version 5. Move the file \
                 aside and make the plan again from its picture (sightedge new); any text \
                 editor shows the old figures. Nothing in it was changed"
            )
        );
    }
    let no_version = "slack-water.jpg.sightedge.ron: it has no version, so it is not a plan \
                      (a plan has one, as in version: 5). Choose a file that ends in \
                      .sightedge.ron, or open the backup beside it (.bak)";
    assert_eq!(refused("()"), no_version);
    assert_eq!(refused("(boards: [])"), no_version);
    assert_eq!(refused(&changed("version: 5", "version: 0")), no_version);
    assert!(refused("").contains("line 1, column 1: "), "{}", refused(""));
    assert!(refused("\u{ff}\u{d8}").contains("line 1, column 1: "), "{}", refused("\u{ff}"));

    let long = refused(&" ".repeat(MOST_BYTES + 1));
    assert!(long.contains("this file is larger than any plan (1024 KiB at most)"), "{long}");
    let binary =
        read_versioned_bytes(b"(version: \xff", NAME).map_err(|error| error.to_string());
    assert!(binary.as_ref().is_err_and(|e| e.contains("byte 10 is not UTF-8")), "{binary:?}");
}

#[test]
fn nesting_is_bounded() {
    for (open, close) in [("[", "]"), ("(", ")"), ("{1:", "}"), ("Some(", ")")] {
        for depth in [60, 1000, 100_000] {
            let text =
                format!("(deep: {}{}, version: 5)", open.repeat(depth), close.repeat(depth));
            assert!(read(&text, NAME).is_err(), "{depth} of {open}");
        }
    }
    let deep = refused(&format!("(deep: {}{})", "[".repeat(60), "]".repeat(60)));
    assert!(deep.contains("brackets are nested deeper here than in any plan"), "{deep}");
}

#[test]
fn what_editors_do_to_a_text_changes_nothing() {
    let text = write(&reference());
    assert_eq!(read(&text, NAME).as_ref(), Ok(&reference()));
    let marked = format!("\u{feff}{}", text.replace('\n', "\r\n"));
    assert_eq!(read(&marked, NAME).as_ref(), Ok(&reference()));
}

#[test]
fn words_are_written_as_people_write_them() {
    let mut document = reference();
    document.variants[0].mat.notes = "Ärmel's \"best\" \\ it\n\\'".to_owned();
    let text = write(&document);
    assert!(text.contains(r#"notes: "Ärmel's \"best\" \\ it\n\\'","#), "{text}");
    assert_eq!(read(&text, NAME), Ok(document));
}

#[test]
fn a_length_is_written_in_the_unit_that_has_a_short_text_for_it() {
    let mut document = reference();
    document.works[0].sheet = Size::new(Length::mm(329), Length::from_units(1));
    let text = write(&document);
    assert!(text.contains("sheet: \"329 mm x 0.000000055 in\""), "{text}");
    assert_eq!(read(&text, NAME), Ok(document));
}

/// What was cut names a window that is there, once.
#[test]
fn what_was_cut_is_in_the_mat() {
    let mut document = reference();
    let as_cut = crate::spec::AsCut {
        sight: size("12x16"),
        borders: crate::sample::sides("4 1/2,4 3/16,5 1/2,3 13/16"),
    };
    let mat = &mut document.variants[0].mat;
    mat.openings[0].cut.insert(crate::spec::LayerId(1), as_cut);
    let text = write(&document);
    assert_eq!(read(&text, NAME).as_ref(), Ok(&document));
    let (head, cut) = text.split_once("cut: [").unwrap();
    let mended = |old: &str, new: &str| format!("{head}cut: [{}", cut.replacen(old, new, 1));
    for (old, new, wanted) in [
        ("layer: 1", "layer: 9", "mat 1: a window that was cut is in layer 9, which is not"),
        (
            "opening: 1",
            "opening: 9",
            "is in opening 9, which is not in the mat: use one of its",
        ),
    ] {
        let error = refused(&mended(old, new));
        assert!(error.contains(wanted), "{error}");
    }
    let (one, rest) = cut.split_once("),").unwrap();
    let error = refused(&format!("{head}cut: [{one}),{one}),{rest}"));
    assert!(error.contains("layer 1 in opening 1 is there twice as cut"), "{error}");
}

/// Where weights go with the unit nothing is written of them, and plans from before mean that.
#[test]
fn weights_are_kept_where_they_are_set_apart() {
    use crate::weight::Weights;
    assert!(!write(&reference()).contains("weights"));
    for (weights, word) in [(Weights::Grams, "weights: g,"), (Weights::Pounds, "weights: lb,")]
    {
        let document = Document { weights: Some(weights), ..reference() };
        let text = write(&document);
        assert!(text.contains(word), "{text}");
        assert_eq!(read(&text, NAME), Ok(document));
    }
    let stones = write(&reference()).replacen("ruler:", "weights: st, ruler:", 1);
    let words = "\"st\" is not known: use lb or g";
    assert!(refused(&stones).contains(words), "{}", refused(&stones));
}

/// Which print is at the bench, and what was ticked of it, are kept; a plan without them is
/// written as it was.
#[test]
fn the_print_and_its_ticks_are_kept() {
    use crate::catalogue::{Kind, Notation};
    use crate::spec::{Entry, EntryKind, Inscribed, Lettering, PrintRef, Recorded, Ticked};
    let plain = write(&reference());
    assert!(!plain.contains("print:") && !plain.contains("step:"), "{plain}");
    let notation = Notation { kind: Kind::Numbered, number: 3, of: 25 };
    let recorded = Recorded { notation: Some(notation), print: Some(7), ..Recorded::default() };
    let mut document = reference();
    document.inscribed = Some(Inscribed { lettering: Lettering::default(), recorded });
    let entry = |print| Entry {
        when: "2026-03-02".to_owned(),
        kind: EntryKind::Tick,
        text: "1/cut".to_owned(),
        ticked: Some(Ticked { print, step: vec!["Cut the mat".to_owned()] }),
    };
    document.log = [None, Some(PrintRef::Recorded(7)), Some(PrintRef::Numbered(notation))]
        .map(entry)
        .to_vec();
    let text = write(&document);
    assert_eq!(read(&text, NAME), Ok(document));
    let wrong = refused(&text.replacen("kind: tick", "kind: choice", 1));
    assert!(
        wrong.contains("the entry \"1/cut\" of the log names a print or a step"),
        "{wrong}"
    );
    let wrong = refused(&text.replacen(
        "number: \"3/25\",\n            step",
        "print: 7,\n            number: \"3/25\",\n            step",
        1,
    ));
    assert!(wrong.contains("a tick of the log names both print 7 and a number"), "{wrong}");
    let wrong = refused(&plain.replacen("log: ", "print: 7,\n    log: ", 1));
    assert!(
        wrong.contains("print 7 is at the bench, but the plan has no inscription"),
        "{wrong}"
    );
}

mod older;
