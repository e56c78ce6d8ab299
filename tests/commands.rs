//! How every command ends: exit codes, what lies on the disk afterwards.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test fails by panicking and says what it could not run"
)]

use std::fs::{self, File};
use std::process::{Command, Stdio};

use serde_json::Value;
use sightedge_tests::commands::{Bench, Said, commands, png, run};

fn bench(name: &str) -> Bench {
    Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("commands-{name}")).unwrap()
}

/// A sound plan, one with a Caution, one with a Fault, none above a Note, and some that are none.
fn plans(name: &str) -> Bench {
    let bench = bench(name);
    bench.put("fine.png", &png((2400, 3000), None, [9, 9, 9]).unwrap()).unwrap();
    bench.put("noted.png", &png((1600, 2000), None, [9, 9, 9]).unwrap()).unwrap();
    for (picture, options) in [
        ("fine.png --save @good.sightedge.ron", ""),
        ("noted.png --save @note.sightedge.ron", ""),
        ("fine.png --save @caution.sightedge.ron", "--overlap 2.5mm"),
        ("fine.png --save @fault.sightedge.ron", "--overlap 1mm"),
    ] {
        let said = bench.run(&format!("new @{picture} --sheet 8x10in --outer 16x20 {options}"));
        assert_eq!(said.exit, 0, "{said:?}");
    }
    bench.put("broken.sightedge.ron", b"(version: 5, id: 7)").unwrap();
    bench.put("newer.sightedge.ron", b"(version: 999)").unwrap();
    bench
}

#[track_caller]
fn ends(said: &Said, exit: u8, err: &str) {
    assert_eq!(said.exit, exit, "{said:?}");
    assert!(said.err.contains(err), "{said:?}");
    assert_eq!(said.err.is_empty(), err.is_empty(), "{said:?}");
}

#[test]
fn check_ends_with_the_worst() {
    let bench = plans("check");
    let check = |words: &str| {
        let plan = |word: &str| format!("@{word}.sightedge.ron");
        let plans: Vec<String> = words.split(' ').map(plan).collect();
        let list = plans.join(" ");
        let said = bench.run(&format!("check {list}"));
        assert_eq!(bench.run(&format!("check --json {list}")).exit, said.exit, "{words}");
        said
    };
    ends(&check("good"), 0, "");
    ends(&check("note"), 0, "");
    ends(&check("caution"), 1, "");
    ends(&check("fault"), 2, "");
    ends(&check("missing"), 3, "missing.sightedge.ron");
    ends(&check("broken"), 3, "broken.sightedge.ron");
    ends(&check("newer"), 3, "newer");
    ends(&check("good note"), 0, "");
    ends(&check("caution good"), 1, "");
    ends(&check("good caution fault note"), 2, "");
    ends(&check("fault caution"), 2, "");
    // What was left out counts for more than what was found; with nothing done, why.
    ends(&check("good broken"), 6, "broken");
    ends(&check("broken fault"), 6, "broken");
    ends(&check("fault missing good"), 6, "missing");
    ends(&check("broken missing"), 3, "broken");
}

