//! `sightedge edition`: what is numbered, where each print is, what is sold, without a window.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use sightedge_tests::verbs::{Bench, Said};

fn bench(name: &str) -> Bench {
    Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("editions-{name}")).unwrap()
}

/// As it is typed behind `sightedge edition`; the record is kept in the bench's folder.
fn edition(bench: &Bench, line: &str) -> Said {
    bench.run(&format!("edition {line} --studio @studio --date 2025-11-30"))
}

#[track_caller]
fn done(bench: &Bench, line: &str, wanted: &str) {
    let said = edition(bench, line);
    assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}: {said:?}");
    assert!(said.out.contains(wanted), "{line}: {}", said.out);
}

#[track_caller]
fn refused(bench: &Bench, line: &str, exit: u8, wanted: &str) {
    let said = edition(bench, line);
    assert_eq!((said.exit, said.out.as_str()), (exit, ""), "{line}: {said:?}");
    assert!(said.err.contains(wanted), "{line}: {}", said.err);
}

#[test]
fn an_edition_from_its_plan_to_its_buyer() {
    let bench = bench("whole");
    assert_eq!(bench.new_plan("--sheet 13x19in --image 11x15").exit, 0);
    done(
        &bench,
        "new @print.png --title \"Slack water\" --maker \"Ada Brook\" --size 50 \
         --price \"1:800 EUR,3:1200\"",
        "W0001: an edition of 50 and 5 artist's proofs",
    );
    done(
        &bench,
        "issue W0001 @print.png",
        "W0001 Slack water: 1/50        in the studio, 800.00 EUR",
    );
    done(&bench, "issue W0001 --number 3", "3/50        in the studio, 1200.00 EUR");
    done(&bench, "issue W0001", "2/50 ");
    done(&bench, "issue W0001 --kind ap", "AP I/V ");
    done(&bench, "move W0001 3/50 --to show --place Harbour", "at a show: Harbour");
    done(&bench, "list --show Harbour", "W0001   Slack water, Ada Brook  3/50  1200.00 EUR");
    done(
        &bench,
        "move W0001 1 --to sold --buyer \"B. of Ostend\"",
        "sold, 800.00 EUR, B. of Ostend",
    );
    done(&bench, "move W0001 2/50 --to voided --why \"wrong paper\"", "voided");
    done(&bench, "issue W0001", "2/50 ");
    done(&bench, "move W0001 \"AP I/V\" --to destroyed", "destroyed");
    done(&bench, "move W0001 \"AP I\" --to replaced", "AP I/V      in the studio");
    done(&bench, "list", "3 of 50 issued, 1 proofs, 2 in the studio, 1 at a show, 1 sold");
    done(&bench, "list", "1 sold for 800.00 EUR\n2 offered at 2000.00 EUR\n");
    done(&bench, "list W0001 --history", "wrong paper");
    done(&bench, "check", "The record is whole: ");

    let list = bench.json("edition list W0001 --json --studio @studio").unwrap();
    let prints = list["editions"][0]["prints"].as_array().unwrap();
    assert_eq!(prints.len(), 6, "voided and replaced ones too");
    assert_eq!(prints[0]["notation"], "1/50");
    assert_eq!(prints[0]["state"], "sold");
    assert!(prints[0]["plan"].as_str().unwrap().ends_with(Bench::PLAN));
    let found = bench.json("edition list --search slack --json --studio @studio").unwrap();
    assert_eq!(found["works"].as_array().unwrap().len(), 1);
    assert_eq!(found["sums"][0]["sold_cents"], 80_000);
    let none = bench.json("edition list --search zzz --json --studio @studio").unwrap();
    assert!(none["works"].as_array().unwrap().is_empty());
}

