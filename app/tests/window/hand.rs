//! Edges dragged, nudged and set by a number.

use egui::{Key, Modifiers};
use sightedge_core::geometry::Sides;
use sightedge_core::spec::{BoardBy, Placement, WindowBy};

use crate::support::{Plans, Window, four, in_inches, inches, open, sides};

/// Drags the edge called `edge` outwards by a length across or down the screen.
#[track_caller]
fn drag(window: &mut Window, edge: &str, across: &str, down: &str) {
    let from = window.handle(edge).center();
    let by = (window.points(across), window.points(down));
    window.drag(from, by);
}

#[test]
fn a_plain_drag_moves_all_four_shift_one_ctrl_opposites_and_alt_leaves_the_ruler() {
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
    // By the same amount: the bottom was wider on purpose.
    case(Modifiers::NONE, "5/8 in, 5/8 in, 3/4 in, 5/8 in");
    case(Modifiers::SHIFT, "1/4 in, 5/8 in, 3/8 in, 1/4 in");
    case(Modifiers::COMMAND, "1/4 in, 5/8 in, 3/8 in, 5/8 in");
    // 0.65 in 128ths is 83.2.
    case(Modifiers::ALT, "0.6484 in, 0.6484 in, 0.7734 in, 0.6484 in");
}

#[test]
fn a_tie_let_go_during_the_drag_gives_the_other_sides_back() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Reveal, right: ").center();
    let to = from + egui::vec2(window.points("0.40"), 0.0);
    window.take(from, to);
    assert_eq!(window.reveal(), "5/8 in, 5/8 in, 3/4 in, 5/8 in");
    window.hold(Modifiers::COMMAND);
    window.move_to(to);
    window.frame();
    assert_eq!(window.reveal(), "1/4 in, 5/8 in, 3/8 in, 5/8 in");
    window.hold(Modifiers::SHIFT);
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
    assert_eq!(window.reveal(), "3/4 in, 3/4 in, 7/8 in, 3/4 in");
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
fn a_undermat_edge_and_the_outer_edge_follow_the_hand() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let offset = |window: &Window| {
        let mat = window.mat();
        four(mat.openings[0].offset(mat.layers[1].id))
    };
    // The whole offset; with Shift this side alone, with Ctrl opposite sides.
    drag(&mut window, "Undermat offset, right: ", "0.38", "0");
    assert_eq!(offset(&window), "9/16 in, 9/16 in, 9/16 in, 9/16 in");
    assert_eq!(window.steps().0, Some("undermat offset"));
    window.hold(Modifiers::SHIFT);
    drag(&mut window, "Undermat offset, right: ", "-0.2", "0");
    assert_eq!(offset(&window), "9/16 in, 3/8 in, 9/16 in, 9/16 in");
    window.hold(Modifiers::COMMAND);
    drag(&mut window, "Undermat offset, top: ", "0", "-0.24");
    assert_eq!(offset(&window), "13/16 in, 3/8 in, 13/16 in, 9/16 in");
    window.hold(Modifiers::NONE);
    // Borders that are given go the same way.
    let borders = |window: &Window| {
        let BoardBy::Borders(borders) = window.mat().board_by else {
            panic!("borders are given")
        };
        borders
    };
    drag(&mut window, "Border, bottom: ", "0", "0.5");
    assert_eq!(borders(&window), sides("5,4 13/16,6,4 5/16"));
    assert_eq!(window.steps().0, Some("borders"));
    window.hold(Modifiers::SHIFT);
    drag(&mut window, "Border, bottom: ", "0", "0.5");
    window.hold(Modifiers::NONE);
    assert_eq!(borders(&window), sides("5,4 13/16,6 1/2,4 5/16"));
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
        let outer = window.session().derived().layout.exact.outer;
        let found = format!("{} × {}", in_inches(outer.width), in_inches(outer.height));
        assert_eq!(found, wanted, "{held:?}");
    }
    case(Modifiers::NONE, "21 in × 26 in");
    case(Modifiers::SHIFT, "21 in × 26 in");
    // Both sides give: the hand's inch counts twice.
    case(Modifiers::COMMAND, "22 in × 26 in");
}

