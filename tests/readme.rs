//! What the README shows is what the program says.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::fs;
use std::path::Path;

use sightedge_tests::verbs::Bench;

/// The words of a text; how it is broken into lines does not matter.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_example_is_real() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let readme = fs::read_to_string(top.join("README.md")).unwrap();
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), "readme").unwrap();
    bench
        .put("print.jpg", &fs::read(top.join("assets/demo/slack-water.jpg")).unwrap())
        .unwrap();
    let here = format!("{}/", bench.path("").display()).replace("//", "/");

    let example = readme.split("```console\n").nth(1).unwrap().split("```").next().unwrap();
    let example = example.replace("\\\n", " ");
    let mut shown = 0;
    for part in example.split("$ sightedge ").skip(1) {
        let (line, told) = part.split_once('\n').unwrap();
        let line = words(line).replace("print.jpg", "@print.jpg").replace("matted", "@matted");
        let said = bench.run(&line);
        assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}");
        let (said, told) = (words(&said.out.replace(&here, "")), words(told));
        match told.strip_suffix(" ...") {
            Some(start) => assert!(said.starts_with(start), "{line}:\n{said}\n{start}"),
            None => assert_eq!(said, told, "{line}"),
        }
        shown += 1;
    }
    assert_eq!(shown, 4);
    // The picture shown is the one that the last of them makes.
    let (made, shown) = (bench.path("matted.png"), top.join("assets/readme/matted.png"));
    let pixels = |path: &Path| {
        let file = std::io::BufReader::new(fs::File::open(path).unwrap());
        let mut reader = png::Decoder::new(file).read_info().unwrap();
        let mut bytes = vec![0; reader.output_buffer_size().unwrap()];
        reader.next_frame(&mut bytes).unwrap();
        bytes
    };
    let (made, shown) = (pixels(&made), pixels(&shown));
    assert_eq!(made.len(), shown.len());
    let far = made.iter().zip(&shown).filter(|(a, b)| a.abs_diff(**b) > 2).count();
    assert!(far * 100 < made.len(), "{far} of {} values differ", made.len());
    assert!(fs::metadata(top.join("assets/readme/matted.png")).unwrap().len() < 400_000);
}