/// Source: galleries' print guides; common practice (the words and their order).
#[test]
fn what_is_written_on_a_print() {
    let bench = bench("inscribe");
    assert_eq!(bench.new_plan("--sheet 13x19in --image 11x15 --overlap 1/8").exit, 0);
    done(
        &bench,
        "new @print.png --title \"Slack water\" --maker \"Ada Brook\" --taken 2021 --size 25",
        "",
    );
    done(&bench, "inscribe W0001 3/25 @print.png", "  © 2021  ");
    done(&bench, "inscribe W0001 3/25 @print.png", "with a soft pencil, 2B");
    done(
        &bench,
        "inscribe W0001 3 @print.png --back \"No. {number}|{maker}\" --front nothing",
        "  No. 3/25 ",
    );
    let told =
        bench.json("edition inscribe W0001 3/25 @print.png --json --studio @studio").unwrap();
    assert_eq!(told["front"][0]["text"], "3/25");
    assert_eq!(told["front"][1]["sign"], true);
    assert_eq!(told["behind_image"], false);
    let wrong = edition(&bench, "inscribe W0001 3/25 @print.png --stands 4/25");
    assert_eq!(wrong.exit, 2, "{wrong:?}");
    assert!(wrong.out.contains("Stop: inscription-record: “4/25” stands on it"), "{wrong:?}");
    refused(&bench, "inscribe W0001 3/25", 4, "a work, a number and a plan are wanted");
    refused(
        &bench,
        "inscribe W0001 3/25 @print.png --back {x}",
        4,
        "\"x\" in \"{x}\" is nothing",
    );
    refused(
        &bench,
        "inscribe W0001 3/25 @print.png --front roof",
        4,
        "--front roof is no place",
    );
}

#[test]
fn papers_that_go_with_a_print() {
    let bench = bench("papers");
    done(
        &bench,
        "new --title \"Slack water\" --maker \"Ada Brook\" --size 25 --sheet 13x19in --image 11x15",
        "",
    );
    done(&bench, "issue W0001", "");
    done(&bench, "papers W0001 1/25 --out @out", "W0001-1-25-labels.pdf");
    done(&bench, "papers W0001 1/25 --out @single --single --label 100x62mm", "labels.pdf");
    done(&bench, "move W0001 1/25 --to show --place Harbour", "");
    done(&bench, "papers --show Harbour --out @out --sheet-of letter", "consignment.pdf");
    for name in [
        "out/W0001-1-25-labels",
        "out/W0001-1-25-certificate",
        "single/W0001-1-25-labels",
        "out/Harbour-prices",
        "out/Harbour-wall-labels",
        "out/Harbour-labels",
        "out/Harbour-consignment",
    ] {
        let bytes = std::fs::read(bench.path(&format!("{name}.pdf"))).unwrap();
        assert!(bytes.starts_with(b"%PDF-"), "{name}");
    }
    refused(&bench, "papers W0001 1/25", 4, "--out is wanted");
    refused(&bench, "papers W0001 2/25 --out @out", 3, "2/25 is not issued: issue it first");
    refused(
        &bench,
        "papers W0001 1 --out @out --grid 9x9",
        4,
        "9 columns of labels with a margin of",
    );
    refused(
        &bench,
        "papers --show Nowhere --out @out",
        3,
        "nothing is at Nowhere, and a show where prints are is wanted: prints are at Harbour",
    );
}

