//! Which print of a plan lies at the bench: chosen, proposed, sold, voided, replaced.

use sightedge_tests::commands::{Bench, Said};

use super::{bench, done, edition, noted};

/// A plan with five numbers of an edition of 25.
fn five(name: &str) -> Bench {
    let bench = bench(name);
    assert_eq!(bench.new_plan("--sheet 13x19in --image 11x15 --overlap 1/8").exit, 0);
    done(&bench, "new @print.png --title \"Slack water\" --maker \"Ada Brook\" --size 25", "");
    for _ in 0..5 {
        done(&bench, "issue W0001 @print.png", "");
    }
    bench
}

fn steps(bench: &Bench, more: &str) -> Said {
    bench.run(&format!("steps @print.png --record @studio {more}"))
}

#[track_caller]
fn says(said: &Said, exit: u8, words: &str) {
    assert_eq!(said.exit, exit, "{said:?}");
    assert!(said.out.contains(words) || said.err.contains(words), "{words}: {said:?}");
}

#[test]
fn the_lowest_in_the_studio_is_proposed_and_another_can_be_named() {
    let bench = five("bench-proposed");
    says(&steps(&bench, ""), 0, "The print at the bench: 1/25, in the studio");
    done(&bench, "move W0001 1/25 --to sold --price \"800 EUR\" --buyer \"B. of Ostmere\"", "");
    done(&bench, "correct W0001 2/25 --matted 2025-11-20", "");
    let said = steps(&bench, "");
    says(&said, 0, "3/25 is taken as the print at the bench, the lowest number in the studio");
    says(&said, 0, "“3/25” (sign)");
    says(&steps(&bench, "--print 4/25"), 0, "“4/25” (sign)");
    // One that was sold is often framed after that.
    let said = steps(&bench, "--print 1/25");
    says(&said, 0, "The print at the bench: 1/25, sold, B. of Ostmere");
    says(&said, 0, "Note: “1/25”, the print at the bench, is sold to B. of Ostmere.");
    let said = steps(&bench, "--print 9/25");
    says(&said, 4, "9/25 is not a print of this plan, which has 1/25, 2/25, 3/25, 4/25, 5/25");
    says(&steps(&bench, "--print nine"), 4, "\"nine\" is not the number of a print");
    let told = bench.json("steps @print.png --record @studio --print 5/25 --json").unwrap();
    assert_eq!(told["print"], "5/25");
}

#[test]
fn what_was_chosen_stays_and_is_stopped_where_it_is_voided() {
    let bench = five("bench-voided");
    done(&bench, "inscribe W0001 2/25 @print.png --save", "2/25");
    says(&steps(&bench, ""), 0, "The print at the bench: 2/25, in the studio");
    let check = || bench.run("check @print.png --record @studio");
    assert!(!check().out.contains("print-at-bench"), "{:?}", check());
    done(&bench, "move W0001 2/25 --to voided", "");
    says(
        &steps(&bench, ""),
        2,
        "Fault: “2/25”, the print at the bench, was voided: no print has",
    );
    says(&check(), 2, "Fault: print-at-bench: “2/25”, the print at the bench, was voided");
    says(&check(), 2, "Take “1/25” to the bench");
    // Another print gets the number: the one that the plan names is the voided one all the same.
    done(&bench, "issue W0001 @print.png", "2/25");
    says(&steps(&bench, ""), 2, "was voided");
    says(&steps(&bench, "--print 2/25"), 0, "The print at the bench: 2/25, in the studio");
}

#[test]
fn a_print_that_replaces_another_inherits_its_plan_and_its_place_at_the_bench() {
    let bench = five("bench-replaced");
    done(&bench, "inscribe W0001 3/25 @print.png --save", "3/25");
    done(&bench, "move W0001 3/25 --to destroyed", "");
    says(
        &steps(&bench, ""),
        2,
        "Fault: The record says that “3/25”, the print at the bench, was destroyed.",
    );
    done(&bench, "move W0001 3/25 --to replaced --yes", "");
    let list = bench.json("edition list W0001 --json --record @studio").unwrap();
    let prints = list["editions"][0]["prints"].as_array().unwrap();
    let new = prints.iter().find(|one| one["notation"] == "3/25" && one["live"] == true);
    assert!(new.unwrap()["plan"].as_str().unwrap().ends_with(Bench::PLAN), "{new:?}");
    let said = steps(&bench, "");
    says(&said, 0, "The print at the bench: 3/25, in the studio");
    says(&said, 0, "“3/25” (sign)");
}

#[test]
fn printouts_are_for_one_print() {
    let bench = five("bench-printouts");
    let write = |print: &str, out: &str| {
        let line = format!(
            "printouts @print.png --steps --record @studio --print {print} --out @{out} --date \
             2025-11-30"
        );
        let said = bench.run(&line);
        assert_eq!(said.exit, 0, "{said:?}");
        let number = print.replace('/', "-");
        std::fs::read(bench.path(&format!("{out}/print-steps-{number}.pdf"))).unwrap()
    };
    let hand = "The certificate has lines to fill in by hand";
    noted(&bench, "printouts @print.png --out @out", "W0001-1-25-certificate.pdf", hand);
    assert_ne!(write("2/25", "two"), write("3/25", "three"));
    assert_eq!(write("2/25", "again"), write("2/25", "two"));
    // In one folder none writes over another's.
    let (two, three) = (write("2/25", "all"), write("3/25", "all"));
    assert_ne!(two, three);
    assert_eq!(std::fs::read(bench.path("all/print-steps-2-25.pdf")).unwrap(), two);
    let said =
        bench.run("printouts @print.png @print.png --record @studio --print 2/25 --out @out");
    says(&said, 4, "--print names one print, and 2 plans are given");
    done(&bench, "move W0001 2/25 --to destroyed", "");
    let said = edition(&bench, "inscribe W0001 2/25 @print.png");
    says(
        &said,
        2,
        "Fault: print-at-bench: The record says that “2/25”, the print at the bench, was destroyed.",
    );
}

/// Two editions of one work that count alike, with prints of one plan.
#[test]
fn a_number_of_two_editions_is_asked_for() {
    let bench = bench("bench-two-sizes");
    assert_eq!(bench.new_plan("--sheet 13x19in --image 11x15 --overlap 1/8").exit, 0);
    done(
        &bench,
        "new --title Weir --maker \"Ada Brook\" --size 10 --format small --image 8x10in",
        "W0001",
    );
    done(&bench, "new --of W0001 --size 10 --format large --image 16x20in", "W0001");
    for id in ["1", "2"] {
        let issued = edition(&bench, &format!("issue W0001 @print.png --in {id}"));
        says(&issued, 0, "1/10");
    }
    let words = "1/10 is the number of several prints of this plan, of edition 1 “small”, image 8 in × \
                 10 in and of edition 2 “large”, image 16 in × 20 in: say which one with --in 1 \
                 or --in 2";
    says(&steps(&bench, "--print 1/10"), 4, words);
    let printouts = |more: &str| {
        bench.run(&format!("printouts @print.png --steps --record @studio --out @out {more}"))
    };
    says(&printouts("--print 1/10"), 4, words);
    let said = steps(&bench, "--print 1/10 --in 2");
    says(&said, 0, "The print at the bench: 1/10, in the studio");
    says(
        &steps(&bench, "--print 1/10 --in 3"),
        4,
        "no print of edition 3: it has prints of 1, 2",
    );
    assert_eq!(printouts("--print 1/10 --in 2").exit, 0);
    let label = edition(&bench, "printouts @print.png --out @out --in 2");
    says(&label, 0, "W0001-1-10");
}