/// `check`, `figures`, `hinges`, `package` and `steps` take a folder: every plan in it, the others
/// going on where one fails, and a list of values for other programs.
#[test]
fn a_folder_of_plans() {
    let bench = plans("folder");
    for folder in ["sound", "mixed", "empty", "spoilt"] {
        fs::create_dir_all(bench.path(folder)).unwrap();
    }
    let copy = |from: &str, to: &str| {
        let plan = fs::read(bench.path(&format!("{from}.sightedge.ron"))).unwrap();
        bench.put(&format!("{to}.sightedge.ron"), &plan).unwrap();
    };
    for (from, to) in [
        ("good", "sound/a"),
        ("caution", "sound/b"),
        ("caution", "mixed/a"),
        ("broken", "mixed/b"),
        ("good", "mixed/c"),
        ("broken", "spoilt/a"),
    ] {
        copy(from, to);
    }
    // A file that is no plan is no part of it.
    bench.put("sound/notes.txt", b"none").unwrap();
    for (command, field, worst) in [
        ("check", "findings", 1),
        ("figures", "bench", 0),
        ("hinges", "hinges", 0),
        ("package", "layers", 0),
        ("steps", "steps", 0),
    ] {
        let run = |rest: &str| bench.run(&format!("{command} {rest}"));
        let said = run("@sound");
        ends(&said, worst, "");
        let heads = ["a", "b"].map(|name| format!("sound/{name}.sightedge.ron\n"));
        assert!(heads.iter().all(|head| said.out.contains(head)), "{command}: {}", said.out);

        let said = run("--json @mixed");
        ends(&said, 6, "mixed/b.sightedge.ron");
        let list: Value = serde_json::from_str(&said.out).unwrap();
        let list = list.as_array().unwrap();
        assert_eq!(list.len(), 3, "{command}");
        for (one, name) in list.iter().zip(["a", "b", "c"]) {
            let plan = one["plan"].as_str().unwrap();
            assert!(plan.ends_with(&format!("mixed/{name}.sightedge.ron")), "{command} {plan}");
            assert_eq!(one.get("error").is_some(), name == "b", "{command} {name}");
        }
        let alone = bench.json(&format!("{command} --json @good.sightedge.ron")).unwrap();
        assert!(!alone[field].is_null(), "{command}: {alone}");

        // One plan in a folder is a list, too, so that a program need not ask.
        let list: Value = serde_json::from_str(&run("--json @spoilt").out).unwrap();
        assert_eq!(list.as_array().map(Vec::len), Some(1), "{command}");
        ends(&run("@spoilt"), 3, "spoilt/a.sightedge.ron");
        ends(&run("@empty"), 3, "empty has no plan in it: make one with sightedge new");
        ends(&run("@nowhere"), 3, "nowhere");
        ends(&run("@sound @good.sightedge.ron"), worst, "");
        ends(&run("@sound --mat Other"), 4, "there is no mat \"Other\"");
    }
    let one = "steps @sound --print 3/25";
    ends(&bench.run(one), 4, "--print names one print, so give one plan with it");
}

#[test]
fn a_list_for_each_of_several_plans() {
    let bench = plans("lists");
    let one = bench.json("check --json @fault.sightedge.ron").unwrap();
    assert!(one.is_object(), "{one}");
    let said = bench
        .run("check --json @good.sightedge.ron @missing.sightedge.ron @fault.sightedge.ron");
    let several: Value = serde_json::from_str(&said.out).unwrap();
    let several = several.as_array().unwrap();
    assert_eq!(several.len(), 3);
    assert_eq!(several[0]["findings"], Value::Array(Vec::new()));
    assert!(several[1]["error"].is_string() && several[1].get("findings").is_none());
    assert_eq!(several[2]["findings"], one["findings"]);
}

/// Each finding says its rule, how bad, where, how much, whose figure, and the way out.
#[test]
fn every_field_of_a_finding() {
    let bench = plans("fields");
    let found = bench.json("check --json @fault.sightedge.ron").unwrap();
    let findings = found["findings"].as_array().unwrap();
    assert_eq!(findings.len(), 4, "one a side: {found:#}");
    for (finding, side) in findings.iter().zip(["top", "right", "bottom", "left"]) {
        assert_eq!(finding["rule"], "overlap");
        assert_eq!(finding["severity"], "fault");
        assert_eq!(finding["opening"], 1);
        assert_eq!(finding["side"], side);
        assert_eq!(finding["measured_mm"], 1.0);
        assert_eq!(finding["required_mm"], 2.0);
        // In the plan's unit, as all texts are.
        assert_eq!(finding["measured_text"], "0.0394 in");
        assert_eq!(finding["source"], "common practice");
        assert_eq!(finding["remedy"], format!("Set the {side} overlap to 1/8 in"));
        assert!(finding["message"].as_str().unwrap().contains(side), "{finding}");
    }
    // What is no length has its numbers as text.
    let found = bench.json("check --json @note.sightedge.ron").unwrap();
    let finding = &found["findings"][0];
    assert_eq!(
        (&finding["rule"], &finding["severity"]),
        (&"resolution".into(), &"note".into())
    );
    assert_eq!(
        (&finding["measured_mm"], &finding["measured_text"]),
        (&Value::Null, &"200 ppi".into())
    );
}