/// What was typed wrong of a work, its size and its edition is put right; the rest stays.
#[test]
fn a_work_and_its_edition_are_put_right() {
    let bench = bench("correct-work");
    done(
        &bench,
        "new --title \"Slak water\" --maker \"Ada Brook\" --taken 2012 --printed 2025 \
         --medium \"pigment print\" --size 25 --image 15x11in --sheet 19x13 --price \"800 EUR\"",
        "W0001: an edition of 25 and 2 artist's proofs",
    );
    done(
        &bench,
        "correct W0001 --title \"Slack water\" --taken 2021 --printed \"\" --paper rag",
        "W0001 Slack water, Ada Brook, taken 2021, pigment print, rag\n",
    );
    done(
        &bench,
        "correct W0001 --picture @print.png --notes \"for the Weir\" --medium \"\"",
        "print.png, notes: for the Weir",
    );
    done(
        &bench,
        "correct W0001 --image 11x15in --sheet 13x19",
        "W0001 printed in the size: image 11 in x 15 in, sheet 13 in x 19 in (width x height)",
    );
    done(
        &bench,
        "correct W0001 --size 50 --pp 2 --price \"1:900,11:1200.50\" --fraction",
        "W0001 edition 1: 50 prints, 5 artist's proofs, 2 printer's proofs; proofs are numbered \
         as in 2/5; from 1 on 900.00 EUR; from 11 on 1200.50 EUR\n",
    );
    // Prices of numbers that it no longer has are none.
    done(&bench, "correct W0001 --size 10", "in 2/5; from 1 on 900.00 EUR\n");
    done(&bench, "correct W0001 --size 50", "in 2/5; from 1 on 900.00 EUR; from 11 on 1200.50");
    done(&bench, "correct W0001 --proofs 20 --roman", "50 prints, 10 artist's proofs, 2");
    let told = bench
        .json("edition correct W0001 --json --proofs 10 --studio @studio --date 2025-11-30")
        .unwrap();
    assert_eq!(told["work"]["taken"], 2021);
    assert!(told["work"]["printed"].is_null());
    let picture = told["work"]["picture"].as_str().unwrap();
    assert!(std::path::Path::new(picture).is_absolute(), "{picture}");
    assert_eq!(told["work"]["sha256"].as_str().unwrap().len(), 64);
    let edition = &told["editions"][0];
    assert_eq!(
        (&edition["artists_proofs"], &edition["numerals"]),
        (&5.into(), &"roman".into())
    );
    assert_eq!(edition["prices"][1]["price"], "1200.50 EUR");
    assert_eq!(told["formats"][0]["image_width_mm"], 279.4);
    done(&bench, "correct W0001 --taken 2021", "W0001 is so already: nothing was changed");
    done(&bench, "correct W0001 --picture \"\" --why \"another one\"", "W0001 Slack water");
    let list = bench.json("edition list W0001 --json --studio @studio").unwrap();
    assert_eq!((&list["work"]["picture"], &list["work"]["sha256"]), (&"".into(), &"".into()));
    done(&bench, "list W0001 --history", "(another one)");
    done(&bench, "list W0001 --history", "size 1: image width 11 in (was 15 in)");
    done(&bench, "list W0001 --history", "prices of edition 1: 900.00 EUR from number 1 on");

    done(&bench, "issue W0001", "1/50 ");
    refused(
        &bench,
        "correct W0001 --size 60 --title Ebb",
        4,
        "its size and proofs are fixed by the first one",
    );
    done(&bench, "list", "W0001   Slack water, Ada Brook");
    done(&bench, "correct W0001 --fraction", "proofs are numbered as in 2/5");
}