#[test]
fn the_sheet_moves_under_a_window_in_hand() {
    let plans = Plans::new();
    let mut window = open(&[&plans.in_hand()]);
    let from = window.handle("Overlap, top").center();
    let by = (window.points("0.25"), window.points("-0.75"));
    window.drag(from, by);
    let WindowBy::InHand(hand) = window.mat().openings[0].window_by else {
        panic!("not in hand")
    };
    // To the right: less under the left edge. Up: more under the top.
    assert_eq!(in_inches(hand.overlap_left), "3/4 in");
    assert_eq!(in_inches(hand.overlap_top), "1 3/4 in");
    assert_eq!(window.steps().0, Some("ready-cut window"));
}

#[test]
fn arrows_nudge_by_the_rulers_step_and_finer_with_alt() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let at = window.handle("Reveal, right: ").center();
    window.click_at(at);
    assert!(window.focused().starts_with("Reveal, right"), "{}", window.focused());
    window.key(Key::ArrowRight);
    assert_eq!(window.reveal(), "5/16 in, 5/16 in, 7/16 in, 5/16 in");
    window.key(Key::ArrowLeft);
    window.key(Key::ArrowLeft);
    assert_eq!(window.reveal(), "3/16 in, 3/16 in, 5/16 in, 3/16 in");
    // What moves across does not move down.
    window.key(Key::ArrowUp);
    assert_eq!(window.reveal(), "3/16 in, 3/16 in, 5/16 in, 3/16 in");
    window.key_with(Modifiers::ALT, Key::ArrowRight);
    assert_eq!(window.reveal(), "0.1953 in, 0.1953 in, 0.3203 in, 0.1953 in");
    // Off the ruler, the next mark comes first.
    window.key(Key::ArrowRight);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
    window.key_with(Modifiers::SHIFT, Key::ArrowRight);
    assert_eq!(window.reveal(), "1/4 in, 5/16 in, 3/8 in, 1/4 in");
    window.key_with(Modifiers::COMMAND, Key::ArrowRight);
    assert_eq!(window.reveal(), "1/4 in, 3/8 in, 3/8 in, 5/16 in");
    assert!(window.focused().starts_with("Reveal, right"), "{}", window.focused());
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.reveal(), "1/4 in, 5/16 in, 3/8 in, 1/4 in");
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
    let told = "Enter sets it on all four sides";
    assert!(texts.contains("1/3 in") && texts.contains(told), "{texts}");
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
    window.key(Key::Enter);
    let WindowBy::Reveal(reveal) = window.mat().openings[0].window_by else {
        panic!("in hand")
    };
    assert_eq!(reveal, Sides::all(inches("1/3")), "the very same on all four sides");
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
    let WindowBy::Reveal(reveal) = window.mat().openings[0].window_by else {
        panic!("in hand")
    };
    assert_eq!(reveal.top, inches("1/2 + 1 mm"));
}

#[test]
fn a_typed_number_goes_where_the_keys_say() {
    #[track_caller]
    fn case(held: Modifiers, wanted: &str) {
        let plans = Plans::new();
        let mut window = open(&[&plans.reference()]);
        let at = window.handle("Reveal, right: ").center();
        window.click_at(at);
        window.type_text("1");
        window.key_with(held, Key::Enter);
        assert_eq!(window.reveal(), wanted, "{held:?}");
    }
    case(Modifiers::NONE, "1 in, 1 in, 1 in, 1 in");
    case(Modifiers::SHIFT, "1/4 in, 1 in, 3/8 in, 1/4 in");
    case(Modifiers::COMMAND, "1/4 in, 1 in, 3/8 in, 1 in");
}

/// An outer size that was chosen stays, and so does the board under the eye.
#[test]
fn a_board_of_a_chosen_size_stays_while_its_window_is_dragged() {
    let placements = [
        Placement::Centred,
        Placement::Optical,
        Placement::Free { left: inches("3"), top: inches("3 1/2") },
    ];
    for placement in placements {
        for held in [Modifiers::NONE, Modifiers::SHIFT, Modifiers::COMMAND] {
            let plans = Plans::new();
            let mut window = open(&[&plans.single(placement)]);
            let before = window.board();
            for (edge, way) in [("Reveal, left: ", (-1.0, 0.0)), ("Reveal, top: ", (0.0, -1.0))]
            {
                let from = window.handle(edge).center();
                let out = window.points("3/8");
                let to = from + egui::vec2(way.0, way.1) * out;
                window.hold(held);
                window.take(from, to);
                assert_eq!(window.board(), before, "{placement:?} {held:?} {edge}");
                let now = window.handle(edge).center() - to;
                // Under the hand but for the ruler.
                let off = if way.0 == 0.0 { now.y } else { now.x };
                assert!(off.abs() < window.points("1/16"), "{placement:?} {held:?}: {off}");
                window.drop(to);
                window.hold(Modifiers::NONE);
                assert_eq!(window.board(), before, "{placement:?} {held:?} {edge} let go");
            }
            let outer = window.session().derived().layout.exact.outer;
            assert_eq!(outer, crate::support::size("20x26"));
        }
    }
}

