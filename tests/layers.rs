//! The house's order, read from its sources: core's modules stand on layers, without circles;
//! core knows of no screen; every rule names where its figures come from.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use sightedge_core::derived::derive;
use sightedge_core::material::Tables;
use sightedge_core::rules::RULES;
use sightedge_tests::plans;
use sightedge_tests::random::Random;

/// A file of the project, from its top.
fn top(path: &str) -> PathBuf {
    // Not by way of this folder: a path through "tests" is taken for one of tests.
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().join(path)
}

/// The layers as the crate's own documentation lists them, the lowest first.
fn layers(lib: &str) -> Vec<Vec<String>> {
    let list = lib.split("```").nth(1).unwrap();
    let lines = list.lines().skip(1).map(|line| line.trim_start_matches("//!").trim());
    lines
        .filter(|line| !line.is_empty())
        .map(|line| {
            let names = line.split("  ").next().unwrap();
            names.split('·').map(|name| name.trim().to_owned()).collect()
        })
        .collect()
}

/// Every Rust file under `path`.
fn sources(path: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(path).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
    found
}

/// Whether a file holds nothing but tests.
fn is_test(path: &Path) -> bool {
    let names = ["tests.rs", "testing.rs", "sample.rs"];
    path.file_name().is_some_and(|name| names.iter().any(|n| name == *n))
        || path.parent().is_some_and(|folder| folder.ends_with("tests"))
}

/// The code of a file, without comments and without the tests at its end.
fn code(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap();
    let own = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    own.lines()
        .map(|line| line.split("//").next().unwrap_or_default())
        .fold(String::new(), |all, line| all + line + "\n")
}

/// The modules of the crate that a file's code names.
fn uses(code: &str) -> BTreeSet<String> {
    let word = |text: &str| {
        let end = text.find(|c: char| !c.is_ascii_alphanumeric() && c != '_');
        text[..end.unwrap_or(text.len())].to_owned()
    };
    let mut found = BTreeSet::new();
    for part in code.split("crate::").skip(1) {
        match part.strip_prefix('{') {
            // `use crate::{a::X, b::{Y, Z}}`: the words at depth one.
            Some(group) => {
                let (mut depth, mut name) = (1, String::new());
                for c in group.chars() {
                    match c {
                        '{' => depth += 1,
                        '}' => depth -= 1,
                        ',' if depth == 1 => {
                            found.insert(word(std::mem::take(&mut name).trim()));
                        }
                        c if depth == 1 => name.push(c),
                        _ => {}
                    }
                    if depth == 0 {
                        break;
                    }
                }
                found.insert(word(name.trim()));
            }
            None => {
                found.insert(word(part));
            }
        }
    }
    found.remove("");
    found
}

/// What each module of a crate's sources names of the others.
fn graph(folder: &Path) -> BTreeMap<String, BTreeSet<String>> {
    let mut graph: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for file in sources(folder).into_iter().filter(|file| !is_test(file)) {
        let inside = file.strip_prefix(folder).unwrap().to_owned();
        let first = inside.components().next().unwrap().as_os_str().to_str().unwrap();
        let module = first.trim_end_matches(".rs").to_owned();
        if module == "lib" {
            continue;
        }
        let mut named = uses(&code(&file));
        named.remove(&module);
        graph.entry(module).or_default().extend(named);
    }
    graph
}

#[test]
fn modules_stand_on_layers() {
    let folder = top("core/src");
    let layers = layers(&fs::read_to_string(folder.join("lib.rs")).unwrap());
    let height =
        |module: &str| layers.iter().position(|names| names.iter().any(|n| n == module));
    let graph = graph(&folder);
    assert!(graph.len() > 10 && layers.len() > 6, "{graph:?} {layers:?}");
    let listed = layers.iter().flatten().collect::<BTreeSet<_>>();
    assert_eq!(listed, graph.keys().collect(), "every module stands on one layer");
    for (module, named) in &graph {
        for other in named {
            let Some(below) = height(other) else { panic!("{module} uses {other}: no module") };
            assert!(
                below <= height(module).unwrap(),
                "{module} uses {other}, which stands above"
            );
        }
    }
    no_circle(&graph);
}

