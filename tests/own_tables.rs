//! A person's own tables, through every command that reads them, and what a plan keeps of them.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::process::Command;

use serde_json::Value;
use sightedge_tests::commands::{Bench, Said};

const INCH: f64 = 25.4;
const PLAN: &str = Bench::PLAN;

/// Rows of each table, some in the place of the program's, some new.
const OWN: &str = r##"(
    stock: [(name: "giant", size: "80x100in", origin: "measured")],
    outer: [(name: "house square", size: "13x13in", origin: "measured")],
    boards: [
        (id: "cotton-4-white", name: "White cotton, 4-ply", colour: "#f6f5f1",
            thickness: ".064in", grade: "cotton-buffered", ply: Some(4), mass_gsm: Some(1000),
            sheets: Some("26x40in"), price: Some("14.50"), origin: Some("measured")),
    ],
    papers: [(id: "house", name: "House paper", fibre: "cotton", process: "silver",
        mass_gsm: Some(400), thickness: Some("0.5mm"), white: None, along: Some("0.001"),
        across: Some("0.002"), water_based: true, pencil: true, origin: "measured")],
    tissues: [(id: "own-tissue", name: "House tissue", width: None,
        tensile_n_per_m: Some(900), shear_pa: Some(30000), reversible: true,
        pressure_sensitive: false, origin: "measured")],
    glazing: [(id: "acrylic-3", name: "House acrylic", thickness: "3mm", density_kg_m3: 1200,
        glass: false, origin: "measured")],
    fillers: [(id: "foam-5", name: "House filler", thickness: "4mm", mass_gsm: 700,
        origin: "measured")],
    frames: [
        (id: "ash", name: "Ash", rabbet_depth: Some("9mm"), lip: "7mm", face: "22mm",
            mass_g_per_m: 500, origin: "measured"),
        (id: "ash-deep", name: "Ash, deep", rabbet_depth: Some("30mm"), lip: "7mm",
            face: "22mm", mass_g_per_m: 700, origin: "measured"),
    ],
    steps: [
        (id: "clear", title: "Sweep twice", text: "For {outer}.", cautions: [], when: ""),
        (id: "dust", title: "Dust", text: "", cautions: [], when: "never"),
    ],
    steps_order: ["clear", "inscribe", "cut"],
)"##;

/// The same rows with other figures: what a person typed since the plan was made.
const SINCE: [(&str, &str); 12] = [
    (".064in", ".125in"),
    ("mass_gsm: Some(1000)", "mass_gsm: Some(9)"),
    ("mass_gsm: Some(400)", "mass_gsm: Some(90)"),
    ("thickness: Some(\"0.5mm\")", "thickness: Some(\"2mm\")"),
    ("0.002", "0.03"),
    ("tensile_n_per_m: Some(900)", "tensile_n_per_m: Some(90000)"),
    ("shear_pa: Some(30000)", "shear_pa: Some(3)"),
    ("thickness: \"3mm\", density_kg_m3: 1200", "thickness: \"6mm\", density_kg_m3: 2500"),
    ("thickness: \"4mm\", mass_gsm: 700", "thickness: \"9mm\", mass_gsm: 7000"),
    (
        "lip: \"7mm\", face: \"22mm\",\n            mass_g_per_m: 500",
        "lip: \"2mm\", face: \"60mm\",\n            mass_g_per_m: 5",
    ),
    ("rabbet_depth: Some(\"9mm\")", "rabbet_depth: Some(\"90mm\")"),
    ("13x13in", "11x11in"),
];

const OPTIONS: &str =
    "--sheet 9x9in --paper house --grain width --tissue own-tissue --frame ash";

fn bench(name: &str, own: &str) -> Bench {
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("tables-{name}")).unwrap();
    bench.put("materials.ron", own.as_bytes()).unwrap();
    bench
}

fn json(bench: &Bench, command: &str) -> Value {
    bench.json(&format!("{command} @{PLAN} --json")).unwrap()
}

#[track_caller]
fn near(value: &Value, wanted: f64) {
    let found = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!((found - wanted).abs() <= 1e-6, "{found} against {wanted}");
}

