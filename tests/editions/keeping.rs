//! The record out and in again, checked, damaged, put back.

use super::{bench, done, edition, refused};

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

/// Of editions of several sizes one alone is listed; of a show nobody knows nothing is.
#[test]
fn lists_are_of_what_is_asked_for() {
    let bench = bench("lists");
    done(&bench, "new --title Lock --size 5 --format large --sheet 16x20in", "W0001");
    done(&bench, "new --of W0001 --size 7 --format small --sheet 8x10in", "W0001");
    done(&bench, "issue W0001 --in 2 --price 90", "1/7");
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
