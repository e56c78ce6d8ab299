//! Works, editions and numbers: begun, issued, moved, refused.

use sightedge_tests::commands::Bench;

use super::{bench, done, edition, refused};

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
        "move W0001 1 --to sold --buyer \"B. of Ostmere\"",
        "sold, 800.00 EUR, B. of Ostmere",
    );
    done(&bench, "move W0001 2/50 --to voided --why \"wrong paper\"", "voided");
    done(&bench, "issue W0001", "2/50 ");
    done(&bench, "move W0001 \"AP I/V\" --to destroyed", "destroyed");
    refused(
        &bench,
        "move W0001 \"AP I\" --to replaced",
        4,
        "A new print gets the number AP I/V; the destroyed one stays in the history. This cannot be \
         undone. Add --yes to do it",
    );
    done(&bench, "move W0001 \"AP I\" --to replaced --yes", "AP I/V      in the studio");
    done(&bench, "list", "3 of 50 issued, 1 proof, 2 in the studio, 1 at a show, 1 sold");
    done(&bench, "list", "1 sold for 800.00 EUR\n2 offered at 2000.00 EUR\n");
    done(&bench, "list W0001 --history", "wrong paper");
    done(&bench, "check", "The record is whole: ");

    let list = bench.json("edition list W0001 --json --record @studio").unwrap();
    let prints = list["editions"][0]["prints"].as_array().unwrap();
    assert_eq!(prints.len(), 6, "voided and replaced ones too");
    assert_eq!(prints[0]["notation"], "1/50");
    assert_eq!(prints[0]["state"], "sold");
    assert!(prints[0]["plan"].as_str().unwrap().ends_with(Bench::PLAN));
    let found = bench.json("edition list --search slack --json --record @studio").unwrap();
    assert_eq!(found["works"].as_array().unwrap().len(), 1);
    assert_eq!(found["sums"][0]["sold_cents"], 80_000);
    let none = bench.json("edition list --search zzz --json --record @studio").unwrap();
    assert!(none["works"].as_array().unwrap().is_empty());
}

/// A size is in the record with its first print, or not at all: nothing is ever deleted there.
#[test]
fn a_refused_print_leaves_no_size_behind() {
    let bench = bench("no-size-left");
    assert_eq!(bench.new_plan("--sheet 13x19in --image 11x15").exit, 0);
    done(&bench, "new --title Weir --size 2", "W0001");
    let sizes = || {
        let list = bench.json("edition list W0001 --json --record @studio").unwrap();
        list["formats"].as_array().map(Vec::len)
    };
    refused(
        &bench,
        "issue W0001 @print.png --number 3",
        4,
        "this edition has 2 prints; 3 is beyond it",
    );
    refused(&bench, "issue W0001 @print.png --printed soon", 4, "\"soon\" is no day");
    refused(
        &bench,
        "issue W0001 @print.png --kind ap",
        4,
        "this edition has no artist's proofs: set how many",
    );
    assert_eq!(sizes(), Some(0));
    done(&bench, "issue W0001 @print.png", "1/2 ");
    done(&bench, "issue W0001 @print.png", "2/2 ");
    refused(&bench, "issue W0001 @print.png", 4, "no number is free");
    assert_eq!(sizes(), Some(1));
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
    refused(
        &bench,
        "new --of W0001 --format huge",
        4,
        "no size was given: width and height of",
    );
    refused(&bench, "new --of W0001 --image 3x4in --pp 2", 4, "--pp needs --size");
    refused(&bench, "new --of W0009 --image 3x4in", 3, "there is no work W0009");
    let list = bench.json("edition list W0001 --json --record @studio").unwrap();
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
    // Catalogue numbers of one's own may differ by a capital letter alone.
    done(&bench, "new --title Sluice --size 3 --catalogue a1", "a1: an edition");
    done(&bench, "new --title Quay --size 4 --catalogue A1", "A1: an edition");
    done(&bench, "list A1", "A1 Quay");
    done(&bench, "list a1", "a1 Sluice");
}