#[track_caller]
fn layer<'a>(packed: &'a Value, part: &str) -> &'a Value {
    let layers = packed["layers"].as_array().unwrap();
    layers.iter().find(|layer| layer["part"] == part).unwrap()
}

/// `new` begins with the person's own rows; `package`, `hinges`, `check` and `steps` tell of
/// them.
#[test]
fn a_plan_is_made_from_ones_own_rows() {
    let bench = bench("made", OWN);
    let said = bench.new_plan(OPTIONS);
    assert_eq!(said.exit, 0, "{said:?}");
    let packed = json(&bench, "package");
    near(&packed["contents"]["width_mm"], 13.0 * INCH);
    let thickness = |part| &layer(&packed, part)["thickness_mm"];
    near(thickness("mat"), 0.064 * INCH);
    near(thickness("sheet"), 0.5);
    near(thickness("glazing"), 3.0);
    near(thickness("filler"), 4.0);
    let square = |side: f64| (side * INCH / 1000.0).powi(2);
    near(&layer(&packed, "backing")["mass_g"], 1000.0 * square(13.0));
    near(&layer(&packed, "glazing")["mass_g"], 1200.0 * 3.0 * square(13.0));
    near(&layer(&packed, "filler")["mass_g"], 700.0 * square(13.0));
    let hinges = json(&bench, "hinges");
    // 9 in across the grain, 0.002 % for each of 10 %.
    let moved = &hinges["movement"]["dry"]["moved"];
    near(&moved["bottom_mm"], -9.0 * INCH * 0.002 / 100.0 * 10.0);
    near(&hinges["sheet_g"], 400.0 * square(9.0));
    // The way out of a rabbet that is not deep enough is the person's own deeper frame.
    let check = bench.run(&format!("check @{PLAN}"));
    assert!(check.out.contains("package-depth"), "{check:?}");
    assert!(check.out.contains("Use the frame “Ash, deep”"), "{check:?}");
    // No sheet of the program takes it, the person's own does.
    let said = bench.new_plan("--sheet 20x24in --outer 60x70in");
    assert!(!said.out.contains("large-board"), "{said:?}");
    std::fs::remove_file(bench.path("materials.ron")).unwrap();
    let check = bench.run(&format!("check @{PLAN}"));
    assert!(check.out.contains("large-board"), "{check:?}");
}

/// What is computed from is what the plan kept, not what the tables say today, for the rows
/// that were named and for those that were taken because nothing was said.
#[test]
fn a_plan_is_computed_from_what_it_kept() {
    let bench = bench("kept", OWN);
    assert_eq!(bench.new_plan(OPTIONS).exit, 0);
    let all = || ["figures", "hinges", "package"].map(|command| json(&bench, command));
    let before = all();
    let mut since = OWN.to_owned();
    for (old, new) in SINCE {
        assert!(since.contains(old), "{old}");
        since = since.replace(old, new);
    }
    bench.put("materials.ron", since.as_bytes()).unwrap();
    assert_eq!(all(), before, "other figures in the tables");
    std::fs::remove_file(bench.path("materials.ron")).unwrap();
    assert_eq!(all(), before, "no tables of one's own");
    // A plan that is made anew takes the new ones.
    bench.put("materials.ron", since.as_bytes()).unwrap();
    assert_eq!(bench.new_plan(OPTIONS).exit, 0);
    assert_ne!(all()[2]["depth_mm"], before[2]["depth_mm"]);
}

