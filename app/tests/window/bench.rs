//! At the bench: one step at a time, one key ticks it, a miscut is entered as measured.

use egui::{Key, Modifiers};
use sightedge_core::spec::{VariantId, WindowBy};
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

/// What will fail is read before any step is done, whichever step is in front.
#[test]
fn what_will_fail_stands_over_every_step() {
    let plans = Plans::new();
    let plan = plans.plan("small-bag.png", |document| {
        let mat = &mut document.variants[0].mat;
        let bag = sightedge_core::material::Tables::shipped().bags.first().cloned();
        mat.assembly.package.bag = bag;
    });
    let mut window = open(&[&plan]);
    window.click("Bench");
    assert!(window.texts().contains("Fault: The bag is"), "{}", window.texts());
    window.click("Step 3: Cut the mat, to do");
    assert!(window.texts().contains("Fault: The bag is"), "{}", window.texts());
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
    window.click("Step 4: Cut the undermats, to do");
    window.click("Cut differently…");
    assert_eq!(window.field("Window width as cut"), "11 ½ in");
    window.type_in("Window width as cut", "11 3/4");
    window.key(Key::Enter);
    window.click("Measured: from the front");
    window.click("Enter as cut");
    let WindowBy::InHand(hand) = window.mat().openings[0].window_by else {
        panic!("not in hand")
    };
    assert_eq!(in_inches(hand.sight.width), "11 3/4 in");
    assert_eq!(window.steps().0, Some("as cut"), "one step");
    assert!(window.texts().contains("With this cut "), "{}", window.texts());
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert!(matches!(window.mat().openings[0].window_by, WindowBy::Reveal(_)));
}

/// A window that is too large for the picture is rescued by an undermat within it.
#[test]
fn a_undermat_is_added_under_a_window_in_hand() {
    let plans = Plans::new();
    let mut window = open(&[&plans.in_hand()]);
    let before = window.mat().layers[0].id;
    window.click("Add an undermat");
    window.type_in("Offset of undermat 1", "1/2");
    window.key(Key::Enter);
    let opening = &window.mat().openings[0];
    let came = opening.cut[&before];
    assert_eq!((in_inches(came.sight.width), opening.cut.len()), ("10 in".to_owned(), 1));
    let undermat = window.mat().layers[1].id;
    assert_eq!(in_inches(opening.offset(undermat).left), "1/2 in", "the strip that was typed");
    assert!(!opening.is_cut(undermat) && matches!(opening.window_by, WindowBy::Reveal(_)));
    window.click("Bench");
    window.find("Step 3: Cut the undermats, to do");
}

/// Source: common practice: the undermat is cut to the window that is there.
#[test]
fn a_miscut_top_mat_leaves_its_undermat_to_be_cut() {
    let plans = Plans::new();
    let mut window = at_the_bench(&plans);
    // High enough for all that is found to be in sight.
    window.resize(1440.0, 1500.0);
    window.click("Step 3: Cut the mat, to do");
    window.click("Cut differently…");
    assert!(!window.texts().contains("With this cut "), "nothing is entered yet");
    assert_eq!(window.field("Window width as cut"), "11 ⅞ in");
    window.type_in("Window width as cut", "12");
    window.key(Key::Enter);
    // From which side it was measured is asked, and nothing is entered before that is said.
    window.click("Enter as cut");
    assert_eq!(window.steps().0, None, "not yet");
    window.click("Measured: from the back");
    assert_eq!(window.field("Left border as cut"), "4 ⁵⁄₁₆ in", "as it is seen there");
    window.click("Measured: from the front");
    assert_eq!(window.field("Left border as cut"), "3 ¹³⁄₁₆ in");
    window.click("Enter as cut");
    assert_eq!(window.steps().0, Some("as cut"), "one step");
    assert!(window.texts().contains("With this cut "), "{}", window.texts());
    assert!(!window.has("Step 3: Cut the mat, to do"), "it is cut");
    assert!(window.has("Step 3: Cut the undermats, to do"));
    // The next one is in front.
    let shown = window.texts();
    assert!(shown.contains("Cut already: the top mat (window 12"), "{shown}");
    let layers = window.session().derived().layout.exact.openings[0].layers.clone();
    assert_eq!(in_inches(layers[0].sight.bounds.size.width), "12 in");
    assert_eq!(in_inches(layers[1].sight.bounds.size.width), "11 1/2 in");
    // What was open before the cut stands apart from what it brought about.
    let shown = window.texts();
    assert!(shown.contains("With this cut it still passes; worth knowing:"), "{shown}");
    let (brought, before) =
        shown.split_once("Open from before:").unwrap_or_else(|| panic!("{shown}"));
    assert!(brought.contains("The strips of the undermat"), "{shown}");
    assert!(!before.contains("The strips of the undermat"), "{shown}");
    // Further down the list, where it may be out of sight.
    assert!(window.session().derived().findings.iter().any(|found| found.rule == "resolution"));
    // Far too small, it no longer passes.
    window.type_in("Window width as cut", "11");
    window.key(Key::Enter);
    window.click("Enter as cut");
    assert!(window.texts().contains("With this cut it no longer passes"), "{}", window.texts());
    // Entered once more, the undermats' step stays in front.
    let shown = window.texts();
    assert!(shown.contains("Cut already: the top mat (window 11\u{a0}in"), "{shown}");
}

/// Source: derived (D), the trade reference's worked miscut, on the reference piece: 7/16 in of
/// strips across where 3/8 in was planned. Undone, nothing of it is left.
#[test]
fn another_window_is_offered_for_the_undermat() {
    let plans = Plans::new();
    let mut window = at_the_bench(&plans);
    window.click("Step 3: Cut the mat, to do");
    window.click("Cut differently…");
    window.click("Measured: from the back");
    window.type_in("Window width as cut", "11 15/16");
    window.key(Key::Enter);
    // From the front 3 13/16 in at the left, so 4 1/4 in at the right.
    window.type_in("Left border as cut", "4 1/4");
    window.key(Key::Enter);
    window.click("Enter as cut");
    let top = window.session().derived().layout.bench.openings[0].layers[0].clone();
    assert_eq!(in_inches(top.borders.left), "3 13/16 in");
    assert_eq!(in_inches(top.borders.right), "4 1/4 in");
    let shown = window.texts();
    assert!(shown.contains("With this cut it still passes; worth knowing:"), "{shown}");
    let offered =
        sightedge_service::wording::sentence("Cut the undermat's window 11 9/16 × 15 5/8 in");
    window.click(&offered);
    let layers = window.session().derived().layout.bench.openings[0].layers.clone();
    assert_eq!(layers[0], top, "what is cut stays");
    let strips = layers[1].offset;
    assert!(
        strips.each().iter().all(|(_, strip)| in_inches(*strip) == "3/16 in"),
        "{strips:?}"
    );
    window.key_with(Modifiers::COMMAND, Key::Z);
    window.key_with(Modifiers::COMMAND, Key::Z);
    let layers = window.session().derived().layout.bench.openings[0].layers.clone();
    assert!(layers.iter().all(|cut| !cut.done), "undone");
    assert_eq!(in_inches(layers[0].sight.bounds.size.width), "11 7/8 in");
    assert!(!window.texts().contains("With this cut it"), "{}", window.texts());
}