/// Source: derived; a picture of 2400 × 3000 pixels is 8 : 10.
#[test]
fn one_side_of_the_image_gives_the_other() {
    #[track_caller]
    fn case(image: &str, said: &str, wanted: [f64; 2]) {
        let bench = bench("one-side");
        bench.put("fine.png", &png((2400, 3000), None, [9, 9, 9]).unwrap()).unwrap();
        let new = format!("new @fine.png --sheet 13x19in --outer 20x26 --image {image}");
        let told = bench.run(&new);
        assert_eq!(told.exit, 0, "{told:?}");
        assert!(told.out.contains(said), "{said} is not in {told:?}");
        let figures = bench.run("figures @fine.png --json");
        let figures: Value = serde_json::from_str(&figures.out).unwrap();
        let image = &figures["openings"][0]["image"];
        let side = |name: &str| image[name].as_f64().unwrap();
        let found = [side("width_mm"), side("height_mm")];
        let near = found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-5);
        assert!(near, "{found:?}, {wanted:?}");
    }
    let follows = "follows from the picture's proportion";
    case("8in", &format!("the image is 8 in × 10 in: its height {follows}"), [203.2, 254.0]);
    case("x10in", &format!("the image is 8 in × 10 in: its width {follows}"), [203.2, 254.0]);
    // Exactly, not on the ruler.
    case("250mm", &format!("its height {follows}"), [250.0, 312.5]);
    case("11x15in", "", [279.4, 381.0]);
}

#[test]
fn an_existing_plan_needs_replace() {
    let bench = bench("replace");
    let line = "new @print.png --sheet 8x10in --outer 16x20";
    ends(&bench.run(line), 0, "");
    let first = fs::read(bench.path(Bench::PLAN)).unwrap();
    ends(&bench.run(&format!("{line} --overlap 1/4")), 5, "add --replace to write over it");
    assert_eq!(fs::read(bench.path(Bench::PLAN)).unwrap(), first, "nothing was written");
    ends(&bench.run(&format!("{line} --overlap 1/4 --replace")), 0, "");
    assert_ne!(fs::read(bench.path(Bench::PLAN)).unwrap(), first);
    let kept = fs::read(bench.path(&format!("{}.bak", Bench::PLAN))).unwrap();
    assert_eq!(kept, first, "the old plan is kept");
}

#[test]
fn saved_elsewhere() {
    let bench = bench("save");
    fs::create_dir(bench.path("plans")).unwrap();
    let said = bench.run("new @print.png --sheet 8x10in --save @plans/own.sightedge.ron");
    ends(&said, 0, "");
    assert!(!bench.path(Bench::PLAN).exists(), "only where it was asked for");
    let plan = fs::read_to_string(bench.path("plans/own.sightedge.ron")).unwrap();
    assert!(plan.contains("path: \"../print.png\""), "{plan}");
    ends(&bench.run("figures @plans/own.sightedge.ron"), 0, "");
    ends(&bench.run("picture @plans/own.sightedge.ron --out @own.png --width 64"), 0, "");
    ends(&bench.run("new @print.png --sheet 8x10in --save @no/own.sightedge.ron"), 5, "no/own");
    ends(&bench.run("new @print.png --sheet 8x10in --save @print.png/x"), 5, "print.png/x");
}

/// No command writes over a picture, whatever it is asked.
#[test]
fn pictures_are_never_written_over() {
    let bench = bench("pictures");
    let bytes = fs::read(bench.path(Bench::PICTURE)).unwrap();
    ends(&bench.new_plan("--sheet 8x10in"), 0, "");
    fs::create_dir(bench.path("sub")).unwrap();
    for (line, words) in [
        ("new @print.png --sheet 8x10in --save @print.png", "is the picture itself"),
        ("new @print.png --sheet 8x10in --save @print.png --replace", "is the picture itself"),
        (
            "new @print.png --sheet 8x10in --save @sub/../print.png --replace",
            "is the picture itself",
        ),
        ("picture @print.png.sightedge.ron --out @print.png", "is the picture itself"),
        ("picture @print.png --out @sub/../print.png", "is the picture itself"),
        ("preview @print.png --out @print.png", "is the picture itself"),
    ] {
        let said = bench.run(line);
        assert!(said.exit >= 4 && said.err.contains(words), "{line}: {said:?}");
        assert_eq!(fs::read(bench.path(Bench::PICTURE)).unwrap(), bytes, "{line}");
    }
}