#[test]
fn the_line_at_the_foot_says_what_a_drag_does() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let says = |window: &Window, words: &str| {
        assert!(window.texts().contains(words), "{words:?} is not in {}", window.texts());
    };
    says(&window, "Drag an edge of the mat: all four sides change alike.");
    let at = window.handle("Reveal, right: ").center();
    window.move_to(at);
    window.settle();
    says(
        &window,
        "All four reveals change by the same amount. Shift: this side alone. Ctrl: opposite",
    );
    window.hold(Modifiers::SHIFT);
    window.settle();
    says(&window, "Only the right reveal changes.");
    let to = at + egui::vec2(window.points("0.4"), 0.0);
    window.hold(Modifiers::COMMAND);
    window.take(at, to);
    window.frame();
    says(&window, "The left and right reveals change by the same amount.");
    says(&window, "Reveal, left and right  ⅝ in");
    window.hold(Modifiers::NONE);
    window.drop(to);
    let at = window.handle("Undermat offset, top: ").center();
    window.move_to(at);
    window.settle();
    says(&window, "All four offsets change by the same amount.");
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
    let undermat = window.mat().layers[1].id;
    let at = window.handle("Undermat offset, right: ").center();
    window.click_at(at);
    window.type_at_once(&["3", "/", "1"], None);
    window.type_at_once(&["6"], Some(Key::Enter));
    let offset = window.mat().openings[0].offset(undermat);
    assert_eq!(offset.right, inches("3/16"));
    window.type_at_once(&["1", "/", "8"], Some(Key::Enter));
    let offset = window.mat().openings[0].offset(undermat);
    assert_eq!(offset.right, inches("1/8"));
}

/// A slow frame gathers a key with what was held beside it, and several presses of it.
#[test]
fn what_was_held_beside_a_key_counts_though_it_was_let_go() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let at = window.handle("Reveal, right: ").center();
    window.click_at(at);
    window.press_at_once(Modifiers::SHIFT, &[Key::ArrowRight, Key::ArrowRight]);
    assert_eq!(window.reveal(), "1/4 in, 3/8 in, 3/8 in, 1/4 in");
    window.type_text("1");
    window.press_at_once(Modifiers::COMMAND, &[Key::Enter]);
    assert_eq!(window.reveal(), "1/4 in, 1 in, 3/8 in, 1 in");
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

/// A board that was fitted is fitted again once the hand lets go, and after undo.
#[test]
fn the_board_keeps_its_scale_in_the_hand_and_is_fitted_again_after() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let before = window.board();
    let scale = window.points("1");
    let from = window.handle("Border, right").center();
    let to = from + egui::vec2(40.0, 0.0);
    window.hold(Modifiers::SHIFT);
    window.take(from, to);
    let held = window.board();
    assert_eq!(held.left_top(), before.left_top(), "the far edges keep their place");
    assert!((window.points("1") - scale).abs() < 0.01, "the scale is kept");
    window.drop(to);
    window.hold(Modifiers::NONE);
    let after = window.board();
    assert_ne!(after, held, "a wider board is fitted");
    window.key_with(Modifiers::COMMAND, Key::Num0);
    assert_eq!(window.board(), after, "there is nothing left to fit");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.board(), before, "as it was before the drag");
    // Looked at from nearer it was not fitted, and is not fitted after.
    window.key_with(Modifiers::COMMAND, Key::Plus);
    let near = window.scale();
    let from = window.handle("Reveal, right: ").center();
    window.drag(from, (0.3 * 25.4 * near, 0.0));
    assert!((window.scale() - near).abs() < 0.01, "{} {near}", window.scale());
}
