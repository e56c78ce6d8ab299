//! Every field says what it asks for.

use egui::accesskit::Role;
use egui::{Key, Modifiers};

use crate::support::{Plans, Seen, Window, open};

/// Whether one types, picks or chooses there.
fn is_field(one: &Seen) -> bool {
    matches!(
        one.role,
        Role::TextInput
            | Role::ComboBox
            | Role::SpinButton
            | Role::RadioButton
            | Role::CheckBox
    )
}

/// The texts that appear while the pointer rests there.
fn hint(window: &mut Window, one: &Seen) -> Vec<String> {
    window.move_to(egui::pos2(700.0, 1.0));
    window.wait(0.3);
    let before = window.texts();
    window.move_to(one.rect.center());
    for _ in 0..8 {
        window.frame();
    }
    window.move_to(one.rect.center() + egui::vec2(0.5, 0.0));
    for _ in 0..6 {
        window.frame();
    }
    let all = window.texts();
    let new = all.lines().filter(|line| !before.lines().any(|old| old == *line));
    new.map(str::to_owned).collect()
}

/// Walks all fields within the panel at the left; gives those without a hint.
fn without(window: &mut Window, right_of: f32, left_of: f32) -> Vec<String> {
    let fields: Vec<Seen> = window
        .seen()
        .into_iter()
        .filter(is_field)
        .filter(|one| one.rect.left() >= right_of && one.rect.right() <= left_of)
        .filter(|one| one.rect.top() > 70.0 && one.rect.bottom() < 2000.0)
        .collect();
    assert!(fields.len() > 5, "{fields:?}");
    let mut bare = Vec::new();
    for one in fields {
        if hint(window, &one).is_empty() {
            bare.push(one.name);
        }
    }
    bare
}

#[test]
fn every_field_of_the_mat_has_a_hint() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.resize(1524.0, 2100.0);
    window.open_sides("Reveal");
    assert_eq!(without(&mut window, 100.0, 560.0), Vec::<String>::new());
    window.click("Board given by: outer size");
    window.click("Window given by: ready-cut");
    assert_eq!(without(&mut window, 100.0, 560.0), Vec::<String>::new());
}

#[test]
fn every_field_behind_the_mat_has_a_hint() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.resize(1524.0, 2100.0);
    window.key_with(Modifiers::COMMAND, Key::Num2);
    assert_eq!(without(&mut window, 100.0, 560.0), ["Work on: Sheet"; 0]);
    window.click("Work on: Inscription");
    window.click("Plan an inscription");
    assert_eq!(without(&mut window, 100.0, 560.0), ["Work on: Sheet"; 0]);
    window.click("Work on: Frame");
    window.click("Frame: None: matted and bagged");
    window.click("Gallery, wood");
    window.click("Hooks: two");
    assert_eq!(without(&mut window, 100.0, 560.0), ["Work on: Sheet"; 0]);
}

/// What is measured lights up while a field has the focus, at the foot of the panel.
#[test]
fn a_field_with_the_focus_shows_what_it_measures() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let told = "The reveal is the paper that shows between the image";
    assert!(!window.texts().contains(told));
    window.click("Reveal");
    assert!(window.texts().contains(told), "{}", window.texts());
    window.key(Key::Escape);
    assert!(!window.texts().contains(told), "gone with the focus");
}