#[test]
fn what_of_a_work_cannot_be_put_right_says_so() {
    let bench = bench("correct-work-refusals");
    done(&bench, "new --title Weir --size 9 --image 8x10in --format small", "");
    for (line, exit, wanted) in [
        (
            "W0001",
            4,
            "what of W0001 is to be put right was not said. Of the work it can be --title",
        ),
        ("W0001 --title \" \"", 4, "--title is empty, and a title is wanted"),
        ("W0001 --taken soon", 4, "--taken soon is no year: four figures are wanted"),
        ("W0001 --printed 2025-11-30", 4, "of a work the year counts; the day on which one"),
        ("W0001 --buyer B.", 4, "--buyer is said of one print, and none is named: give its"),
        ("W0001 --search x", 4, "--search corrects nothing: see sightedge edition correct"),
        ("W0001 --fraction --roman", 4, "--fraction and --roman contradict each other"),
        ("W0001 --size few", 4, "--size few is no whole number from 0 up"),
        ("W0001 --size 0", 4, "an edition of 0 was to be opened, and 1 to 1 000 000"),
        ("W0001 --proofs 101", 4, "101 % of the edition were asked for as artist's proofs"),
        ("W0001 --price 10:5", 4, "begins at no number of the edition, which has 1 to 9"),
        ("W0001 --price 800,50", 4, "--price says twice what prints cost from number 1 on"),
        ("W0001 --price \"\"", 4, "\"\" is no price: try 1200"),
        (
            "W0001 --format small",
            4,
            "--format says which size is to be put right, and the size",
        ),
        ("W0001 --image 0x10", 4, "--image 0x10 is no size"),
        ("W0001 --format large --image 1x1", 3, "in no size called \"large\": those it has"),
        ("W0001 --picture @none.png", 3, "none.png: "),
        ("W0001 --pp 1 --in 7", 3, "W0001 has no edition 7: it has 1"),
        ("W0007 --title X", 3, "there is no work W0007 in "),
        ("W0001 1 2 3", 4, "\"3\" is one word too many"),
    ] {
        refused(&bench, &format!("correct {line}"), exit, wanted);
    }
    done(&bench, "new --of W0001 --size 5 --image 16x20in --format large", "");
    refused(&bench, "correct W0001 --size 3", 4, "several editions: say which one with --in 1");
    refused(&bench, "correct W0001 --sheet 9x11", 4, "in 2 sizes, called \"small\", \"large\"");
    done(
        &bench,
        "correct W0001 --sheet 9x11in --in 1",
        "\"small\": image 8 in x 10 in, sheet 9",
    );
    done(&bench, "correct W0001 --sheet 20x24in --format large", "\"large\": image 16 in x 20");
    done(&bench, "new --title Lock --size 3", "W0002");
    done(&bench, "correct W0002 --sheet 9x11in", "printed in the size: sheet 9 in x 11 in (");
}

/// A print said to be destroyed or sold by mistake is put right, and its days and its plan.
#[test]
fn a_print_is_put_right() {
    let bench = bench("correct-print");
    assert_eq!(bench.new_plan("--sheet 13x19in --image 11x15").exit, 0);
    done(&bench, "new --title Weir --size 25 --sheet 13x19in --image 11x15", "");
    for _ in 0..3 {
        done(&bench, "issue W0001 --price 800", "");
    }
    done(&bench, "move W0001 3/25 --to destroyed", "destroyed");
    refused(&bench, "move W0001 3/25 --to voided", 4, "If that is an error, correct it first");
    done(
        &bench,
        "correct W0001 3/25 --to studio --why \"it was 2/25\"",
        "W0001 Weir: 3/25        in the studio, 800.00 EUR\n",
    );
    done(&bench, "move W0001 3/25 --to sold --buyer \"B. of Ostend\"", "sold");
    let said = edition(&bench, "correct W0001 3/25 --to show --place Harbour");
    assert_eq!(said.exit, 0, "{said:?}");
    assert!(
        said.err.contains("3/25 is not sold and keeps the buyer B. of Ostend; --buyer \"\""),
        "{said:?}"
    );
    done(
        &bench,
        "correct W0001 3/25 --buyer \"\" --price \"\"",
        "3/25        at a show: Harbour\n",
    );
    done(&bench, "correct W0001 3/25 --to studio", "3/25        in the studio\n");
    done(
        &bench,
        "correct W0001 3 @print.png --printed 2025-11-02 --matted 2025-11-03 --price \"900 USD\"",
        "in the studio, 900.00 USD, printed 2025-11-02, matted 2025-11-03, plan ",
    );
    let told = bench
        .json("edition correct W0001 3 --matted \"\" --json --studio @studio --date 2025-12-01")
        .unwrap();
    assert_eq!((&told["matted"], &told["printed"]), (&"".into(), &"2025-11-02".into()));
    let plan = told["plan"].as_str().unwrap();
    assert!(plan.ends_with(Bench::PLAN) && std::path::Path::new(plan).is_absolute(), "{plan}");
    done(&bench, "correct W0001 3/25 \"\"", "900.00 USD, printed 2025-11-02\n");
    done(&bench, "correct W0001 3/25 --to studio", "3/25 is so already: nothing was changed");
    done(&bench, "list W0001 --history", "(it was 2/25)");

    for (line, wanted) in [
        (
            "W0001 3/25",
            "what of W0001 3/25 is to be put right was not said: it can be --to, --place",
        ),
        (
            "W0001 3/25 --title X",
            "--title is said of the work or its edition, not of 3/25 alone",
        ),
        (
            "W0001 3/25 --grid 2x4",
            "--grid corrects nothing: see sightedge edition correct --help",
        ),
        (
            "W0001 3/25 --to voided",
            "put right where this one is, and then sightedge edition move",
        ),
        ("W0001 3/25 --to moon", "--to moon is nowhere a print can be: studio, show, sold,"),
        ("W0001 3/25 --to show", "a print goes to a show that is not named"),
        ("W0001 3/25 --printed 2025", "--printed 2025 is a year, and of one print the day is"),
        ("W0001 3/25 --matted May", "\"May\" is no day for the day of matting"),
        ("W0001 3/25 --price much", "\"much\" is no price"),
        ("W0001 3/30 --to sold", "\"3/30\" is of another edition"),
    ] {
        refused(&bench, &format!("correct {line}"), 4, wanted);
    }
    refused(&bench, "correct W0001 3/25 @gone.jpg", 3, "gone.jpg");
    refused(&bench, "correct W0001 9/25 --to sold", 3, "W0001 9/25 is not issued: issue it");
}