#[test]
fn what_cannot_be_read_or_written() {
    let bench = plans("trouble");
    for (line, exit, err) in [
        ("new @missing.jpg --sheet 8x10in", 3, "missing.jpg"),
        (
            "new @fault.sightedge.ron --sheet 8x10in --save @x",
            3,
            "use a JPEG, TIFF, PNG or WebP",
        ),
        ("figures @missing.sightedge.ron", 3, "missing.sightedge.ron"),
        ("figures @broken.sightedge.ron", 3, "broken.sightedge.ron"),
        ("figures @good.sightedge.ron --mat Other", 4, "it has First"),
        ("check @good.sightedge.ron --mat Other", 4, "it has First"),
        ("figures @good.sightedge.ron --ruler 5", 4, "8, 16, 32, 64 or 128 parts of an inch"),
        ("picture @good.sightedge.ron", 4, "--out is missing: the file to write"),
        ("picture @good.sightedge.ron --out @out.gif", 4, "give a name ending in .png"),
        ("picture @good.sightedge.ron --out @out.png --width 0", 4, "16 to 16384 pixels"),
        ("picture @good.sightedge.ron --out @out.png --width x", 4, "16 to 16384 pixels"),
        ("picture @good.sightedge.ron --out @no/out.png --width 64", 5, "out.png"),
        ("picture @missing.sightedge.ron --out @out.png", 3, "missing.sightedge.ron"),
        ("preview @missing.jpg --out @out.png", 3, "missing.jpg"),
        ("preview @print.png --out @no/out.png", 5, "out.png"),
        ("figures", 4, "a plan or a folder is missing: sightedge figures PLAN"),
        ("check", 4, "a plan or a folder is missing: sightedge check PLAN"),
        ("new", 4, "a picture is missing: sightedge new PICTURE"),
        ("as-cut a b", 4, "only a plan is needed, so remove \"b\""),
        ("frame @print.png", 4, "\"frame\" is neither a file nor a command"),
        ("@print.png @gone.png", 4, "gone.png\" is neither a file nor a command"),
        ("@print.png --sheet 8x10in", 4, "\"--sheet\" is neither a file nor a command"),
    ] {
        let said = bench.run(line);
        ends(&said, exit, err);
        // A preview has more to say of the picture; the trouble comes last.
        let last = said.err.trim_end().lines().last().unwrap();
        assert!(last.starts_with("sightedge: "), "{line}: {}", said.err);
    }
    // A picture that is gone: the plan still has its figures, but cannot be painted.
    fs::remove_file(bench.path("fine.png")).unwrap();
    ends(&bench.run("figures @good.sightedge.ron"), 0, "");
    ends(&bench.run("picture @good.sightedge.ron --out @out.png"), 3, "fine.png");
    assert!(!bench.path("out.png").exists(), "nothing is written in part");
}

#[test]
fn the_picture_stands_for_its_plan() {
    let bench = bench("beside");
    ends(&bench.new_plan("--sheet 8x10in"), 0, "");
    let by_plan = bench.run("figures @print.png.sightedge.ron");
    assert_eq!(bench.run("figures @print.png").out, by_plan.out);
    assert_eq!(bench.run("check @print.png").exit, 1);
}

/// The demo's pictures, upright, three times as wide as high, and square: sizes from their
/// pixels and resolution, and a matted picture of the board's proportions.
#[test]
fn the_demo_pictures() {
    let bench = bench("demo");
    let demo = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/demo");
    let standard = "is the smallest standard size";
    let own = "so the mat has a size of its own,";
    for (name, sheet, outer, exit, height) in [
        ("slack-water.jpg", "11 in × 15 in", format!("16 in × 20 in {standard}"), 0, 289),
        // 14 3/4 × 4 3/4 and 7 3/4 × 7 3/4 with 4 in, up to the half inch: no standard size
        // keeps their borders even.
        ("long-ebb.jpg", "15 in × 5 in", format!("{own} 19 in × 9 in"), 1, 133),
        ("mooring.jpg", "8 in × 8 in", format!("{own} 12 in × 12 in"), 1, 240),
    ] {
        bench.put(name, &fs::read(demo.join(name)).unwrap()).unwrap();
        let said = bench.run(&format!("new @{name}"));
        ends(&said, 0, "");
        let words = format!("so it is {sheet}, from the picture's pixels and resolution");
        assert!(said.out.contains(&words), "{}", said.out);
        assert!(said.out.contains(&outer), "{}", said.out);
        assert_eq!(bench.run(&format!("check @{name}")).exit, exit, "{name}");
        ends(&bench.run(&format!("picture @{name} --out @{name}.png --width 240")), 0, "");
        let file = File::open(bench.path(&format!("{name}.png"))).unwrap();
        let reader = png::Decoder::new(std::io::BufReader::new(file)).read_info().unwrap();
        assert_eq!((reader.info().width, reader.info().height), (240, height), "{name}");
    }
}

