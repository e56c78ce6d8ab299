//! Edges dragged, nudged and set by a number.

use egui::{Key, Modifiers};
use sightedge_core::spec::{Fixing, Meets, Placement};

use crate::support::{Plans, Window, four, in_inches, inches, open, sides};

/// Drags the edge called `edge` outwards by a length across or down the screen.
#[track_caller]
fn drag(window: &mut Window, edge: &str, across: &str, down: &str) {
    let from = window.handle(edge).center();
    let by = (window.points(across), window.points(down));
    window.drag(from, by);
}

#[test]
fn shift_takes_the_opposite_side_ctrl_all_and_alt_leaves_the_ruler() {
    #[track_caller]
    fn case(held: Modifiers, wanted: &str) {
        let plans = Plans::new();
        let mut window = open(&[&plans.reference()]);
        let from = window.handle("Reveal, right: ").center();
        let to = from + egui::vec2(window.points("0.40"), 0.0);
        window.hold(held);
        window.take(from, to);
        window.drop(to);
        window.hold(Modifiers::NONE);
        assert_eq!(window.reveal(), wanted, "{held:?}");
        assert_eq!(window.steps(), (Some("reveal"), None));
    }
    case(Modifiers::NONE, "1/4 in, 5/8 in, 3/8 in, 1/4 in");
    case(Modifiers::SHIFT, "1/4 in, 5/8 in, 3/8 in, 5/8 in");
    case(Modifiers::COMMAND, "5/8 in, 5/8 in, 5/8 in, 5/8 in");
    // 0.65 in 128ths is 83.2.
    case(Modifiers::ALT, "1/4 in, 0.6484 in, 3/8 in, 1/4 in");
}

#[test]
fn a_tie_let_go_during_the_drag_gives_the_other_sides_back() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Reveal, right: ").center();
    let to = from + egui::vec2(window.points("0.40"), 0.0);
    window.hold(Modifiers::COMMAND);
    window.take(from, to);
    assert_eq!(window.reveal(), "5/8 in, 5/8 in, 5/8 in, 5/8 in");
    window.hold(Modifiers::NONE);
    window.move_to(to);
    window.drop(to);
    assert_eq!(window.reveal(), "1/4 in, 5/8 in, 3/8 in, 1/4 in");
}

#[test]
fn esc_gives_back_what_was_before_the_hand_moved() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Reveal, top: ").center();
    let to = from - egui::vec2(0.0, window.points("0.5"));
    window.take(from, to);
    assert_eq!(window.reveal(), "3/4 in, 1/4 in, 3/8 in, 1/4 in");
    window.key(Key::Escape);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
    // The button is still down: what the hand does now is no drag any more.
    window.move_to(to - egui::vec2(0.0, 20.0));
    window.drop(to);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
    assert_eq!(window.steps(), (None, None));
}

#[test]
fn each_drag_is_a_step_of_its_own() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    drag(&mut window, "Reveal, right: ", "0.40", "0");
    drag(&mut window, "Reveal, left: ", "-0.40", "0");
    drag(&mut window, "Border, right: ", "0.5", "0");
    let mut names = Vec::new();
    while let (Some(name), _) = window.steps() {
        names.push(name);
        window.key_with(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(names, ["borders", "reveal", "reveal"]);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
}

#[test]
fn a_liner_edge_and_the_outer_edge_follow_the_hand() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let offset = |window: &Window| {
        let mat = window.mat();
        four(mat.openings[0].offset(mat.layers[1].id))
    };
    // Away from its opposite, where it would come to rest.
    drag(&mut window, "Liner offset, right: ", "0.38", "0");
    assert_eq!(offset(&window), "3/16 in, 9/16 in, 3/16 in, 3/16 in");
    assert_eq!(window.steps().0, Some("liner offset"));
    drag(&mut window, "Border, bottom: ", "0", "0.5");
    let Fixing::Borders(borders) = window.mat().fixing else { panic!("borders are given") };
    assert_eq!(borders, sides("4 1/2,4 5/16,6,3 13/16"));
    assert_eq!(window.steps().0, Some("borders"));
}

#[test]
fn an_outer_size_is_dragged_at_one_edge_or_at_both() {
    #[track_caller]
    fn case(held: Modifiers, wanted: &str) {
        let plans = Plans::new();
        let mut window = open(&[&plans.single(Placement::Centred)]);
        let from = window.handle("Outer width: ").center();
        let to = from + egui::vec2(window.points("1"), 0.0);
        window.hold(held);
        window.take(from, to);
        window.drop(to);
        window.hold(Modifiers::NONE);
        let outer = window.desk().derived().layout.exact.outer;
        let found = format!("{} × {}", in_inches(outer.width), in_inches(outer.height));
        assert_eq!(found, wanted, "{held:?}");
    }
    case(Modifiers::NONE, "21 in × 26 in");
    // Both sides give: the hand's inch counts twice.
    case(Modifiers::SHIFT, "22 in × 26 in");
    case(Modifiers::COMMAND, "22 in × 28 in");
}

#[test]
fn the_sheet_moves_under_a_window_in_hand() {
    let plans = Plans::new();
    let mut window = open(&[&plans.in_hand()]);
    let from = window.handle("Overlap, top").center();
    let by = (window.points("0.25"), window.points("-0.75"));
    window.drag(from, by);
    let Meets::InHand(hand) = window.mat().openings[0].meets else { panic!("not in hand") };
    // To the right: less under the left edge. Up: more under the top.
    assert_eq!(in_inches(hand.overlap_left), "3/4 in");
    assert_eq!(in_inches(hand.overlap_top), "1 3/4 in");
    assert_eq!(window.steps().0, Some("window in hand"));
}

