//! What the program writes, read by programs that nobody here wrote.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test fails by panicking and says what it could not run"
)]

use std::fs;
use std::path::Path;
use std::process::Command;

use sightedge_tests::commands::Bench;

/// A missing program is a failure where everything is meant to be there.
fn not_run(what: &str) {
    assert!(std::env::var_os("CI").is_none(), "not run: {what}");
    println!("not run: {what}");
}

/// What a checker prints; `None` where it is not there.
fn told(program: &Path, arguments: &[&str]) -> Option<String> {
    let output = Command::new(program).args(arguments).output().ok()?;
    let err = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{}: {err}", program.display());
    Some(String::from_utf8(output.stdout).unwrap())
}

fn painted(name: &str) -> (Bench, String) {
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), name).unwrap();
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/demo/slack-water.jpg");
    bench.put("slack-water.jpg", &fs::read(demo).unwrap()).unwrap();
    for line in [
        "new @slack-water.jpg --outer 16x20in --overlap 1/8 --bottom-extra 1/2",
        "picture @slack-water.jpg --out @out.png --width 800",
    ] {
        let said = bench.run(line);
        assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}");
    }
    let path = bench.path("out.png").display().to_string();
    (bench, path)
}

/// Source: Pillow: it opens the matted picture as RGB of 800 × 963 pixels marked as sRGB. The
/// surround takes 9 % of 20 in all round, so that 19.6 × 23.6 in are shown; round the board is
/// the surround's grey of 150, on it the board's colour.
#[test]
fn pillow_reads_the_matted_picture() {
    let python = Path::new(env!("CARGO_MANIFEST_DIR")).join("../.checkers/bin/python");
    let script = "import sys; from PIL import Image; i = Image.open(sys.argv[1]); i.load(); \
        print(i.format, i.mode, i.size, i.info.get('srgb'), i.getpixel((2, 2)), \
        i.getpixel((400, 110)))";
    let (_, path) = painted("outside-pillow");
    if !python.exists() {
        return not_run("Pillow on the matted picture: tests/run brings it into .checkers");
    }
    let told = told(&python, &["-c", script, &path]).unwrap();
    let wanted = "PNG RGB (800, 963) 1 (150, 150, 150) (246, 245, 241)";
    assert_eq!(told.trim(), wanted);
}

/// Source: libvips (Debian: libvips-tools) on the same file.
#[test]
fn vips_reads_the_matted_picture() {
    let (_, path) = painted("outside-vips");
    let Some(told) = told(Path::new("vipsheader"), &[&path]) else {
        return not_run("libvips on the matted picture: vipsheader (Debian: libvips-tools)");
    };
    assert!(told.contains("800x963 uchar, 3 bands, srgb, pngload"), "{told}");
}
