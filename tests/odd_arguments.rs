//! No argument, however odd, makes a panic or ends in silence.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::sync::LazyLock;

use sightedge_service::storage::Storage;
use sightedge_tests::commands::{Bench, commands, run, run_with};
use sightedge_tests::random::Random;

/// Bytes that are no text are files' names at best.
#[cfg(unix)]
#[test]
fn arguments_that_are_no_text() {
    use std::ffi::OsString;
    use std::os::unix::ffi::OsStringExt;
    let odd = || OsString::from_vec(vec![b'a', 0xff, 0xfe]);
    let alone = || OsString::from_vec(vec![b'b', 0xff, 0xfe]);
    in_a_bench();
    for command in commands() {
        let typed: Vec<OsString> = command.typed.iter().map(OsString::from).collect();
        for option in command.options.iter().filter(|option| *option != "--help") {
            let said = run(&[typed.as_slice(), &[option.into(), odd(), odd()]].concat());
            let named = command.paths.contains(option) && said.exit < 3;
            assert!(named || said.exit >= 3 && !said.err.is_empty(), "{option}: {said:?}");
        }
        let said = run(&[typed.as_slice(), &[alone()]].concat());
        assert!(said.exit >= 3 && !said.err.is_empty(), "{typed:?}: {said:?}");
    }
    assert_eq!(run(&[odd()]).exit, 4);
}

/// A plan whose name is no text is written and read as any other.
#[cfg(unix)]
#[test]
fn files_whose_names_are_no_text() {
    use std::ffi::OsString;
    use std::os::unix::ffi::OsStringExt;
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), "names-no-text").unwrap();
    let named = |name: &[u8]| -> OsString {
        let name = OsString::from_vec(name.to_vec());
        bench.path("").join(name).into()
    };
    let (picture, plan) = (named(Bench::PICTURE.as_bytes()), named(b"\xfe.sightedge.ron"));
    let new = ["new".into(), picture, "--sheet=8x10in".into(), "--save".into(), plan.clone()];
    let said = run(&new);
    assert_eq!(said.exit, 0, "{said:?}");
    let figures = run(&["figures".into(), plan]);
    assert!(figures.exit == 0 && figures.out.contains("borders"), "{figures:?}");
}

/// The folder in which what an odd argument names as a file is written.
fn in_a_bench() -> &'static Bench {
    static BENCH: LazyLock<Bench> = LazyLock::new(|| {
        let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), "odd-arguments").unwrap();
        std::env::set_current_dir(bench.path("")).unwrap();
        bench
    });
    &BENCH
}

/// What is typed where something else was wanted.
#[rustfmt::skip]
const ODD: &[&str] = &[
    "30..60", "60..30", "..", "50%", "101", "0.015", "corners", "kozo-light", "glass-2", "2,8in",
    "2,", "4kg", "1e9g", "deep-wood", "W0001", "1/25", "3/25", "AP I", "BAT", "sold", "2025-11-30",
    "1:800 EUR,2:9", "2x4", "100x62mm", "a4", "usual", "edition", "list", "new", "back", "margin",
    "--help", "--version", "-h", "-", "--", "---", "=", "--=", "--sheet=", "", " ", "x",
    "8x10", "8x10in", "16x20in", "1x1mm", "-1x-1", "0x0", "1/0", "1/3x1/7", "½", "1⁄2",
    "1' 2\"", "9999999999999", "1e400", "nan", "inf", ",", ",,,", "1,1,1,1", "-1/8", "6:5",
    "0:0", ":", "in", "mm", "16", "\u{0}", "\u{202e}", "🖼", "ﬁ", "\n", "'", "\"", "%s", "{}",
    "any", "2", "--sheet", "--what",
    "((((((((((((((((((((1))))))))))))))))))))", "2*2*2*2in", "100m", "99999x99999mm",
];

/// Nothing but 0 to 6 comes out, and every end but a good one has its words.
#[test]
fn odd_arguments() {
    let bench = in_a_bench();
    assert_eq!(bench.new_plan("--sheet 8x10in").exit, 0);
    assert_eq!(bench.run("edition new @print.png --title Weir --size 25").exit, 0);
    assert_eq!(bench.run("edition issue W0001 @print.png").exit, 0);
    let storage = Storage::at(&bench.path(""));
    let commands = commands();
    let long = "9".repeat(100_000);
    let mut random = Random::new(2_026);
    for turn in 0..1800 {
        let command = &commands[turn % commands.len()];
        let mut line: Vec<&str> = command.typed.iter().map(String::as_str).collect();
        let word = line[0];
        if random.once_in(3) && line.len() > 1 {
            line.push("W0001");
        }
        for _ in 0..random.below(7) {
            line.push(if random.once_in(2) {
                random.one_of(ODD)
            } else {
                command.options[random.index(command.options.len())].as_str()
            });
        }
        if random.once_in(2) {
            line.push(if ["new", "preview"].contains(&word) {
                Bench::PICTURE
            } else {
                Bench::PLAN
            });
        }
        if random.once_in(2) && command.options.iter().any(|option| option == "--out") {
            line.extend(["--out", "odd.png"]);
        }
        if random.once_in(40) {
            line.push(&long);
        }
        if word == "new" {
            line.push("--replace");
        }
        if word == "cut" && !line.contains(&"--seconds") {
            line.push("--seconds=1");
        }
        if random.once_in(200) {
            line[0] = "neW";
        }
        let (said, remarks) = match word {
            // What was done to the record may have a remark.
            "edition" => (run_with(&storage, &line), true),
            _ => (run(&line), false),
        };
        assert!(said.exit <= 6, "{turn} {line:?}");
        assert!(
            !said.out.is_empty() || !said.err.is_empty() || said.exit == 0,
            "{turn} {line:?}"
        );
        let complains = !said.err.is_empty() && said.exit != 0;
        assert!(said.exit >= 3 || remarks || !complains, "{turn} {line:?}: {said:?}");
        assert!(said.exit < 3 || complains, "{turn} {line:?}: {said:?}");
    }
}
