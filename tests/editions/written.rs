//! What is written on a print, and the printouts that go with it.

use super::{bench, done, edition, noted, refused};

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
        bench.json("edition inscribe W0001 3/25 @print.png --json --record @studio").unwrap();
    assert_eq!(told["front"][0]["text"], "3/25");
    assert_eq!(told["front"][1]["sign"], true);
    assert_eq!(told["behind_image"], false);
    let wrong = edition(&bench, "inscribe W0001 3/25 @print.png --stands 4/25");
    assert_eq!(wrong.exit, 2, "{wrong:?}");
    assert!(
        wrong.out.contains(
            "Fault: inscription-record: The print says “4/25”, but the record says “3/25”"
        ),
        "{wrong:?}"
    );
    refused(
        &bench,
        "inscribe W0001 3/25",
        4,
        "a plan is missing: sightedge edition inscribe WORK NUMBER PLAN",
    );
    refused(
        &bench,
        "inscribe W0001 3/25 @print.png --back {x}",
        4,
        "\"x\" in \"{x}\" is not a field of the record",
    );
    refused(
        &bench,
        "inscribe W0001 3/25 @print.png --front roof",
        4,
        "--front roof is no place",
    );
}

#[test]
fn printouts_that_go_with_a_print() {
    let bench = bench("printouts");
    done(
        &bench,
        "new --title \"Slack water\" --maker \"Ada Brook\" --size 25 --sheet 13x19in --image 11x15",
        "",
    );
    done(&bench, "issue W0001", "");
    let hand = "The certificate has lines to fill in by hand";
    noted(&bench, "printouts W0001 1/25 --out @out", "W0001-1-25-labels.pdf", hand);
    noted(
        &bench,
        "printouts W0001 1/25 --out @single --single --label 100x62mm",
        "labels.pdf",
        hand,
    );
    done(&bench, "move W0001 1/25 --to show --place Harbour", "");
    let head = "without your name and address";
    noted(
        &bench,
        "printouts --show Harbour --out @out --sheet-of letter",
        "consignment.pdf",
        head,
    );
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
    refused(
        &bench,
        "printouts W0001 1/25",
        4,
        "--out is missing: the folder to write to, as in --out printouts",
    );
    refused(&bench, "printouts W0001 2/25 --out @out", 3, "2/25 is not issued: issue it first");
    refused(
        &bench,
        "printouts W0001 1 --out @out --grid 9x9",
        4,
        "9 columns of labels with a margin of",
    );
    refused(
        &bench,
        "printouts --show Nowhere --out @out",
        3,
        "nothing is at Nowhere; give another show: prints are at Harbour",
    );
}
