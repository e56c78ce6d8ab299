//! No argument, however odd, makes a panic or ends in silence.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use sightedge_tests::random::Random;
use sightedge_tests::verbs::{Bench, run};

/// Bytes that are no text are files' names at best.
#[cfg(unix)]
#[test]
fn arguments_that_are_no_text() {
    use std::ffi::OsString;
    use std::os::unix::ffi::OsStringExt;
    let odd = || OsString::from_vec(vec![b'a', 0xff, 0xfe]);
    for verb in ["new", "figures", "check", "picture", "preview", "cut"] {
        for option in
            ["--sheet", "--variant", "--ruler", "--out", "--width", "--unit", "--size"]
        {
            let said = run(&[verb.into(), option.into(), odd(), odd()]);
            assert!(said.exit >= 3, "{verb} {option}: {said:?}");
        }
        assert!(run(&[verb.into(), odd()]).exit >= 3, "{verb}");
    }
    assert_eq!(run(&[odd()]).exit, 4);
}

/// What is typed where something else was wanted.
#[rustfmt::skip]
const ODD: &[&str] = &[
    "--sheet", "--image", "--image-at", "--outer", "--border", "--window", "--overlap",
    "--reveal", "--bottom-extra", "--bottom-ratio", "--liner", "--thickness", "--unit",
    "--ruler", "--centred", "--optical", "--exhibition", "--json", "--variant", "--width",
    "--hinge-at", "--hinge-kind", "--tissue", "--paper", "--process", "--along", "--across",
    "--grain", "--hinged-at", "--hangs-at", "--frame", "--glazing", "--bag", "--rabbet",
    "--allowance", "--mass", "--rings", "--rise", "--hooks", "--rings-below", "--frame-size",
    "--centre-height", "--left", "--top", "30..60", "60..30", "..", "50%", "101", "0.015",
    "corners", "kozo-light", "glass-2", "2,8in", "2,", "4kg", "1e9g", "deep-wood",
    "--help", "--version", "-h", "-", "--", "---", "=", "--=", "--sheet=", "", " ", "x",
    "8x10", "8x10in", "16x20in", "1x1mm", "-1x-1", "0x0", "1/0", "1/3x1/7", "½", "1⁄2",
    "1' 2\"", "9999999999999", "1e400", "nan", "inf", ",", ",,,", "1,1,1,1", "-1/8", "6:5",
    "0:0", ":", "in", "mm", "16", "\u{0}", "\u{202e}", "🖼", "ﬁ", "\n", "'", "\"", "%s", "{}",
    "--stock", "--stages", "--seconds", "--drop-outs", "--no-turn", "--give", "--instance",
    "--name", "any", "2",
    "((((((((((((((((((((1))))))))))))))))))))", "2*2*2*2in", "100m", "99999x99999mm",
];

/// Nothing but 0 to 6 comes out, and every end but a good one has its words.
#[test]
fn odd_arguments() {
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), "odd-arguments").unwrap();
    assert_eq!(bench.new_plan("--sheet 8x10in").exit, 0);
    let picture = bench.path(Bench::PICTURE).display().to_string();
    let (plan, out) = (bench.path(Bench::PLAN).display().to_string(), bench.path("odd.png"));
    let long = "9".repeat(100_000);
    let mut random = Random::new(2_026);
    for turn in 0..1500 {
        let verb = random.one_of(&[
            "new", "new", "figures", "check", "picture", "preview", "hinges", "package",
            "steps", "as-cut", "cut", "neW",
        ]);
        let mut line: Vec<&str> = vec![verb];
        for _ in 0..random.below(7) {
            line.push(random.one_of(ODD));
        }
        if random.once_in(2) {
            line.push(if verb == "new" || verb == "preview" { &picture } else { &plan });
        }
        if random.once_in(2) && !["new", "cut"].contains(&verb) {
            line.extend(["--out", out.to_str().unwrap()]);
        }
        if random.once_in(40) {
            line.push(&long);
        }
        if verb == "new" {
            line.push("--replace");
        }
        if verb == "cut" && !line.contains(&"--seconds") {
            line.push("--seconds=1");
        }
        let said = run(&line);
        assert!(said.exit <= 6, "{turn} {line:?}");
        assert!(
            !said.out.is_empty() || !said.err.is_empty() || said.exit == 0,
            "{turn} {line:?}"
        );
        assert_eq!(
            said.exit >= 3,
            !said.err.is_empty() && said.exit != 0,
            "{line:?}: {said:?}"
        );
    }
}