#[test]
fn arrows_nudge_by_the_rulers_step_and_finer_with_alt() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let at = window.handle("Reveal, right: ").center();
    window.click_at(at);
    assert!(window.focused().starts_with("Reveal, right"), "{}", window.focused());
    window.key(Key::ArrowRight);
    assert_eq!(window.reveal(), "1/4 in, 5/16 in, 3/8 in, 1/4 in");
    window.key(Key::ArrowLeft);
    window.key(Key::ArrowLeft);
    assert_eq!(window.reveal(), "1/4 in, 3/16 in, 3/8 in, 1/4 in");
    // What moves across does not move down.
    window.key(Key::ArrowUp);
    assert_eq!(window.reveal(), "1/4 in, 3/16 in, 3/8 in, 1/4 in");
    window.key_with(Modifiers::ALT, Key::ArrowRight);
    assert_eq!(window.reveal(), "1/4 in, 0.1953 in, 3/8 in, 1/4 in");
    // Off the ruler, the next mark comes first.
    window.key(Key::ArrowRight);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
    window.key_with(Modifiers::SHIFT, Key::ArrowRight);
    assert_eq!(window.reveal(), "1/4 in, 5/16 in, 3/8 in, 5/16 in");
    window.key_with(Modifiers::COMMAND, Key::ArrowRight);
    assert_eq!(window.reveal(), "3/8 in, 3/8 in, 3/8 in, 3/8 in");
    assert!(window.focused().starts_with("Reveal, right"), "{}", window.focused());
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.reveal(), "1/4 in, 5/16 in, 3/8 in, 5/16 in");
}

#[test]
fn a_number_typed_on_a_handle_sets_it_exactly() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let at = window.handle("Reveal, top: ").center();
    window.click_at(at);
    for text in ["1", "/", "3", " ", "i", "n"] {
        window.type_text(text);
    }
    let texts = window.texts();
    assert!(texts.contains("1/3 in") && texts.contains("Enter sets it"), "{texts}");
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
    window.key(Key::Enter);
    let Meets::Reveal(reveal) = window.mat().openings[0].meets else { panic!("in hand") };
    assert_eq!(reveal.top, inches("1/3"));
    assert_eq!(window.steps(), (Some("reveal"), None));
    // Esc leaves what is typed, and no length is no command.
    window.type_text("5");
    window.key(Key::Escape);
    window.key(Key::Enter);
    assert_eq!(window.steps(), (Some("reveal"), None));
    window.type_text("5");
    window.type_text("x");
    window.key(Key::Enter);
    assert_eq!(window.steps(), (Some("reveal"), None));
    assert!(window.texts().contains("is not a length"), "{}", window.texts());
    window.key(Key::Backspace);
    window.key(Key::Backspace);
    for text in ["½", " ", "+", " ", "1", "m", "m"] {
        window.type_text(text);
    }
    window.key(Key::Enter);
    let Meets::Reveal(reveal) = window.mat().openings[0].meets else { panic!("in hand") };
    assert_eq!(reveal.top, inches("1/2 + 1 mm"));
}

#[test]
fn a_typed_number_waits_for_no_key_of_the_window() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let at = window.handle("Reveal, top: ").center();
    window.click_at(at);
    // A letter starts no number.
    window.type_text("z");
    assert!(!window.texts().contains("Enter sets it"), "{}", window.texts());
    // Another handle takes the focus: what was typed is let go.
    window.type_text("2");
    window.key(Key::Tab);
    window.key(Key::Enter);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
}

/// A slow frame gathers several keys; none of them may be lost, nor their order.
#[test]
fn a_number_typed_within_one_frame_is_whole() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let liner = window.mat().layers[1].id;
    let at = window.handle("Liner offset, right: ").center();
    window.click_at(at);
    window.type_at_once(&["3", "/", "1"], None);
    window.type_at_once(&["6"], Some(Key::Enter));
    let offset = window.mat().openings[0].offset(liner);
    assert_eq!(offset.right, inches("3/16"));
    window.type_at_once(&["1", "/", "8"], Some(Key::Enter));
    let offset = window.mat().openings[0].offset(liner);
    assert_eq!(offset.right, inches("1/8"));
}

#[test]
fn with_shift_a_key_is_another() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let at = window.handle("Reveal, top: ").center();
    window.click_at(at);
    window.key(Key::ArrowUp);
    let nudged = window.reveal();
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_ne!(window.reveal(), nudged);
    window.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(window.reveal(), nudged);
    window.key_with(Modifiers::COMMAND, Key::Z);
    window.key_with(Modifiers::COMMAND, Key::Y);
    assert_eq!(window.reveal(), nudged);
}

/// Where the hand lets go, the board stays: it would jump under the eye.
#[test]
fn the_board_stays_where_the_hand_left_it() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Border, right").center();
    let to = from - egui::vec2(40.0, 0.0);
    window.take(from, to);
    let held = window.board();
    window.drop(to);
    assert_eq!(window.board(), held);
    window.key_with(Modifiers::COMMAND, Key::Num0);
    assert_ne!(window.board(), held, "asked for, all of the board is shown");
}
