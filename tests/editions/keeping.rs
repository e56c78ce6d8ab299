//! The record out and in again, checked, damaged, put back.

use super::{bench, done, edition, refused};

#[test]
fn out_and_in_again() {
    let bench = bench("exchange");
    done(
        &bench,
        "new --title \"=1+1\" --maker \"D'Ebb\" --size 100 --issued 1..47 --sold 1..12,14-21,23..47",
        "",
    );
    done(&bench, "list", "47 of 100 issued, 45 sold, 2 at an unknown place");
    done(&bench, "new --title \" =HYPERLINK(1)\" --maker ＝1 --size 5", "");
    for (first, second) in [("@a.ron", "@b.ron"), ("@a", "@b")] {
        done(&bench, &format!("export {first}"), "2 works, 47 prints");
        let into = format!("edition import {first} --record @new-{}", &first[1..]);
        assert_eq!(bench.run(&into).exit, 0);
        let again = bench.run(&into);
        assert_eq!(again.exit, 4);
        assert!(again.err.contains("the record holds works already"), "{again:?}");
        let out = format!("edition export {second} --record @new-{}", &first[1..]);
        assert_eq!(bench.run(&out).exit, 0);
    }
    refused(&bench, "export @a.ron", 4, "say --replace");
    refused(&bench, "export @a", 4, "say --replace");
    refused(&bench, "export @a.txt", 4, "is no place for a record");
    done(&bench, "export @a.ron --replace", "2 works, 47 prints");
    let read = |name: &str| std::fs::read(bench.path(name)).unwrap();
    assert!(read("a.ron") == read("b.ron"), "the same to the byte");
    for table in ["works.csv", "prints.csv", "editions.csv", "history.csv"] {
        assert!(read(&format!("a/{table}")) == read(&format!("b/{table}")), "{table}");
    }
    let works = String::from_utf8(read("a/works.csv")).unwrap();
    for cells in [",'=1+1,D'Ebb,", ",' =HYPERLINK(1),'＝1,"] {
        assert!(works.contains(cells), "no cell is a formula: {works}");
    }
    refused(&bench, "import @missing.ron", 3, "missing.ron cannot be read");
}

/// What was issued before the record began is neither sold nor in the studio until someone says
/// where it is.
#[test]
fn taken_over_is_not_sold() {
    let bench = bench("taken-over");
    done(&bench, "new --title Weir --size 25 --issued 1..10 --price \"800 EUR\"", "W0001");
    done(&bench, "list", "10 of 25 issued, 10 at an unknown place");
    let said = edition(&bench, "list");
    assert!(!said.out.contains("sold") && !said.out.contains("studio"), "{}", said.out);
    done(&bench, "list W0001", "3/25        at an unknown place");
    done(
        &bench,
        "move W0001 1..4,6 --to sold --buyer \"B. of Ostmere\"",
        "6/25        sold, B.",
    );
    done(&bench, "move W0001 7-8 --to show --place Hall", "8/25        at a show: Hall");
    done(
        &bench,
        "list",
        "10 of 25 issued, 2 at a show, 5 sold, 3 at an unknown place\n5 sold, the price not",
    );
    refused(
        &bench,
        "move W0001 5,6 --to studio",
        4,
        "number 6 is sold already, so nothing was changed",
    );
    refused(&bench, "move W0001 5,12 --to studio", 3, "number 12 is not issued");
    refused(&bench, "move W0001 5,9 --to voided", 4, "void or replace one at a time");
    refused(&bench, "move W0001 5,x --to studio", 4, "\"x\" is no number of an edition");
    refused(&bench, "move W0001 5,6 --to sold --price 9", 4, "number 6 is sold already");
    done(&bench, "list", "5 sold, 3 at an unknown place");
    done(&bench, "move W0001 5/25 --to studio", "5/25        in the studio");
    refused(&bench, "new --title Sill --size 5 --sold 3", 4, "--issued");
}