/// What is sold for nobody knows how much is in no sum; who bought it may stay unnamed.
#[test]
fn sold_without_a_price_is_remarked() {
    let bench = bench("unpriced");
    done(&bench, "new --title Weir --size 25 --price \"20:800 EUR\"", "");
    let remark = |line: &str, wanted: &str| {
        let said = edition(&bench, line);
        assert_eq!((said.exit, said.err.as_str()), (0, wanted), "{line}: {said:?}");
        assert!(!said.out.is_empty(), "{line}");
    };
    let words = "sightedge: 3/25 is sold without a price; add it with --price\n";
    done(&bench, "issue W0001 --number 3", "");
    done(&bench, "issue W0001 --number 20", "800.00 EUR");
    remark("move W0001 3/25 --to sold", words);
    remark("move W0001 3/25 --to sold --json", words);
    done(&bench, "move W0001 20 --to sold", "20/25       sold, 800.00 EUR\n");
    done(&bench, "move W0001 3/25 --to sold --price 700", "sold, 700.00 EUR");
    remark("correct W0001 3/25 --price \"\"", words);
    remark("correct W0001 3/25 --buyer \"B. of Ostmere\"", "");
    done(&bench, "correct W0001 3/25 --to studio --buyer \"\"", "in the studio");
    remark("correct W0001 3/25 --to sold", words);
    done(&bench, "move W0001 3/25 --to returned", "returned");
}

#[test]
fn what_cannot_be_is_refused() {
    let bench = bench("refusals");
    done(&bench, "new --title Weir --size 2 --issued 1..1", "W0001: an edition of 2 and 0");
    refused(&bench, "issue W0001 --number 1", 4, "another print has this number");
    done(&bench, "issue W0001", "2/2 ");
    refused(&bench, "issue W0001", 4, "this edition has 2 prints, and no number is free");
    refused(&bench, "issue W0001 --kind ap", 4, "this edition has no artist's proofs");
    refused(&bench, "issue W0009", 3, "there is no work W0009 in ");
    refused(&bench, "move W0001 3/25 --to sold", 4, "\"3/25\" is of another edition");
    refused(&bench, "move W0001 x --to sold", 4, "\"x\" is no number of an edition, which run");
    refused(&bench, "move W0001 3/2 --to sold", 4, "from 1 to its size: try 3/25");
    refused(&bench, "move W0001 \"HC I\" --to sold", 3, "HC I is not issued: issue it first");
    refused(&bench, "issue W0001 --in 9", 3, "W0001 has no edition 9: it has 1");
    refused(&bench, "new --of W0009 --size 2", 3, "there is no work W0009 in ");
    let again = edition(&bench, "new --title Weir --size 2");
    assert!(again.err.contains("W0001 has this title and maker, too"), "{again:?}");
    refused(&bench, "move W0001 1/2 --to moon", 4, "--to moon is no place for a print");
    refused(&bench, "move W0001 1/2 --to show", 4, "the show has no name");
    refused(
        &bench,
        "new --title X",
        4,
        "how many prints will there be? Give --size, as in --size 25",
    );
    refused(&bench, "new --size 5", 4, "no title was given: give one");
    refused(&bench, "new --title X --size 0", 4, "an edition has 1 to 1 000 000 prints, not 0");
    refused(
        &bench,
        "new --title X --size 5 --issued 1..9",
        4,
        "numbers 1 to 9 do not fit an edition of 5",
    );
    refused(&bench, "new --title X --size 5 --price soon", 4, "\"soon\" is no price: try 1200");
    refused(&bench, "new --of W0001 --size 5", 4, "there is an edition of this already");
    refused(&bench, "sell W0001", 4, "\"sell\" is not a command for editions");
    refused(&bench, "issue W0001 a b", 4, "\"b\" is one word too many");
    refused(
        &bench,
        "",
        4,
        "use one of new, issue, list, move, rename-show, correct, inscribe, printouts, export, import, \
         check, folder",
    );
    let said = bench.run("edition issue W0001 --record @studio --date tomorrow");
    assert_eq!(said.exit, 4);
    assert!(said.err.contains("\"tomorrow\" is no day"), "{said:?}");
}

/// A work that is refused leaves nothing behind, not even its number.
#[test]
fn what_is_refused_is_not_begun() {
    let bench = bench("begun");
    for (line, wanted) in [
        ("new --title Weir --size 0", "1 to 1 000 000 prints, not 0"),
        ("new --title Weir --size 25 --proofs 200", "100"),
        ("new --title Weir --size 25 --issued 1..30", "do not fit an edition of 25"),
        (
            "new --title Weir --size 25 --issued 1..5 --sold 12",
            "number 12 is marked as sold, but only 1 to 5",
        ),
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
    refused(&bench, "new --title Lock --size 5 --taken 21", 4, "give four figures");
}