fn no_circle(graph: &BTreeMap<String, BTreeSet<String>>) {
    let mut left = graph.clone();
    while !left.is_empty() {
        let names: BTreeSet<String> = left.keys().cloned().collect();
        let before = left.len();
        left.retain(|_, named| named.iter().any(|other| names.contains(other)));
        assert!(left.len() < before, "a circle among {names:?}");
    }
}

/// The reader of sources sees what it must, or the tests above say nothing.
#[test]
fn the_reader_sees() {
    #[track_caller]
    fn case(code: &str, wanted: &[&str]) {
        let found = uses(code);
        assert_eq!(found.iter().map(String::as_str).collect::<Vec<_>>(), wanted, "{code}");
    }
    case("use crate::spec::Mat;", &["spec"]);
    case("use crate::{spec::{Mat, Layer}, layout};", &["layout", "spec"]);
    case("fn f() -> crate::length::Length { crate::rules::judge() }", &["length", "rules"]);
    case("pub(crate) fn own() {}", &[]);
}

/// Panels of the window share nothing with each other but what lies outside them.
#[test]
fn panels_do_not_use_each_other() {
    for file in sources(&top("app/src/panels")) {
        if file.ends_with("mod.rs") {
            continue;
        }
        let code = code(&file);
        let own = file.file_stem().unwrap().to_str().unwrap().to_owned();
        for part in code.split("panels::").skip(1) {
            let name = part.split(|c: char| !c.is_ascii_alphanumeric() && c != '_').next();
            let of = name.unwrap_or_default();
            let is_panel = top("app/src/panels").join(format!("{of}.rs")).exists();
            assert!(of == own || !is_panel, "{} uses the panel {of}", file.display());
        }
    }
}

/// Core and all that it is built on know of no screen.
#[test]
fn core_depends_on_no_screen() {
    let lock = fs::read_to_string(top("Cargo.lock")).unwrap();
    let mut depends: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for package in lock.split("[[package]]").skip(1) {
        let name = package.split("name = \"").nth(1).unwrap().split('"').next().unwrap();
        let list = package.split("dependencies = [").nth(1).unwrap_or_default();
        // `"name"`, or `"name 1.2.3"` where several versions are there.
        let names = list.split('"').skip(1).step_by(2);
        let names = names.map(|name| name.split(' ').next().unwrap_or_default());
        depends.entry(name).or_default().extend(names);
    }
    // The lock lists what tests need, too: the generator of cases brings no screen either.
    let (shown, own) =
        (["sightedge", "sightedge-tests"], |name: &&str| name.starts_with("sightedge"));
    let below = depends.keys().copied().filter(own).filter(|name| !shown.contains(name));
    let below: Vec<&str> = below.collect();
    assert!(below.contains(&"sightedge-core") && below.len() >= 3, "{below:?}");
    for package in below {
        let (mut seen, mut open) = (BTreeSet::new(), vec![package]);
        while let Some(next) = open.pop() {
            if seen.insert(next) {
                open.extend(depends.get(next).into_iter().flatten());
            }
        }
        for screen in ["egui", "eframe", "winit", "rfd", "epaint", "glow", "sightedge"] {
            assert!(!seen.contains(screen), "{package} depends on {screen}");
        }
    }
    assert!(depends.contains_key("egui"), "the window's own packages are in the lock");
}

/// Every finding of every rule says whose figure it holds a mat to.
#[test]
fn every_finding_names_its_source() {
    let mut met = BTreeSet::new();
    for seed in 0..6000 {
        let document = plans::any(&mut Random::new(seed));
        for variant in &document.variants {
            for finding in derive(&document, variant, Tables::shipped()).findings {
                assert!(!finding.source.trim().is_empty(), "{}", finding.rule);
                assert!(!finding.message.trim().is_empty(), "{}", finding.rule);
                met.insert(finding.rule);
            }
        }
    }
    let all: BTreeSet<_> = RULES.iter().map(|rule| rule.id).collect();
    let unmet: Vec<_> = all.difference(&met).collect();
    assert!(met.is_subset(&all), "{met:?}");
    assert!(unmet.is_empty(), "never met in these plans: {unmet:?}");
}
