//! The order of the sources: core's and the window's modules stand on layers, no file imports in
//! a circle, core depends on no screen; every rule names where its figures come from.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use sightedge_core::derived::derive;
use sightedge_core::material::Tables;
use sightedge_core::rules::RULES;
use sightedge_tests::imports::{Imports, circles, code, files};
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

/// The first name of a file's path below `folder`, without its ending: its module there.
fn module<'f>(file: &'f str, folder: &str) -> Option<&'f str> {
    let inside = file.strip_prefix(folder)?.trim_start_matches('/');
    let first = inside.split('/').next()?.trim_end_matches(".rs");
    (!matches!(first, "lib" | "mod")).then_some(first)
}

/// Every module of `folder` within the sources at `sources` uses only those listed above it in
/// the documentation of `listed`.
fn hold_the_order(sources: &str, folder: &str, listed: &str, least: (usize, usize)) {
    let layers = layers(&fs::read_to_string(top(sources).join(listed)).unwrap());
    let height =
        |module: &str| layers.iter().position(|names| names.iter().any(|n| n == module));
    let mut graph: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (file, uses) in Imports::read(&top(sources)).graph() {
        let Some(own) = module(&file, folder) else { continue };
        let uses = uses.iter().filter_map(|other| module(other, folder));
        let uses = uses.filter(|other| *other != own).map(ToOwned::to_owned);
        graph.entry(own.to_owned()).or_default().extend(uses);
    }
    assert!(graph.len() >= least.0 && layers.len() >= least.1, "{graph:?} {layers:?}");
    let all = layers.iter().flatten().collect::<BTreeSet<_>>();
    assert_eq!(all, graph.keys().collect(), "every module stands on one layer of {listed}");
    for (module, uses) in &graph {
        for other in uses {
            let (Some(below), Some(own)) = (height(other), height(module)) else {
                panic!("{module} uses {other}: no layer")
            };
            assert!(below <= own, "{module} uses {other}, which stands above it");
        }
    }
    assert_eq!(
        circles(&graph),
        Vec::<BTreeSet<String>>::new(),
        "among the modules of {folder}"
    );
}

#[test]
fn modules_stand_on_layers() {
    hold_the_order("core/src", "", "lib.rs", (10, 6));
}

#[test]
fn the_window_stands_on_layers() {
    hold_the_order("app/src", "window", "window/mod.rs", (10, 8));
}

/// The sources of every package of the workspace.
fn packages() -> Vec<String> {
    let manifest = fs::read_to_string(top("Cargo.toml")).unwrap();
    let members = manifest.split("members = [").nth(1).unwrap().split(']').next().unwrap();
    members.split('"').skip(1).step_by(2).map(|member| format!("{member}/src")).collect()
}

/// File by file: whoever reads one file need not read those that need it.
#[test]
fn no_file_imports_in_a_circle() {
    let packages = packages();
    assert!(packages.len() >= 9, "{packages:?}");
    let mut found = Vec::new();
    for package in packages {
        let graph = Imports::read(&top(&package)).graph();
        assert!(graph.values().any(|uses| !uses.is_empty()), "{package}: no import is seen");
        found.extend(circles(&graph).into_iter().map(|circle| (package.clone(), circle)));
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// A screen takes nothing from another one: what several show lies in `shared`.
#[test]
fn screens_do_not_import_each_other() {
    let folder = "window/screens";
    let graph = Imports::read(&top("app/src")).graph();
    let mut screens = BTreeSet::new();
    for (file, uses) in &graph {
        let Some(own) = module(file, folder) else { continue };
        screens.insert(own);
        for other in uses {
            let of = module(other, folder).unwrap_or(own);
            assert!(own == "shared" || of == own || of == "shared", "{file} uses {other}");
            assert!(own != "shared" || of == "shared", "{file} uses {other}");
        }
    }
    assert!(screens.len() >= 7, "{screens:?}");
}

/// Screens read in a frame and write nothing: what is to be written is requested, and done after
/// the frame or by a worker. What workers do lies in files called so.
#[test]
fn screens_write_nothing_in_a_frame() {
    const WRITES: [&str; 13] = [
        "fs::write",
        "fs::rename",
        "fs::copy",
        "fs::remove",
        "create_dir",
        "File::create",
        "OpenOptions",
        "write_whole",
        "write_all",
        "storage.write",
        "put_aside",
        "thread::spawn",
        // Whoever has one can write.
        "storage::Storage",
    ];
    let folder = top("app/src/window");
    let mut by_workers: BTreeSet<&str> = BTreeSet::new();
    let mut frames = 0;
    let mut found = Vec::new();
    for inside in ["screens", "context", "widgets", "canvas"] {
        for file in files(&folder.join(inside)) {
            let code = code(&fs::read_to_string(&file).unwrap());
            let writes = WRITES.into_iter().filter(|write| code.contains(write));
            let parts = file.iter().map(|part| part.to_string_lossy());
            if { parts }.any(|part| part.trim_end_matches(".rs") == "worker") {
                by_workers.extend(writes);
                continue;
            }
            frames += 1;
            let name = file.strip_prefix(&folder).unwrap().display().to_string();
            // Both hand it on: to the record's worker, to a view that cannot write.
            let hands_on = ["screens/mod.rs", "context/storage_view.rs"].contains(&&*name);
            let writes = writes.filter(|write| !(hands_on && *write == "storage::Storage"));
            found.extend(writes.map(|write| format!("{name}: {write}")));
        }
    }
    assert!(found.is_empty(), "{found:#?}");
    // The test would see them: workers do write.
    assert!(frames > 60 && by_workers.contains("File::create"), "{frames} {by_workers:?}");
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