/// Looking, or issuing of nothing, begins no record; adding a work does.
#[test]
fn only_a_work_begins_a_record() {
    let bench = bench("begins");
    let file = bench.path("studio/studio.sqlite");
    let said = bench.run("edition folder");
    assert_eq!(said.exit, 0, "{said:?}");
    assert!(said.out.contains("studio: none is begun yet"), "{said:?}");
    for line in [
        "issue W0001",
        "move W0001 1/5 --to sold",
        "list W0001",
        "check",
        "printouts W0001 --out @out",
    ] {
        let said = bench.run(&format!("edition {line}"));
        assert_eq!((said.exit, said.out.as_str()), (3, ""), "{line}: {said:?}");
        assert!(said.err.contains("there is no record in "), "{line}: {said:?}");
        assert!(said.err.contains("sightedge edition new"), "{line}: {said:?}");
    }
    assert!(bench.run("edition list").out.starts_with("Nothing here yet"));
    let told = bench.json("edition list --json").unwrap();
    assert_eq!(told["works"].as_array().map(Vec::len), Some(0));
    assert!(!bench.path("studio").exists(), "nothing was made");
    assert_eq!(bench.run("edition new --title Weir --size 5").exit, 0);
    assert!(file.exists());
    assert_eq!(bench.run("edition issue W0001").exit, 0);
}

/// Where it is no longer known where the record is, each command says so, until the person has
/// chosen; what was chosen can still be read by them.
#[test]
fn a_spoilt_choice_is_asked_for_until_it_is_made() {
    let bench = bench("spoilt");
    let kept = bench.path("studio.ron");
    assert_eq!(bench.run("edition new --title Weir --size 5 --record @prints").exit, 0);
    let said = bench.run("edition folder @prints");
    assert_eq!(said.exit, 0, "{said:?}");
    assert!(bench.run("edition list").out.contains("Weir"));
    std::fs::write(&kept, "(folder: Some(\"/stu").unwrap();
    for line in ["list", "new --title Sill --size 5", "list", "issue W0001", "folder", "list"] {
        let said = bench.run(&format!("edition {line}"));
        assert_eq!((said.exit, said.out.as_str()), (4, ""), "{line}: {said:?}");
        for words in ["studio.ron cannot be read", "No new record", "edition folder FOLDER"] {
            assert!(said.err.contains(words), "{line}: {}", said.err);
        }
    }
    assert!(!bench.path("studio").exists(), "no new record was begun");
    assert_eq!(std::fs::read_to_string(&kept).unwrap(), "(folder: Some(\"/stu");
    let said = bench.run("edition folder @elsewhere");
    assert_eq!(said.exit, 3, "{said:?}");
    assert!(bench.run("edition list").exit == 4 && !bench.path("elsewhere").exists());
    assert!(bench.run("edition list --record @prints").out.contains("Weir"), "for once");
    assert_eq!(bench.run("edition folder @prints").exit, 0);
    assert!(bench.run("edition list").out.contains("Weir"));
    assert!(bench.path("studio-1.unreadable").exists(), "what was spoilt is kept");
    let said = bench.run("edition folder");
    assert!(said.out.trim_end().ends_with("prints"), "{said:?}");
}

/// Of editions of several sizes one alone is listed; of a show nobody knows nothing is.
#[test]
fn lists_are_of_what_is_asked_for() {
    let bench = bench("lists");
    done(&bench, "new --title Lock --size 5 --format large --sheet 16x20in", "W0001");
    done(&bench, "new --of W0001 --size 7 --format small --sheet 8x10in", "W0001");
    done(&bench, "issue W0001 --in 2 --price \"90 EUR\"", "1/7");
    done(&bench, "move W0001 1/7 --to show --place Harbour", "1/7");
    done(&bench, "move W0001 1/7 --to sold", "1/7");
    let listed = edition(&bench, "list W0001 --in 2").out;
    assert!(listed.contains("edition 2") && !listed.contains("edition 1"), "{listed}");
    done(&bench, "list --show Harbour", "W0001   Lock  1/7  90.00 EUR  sold");
    refused(&bench, "list --show Nowhere", 3, "nothing is at Nowhere: no print is at a show");
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
    done(&bench, "check", "\nOne older backup, of 2024-03-01, is beside it\n");
    older("2024-02-01");
    done(
        &bench,
        "check",
        "\n2 older backups are beside it, back to 2024-02-01; --json names them",
    );
    let told = bench.json("edition check --json --record @studio").unwrap();
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
    let backup =
        said.err.split("backup is ").nth(1).unwrap().split(": restore").next().unwrap();
    done(&bench, &format!("check --put-back \"{backup}\""), "restored ");
    // Nothing is gone: the backup was made after the last change.
    done(&bench, "list W0001", "edition 1: 1 of 9 issued");
    let newer = bench.path("studio/studio.sqlite");
    assert!(newer.exists());
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
    refused(
        &bench,
        &format!("check --put-back {backup}"),
        4,
        "is not damaged: nothing was restored",
    );
    std::fs::remove_file(studio.join("studio.sqlite")).unwrap();
    refused(&bench, "issue W0001", 3, "it is not there, and its backups are");
    refused(&bench, "list", 3, &format!("sightedge edition check --put-back {backup}"));
    done(&bench, &format!("check --put-back {backup}"), "restored");
    done(&bench, "list W0001", "1/5");
    let typo = bench.path("typo");
    let said = bench.run("edition list --record @typo");
    assert_eq!(said.exit, 3, "{}", said.err);
    assert!(said.err.contains("there is no record in") && !typo.exists(), "{}", said.err);
}

