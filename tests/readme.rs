//! What the README shows is what the program says.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::fs;
use std::path::Path;

use sightedge_tests::commands::{Bench, commands, typed};

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

/// Every command shows an example, and what it shows can be done; they are tried in the order of
/// the commands.
#[test]
fn the_examples_of_help_are_real() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), "help-examples").unwrap();
    let picture = fs::read(top.join("assets/demo/slack-water.jpg")).unwrap();
    bench.put("print.jpg", &picture).unwrap();
    bench
        .put("stock.csv", b"board,width,height,price,in_hand,offcut\n*,32in,40in,,,\n")
        .unwrap();
    fs::create_dir_all(bench.path("shows/spring")).unwrap();
    let show = "new @print.jpg --sheet 13x19in --save @shows/spring/ebb.sightedge.ron";
    assert_eq!(bench.run(show).exit, 0);
    let files = [
        "print.jpg",
        "shows/",
        "stock.csv",
        "printouts",
        "matted.png",
        "mats.png",
        "framed.png",
        "small.png",
        "record.ron",
        "second",
    ];
    let here = |word: String| {
        if files.iter().any(|file| word.starts_with(file)) { format!("@{word}") } else { word }
    };
    for command in commands() {
        let typed_in = command.typed.join(" ");
        let own = |example: &String| format!("{example} ").starts_with(&format!("{typed_in} "));
        assert!(command.examples.iter().all(own), "{typed_in} shows another command");
        assert!(!command.examples.is_empty(), "{typed_in} shows no example");
        for example in &command.examples {
            let (begins, rest) = example.split_at(typed_in.len());
            let rest = typed(rest).into_iter().map(here).map(|word| format!("\"{word}\""));
            let line =
                [begins.to_owned()].into_iter().chain(rest).collect::<Vec<_>>().join(" ");
            let said = bench.run(&line);
            // A check may find something.
            assert!(said.exit < 3, "{line}: {said:?}");
        }
    }
}