/// A small picture on a large sheet: the board that is taken where none is given holds the sheet.
#[test]
fn the_sheet_lies_on_the_usual_board() {
    let bench = bench("usual-board");
    for (options, outer) in [
        ("--sheet 13x19in --image 8x8in --reveal 1/2", "16 in × 20 in"),
        ("--sheet 17x22in --image 9x6in --reveal 1/4", "18 in × 24 in"),
    ] {
        let said = bench.new_plan(options);
        ends(&said, 0, "");
        let words = format!("{outer} is the smallest standard size that takes the sheet");
        assert!(said.out.contains(&words), "{}", said.out);
        let check = bench.run(&format!("check @{}", Bench::PLAN));
        assert!(!check.out.contains("crushed") && check.exit < 2, "{}", check.out);
    }
}

#[test]
fn help_of_everything() {
    let all = run(&["--help"]);
    ends(&all, 0, "");
    assert_eq!(run(&["help"]).out, all.out);
    let mut texts = vec![all.out.clone()];
    for command in commands() {
        let (last, begins) = command.typed.split_last().unwrap();
        let listed = run(&[begins, &["--help".to_owned()]].concat());
        assert!(listed.out.contains(&format!("\n  {last} ")), "{}", listed.out);
        let help = run(&[command.typed.as_slice(), &["--help".to_owned()]].concat());
        ends(&help, 0, "");
        let usage = format!("\nUsage: sightedge {} ", command.typed.join(" "));
        assert!(help.out.contains(&usage), "{}", help.out);
        texts.push(help.out);
    }
    assert!(texts.len() > 23, "{}", texts.len());
    for text in texts {
        let wide = text.lines().find(|line| line.chars().count() > 100);
        // `new` takes the mat, what lies behind it and the frame: it is read by its groups. So
        // is what takes options of a work, its size, its edition and a print.
        let heading = |line: &&str| line.ends_with(':') && !line.starts_with(' ');
        let most = if text.lines().filter(heading).count() >= 7 { 70 } else { 45 };
        assert_eq!((wide, text.lines().count() < most), (None, true), "read at one go: {text}");
    }
    ends(&run(&["--version"]), 0, "");
}

/// Exit codes as the system sees them, and a full disk behind the output.
#[test]
fn as_a_process() {
    let bench = plans("process");
    let command = |words: &[&str], plan: &str, out: Stdio| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_as_a_process"));
        command.args(words).arg(bench.path(plan)).stdout(out);
        let output = command.output().unwrap();
        (output.status.code(), String::from_utf8(output.stderr).unwrap())
    };
    let quiet = |words: &[&str], plan: &str| command(words, plan, Stdio::null());
    assert_eq!(quiet(&["check"], "good.sightedge.ron"), (Some(0), String::new()));
    assert_eq!(quiet(&["check"], "caution.sightedge.ron"), (Some(1), String::new()));
    assert_eq!(quiet(&["check"], "fault.sightedge.ron"), (Some(2), String::new()));
    assert_eq!(quiet(&["check"], "missing.sightedge.ron").0, Some(3));
    assert_eq!(quiet(&["check", "--what"], "good.sightedge.ron").0, Some(4));
    assert_eq!(quiet(&["new", "--sheet", "8x10in"], "fine.png").0, Some(0));
    assert_eq!(quiet(&["new", "--sheet", "8x10in"], "fine.png").0, Some(5));
    match File::options().write(true).open("/dev/full") {
        Ok(full) => {
            let (code, err) = command(&["figures"], "good.sightedge.ron", full.into());
            assert_eq!(code, Some(5), "{err}");
            assert!(err.contains("the output could not be written"), "{err}");
        }
        Err(error) => println!("not run: output on a full disk, /dev/full: {error}"),
    }
}