/// A price without a currency takes the record's, which is asked for once.
#[test]
fn a_currency_is_asked_for_once() {
    let bench = bench("currency");
    refused(
        &bench,
        "new --title Weir --size 5 --price 80",
        4,
        "which currency is the price 80.00 in? Type it once, as in 80.00 EUR",
    );
    done(&bench, "list", "Nothing here yet");
    done(&bench, "new --title Weir --size 5 --price \"80 CHF\"", "W0001");
    done(&bench, "issue W0001 --price 90", "90.00 CHF");
}

/// Several numbers at once, or none; a buyer leads to the number; a show gets another name.
#[test]
fn several_move_at_once_and_are_found_again() {
    let bench = bench("several");
    done(&bench, "new --title Weir --size 9 --price \"80 EUR\"", "W0001");
    for _ in 0..4 {
        done(&bench, "issue W0001", "");
    }
    done(&bench, "move W0001 1,3..4 --to show --place Harbor", "4/9         at a show: Harbor");
    refused(&bench, "move W0001 2,5 --to studio", 3, "number 5 is not issued: nothing was");
    done(&bench, "move W0001 3,4 --to sold --buyer \"B. of Ostmere\" --price 70", "3/9");
    refused(
        &bench,
        "move W0001 2,3 --to sold",
        4,
        "number 3 is sold already, so nothing was changed",
    );
    done(&bench, "list W0001", "2/9         in the studio");
    done(
        &bench,
        "list --search ostmere",
        "          4/9         sold at Harbor, 70.00 EUR, B.",
    );
    let found = bench.json("edition list --search OSTMERE --json --record @studio").unwrap();
    assert_eq!(found["works"][0]["found"][1]["notation"], "4/9");
    done(&bench, "rename-show harbor \"Harbour Hall\"", "Harbour Hall: 3 prints renamed\n");
    done(&bench, "list --show \"Harbour Hall\"", "4/9  70.00 EUR  sold");
    refused(&bench, "rename-show Harbor X", 3, "no print is at a show named Harbor");
}

/// A mistaken work leaves the list and is brought back; a catalogue number is corrected.
#[test]
fn a_work_is_withdrawn_and_renumbered() {
    let bench = bench("withdrawn");
    done(&bench, "new --title Weir --size 9 --process photogravure --negative kept", "W0001");
    done(&bench, "new --title Wier --size 9", "W0002");
    refused(&bench, "correct W0002 --withdraw", 4, "a work is withdrawn only with a reason");
    done(&bench, "correct W0002 --withdraw --why \"typed twice\"", "W0002 is withdrawn");
    let listed = edition(&bench, "list").out;
    assert!(listed.contains("W0001") && !listed.contains("W0002"), "{listed}");
    done(&bench, "list --withdrawn", "W0002   Wier");
    refused(&bench, "issue W0002", 4, "this work is withdrawn, so no print of it");
    done(&bench, "correct W0002 --bring-back", "W0002 is on the lists again");
    done(&bench, "list --withdrawn", "No work is withdrawn.");
    refused(&bench, "correct W0002 --catalogue W0001 --why x", 4, "another work has this");
    refused(&bench, "correct W0002 --catalogue A7", 4, "only with a reason");
    done(&bench, "correct W0002 --catalogue A7 --why \"as in the book\"", "A7 Wier");
    done(&bench, "list A7 --history", "catalogue number A7 (was W0002)");
    let told = bench.json("edition list W0001 --json --record @studio").unwrap();
    assert_eq!(
        (&told["work"]["process"], &told["work"]["master"]),
        (&"photogravure".into(), &"kept".into())
    );
    done(&bench, "correct W0001 --signed \"on the back\"", "signed on the back");
}
