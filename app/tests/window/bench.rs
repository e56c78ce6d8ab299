//! At the bench: one step at a time, one key ticks it, a miscut is entered as measured.

use egui::{Key, Modifiers};
use sightedge_core::spec::{Meets, VariantId};
use sightedge_core::steps::is_ticked;

use crate::support::{Plans, Window, in_inches, open};

fn at_the_bench(plans: &Plans) -> Window {
    let mut window = open(&[&plans.reference()]);
    window.click("Bench");
    window
}

#[test]
fn one_key_ticks_a_step_and_goes_on() {
    let plans = Plans::new();
    let mut window = at_the_bench(&plans);
    assert!(window.texts().contains("Clean bench, clean hands"), "{}", window.texts());
    window.key(Key::Space);
    assert!(is_ticked(window.document(), VariantId(1), "clear"));
    assert!(window.has("Step 1: Clear the bench, done"));
    assert!(window.has("Step 2: Inscribe the back, to do"));
    assert!(window.texts().contains("Lay the sheet face down"));
    // Ticks are no step of undo: they happened.
    assert_eq!(window.steps(), (None, None));
    window.key(Key::ArrowLeft);
    window.key(Key::Space);
    assert!(!is_ticked(window.document(), VariantId(1), "clear"), "taken back");
    assert!(window.has("Step 1: Clear the bench, to do"));
    window.click("Step 3: Cut the mat, to do");
    let shown = window.texts();
    assert!(shown.contains("Blades: a fresh blade"), "{shown}");
    assert!(shown.contains("right 3\u{a0}¹³⁄₁₆\u{a0}in"), "whole figures: {shown}");
    window.click("Done");
    assert!(is_ticked(window.document(), VariantId(1), "cut"));
}

#[test]
fn ticks_are_saved_with_the_plan() {
    let plans = Plans::new();
    let plan = plans.reference();
    let mut window = open(&[&plan]);
    window.click("Bench");
    window.key(Key::Space);
    window.key(Key::Space);
    window.key_with(Modifiers::COMMAND, Key::S);
    let again = open(&[&plan]);
    for step in ["inscribe", "clear"] {
        assert!(is_ticked(again.document(), VariantId(1), step), "{step}");
    }
    assert!(!is_ticked(again.document(), VariantId(1), "cut"));
}

/// Source: common practice: everything follows from the window as it was cut.
#[test]
fn a_miscut_is_entered_as_measured() {
    let plans = Plans::new();
    let mut window = at_the_bench(&plans);
    window.click("Step 4: Cut the liners, to do");
    window.click("It was cut otherwise…");
    assert_eq!(window.field("Window width as cut"), "11 ½ in");
    window.type_in("Window width as cut", "11 3/4");
    window.key(Key::Enter);
    window.click("Enter as cut");
    let Meets::InHand(hand) = window.mat().openings[0].meets else { panic!("not in hand") };
    assert_eq!(in_inches(hand.sight.width), "11 3/4 in");
    assert_eq!(window.steps().0, Some("as cut"), "one step");
    assert!(window.texts().contains("As cut, "), "{}", window.texts());
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert!(matches!(window.mat().openings[0].meets, Meets::Reveal(_)));
}

/// Source: common practice: the liner is cut to the window that is there.
#[test]
fn a_miscut_top_mat_leaves_its_liner_to_be_cut() {
    let plans = Plans::new();
    let mut window = at_the_bench(&plans);
    window.click("Step 3: Cut the mat, to do");
    window.click("It was cut otherwise…");
    assert!(!window.texts().contains("As cut, "), "nothing is entered yet");
    assert_eq!(window.field("Window width as cut"), "11 ⅞ in");
    window.type_in("Window width as cut", "12");
    window.key(Key::Enter);
    window.click("Enter as cut");
    assert_eq!(window.steps().0, Some("as cut"), "one step");
    assert!(window.texts().contains("As cut, "), "{}", window.texts());
    assert!(!window.has("Step 3: Cut the mat, to do"), "it is cut");
    assert!(window.has("Step 3: Cut the liners, to do"));
    // The next one is in front.
    let shown = window.texts();
    assert!(shown.contains("Cut already: the top mat (window 12"), "{shown}");
    let layers = window.desk().derived().layout.exact.openings[0].layers.clone();
    assert_eq!(in_inches(layers[0].sight.bounds.size.width), "12 in");
    assert_eq!(in_inches(layers[1].sight.bounds.size.width), "11 1/2 in");
    // Far too small, it no longer passes.
    window.type_in("Window width as cut", "11");
    window.key(Key::Enter);
    window.click("Enter as cut");
    assert!(window.texts().contains("As cut, it no longer passes"), "{}", window.texts());
    // Entered once more, the liners' step stays in front.
    let shown = window.texts();
    assert!(shown.contains("Cut already: the top mat (window 11\u{a0}in"), "{shown}");
}
