//! A whole folder of plans into one folder of papers.

#![allow(clippy::unwrap_used, reason = "a helper of tests")]

mod support;

use std::fs;
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};

use sightedge_core::date::Date;
use sightedge_core::file::store::plans_in;
use sightedge_core::file::write as text_of;
use sightedge_papers::{Choice, Kind, PapersError, write_all};
use support::reference;

fn folder(name: &str) -> PathBuf {
    let path =
        std::env::temp_dir().join(format!("sightedge-batch-{}-{name}", std::process::id()));
    // A run before this one may have left it.
    if path.exists() {
        fs::remove_dir_all(&path).unwrap();
    }
    fs::create_dir_all(&path).unwrap();
    path
}

fn choice() -> Choice {
    let date = Date::new(2026, 3, 1);
    Choice { kinds: vec![Kind::Steps], date, ..Choice::default() }
}

#[test]
fn names_are_never_shared_and_one_failure_stops_nothing() {
    let (plans, out) = (folder("plans"), folder("out").join("papers"));
    for (file, id, picture) in [
        ("a.jpg.sightedge.ron", "aaaaaaaa0001", "one/ebb.jpg"),
        ("b.jpg.sightedge.ron", "bbbbbbbb0002", "two/Ebb.jpg"),
    ] {
        let mut document = reference();
        id.clone_into(&mut document.id);
        picture.clone_into(&mut document.works[0].picture.path);
        fs::write(plans.join(file), text_of(&document)).unwrap();
    }
    fs::write(plans.join("c.jpg.sightedge.ron"), "no plan").unwrap();
    let found = plans_in(&plans).unwrap();
    assert_eq!(found.len(), 3);
    let mut seen = Vec::new();
    let go_on = AtomicBool::new(false);
    let ended = write_all(&found, &out, &choice(), &go_on, &mut |step| {
        seen.push((step.done, step.of));
    });
    assert_eq!(seen, [(1, 3), (2, 3), (3, 3)]);
    let ended = ended.unwrap();
    assert!(matches!(ended[2].ended, Err(PapersError::Plan(_))), "{:?}", ended[2]);
    let list = |folder: &PathBuf| {
        let mut names: Vec<_> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    };
    let wanted = [
        "Ebb-bbbbbbbb-cut-newer-machines.dxf",
        "Ebb-bbbbbbbb-cut-older-machines.dxf",
        "Ebb-bbbbbbbb-cut.csv",
        "Ebb-bbbbbbbb-cut.svg",
        "Ebb-bbbbbbbb-steps.pdf",
        "ebb-cut-newer-machines.dxf",
        "ebb-cut-older-machines.dxf",
        "ebb-cut.csv",
        "ebb-cut.svg",
        "ebb-steps.pdf",
    ];
    assert_eq!(list(&out), wanted);
    // Once more, the second plan alone: its papers are replaced, the first one's stay.
    let before = fs::read(out.join("ebb-steps.pdf")).unwrap();
    write_all(&found[1..2], &out, &choice(), &go_on, &mut |_| {}).unwrap()[0]
        .ended
        .clone()
        .unwrap();
    assert_eq!(fs::read(out.join("ebb-steps.pdf")).unwrap(), before);
    assert_eq!(list(&out).len(), 10, "{:?}", list(&out));
}

#[test]
fn a_mat_is_chosen_by_its_name() {
    let (plans, out) = (folder("named-plans"), folder("named-out"));
    let plan = plans.join("a.jpg.sightedge.ron");
    let document = reference();
    fs::write(&plan, text_of(&document)).unwrap();
    let go_on = AtomicBool::new(false);
    let ended = |name: &str| {
        let choice = Choice { variant: Some(name.to_owned()), ..choice() };
        let made = write_all(std::slice::from_ref(&plan), &out, &choice, &go_on, &mut |_| {});
        made.unwrap().remove(0).ended
    };
    let name = &document.variants[0].name;
    assert!(ended(name).is_ok(), "{:?}", ended(name));
    let refused = ended("Wide").unwrap_err().to_string();
    let wanted = format!("has no mat \"Wide\": it holds {name}");
    assert!(refused.ends_with(&wanted), "{refused}");
}

/// Of one plan its own list; of many one for all, in which what is alike is added up.
#[test]
fn many_plans_share_one_order_list() {
    let (plans, out) = (folder("order-plans"), folder("order-out"));
    for (file, id) in [("a.jpg.sightedge.ron", "aaaa"), ("b.jpg.sightedge.ron", "bbbb")] {
        let mut document = reference();
        id.clone_into(&mut document.id);
        fs::write(plans.join(file), text_of(&document)).unwrap();
    }
    let found = plans_in(&plans).unwrap();
    let choice =
        Choice { kinds: vec![Kind::Order], svg: false, dxf: false, csv: false, ..choice() };
    let go_on = AtomicBool::new(false);
    let ended = write_all(&found, &out, &choice, &go_on, &mut |_| {}).unwrap();
    let files = &ended[0].ended.as_ref().unwrap().files;
    assert_eq!(*files, [out.join("order-list.csv"), out.join("order-list.pdf")]);
    assert_eq!(ended[1].ended.as_ref().unwrap().files.len(), 0);
    let csv = fs::read_to_string(&files[0]).unwrap();
    assert!(csv.contains(",4,") || csv.contains(",2,20 in,26 in"), "{csv}");
    let ended = write_all(&found[..1], &out, &choice, &go_on, &mut |_| {}).unwrap();
    let files = &ended[0].ended.as_ref().unwrap().files;
    let names = ["slack-water-order.csv", "slack-water-order.pdf"].map(|name| out.join(name));
    assert_eq!(*files, names);
}

#[test]
fn a_stop_is_kept() {
    let (plans, out) = (folder("stop-plans"), folder("stop-out"));
    let plan = plans.join("a.jpg.sightedge.ron");
    fs::write(&plan, text_of(&reference())).unwrap();
    let stop = AtomicBool::new(false);
    let all = vec![plan; 40];
    let ended =
        write_all(&all, &out, &choice(), &stop, &mut |_| stop.store(true, Ordering::Relaxed));
    assert!(ended.unwrap().len() < 40, "it went on to the end");
}
