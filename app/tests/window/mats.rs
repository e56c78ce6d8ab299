//! Several mats for one picture: made, changed, compared, renamed, put in order, chosen.

use egui::{Key, Modifiers, Rect};
use sightedge_core::length::{Unit, typeset};
use sightedge_core::spec::{Document, VariantId};

use crate::support::{Plans, Window, open};

fn plan(plans: &Plans) -> Window {
    let mut window = open(&[&plans.reference()]);
    window.resize(1280.0, 800.0);
    window.click("Board given by: outer size");
    window
}

fn names(window: &Window) -> Vec<String> {
    window.document().variants.iter().map(|one| one.name.clone()).collect()
}

fn front(window: &Window) -> VariantId {
    window.session().variant().unwrap().id
}

/// A place of the strip, by the name of its mat.
fn place(window: &Window, name: &str) -> Rect {
    let start = format!("Mat {name}");
    let all = window.seen();
    let one =
        all.iter().find(|one| one.name == start || one.name.starts_with(&format!("{start}, ")));
    one.unwrap_or_else(|| panic!("no {start}")).rect
}

fn outer(document: &Document, at: usize) -> sightedge_core::geometry::Size {
    sightedge_core::layout::layout(document, &document.variants[at].mat).bench.outer
}

#[test]
fn another_mat_is_changed_by_itself_and_the_chosen_one_stays() {
    let plans = Plans::new();
    let mut window = plan(&plans);
    assert!(!window.has("Compare"), "one mat has nothing to be compared with");
    window.click("Another like this");
    assert_eq!(names(&window).len(), 2);
    let second = window.document().variants[1].id;
    assert_eq!(front(&window), second, "the new one comes to the front");
    assert_ne!(window.document().chosen, second);
    window.type_in("Outer width", "28");
    window.key(Key::Enter);
    let document = window.document();
    assert_ne!(outer(document, 0), outer(document, 1));
    // Undo shows what it undoes, whatever is in front.
    window.key_with(Modifiers::COMMAND, Key::PageUp);
    assert_ne!(front(&window), second);
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(front(&window), second);
    let document = window.document();
    assert_eq!(outer(document, 0), outer(document, 1));
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(names(&window).len(), 1);
}

#[test]
fn the_picture_stays_in_its_place_at_one_scale_when_another_mat_comes() {
    let plans = Plans::new();
    let mut window = plan(&plans);
    window.click("Another like this");
    window.type_in("Outer width", "34");
    window.key(Key::Enter);
    let look = |window: &Window| {
        let sides = ["Reveal, left: ", "Reveal, right: "];
        (window.scale(), window.board(), sides.map(|side| window.handle(side).center()))
    };
    let wide = look(&window);
    window.key_with(Modifiers::COMMAND, Key::PageUp);
    window.settle();
    let narrow = look(&window);
    assert!((wide.0 - narrow.0).abs() < 1e-4, "{wide:?} {narrow:?}");
    assert!(wide.1.width() > narrow.1.width() + 10.0, "{wide:?} {narrow:?}");
    for (one, other) in wide.2.iter().zip(narrow.2) {
        assert!((*one - other).length() < 1.6, "the picture stays: {wide:?} {narrow:?}");
    }
}

#[test]
fn a_mat_is_chosen_with_the_clients_words_by_keyboard() {
    let plans = Plans::new();
    let mut window = plan(&plans);
    window.click("Another like this");
    let second = window.document().variants[1].id;
    let name = names(&window)[1].clone();
    window.click_at(place(&window, &name).center());
    window.key(Key::Enter);
    window.type_text("the calm one");
    window.key(Key::Enter);
    window.settle();
    let document = window.document();
    let choice = document.choice.as_ref().unwrap();
    assert_eq!((document.chosen, choice.words.as_str()), (second, "the calm one"));
    let told = format!("Mat {name}, chosen {}: “the calm one”", choice.when);
    assert!(window.has(&told), "{:?}", window.seen());
}

#[test]
fn the_strip_renames_and_puts_in_order_by_mouse_and_by_key() {
    let plans = Plans::new();
    let mut window = plan(&plans);
    window.click("Another like this");
    window.click("Another like this");
    let before = names(&window);
    let (last, first) = (place(&window, &before[2]), place(&window, &before[0]));
    window.drag(last.center(), (first.center().x - last.center().x, 0.0));
    assert_eq!(names(&window)[0], before[2]);
    // Alt and an arrow move the one that has the focus.
    window.click_at(place(&window, &before[2]).center());
    window.key_with(Modifiers::ALT, Key::ArrowRight);
    assert_eq!(names(&window)[1], before[2]);
    window.key(Key::F2);
    window.type_in("Name of the mat", "Wide and calm");
    window.key(Key::Enter);
    assert_eq!(names(&window)[1], "Wide and calm");
    window.click("Remove");
    assert_eq!(names(&window).len(), 2);
}

#[test]
fn mats_are_compared_at_one_scale_with_what_differs_in_words() {
    let plans = Plans::new();
    let mut window = plan(&plans);
    window.click("Another like this");
    window.type_in("Outer width", "28");
    window.key(Key::Enter);
    let all = names(&window);
    window.click("Compare");
    window.settle();
    let beside = |window: &Window, name: &str| {
        window.find(&format!("Mat {name} beside the others")).rect
    };
    let (one, two) = (beside(&window, &all[0]), beside(&window, &all[1]));
    assert!(one.right() < two.left(), "{one:?} {two:?}");
    let document = window.document();
    let [first, second] = [0, 1].map(|at| outer(document, at).width.to_mm() as f32);
    let scales = (one.width() / first, two.width() / second);
    assert!((scales.0 - scales.1).abs() < 0.01, "{scales:?}");
    let told = |window: &Window, one: usize, other: usize| {
        let size = |at| outer(window.document(), at).extent_text(|side| side.text(Unit::Inch));
        let words = typeset(&format!("mat {}, not {}", size(one), size(other)));
        assert!(window.texts().contains(&words), "{words}: {}", window.texts());
    };
    told(&window, 1, 0);
    // The other one is the measure once it is pinned.
    window.click("Compare with this");
    window.settle();
    told(&window, 0, 1);
    window.key(Key::Escape);
    window.settle();
    assert!(window.has("Compare") && !window.has("Back to the board"));
}

#[test]
fn the_clients_view_shows_the_mat_in_front_alone() {
    let plans = Plans::new();
    let mut window = plan(&plans);
    window.key(Key::F11);
    window.settle();
    assert!(window.has("For the client"), "{:?}", window.seen());
    window.key(Key::F11);
    window.settle();
    assert!(!window.has("For the client"));
}
