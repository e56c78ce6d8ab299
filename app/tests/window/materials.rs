//! Materials as tables: typed in, refused with field and reason, kept, and a plan's own copy.

use egui::{Key, Modifiers};
use sightedge_service::storage::Storage;

use crate::support::{Plans, Window};

fn at_the_tables(plans: &Plans) -> Window {
    let there = plans.folder().join("slack-water.png.sightedge.ron");
    let plan = if there.exists() { there } else { plans.reference() };
    let mut window = Window::new(Storage::at(plans.folder()), 1.0, &[&plan]);
    window.click("Behind it");
    window.click("Work on: Materials");
    window
}

fn set(window: &mut Window, cell: &str, text: &str) {
    window.type_in(cell, text);
    window.key(Key::Enter);
}

fn choose(window: &mut Window, now: &str) {
    window.click("Work on: Sheet");
    window.click(&format!("Paper: {now}"));
    window.click("Cotton, matt, 300 g");
}

fn gsm(window: &Window) -> Option<u32> {
    window.mat().assembly.paper.as_ref().and_then(|paper| paper.mass_gsm)
}

#[test]
fn a_cell_is_changed_and_kept_and_a_plan_keeps_its_own() {
    let plans = Plans::new();
    let mut window = at_the_tables(&plans);
    set(&mut window, "cotton-300, g/m²", "315");
    let kept = std::fs::read_to_string(plans.folder().join("materials.ron")).unwrap();
    assert!(kept.contains("mass_gsm: 315"), "{kept}");
    choose(&mut window, "Not chosen");
    assert_eq!(gsm(&window), Some(315));
    window.click("Work on: Materials");
    set(&mut window, "cotton-300, g/m²", "320");
    assert_eq!(gsm(&window), Some(315), "the plan keeps what it was made with");
    // The next session finds it, too.
    let mut again = at_the_tables(&plans);
    assert_eq!(again.field("cotton-300, g/m²"), "320");
    again.click("cotton-300: restore");
    assert_eq!(again.field("cotton-300, g/m²"), "300");
}

#[test]
fn a_wrong_cell_is_refused_with_its_field_and_the_reason() {
    let plans = Plans::new();
    let mut window = at_the_tables(&plans);
    set(&mut window, "cotton-300, g/m²", "heavy");
    let said = "cotton-300, g/m²: \"heavy\" is not a whole number: type digits only";
    assert!(window.texts().contains(said), "{}", window.texts());
    assert!(!plans.folder().join("materials.ron").exists());
    // Mended where it stands.
    set(&mut window, "cotton-300, g/m²", "312");
    assert!(!window.texts().contains("heavy"), "{}", window.texts());
    window.click("Table: Glazing");
    set(&mut window, "glass-2, thickness", "2");
    assert!(window.texts().contains("give a unit"), "{}", window.texts());
}

#[test]
fn a_row_of_ones_own_is_added() {
    let plans = Plans::new();
    let mut window = at_the_tables(&plans);
    window.click("Table: Frames");
    window.click("Add a row");
    set(&mut window, "own, name", "Ash, as bought");
    window.click("Work on: Frame");
    window.click("Frame: None: matted and bagged");
    window.click("Ash, as bought");
    let frame = window.mat().assembly.package.frame.clone().unwrap();
    assert_eq!((frame.id.as_str(), frame.origin.as_str()), ("own", "measured"));
}

#[test]
fn tables_that_cannot_be_read_are_told_of() {
    let plans = Plans::new();
    let file = plans.folder().join("materials.ron");
    std::fs::write(&file, "(bags: [(id: \"b\", name: \"\", size: \"9\", origin: \"\")])")
        .unwrap();
    let window = Window::new(Storage::at(plans.folder()), 1.0, &[&plans.reference()]);
    let shown = window.texts();
    assert!(shown.contains("b, size: give a unit"), "{shown}");
    assert!(file.exists(), "what a person made is left alone");
}

/// The steps are a template of the person's own: wording, order, and what is left out.
#[test]
fn the_steps_are_a_template_of_ones_own() {
    let plans = Plans::new();
    let mut window = at_the_tables(&plans);
    window.click("Bench");
    window.click("Change wording or order…");
    set(&mut window, "clear, title", "Sweep {widow}");
    let said = window.texts();
    assert!(
        said.contains("clear, title: {widow} is not a figure of a plan: use one of backing,"),
        "{said}"
    );
    set(&mut window, "clear, title", "Sweep");
    set(&mut window, "clear, what is done", "Sweep for {outer}.");
    window.click("cut: earlier");
    set(&mut window, "hinge-mat, when", "never");
    window.click("Bench");
    let shown = window.texts();
    assert!(shown.contains("Sweep for 20\u{a0}in ×\u{a0}26\u{a0}in."), "{shown}");
    assert!(!shown.contains("Hinge the mat to its"), "{shown}");
    let kept = std::fs::read_to_string(plans.folder().join("materials.ron")).unwrap();
    let order = "steps_order: [\"clear\", \"inscribe\", \"cut\", \"sign-margin\",";
    assert!(kept.contains(order), "{kept}");
    window.click("Change wording or order…");
    window.click("The program’s order");
    let kept = std::fs::read_to_string(plans.folder().join("materials.ron")).unwrap();
    assert!(kept.contains("Sweep") && !kept.contains("steps_order"), "{kept}");
}

