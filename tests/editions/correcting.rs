//! What was said wrong of a work, its edition or a print, put right.

use sightedge_tests::commands::Bench;

use super::{bench, done, edition, refused};

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
        .json("edition correct W0001 --json --proofs 10 --record @studio --date 2025-11-30")
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
    done(
        &bench,
        "correct W0001 --taken 2021",
        "W0001 is like that already: nothing was changed",
    );
    done(&bench, "correct W0001 --picture \"\" --why \"another one\"", "W0001 Slack water");
    let list = bench.json("edition list W0001 --json --record @studio").unwrap();
    assert_eq!((&list["work"]["picture"], &list["work"]["sha256"]), (&"".into(), &"".into()));
    done(&bench, "list W0001 --history", "(another one)");
    done(&bench, "list W0001 --history", "size 1: image width 11 in (was 15 in)");
    done(&bench, "list W0001 --history", "prices of edition 1: 900.00 EUR from number 1 on");

    done(&bench, "issue W0001", "1/50 ");
    refused(
        &bench,
        "correct W0001 --size 60 --title Ebb",
        4,
        "so its size and proofs are fixed",
    );
    done(&bench, "list", "W0001   Slack water, Ada Brook");
    done(&bench, "correct W0001 --fraction", "proofs are numbered as in 2/5");
}

#[test]
fn what_of_a_work_cannot_be_put_right_says_so() {
    let bench = bench("correct-work-refusals");
    done(&bench, "new --title Weir --size 9 --image 8x10in --format small", "");
    for (line, exit, wanted) in [
        ("W0001", 4, "nothing of W0001 to correct was given. Of the work it can be --title"),
        ("W0001 --title \" \"", 4, "no title was given: give one"),
        ("W0001 --taken soon", 4, "--taken soon is no year: give four figures"),
        ("W0001 --printed 2025-11-30", 4, "A work has a year; the day on which one"),
        ("W0001 --buyer B.", 4, "--buyer is for one print, and no number is given: put it"),
        ("W0001 --search x", 4, "there is no option --search; see sightedge edition correct"),
        ("W0001 --fraction --roman", 4, "--fraction and --roman cannot be used together"),
        ("W0001 --size few", 4, "--size few is no whole number: try"),
        ("W0001 --size 0", 4, "an edition has 1 to 1 000 000 prints, not 0"),
        (
            "W0001 --proofs 101",
            4,
            "artist's proofs can be 0 to 100 % of the edition, not 101 %",
        ),
        ("W0001 --price 10:5", 4, "a price starts at number 10, but the edition has 9"),
        ("W0001 --price 800,50", 4, "two prices start at number 1: leave one out"),
        ("W0001 --price \"\"", 4, "\"\" is no price: try 1200"),
        (
            "W0001 --format small",
            4,
            "--format says which size to correct, and no new size was given",
        ),
        ("W0001 --image 0x10", 4, "--image 0x10 is not a size"),
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
        done(&bench, "issue W0001 --price \"800 EUR\"", "");
    }
    done(&bench, "move W0001 3/25 --to destroyed", "destroyed");
    refused(&bench, "move W0001 3/25 --to voided", 4, "If that is wrong, correct it first");
    done(
        &bench,
        "correct W0001 3/25 --to studio --why \"it was 2/25\"",
        "W0001 Weir: 3/25        in the studio, 800.00 EUR\n",
    );
    done(&bench, "move W0001 3/25 --to sold --buyer \"B. of Ostmere\"", "sold");
    let said = edition(&bench, "correct W0001 3/25 --to show --place Harbour");
    assert_eq!(said.exit, 0, "{said:?}");
    assert!(
        said.err.contains("3/25 is not sold and keeps the buyer B. of Ostmere; --buyer \"\""),
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
        .json("edition correct W0001 3 --matted \"\" --json --record @studio --date 2025-12-01")
        .unwrap();
    assert_eq!((&told["matted"], &told["printed"]), (&"".into(), &"2025-11-02".into()));
    let plan = told["plan"].as_str().unwrap();
    assert!(plan.ends_with(Bench::PLAN) && std::path::Path::new(plan).is_absolute(), "{plan}");
    done(&bench, "correct W0001 3/25 \"\"", "900.00 USD, printed 2025-11-02\n");
    done(
        &bench,
        "correct W0001 3/25 --to studio",
        "3/25 is like that already: nothing was changed",
    );
    done(&bench, "list W0001 --history", "(it was 2/25)");

    for (line, wanted) in [
        ("W0001 3/25", "nothing of W0001 3/25 to correct was given: it can be --to, --place"),
        ("W0001 3/25 --title X", "--title is for the work or its edition, not for 3/25 alone"),
        (
            "W0001 3/25 --grid 2x4",
            "there is no option --grid; see sightedge edition correct --help",
        ),
        ("W0001 3/25 --to voided", "correct where this one is, then sightedge edition move"),
        ("W0001 3/25 --to moon", "--to moon is no place for a print: use studio, show, sold,"),
        ("W0001 3/25 --to show", "the show has no name: type which show or gallery"),
        ("W0001 3/25 --printed 2025", "--printed 2025 is a year, and one print has a day"),
        ("W0001 3/25 --matted May", "\"May\" is no day for the day of matting"),
        ("W0001 3/25 --price much", "\"much\" is no price"),
        ("W0001 3/30 --to sold", "\"3/30\" is of another edition"),
    ] {
        refused(&bench, &format!("correct {line}"), 4, wanted);
    }
    refused(&bench, "correct W0001 3/25 @gone.jpg", 3, "gone.jpg");
    refused(&bench, "correct W0001 9/25 --to sold", 3, "W0001 9/25 is not issued: issue it");
}