/// A person's own order and words of the steps, alike in the command and on paper.
#[test]
fn ones_own_steps_in_the_verb_and_on_paper() {
    let bench = bench("steps", OWN);
    assert_eq!(bench.new_plan("--sheet 9x9in").exit, 0);
    let told = json(&bench, "steps");
    let steps = told["steps"].as_array().unwrap();
    let titles: Vec<&str> = steps.iter().map(|step| step["title"].as_str().unwrap()).collect();
    assert_eq!(titles[..3], ["Sweep twice", "Inscribe the back", "Cut the mat"]);
    assert_eq!(steps[0]["text"], "For 13 in × 13 in.");
    assert!(steps.iter().all(|step| step["id"] != "dust"), "left out");
    // Weights before the bag: the piece lies flat until it is dry.
    let at = |id: &str| steps.iter().position(|step| step["id"] == id).unwrap();
    assert!(at("sign") < at("weights") && at("weights") < at("bag"));
    let said = bench.run(&format!("printouts @{PLAN} --steps --date 2026-03-01 --out @out"));
    assert_eq!(said.exit, 0, "{said:?}");
    let written = said.out.lines().find_map(|line| line.strip_prefix("written ")).unwrap();
    let Ok(text) = Command::new("pdftotext").args([written, "-"]).output() else {
        assert!(std::env::var_os("CI").is_none(), "pdftotext is wanted");
        println!("not run: pdftotext is not here");
        return;
    };
    let text = String::from_utf8_lossy(&text.stdout).into_owned();
    let mut from = 0;
    for title in titles {
        let at = text[from..].find(title);
        from += at.unwrap_or_else(|| panic!("{title} is not next in {text}"));
    }
    assert!(!text.contains("Raking light"), "{text}");
}

/// `cut` takes the sheets that a person's own row names for a board, with their price.
#[test]
fn sheets_and_prices_of_ones_own_are_cut_from() {
    let bench = bench("cut", OWN);
    assert_eq!(bench.new_plan("--sheet 8x10in --outer 12x18").exit, 0);
    let cut = || bench.json(&format!("cut @{PLAN} --seconds 1 --json")).unwrap();
    let told = cut();
    let board = &told["boards"][0];
    assert_eq!(board["cost_is"], "price in hundredths", "{board}");
    // 12 × 18 in twice, the mat and its backing, go into one sheet of 26 × 40 in.
    assert_eq!((&board["plan"]["sheets"], &board["plan"]["cost"]), (&1.into(), &1450.into()));
    let stock = board["plan"].to_string();
    assert!(stock.contains("26 × 40 in"), "{stock}");
    std::fs::remove_file(bench.path("materials.ron")).unwrap();
    let told = cut();
    assert_eq!(told["boards"][0]["cost_is"], "square centimetres");
}

/// The row and the field are said once, and what to do.
#[track_caller]
fn named(said: &Said, words: &str) {
    assert!(said.err.contains(words), "{said:?}");
    assert!(said.err.contains("Nothing of it is used until that is mended"), "{said:?}");
    assert_eq!(said.err.matches(words).count(), 1, "said once: {said:?}");
}

/// Tables that cannot be read: each command that reads them says which row and field; nothing is
/// begun without them, and what there is can still be looked at.
#[test]
fn every_verb_says_which_row_is_wrong() {
    let bench = bench("wrong", "()");
    assert_eq!(bench.new_plan("--sheet 10x10in --image 8x8 --outer 14x14in").exit, 0);
    let studio = "--record @studio";
    let new = format!("edition new @{PLAN} --title Ebb --maker Brook --size 5 {studio}");
    assert_eq!(bench.run(&new).exit, 0);
    assert_eq!(bench.run(&format!("edition issue W0001 @{PLAN} {studio}")).exit, 0);
    let wrong = OWN.replace("density_kg_m3: 1200", "density_kg_m3: 0");
    bench.put("materials.ron", wrong.as_bytes()).unwrap();
    let words = "materials.ron: acrylic-3, density_kg_m3: 0 is out of range";
    let said = bench.run(&format!("new @{} --replace --sheet 10x10in", Bench::PICTURE));
    assert_eq!(said.exit, 3, "{said:?}");
    named(&said, words);
    for line in [
        "figures @PLAN".to_owned(),
        "check @PLAN".to_owned(),
        "check @PLAN @PLAN".to_owned(),
        "hinges @PLAN".to_owned(),
        "package @PLAN".to_owned(),
        "steps @PLAN".to_owned(),
        "picture @PLAN --out @matted.png --width 64".to_owned(),
        "printouts @PLAN --steps --out @out".to_owned(),
        "cut @PLAN --seconds 1".to_owned(),
        format!("edition inscribe W0001 1/5 @PLAN {studio}"),
        "as-cut @PLAN --window 7x7 --left 3 --top 3 --outer 14x14".to_owned(),
    ] {
        let said = bench.run(&line.replace("@PLAN", &format!("@{PLAN}")));
        assert!(said.exit < 3, "{line}: {said:?}");
        assert!(!said.out.is_empty(), "{line}: {said:?}");
        named(&said, words);
    }
    // A preview reads no plan, so no tables.
    let line = format!("preview @{} --out @small.png --size 16", Bench::PICTURE);
    assert!(!bench.run(&line).err.contains("materials.ron"));
}