/// What is sold for nobody knows how much is in no sum; who bought it may stay unnamed.
#[test]
fn sold_without_a_price_is_remarked() {
    let bench = bench("unpriced");
    done(&bench, "new --title Weir --size 25 --price 20:800", "");
    let remark = |line: &str, wanted: &str| {
        let said = edition(&bench, line);
        assert_eq!((said.exit, said.err.as_str()), (0, wanted), "{line}: {said:?}");
        assert!(!said.out.is_empty(), "{line}");
    };
    let words = "sightedge: 3/25 is sold without a price; --price notes it\n";
    done(&bench, "issue W0001 --number 3", "");
    done(&bench, "issue W0001 --number 20", "800.00 EUR");
    remark("move W0001 3/25 --to sold", words);
    remark("move W0001 3/25 --to sold --json", words);
    done(&bench, "move W0001 20 --to sold", "20/25       sold, 800.00 EUR\n");
    done(&bench, "move W0001 3/25 --to sold --price 700", "sold, 700.00 EUR");
    remark("correct W0001 3/25 --price \"\"", words);
    remark("correct W0001 3/25 --buyer \"B. of Ostend\"", "");
    done(&bench, "correct W0001 3/25 --to studio --buyer \"\"", "in the studio");
    remark("correct W0001 3/25 --to sold", words);
    done(&bench, "move W0001 3/25 --to returned", "returned");
}

