//! The printouts: pages as they will print, and files for the bench.

use std::fs;
use std::path::Path;

use egui::accesskit::Role;
use egui::{Key, Modifiers};

use crate::support::{Plans, Window, open};

/// A window in the printouts' place of work.
fn printouts(files: &[&Path]) -> Window {
    let mut window = open(files);
    window.click("Printouts");
    window
}

/// The pages that are seen.
fn pages(window: &Window) -> Vec<String> {
    let seen = window.seen().into_iter();
    seen.filter(|one| one.role == Role::Image && one.name.contains(", page "))
        .map(|one| one.name)
        .collect()
}

fn files_in(folder: &Path) -> Vec<String> {
    let Ok(list) = fs::read_dir(folder) else { return Vec::new() };
    let name = |entry: std::io::Result<fs::DirEntry>| {
        entry.unwrap().file_name().into_string().unwrap()
    };
    let mut names: Vec<String> = list.map(name).collect();
    names.sort();
    names
}

/// Whether the page in the middle of the window has ink on white.
fn printed(window: &Window) -> bool {
    let place = window.seen().into_iter().find(|one| one.name.contains(", page "));
    let rect = place.unwrap().rect.shrink(4.0);
    let image = window.image();
    let mut dark = 0;
    let mut white = 0;
    for x in 0..rect.width() as usize {
        for y in 0..rect.height() as usize {
            let [r, g, b, _] = image.at(rect.left() as usize + x, rect.top() as usize + y);
            let mean = (r + g + b) / 3.0;
            dark += usize::from(mean < 0.5);
            white += usize::from(mean > 0.98);
        }
    }
    dark > 200 && white > 20_000
}

#[test]
fn pages_are_those_that_print() {
    let plans = Plans::new();
    let mut window = printouts(&[&plans.reference()]);
    assert_eq!(pages(&window)[0], "Plan sheet, page 1 of 2");
    assert!(printed(&window), "there is ink on the page");
    window.click("Printout shown: Steps");
    assert_eq!(pages(&window)[0], "Steps, page 1 of 3");
    window.click("Printout shown: Templates");
    let tiles = pages(&window);
    assert!(tiles.len() > 2, "{tiles:?}");
    // Another unit is another step of the plan, and of its printouts.
    window.click("Unit: mm");
    assert_eq!(window.steps().0, Some("unit"));
    assert!(pages(&window).len() > 2);
}

#[test]
fn nearer_and_farther() {
    let plans = Plans::new();
    let mut window = printouts(&[&plans.reference()]);
    let wide = |window: &Window| {
        let seen = window.seen().into_iter().find(|one| one.name.contains(", page 1"));
        seen.unwrap().rect.width()
    };
    let all = wide(&window);
    window.key_with(Modifiers::COMMAND, Key::Plus);
    let nearer = wide(&window);
    assert!(nearer > all, "{nearer} {all}");
    window.click("As wide as there is room");
    assert!(wide(&window) > nearer);
    window.click("Zoom out");
    window.click("All of a page");
    assert_eq!(wide(&window), all);
}

#[test]
fn the_printouts_of_this_plan() {
    let plans = Plans::new();
    let plan = plans.reference();
    let mut window = printouts(&[&plan]);
    for paper in ["Templates", "Steps", "Order list", "For the client"] {
        window.click(paper);
    }
    for drawing in ["Cut drawing for drawing programs", "Cut list for spreadsheets"] {
        window.click(drawing);
    }
    window.click("Write the printouts");
    let stem = plan.file_name().unwrap().to_str().unwrap().split('.').next().unwrap();
    let wanted = ["-cut.csv", "-cut.svg", "-cutter.pdf", "-plan.pdf"];
    let wanted = wanted.map(|ending| format!("{stem}{ending}"));
    assert_eq!(files_in(&plans.folder().join("printouts")), wanted);
    assert!(window.texts().contains("Written: 4 files, in "), "{}", window.texts());
    // Into a folder that was typed; nothing to write is nothing to press.
    let other = plans.folder().join("elsewhere");
    window.type_in("Folder for printouts", other.to_str().unwrap());
    window.key(Key::Enter);
    for paper in
        ["Cutter’s card", "Cut drawing for drawing programs", "Cut list for spreadsheets"]
    {
        window.click(paper);
    }
    window.click("Write the printouts");
    assert_eq!(files_in(&other), [format!("{stem}-plan.pdf")]);
    window.click("Plan sheet");
    window.click("Write the printouts");
    assert_eq!(files_in(&other).len(), 1);
}

#[test]
fn what_cannot_be_written_is_told() {
    let plans = Plans::new();
    let plan = plans.reference();
    let mut window = printouts(&[&plan]);
    let blocked = plans.folder().join("a file");
    fs::write(&blocked, "in the way").unwrap();
    window.type_in("Folder for printouts", blocked.join("printouts").to_str().unwrap());
    window.key(Key::Enter);
    window.click("Write the printouts");
    let texts = window.texts();
    assert!(texts.contains("Not written: "), "{texts}");
    assert!(texts.contains("choose another folder"), "{texts}");
}

#[test]
fn a_folder_of_plans_goes_on_after_a_failure() {
    let plans = Plans::new();
    let first = plans.reference();
    plans.in_hand();
    fs::write(plans.folder().join("broken.jpg.sightedge.ron"), "(version: 5, ").unwrap();
    let mut window = printouts(&[&first]);
    window.click("Printouts of: A folder of plans");
    for paper in ["Plan sheet", "Cutter’s card", "Templates", "Order list", "For the client"]
    {
        window.click(paper);
    }
    window.click("Write the printouts of all plans");
    let texts = window.texts();
    assert!(texts.contains("Written: 2 files of 2 plans, in "), "{texts}");
    assert!(texts.contains("Not written: ") && texts.contains("broken.jpg"), "{texts}");
    assert_eq!(files_in(&plans.folder().join("printouts")).len(), 2);
    // An empty folder says what to do.
    let empty = plans.folder().join("empty");
    fs::create_dir(&empty).unwrap();
    window.type_in("Folder of plans", empty.to_str().unwrap());
    window.key(Key::Enter);
    window.click("Write the printouts of all plans");
    let texts = window.texts();
    assert!(texts.contains("holds no plan: choose a folder"), "{texts}");
}

/// Of a folder there is one order list, for all its plans.
#[test]
fn one_order_list_for_a_folder() {
    let plans = Plans::new();
    let first = plans.reference();
    plans.in_hand();
    let mut window = printouts(&[&first]);
    window.click("Printout shown: Order list");
    assert_eq!(pages(&window), ["Order list, page 1 of 1"]);
    window.click("Printouts of: A folder of plans");
    for paper in ["Plan sheet", "Cutter’s card", "Templates", "Steps", "For the client"] {
        window.click(paper);
    }
    window.click("Write the printouts of all plans");
    let texts = window.texts();
    assert!(texts.contains("Written: 2 files of 2 plans, in "), "{texts}");
    let files = files_in(&plans.folder().join("printouts"));
    assert_eq!(files, ["order-list.csv", "order-list.pdf"]);
}
