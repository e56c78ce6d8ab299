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
    done(&bench, "list", "1 sold for 800.00 EUR; 2 offered at 2000.00 EUR");
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
    refused(&bench, "papers W0001 2/25 --out @out", 4, "2/25 is not issued: issue it first");
    refused(
        &bench,
        "papers W0001 1 --out @out --grid 9x9",
        4,
        "9 columns of labels with a margin of",
    );
    refused(&bench, "papers --show Nowhere --out @out", 4, "nothing is there");
}

#[test]
fn what_cannot_be_is_refused() {
    let bench = bench("refusals");
    done(&bench, "new --title Weir --size 2 --issued 1..1", "W0001: an edition of 2 and 0");
    refused(&bench, "issue W0001 --number 1", 4, "the number is held by another print");
    done(&bench, "issue W0001", "2/2 ");
    refused(&bench, "issue W0001", 4, "all of them are issued: no number is free");
    refused(&bench, "issue W0001 --kind ap", 4, "the edition has 0 artist's proofs in all");
    refused(&bench, "issue W0009", 4, "there is no work W0009 in ");
    refused(&bench, "move W0001 3/25 --to sold", 4, "\"3/25\" is of another edition");
    refused(
        &bench,
        "move W0001 x --to sold",
        4,
        "\"x\" is no number of an edition, which count",
    );
    refused(&bench, "move W0001 3/2 --to sold", 4, "from 1 to its size: try 3/25");
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
        "one of new, issue, list, move, inscribe, papers, export, import, check is wanted",
    );
    let said = bench.run("edition issue W0001 --studio @studio --date tomorrow");
    assert_eq!(said.exit, 4);
    assert!(said.err.contains("\"tomorrow\" is no day"), "{said:?}");
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
        done(&bench, &format!("export {first}"), "1 works, 47 prints");
        let into = format!("edition import {first} --studio @new-{}", &first[1..]);
        assert_eq!(bench.run(&into).exit, 0);
        let again = bench.run(&into);
        assert_eq!(again.exit, 4);
        assert!(again.err.contains("the record holds works already"), "{again:?}");
        let out = format!("edition export {second} --studio @new-{}", &first[1..]);
        assert_eq!(bench.run(&out).exit, 0);
    }
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
fn a_damaged_record_names_its_backup_and_takes_it_back() {
    let bench = bench("damage");
    done(&bench, "new --title Weir --size 9", "");
    // Of the next day: the one of today was made of the empty record.
    let today =
        std::fs::read_dir(bench.path("studio/backups")).unwrap().next().unwrap().unwrap();
    std::fs::remove_file(today.path()).unwrap();
    done(&bench, "issue W0001", "1/9");
    std::fs::write(bench.path("studio/studio.sqlite"), "spoilt ".repeat(3000)).unwrap();
    refused(&bench, "list", 3, "is damaged (");
    let said = edition(&bench, "list");
    let backup = said.err.split("backup is ").nth(1).unwrap().split(": put").next().unwrap();
    done(&bench, &format!("check --put-back \"{backup}\""), "put back ");
    // Nothing but what came after the backup is gone.
    done(&bench, "list W0001", "edition 1: 0 of 9 issued");
    let newer = bench.path("studio/studio.sqlite");
    assert!(newer.exists());
}