#[test]
fn what_cannot_be_is_refused() {
    let bench = bench("refusals");
    done(&bench, "new --title Weir --size 2 --issued 1..1", "W0001: an edition of 2 and 0");
    refused(&bench, "issue W0001 --number 1", 4, "the number is held by another print");
    done(&bench, "issue W0001", "2/2 ");
    refused(&bench, "issue W0001", 4, "all of them are issued: no number is free");
    refused(&bench, "issue W0001 --kind ap", 4, "the edition has 0 artist's proofs in all");
    refused(&bench, "issue W0009", 3, "there is no work W0009 in ");
    refused(&bench, "move W0001 3/25 --to sold", 4, "\"3/25\" is of another edition");
    refused(
        &bench,
        "move W0001 x --to sold",
        4,
        "\"x\" is no number of an edition, which count",
    );
    refused(&bench, "move W0001 3/2 --to sold", 4, "from 1 to its size: try 3/25");
    refused(&bench, "move W0001 \"HC I\" --to sold", 3, "HC I is not issued: issue it first");
    refused(&bench, "issue W0001 --in 9", 3, "W0001 has no edition 9: it has 1");
    refused(&bench, "new --of W0009 --size 2", 3, "there is no work W0009 in ");
    let again = edition(&bench, "new --title Weir --size 2");
    assert!(again.err.contains("W0001 has this title and maker, too"), "{again:?}");
    refused(&bench, "move W0001 1/2 --to moon", 4, "--to moon is nowhere a print can be");
    refused(&bench, "move W0001 1/2 --to show", 4, "a print goes to a show that is not named");
    refused(&bench, "new --title X", 4, "how many prints there are to be is wanted: --size 25");
    refused(&bench, "new --size 5", 4, "a title is wanted");
    refused(&bench, "new --title X --size 0", 4, "an edition of 0 was to be opened");
    refused(
        &bench,
        "new --title X --size 5 --issued 1..9",
        4,
        "numbers 1 to 9 were to be taken",
    );
    refused(&bench, "new --title X --size 5 --price soon", 4, "\"soon\" is no price: try 1200");
    refused(&bench, "new --of W0001 --size 5", 4, "there is an edition of this already");
    refused(&bench, "sell W0001", 4, "\"sell\" is nothing that can be done with editions");
    refused(&bench, "issue W0001 a b", 4, "\"b\" is one word too many");
    refused(
        &bench,
        "",
        4,
        "one of new, issue, list, move, correct, inscribe, papers, export, import, check is wanted",
    );
    let said = bench.run("edition issue W0001 --studio @studio --date tomorrow");
    assert_eq!(said.exit, 4);
    assert!(said.err.contains("\"tomorrow\" is no day"), "{said:?}");
}

/// `edition WORD --help` tells of that word alone, and what goes for all words; both are parts of
/// the one text that `edition --help` shows.
#[test]
fn help_of_one_word() {
    let bench = bench("help");
    let said = |line: &str| {
        let said = bench.run(line);
        assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}: {said:?}");
        said.out
    };
    let all = said("edition --help");
    let words = [
        "new", "issue", "list", "move", "correct", "inscribe", "papers", "export", "import",
        "check",
    ];
    for word in words {
        let of_word = said(&format!("edition {word} --help"));
        assert!(of_word.starts_with(&format!("sightedge edition {word}")), "{of_word}");
        for other in words.iter().filter(|other| **other != word) {
            assert!(!of_word.contains(&format!("edition {other} ")), "{word}: {of_word}");
        }
        for common in ["  --studio FOLDER ", "  --in ID ", "WORK is a catalogue number"] {
            assert!(of_word.contains(common), "{word}: {of_word}");
        }
        for line in of_word.lines() {
            let line = line.strip_prefix("sightedge edition ").unwrap_or(line).trim();
            let parts = line.split_once(": ").map_or([line, ""], |(typed, told)| [typed, told]);
            let there = parts.iter().all(|part| all.contains(part));
            assert!(there && line.chars().count() <= 100, "{word}: {line}");
        }
    }
    let correct = said("edition correct W0001 --help");
    assert!(
        correct.contains("--picture FILE") && correct.contains("--matted DAY"),
        "{correct}"
    );
    assert!(!correct.contains("--grid"), "{correct}");
    assert_eq!(said("edition sell --help"), all, "no word of it: all there is");
    assert_eq!(said("help"), said("--help"));
}