/// Source: common practice: everything follows from what was cut; here the top mat, its undermat
/// still to be cut.
#[test]
fn a_miscut_top_mat_moves_its_undermat() {
    let bench = bench("as-cut", "()");
    let options = "--sheet 13x19in --image 11x15 --outer 20x26 --reveal 1/4 --undermat 3/16";
    assert_eq!(bench.new_plan(options).exit, 0);
    let steps = || -> Vec<String> {
        let told = json(&bench, "steps");
        let steps = told["steps"].as_array().unwrap();
        steps.iter().map(|step| step["text"].as_str().unwrap().to_owned()).collect()
    };
    let before = steps();
    // Its window, 11 7/8 × 15 7/8 in, came out 1/8 in wider at the right.
    let line = format!(
        "as-cut @{PLAN} --layer 1 --window 12x\"15 7/8\" --left \"4 1/16\" --top \"5 1/16\""
    );
    let said = bench.run(&line);
    assert!(said.exit < 2 && said.out.contains("saved"), "{said:?}");
    let after = steps();
    assert_eq!(after.len() + 1, before.len(), "the undermat alone is still to be cut");
    let [clear, _, cut, ..] = before.as_slice() else { panic!("{before:?}") };
    assert!(cut.starts_with("Board 20 in") && after.contains(clear) && !after.contains(cut));
    let undermat = "Cut already: the top mat (window 12 in × 15 7/8 in, as measured). For each \
                 undermat in turn: put the drop-out";
    assert!(after.iter().any(|step| step.starts_with(undermat)), "{after:?}");
    let figures = json(&bench, "figures");
    let undermat = &figures["openings"][0]["layers"][1];
    near(&undermat["offset"]["left_mm"], 0.25 * INCH);
    near(&undermat["offset"]["top_mm"], 3.0 / 16.0 * INCH);
    near(&undermat["sight"]["width_mm"], 11.5 * INCH);
    // So small that the undermat would lie behind it: it no longer passes.
    let line = format!("as-cut @{PLAN} --layer 1 --window 11.4x15.4in --left 4.3 --top 5.3");
    let said = bench.run(&line);
    assert!(said.exit == 2 && said.out.contains("the undermat is hidden there"), "{said:?}");
    let told = bench.run(&format!("figures @{PLAN}")).out;
    assert!(told.contains("nothing: the layer above hides it"), "{told}");
    assert!(!told.contains("shows at least            -"), "{told}");
    // Measured from the back, left is the other side; to be cut again, it is planned again.
    let line = format!(
        "as-cut @{PLAN} --layer 1 --window 12x\"15 7/8\" --left 4 --top \"5 1/16\" --from back"
    );
    assert!(bench.run(&line).exit < 2);
    let top = json(&bench, "figures")["bench"]["openings"][0]["layers"][0].clone();
    assert_eq!(top["measured"], true);
    near(&top["borders"]["right_mm"], 4.0 * INCH);
    near(&top["borders"]["left_mm"], 4.0 * INCH);
    let told = bench.run(&format!("figures @{PLAN}")).out;
    assert_eq!(told.matches("cut, as measured").count(), 2, "in both sets: {told}");
    assert!(bench.run(&format!("as-cut @{PLAN} --layer 1 --anew")).exit < 2);
    let top = json(&bench, "figures")["openings"][0]["layers"][0].clone();
    assert_eq!(top["measured"], false);
    let said = bench.run(&format!("as-cut @{PLAN} --layer 3 --window 9x9 --left 4 --top 4"));
    assert_eq!(said.exit, 4, "{said:?}");
    assert!(said.err.contains("1 for the top one, to 2 for the innermost"), "{said:?}");
}
