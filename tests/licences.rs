//! The licences that go with the program: its own, the typeface's, and those of every crate that
//! is linked. `tests/licences.py` writes the list of crates.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use sightedge_tests::commands::run;

const LIST: &str = include_str!("../assets/licences/crates.txt");

/// Name and version of each crate that is listed.
fn listed() -> BTreeSet<(String, String)> {
    let lines = LIST.lines().skip(2).take_while(|line| !line.is_empty());
    lines
        .map(|line| {
            let (crate_, _) = line.split_once(": ").unwrap();
            let (name, version) = crate_.split_once(' ').unwrap();
            (name.to_owned(), version.to_owned())
        })
        .collect()
}

#[test]
fn all_licences_are_printed() {
    let said = run(&["--licences"]);
    assert_eq!((said.exit, said.err.as_str()), (0, ""));
    for part in
        ["MIT", "Apache License", "SIL OPEN FONT LICENSE", "Independent JPEG Group", "egui "]
    {
        assert!(said.out.contains(part), "{part}");
    }
    assert!(said.out.contains(LIST.trim()), "the list of crates");
}

/// Source: Cargo.lock, which names what is built in just which version.
#[test]
fn the_list_is_of_the_versions_in_the_lock_file() {
    let lock = include_str!("../Cargo.lock").replace("\r\n", "\n");
    let listed = listed();
    assert!(listed.len() > 300, "{}", listed.len());
    for (name, version) in &listed {
        let entry = format!("name = \"{name}\"\nversion = \"{version}\"\n");
        assert!(lock.contains(&entry), "{name} {version} is not built: run tests/licences.py");
    }
}

/// Source: cargo's own tree of what is linked on this system.
#[test]
fn every_crate_that_is_linked_is_listed() {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let tree = Command::new(cargo)
        .args(["tree", "--offline", "--locked", "-p", "sightedge", "-e", "normal"])
        .args(["--all-features", "--prefix", "none", "-f", "{p}"])
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap())
        .output()
        .unwrap();
    assert!(tree.status.success(), "{}", String::from_utf8_lossy(&tree.stderr));
    let listed = listed();
    let mut linked = 0;
    for line in String::from_utf8(tree.stdout).unwrap().lines() {
        let mut words = line.split(' ');
        let (Some(name), Some(version)) = (words.next(), words.next()) else { continue };
        if name.starts_with("sightedge") {
            continue;
        }
        linked += 1;
        let entry = (name.to_owned(), version.trim_start_matches('v').to_owned());
        assert!(listed.contains(&entry), "{line} is not listed: run tests/licences.py");
    }
    assert!(linked > 200, "{linked}");
}