#[test]
fn out_and_in_again() {
    let bench = bench("exchange");
    done(
        &bench,
        "new --title \"=1+1\" --maker \"O'Hara\" --size 100 --issued 1..47 --unknown 13,22",
        "",
    );
    done(&bench, "list", "47 of 100 issued, 45 sold, 2 not known where");
    for (first, second) in [("@a.ron", "@b.ron"), ("@a", "@b")] {
        done(&bench, &format!("export {first}"), "1 work, 47 prints");
        let into = format!("edition import {first} --studio @new-{}", &first[1..]);
        assert_eq!(bench.run(&into).exit, 0);
        let again = bench.run(&into);
        assert_eq!(again.exit, 4);
        assert!(again.err.contains("the record holds works already"), "{again:?}");
        let out = format!("edition export {second} --studio @new-{}", &first[1..]);
        assert_eq!(bench.run(&out).exit, 0);
    }
    refused(&bench, "export @a.ron", 4, "say --replace");
    refused(&bench, "export @a", 4, "say --replace");
    refused(&bench, "export @a.txt", 4, "is no place for a record");
    done(&bench, "export @a.ron --replace", "1 work, 47 prints");
    let read = |name: &str| std::fs::read(bench.path(name)).unwrap();
    assert!(read("a.ron") == read("b.ron"), "the same to the byte");
    for table in ["works.csv", "prints.csv", "editions.csv", "history.csv"] {
        assert!(read(&format!("a/{table}")) == read(&format!("b/{table}")), "{table}");
    }
    let works = String::from_utf8(read("a/works.csv")).unwrap();
    assert!(works.contains(",'=1+1,O'Hara,"), "no cell is a formula: {works}");
    refused(&bench, "import @missing.ron", 3, "missing.ron cannot be read");
}

#[test]
fn a_check_tells_how_far_back_one_can_go() {
    let bench = bench("backups");
    done(&bench, "new --title Weir --size 9", "");
    let told = edition(&bench, "check");
    assert!(told.out.contains("The newest backup: "), "{told:?}");
    assert!(!told.out.contains("older"), "{told:?}");
    let backups = bench.path("studio/backups");
    let newest = std::fs::read_dir(&backups).unwrap().next().unwrap().unwrap().path();
    let older = |day: &str| {
        std::fs::copy(&newest, backups.join(format!("studio-{day}.sqlite"))).unwrap();
    };
    older("2024-03-01");
    done(&bench, "check", "\nOne older backup, of 2024-03-01, lies beside it\n");
    older("2024-02-01");
    done(
        &bench,
        "check",
        "\n2 older backups lie beside it, back to 2024-02-01; --json names them",
    );
    let told = bench.json("edition check --json --studio @studio").unwrap();
    let days: Vec<&str> = told["backups"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["day"].as_str().unwrap())
        .collect();
    assert_eq!(days[1..], ["2024-03-01", "2024-02-01"], "the newest first");
    assert_eq!(told["backups"][0]["file"], told["newest_backup"]);
    assert!(told["backups"][2]["file"].as_str().unwrap().ends_with("studio-2024-02-01.sqlite"));
}

#[test]
fn a_damaged_record_names_its_backup_and_takes_it_back() {
    let bench = bench("damage");
    done(&bench, "new --title Weir --size 9", "");
    done(&bench, "issue W0001", "1/9");
    std::fs::write(bench.path("studio/studio.sqlite"), "spoilt ".repeat(3000)).unwrap();
    refused(&bench, "list", 3, "is damaged (");
    let said = edition(&bench, "list");
    let backup = said.err.split("backup is ").nth(1).unwrap().split(": put").next().unwrap();
    done(&bench, &format!("check --put-back \"{backup}\""), "put back ");
    // Nothing is gone: the backup was made after the last change.
    done(&bench, "list W0001", "edition 1: 1 of 9 issued");
    let newer = bench.path("studio/studio.sqlite");
    assert!(newer.exists());
}