/// What cannot be read is not written over by the next change.
#[test]
fn broken_tables_are_put_aside_before_others_are_kept() {
    let plans = Plans::new();
    let file = plans.folder().join("materials.ron");
    std::fs::write(&file, "(bags: [broken").unwrap();
    let mut window = Window::new(Storage::at(plans.folder()), 1.0, &[&plans.reference()]);
    window.click("Close");
    window.click("Behind it");
    window.click("Work on: Materials");
    set(&mut window, "cotton-300, g/m²", "315");
    let aside = std::fs::read_to_string(plans.folder().join("materials-1.unreadable"));
    assert_eq!(aside.unwrap(), "(bags: [broken");
    assert!(std::fs::read_to_string(&file).unwrap().contains("mass_gsm: 315"));
}

#[test]
fn a_size_of_ones_own_has_a_name() {
    let plans = Plans::new();
    let mut window = at_the_tables(&plans);
    window.click("Table: Outer sizes");
    window.click("Add a row");
    set(&mut window, "own, size", "13x13in");
    set(&mut window, "own, name", "8 × 10 in");
    assert!(window.texts().contains("is taken: give another name"), "{}", window.texts());
    set(&mut window, "own, name", "House square");
    let kept = std::fs::read_to_string(plans.folder().join("materials.ron")).unwrap();
    assert!(kept.contains("House square") && !kept.contains("\"own\""), "{kept}");
}

/// The row that is added is seen, its first field ready to be typed in.
#[test]
fn an_added_row_is_in_sight_and_typed_in() {
    let plans = Plans::new();
    let mut window = at_the_tables(&plans);
    window.click("Table: Steps at the bench");
    let foot = 1016.0 - 28.0;
    assert!(window.find("bag, title").rect.top() > foot, "the table is longer than the window");
    window.click("Add a row");
    let field = window.find("own, title");
    assert!(field.rect.bottom() < foot, "{field:?}");
    assert_eq!(window.focused(), "own, title");
    window.type_text("Sweep the bench");
    window.key(Key::Enter);
    assert_eq!(window.field("own, title"), "Sweep the bench", "in place of what stood there");
}

/// Nothing a person made is lost: rows that are added, changed and given up are taken back.
#[test]
fn changes_of_tables_are_taken_back() {
    let plans = Plans::new();
    let mut window = at_the_tables(&plans);
    let before = window.steps();
    window.click("Table: Frames");
    window.click("Add a row");
    set(&mut window, "own, name", "Ash, as bought");
    window.click("own: restore");
    assert!(!window.has("own, name"));
    assert_eq!(window.said(), "Dropped your change of own. Undo restores it.");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.said(), "Undid: own restored.");
    assert_eq!(window.field("own, name"), "Ash, as bought");
    // From another table, the one that was changed comes in front.
    window.click("Table: Papers");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.field("own, name"), "My own");
    window.click("Undo");
    assert!(!window.has("own, name"), "not added");
    let kept = || std::fs::read_to_string(plans.folder().join("materials.ron")).unwrap();
    assert!(!kept().contains("\"own\""), "{}", kept());
    for _ in 0..2 {
        window.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    }
    assert_eq!(window.field("own, name"), "Ash, as bought", "done again");
    assert!(kept().contains("Ash, as bought"), "{}", kept());
    // A cell that is typed in takes its own text back.
    window.type_in("own, name", "Elm");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_ne!(window.said(), "Undid: own, name.");
    window.key(Key::Escape);
    assert_eq!(window.field("own, name"), "Ash, as bought");
    assert_eq!(window.steps(), before, "the plan is as it was");
}

/// In the smallest window that is served every column is in sight.
#[test]
fn tables_fit_the_window() {
    let plans = Plans::new();
    let mut window = at_the_tables(&plans);
    window.resize(1280.0, 800.0);
    for (table, cell) in [
        ("Papers", "cotton-300, source"),
        ("Boards", "cotton-4-white, source"),
        ("Tissues and tapes", "kozo-light, source"),
        ("Steps at the bench", "clear, when"),
    ] {
        window.click(&format!("Table: {table}"));
        let rect = window.find(cell).rect;
        assert!(rect.right() < 1280.0 - 16.0, "{table}: {rect:?}");
        assert!(rect.width() > 80.0, "{table}: {rect:?}");
    }
}
