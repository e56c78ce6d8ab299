//! Several mats for one picture, through the commands.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use sightedge_tests::commands::Bench;

const PLAN: &str = "print.png.sightedge.ron";

/// A plan of the reference piece's sizes.
fn bench(name: &str) -> Bench {
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("mats-{name}")).unwrap();
    let made = bench.run(
        "new @print.png --sheet 13x19in --image 11x15 --outer 20x26 --reveal 1/4 --undermat 3/16 \
         --bottom-extra 1",
    );
    assert_eq!(made.exit, 0, "{made:?}");
    bench
}

#[track_caller]
fn done(bench: &Bench, line: &str) -> String {
    let said = bench.run(&format!("mats @{PLAN} {line}"));
    assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}: {said:?}");
    said.out
}

#[track_caller]
fn refused(bench: &Bench, line: &str, words: &str) {
    let before = std::fs::read(bench.path(PLAN)).unwrap();
    let said = bench.run(&format!("mats @{PLAN} {line}"));
    assert_eq!(said.exit, 4, "{line}: {said:?}");
    assert!(said.err.contains(words), "{line}: {said:?}");
    assert_eq!(std::fs::read(bench.path(PLAN)).unwrap(), before, "{line} changed the plan");
}

#[test]
fn mats_are_copied_renamed_chosen_and_removed() {
    let bench = bench("job");
    done(&bench, "copy First Wide");
    done(&bench, "add Plain");
    let listed = bench.json(&format!("mats @{PLAN} list --json")).unwrap();
    let names = |listed: &serde_json::Value| -> Vec<String> {
        let mats = listed["mats"].as_array().unwrap();
        mats.iter().map(|mat| mat["name"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(names(&listed), ["First", "Wide", "Plain"]);
    assert_eq!(listed["choice"], serde_json::Value::Null);
    assert_eq!(listed["mats"][1]["differs"], serde_json::json!([]), "a copy is the same mat");
    assert!(!listed["mats"][2]["differs"].as_array().unwrap().is_empty());

    done(&bench, "choose Wide --words \"The calm one\" --date 2026-03-01");
    done(&bench, "rename Wide Calm");
    let list = done(&bench, "list");
    assert!(list.contains("Calm: mat 20 × 26 in"), "{list}");
    assert!(list.contains(", chosen 2026-03-01: “The calm one”"), "{list}");
    let figures = bench.run(&format!("figures @{PLAN} --json")).out;
    let calm = bench.run(&format!("figures @{PLAN} --mat Calm --json")).out;
    assert_eq!(figures, calm, "the chosen mat is the one that is made");

    done(&bench, "remove Calm");
    let listed = bench.json(&format!("mats @{PLAN} list --json")).unwrap();
    assert_eq!(names(&listed), ["First", "Plain"]);
    assert_eq!(listed["choice"], serde_json::Value::Null);
    assert_eq!(listed["mats"][1]["chosen"], serde_json::json!(true));
}

/// What is cut of a mat is not cut of its copy, which follows what was planned.
#[test]
fn nothing_is_cut_of_a_copy() {
    let bench = bench("cut");
    let planned = bench.run(&format!("figures @{PLAN} --json")).out;
    let cut = bench.run(&format!(
        "as-cut @{PLAN} --window \"11 15/16x15 7/8in\" --left 4 --top 4 --layer 1"
    ));
    assert!(cut.exit < 3, "{cut:?}");
    done(&bench, "copy First Again");
    let copied = bench.run(&format!("figures @{PLAN} --mat Again --json")).out;
    assert_eq!(copied, planned);
}

#[test]
fn what_cannot_be_done_is_refused() {
    let bench = bench("refused");
    refused(&bench, "remove First", "this is the plan's only mat: add another one first");
    done(&bench, "copy First Wide");
    refused(&bench, "add wide", "another mat of this plan has that name");
    refused(&bench, "rename Wide \"  \"", "the mat has no name");
    refused(&bench, "choose Narrow", "there is no mat \"Narrow\" in");
    refused(&bench, "copy Narrow X", "it has First, Wide");
    refused(
        &bench,
        "copy First",
        "copy takes the mat to copy and the copy's name, and one was given",
    );
    refused(&bench, "swap First Wide", "use one of list, add, copy, rename, remove, choose");
    refused(&bench, "list --words Calm", "--words and --date go with choose");
}

/// All mats side by side in one picture.
#[test]
fn mats_side_by_side_in_a_picture() {
    let bench = bench("picture");
    done(&bench, "copy First Wide");
    let one = bench.run(&format!("picture @{PLAN} --out @one.png --width 400"));
    let all = bench.run(&format!("picture @{PLAN} --mats all --out @all.png --width 700"));
    assert_eq!((one.exit, all.exit), (0, 0), "{one:?} {all:?}");
    let size = |name: &str| {
        let bytes = std::fs::read(bench.path(name)).unwrap();
        let number = |at: usize| u32::from_be_bytes(bytes[at..at + 4].try_into().unwrap());
        (number(16), number(20))
    };
    let ((one_w, one_h), (all_w, all_h)) = (size("one.png"), size("all.png"));
    assert_eq!((one_w, all_w), (400, 700));
    assert!(all_h < one_h, "two beside each other are wider than one: {all_h} {one_h}");
    let odd = bench.run(&format!("picture @{PLAN} --mats two --out @all.png"));
    assert_eq!(odd.exit, 4, "{odd:?}");
    assert!(odd.err.contains("--mats two is not known: give --mats all"), "{odd:?}");
}