/// A work that is refused leaves nothing behind, not even its number.
#[test]
fn what_is_refused_is_not_begun() {
    let bench = bench("begun");
    for (line, wanted) in [
        ("new --title Weir --size 0", "1 to 1 000 000 prints are wanted"),
        ("new --title Weir --size 25 --proofs 200", "100"),
        ("new --title Weir --size 25 --issued 1..30", "numbers from 1 to 25 are wanted"),
        ("new --title Weir --size 25 --issued 1..5 --unknown 12", "not among 1 to 5"),
        ("new --title Weir --size 25 --image 20x30in --sheet 10x12in", "larger than its sheet"),
    ] {
        refused(&bench, line, 4, wanted);
    }
    done(&bench, "list", "Nothing here yet");
    done(
        &bench,
        "new --title Weir --size 5 --format large --sheet 16x20in",
        "W0001: an edition",
    );
    refused(
        &bench,
        "new --of W0001 --size 7 --format huge --sheet 16x20in",
        4,
        "is printed in that size already",
    );
    done(&bench, "new --of W0001 --size 7 --format small --sheet 8x10in", "W0001: an edition");
    done(&bench, "issue W0001 --in 1 --printed 2025-11-20", "1/5");
    refused(&bench, "correct W0001 1/5 --in 1 --printed 2025-02-30", 4, "is no day for");
    refused(&bench, "new --title Lock --size 5 --taken 21", 4, "four figures are wanted");
}

/// Another size needs no edition of its own where one counts them all; a number that says of how
/// many it is says whose it is.
#[test]
fn several_sizes_of_one_work() {
    let bench = bench("sizes");
    done(
        &bench,
        "new --title Weir --size 25 --image 8x10in --sheet 11x14in",
        "W0001: an edition",
    );
    done(
        &bench,
        "new --of w0001 --format large --image 16x20in --sheet 20x24in",
        "W0001: also printed in the size \"large\": image 16 in x 20 in, sheet 20 in x 24 in",
    );
    let again = "new --of W0001 --image 16x20in --sheet 20x24in";
    refused(&bench, again, 4, "is printed in that size already");
    refused(&bench, "new --of W0001 --format huge", 4, "a size is wanted");
    refused(&bench, "new --of W0001 --image 3x4in --pp 2", 4, "--pp needs --size");
    refused(&bench, "new --of W0009 --image 3x4in", 3, "there is no work W0009");
    let list = bench.json("edition list W0001 --json --studio @studio").unwrap();
    assert_eq!(list["editions"].as_array().unwrap().len(), 1);
    assert_eq!(list["formats"].as_array().unwrap().len(), 2);

    done(&bench, "new --title Lock --size 5 --format large --sheet 16x20in", "W0002");
    done(&bench, "new --of W0002 --size 7 --format small --sheet 8x10in", "W0002");
    refused(&bench, "new --of W0002 --sheet 4x5in", 4, "counts all its sizes");
    done(&bench, "issue W0002 --in 3", "1/7");
    done(&bench, "move W0002 1/7 --to show --place Harbour", "1/7");
    refused(&bench, "move w0002 1/5 --to studio", 3, "W0002 1/5 is not issued");
    refused(&bench, "move w0002 1 --to studio", 4, "several editions");
    refused(&bench, "move w0002 1/25 --to studio", 4, "several editions");
}

/// A record that is lost is not begun anew, a whole one not replaced, a mistyped folder not made.
#[test]
fn nothing_takes_the_place_of_a_record_unasked() {
    let bench = bench("place");
    done(&bench, "new --title Weir --size 5", "W0001");
    done(&bench, "issue W0001", "1/5");
    let studio = bench.path("studio");
    let backup = std::fs::read_dir(studio.join("backups")).unwrap().next().unwrap().unwrap();
    let backup = backup.path().display().to_string();
    refused(&bench, &format!("check --put-back {backup}"), 4, "is whole, and a damaged one");
    std::fs::remove_file(studio.join("studio.sqlite")).unwrap();
    refused(&bench, "issue W0001", 3, "it is not there, and its backups are");
    refused(&bench, "list", 3, &format!("sightedge edition check --put-back {backup}"));
    done(&bench, &format!("check --put-back {backup}"), "put back");
    done(&bench, "list W0001", "1/5");
    let typo = bench.path("typo");
    let said = bench.run("edition list --studio @typo");
    assert_eq!(said.exit, 3, "{}", said.err);
    assert!(said.err.contains("there is no record in") && !typo.exists(), "{}", said.err);
}
