//! Where a drag likes to rest, and how it passes.

use egui::Modifiers;
use sightedge_core::spec::{BoardBy, Placement, WindowBy};

use crate::support::{Plans, Window, in_inches, inches, open};

/// Drags an edge across by so many inches with such keys held, and says whether `rest` was shown.
#[track_caller]
fn sight(held: Modifiers, edge: &str, by: f32, rest: &str) -> (Window, bool) {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle(edge).center();
    let to = from + egui::vec2(by * window.points("1"), 0.0);
    window.hold(held);
    window.take(from, to);
    let said = window.texts().lines().any(|line| line == rest);
    window.drop(to);
    window.hold(Modifiers::NONE);
    (window, said)
}

#[test]
fn a_reveal_rests_on_the_image_and_at_the_usual_overlap() {
    #[track_caller]
    fn case(held: Modifiers, by: f32, wanted: &str, rest: &str) {
        let (window, said) = sight(held, "Reveal, right: ", by, rest);
        assert!(said, "{rest}");
        assert_eq!(window.reveal(), wanted);
    }
    // 1/4 less 0.21 is 0.04, near the image's edge; the ruler alone would say 1/16.
    let wanted = "1/4 in, 0 in, 3/8 in, 1/4 in";
    case(Modifiers::SHIFT, -0.21, wanted, "on the image's edge");
    // The paper ends 1 in beside the image: it is held by 1/8 in.
    let wanted = "1/4 in, 7/8 in, 3/8 in, 1/4 in";
    case(Modifiers::SHIFT, 0.59, wanted, "the usual overlap");
    // All four by as much: some of them get there first.
    let wanted = "0 in, 0 in, 1/8 in, 0 in";
    case(Modifiers::NONE, -0.21, wanted, "on the image's edge: top, right, left");
    let wanted = "7/8 in, 7/8 in, 1 in, 7/8 in";
    case(Modifiers::NONE, 0.59, wanted, "the usual overlap: right, left");
}

/// Away and back near where it came from: as the left side.
#[test]
fn a_reveal_rests_where_it_equals_its_opposite() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Reveal, right: ").center();
    let out = |window: &Window, by: &str| from + egui::vec2(window.points(by), 0.0);
    window.hold(Modifiers::SHIFT);
    let away = out(&window, "0.4");
    window.take(from, away);
    let back = out(&window, "0.05");
    window.move_to(back);
    window.frame();
    let said = window.texts().lines().any(|line| line == "as the opposite side");
    assert!(said, "{}", window.texts());
    window.drop(back);
    window.hold(Modifiers::NONE);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
}

/// Beyond the last good place no rest holds the hand, and the number turns into words.
#[test]
fn beyond_the_last_good_place_the_finding_takes_the_place_of_the_number() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Reveal, right: ").center();
    let shown = |window: &Window| window.texts();
    let at = |window: &mut Window, by: &str, first: bool| {
        let to = from + egui::vec2(window.points(by), 0.0);
        if first {
            window.take(from, to);
        } else {
            window.move_to(to);
            window.frame();
        }
        to
    };
    window.hold(Modifiers::SHIFT);
    at(&mut window, "0.59", true);
    assert!(shown(&window).contains("Reveal, right  ⅞ in"), "{}", shown(&window));
    // 1/16 in is held: a Fault; the number is gone.
    at(&mut window, "0.70", false);
    let texts = shown(&window);
    assert!(!texts.contains("Reveal, right  "), "{texts}");
    assert!(texts.contains("Fault  The mat overlaps the sheet by only"), "{texts}");
    // On the sheet's edge there is no rest.
    at(&mut window, "0.745", false);
    let texts = shown(&window);
    assert!(texts.contains("right edge lies at the sight edge"), "{texts}");
    assert!(!texts.contains("Reveal, right  ") && !texts.contains("sheet's edge\n"), "{texts}");
    // Back where it holds, the number is back.
    let to = at(&mut window, "0.4", false);
    assert!(shown(&window).contains("Reveal, right  ⅝ in"), "{}", shown(&window));
    window.drop(to);
}

/// The marks of the ruler beside a rest can be had, seen from near enough.
#[test]
fn the_marks_beside_a_rest_can_be_had() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    for _ in 0..2 {
        window.key_with(Modifiers::COMMAND, egui::Key::Plus);
    }
    // The image's edge is a rest; one mark of 1/16 in short of it is not it.
    let scale = window.scale();
    let from = window.handles("Reveal, left: ").into_iter().next().unwrap().center();
    let to = from + egui::vec2(3.0 / 16.0 * 25.4 * scale, 0.0);
    window.hold(Modifiers::SHIFT);
    window.take(from, to);
    window.drop(to);
    window.hold(Modifiers::NONE);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/16 in");
}

#[test]
fn a_rest_is_named_beside_the_pointer() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Reveal, right: ").center();
    let to = from - egui::vec2(window.points("0.21"), 0.0);
    window.take(from, to);
    assert!(window.texts().contains("on the image's edge"), "{}", window.texts());
    window.drop(to);
}

#[test]
fn a_rest_is_passed() {
    let (window, said) =
        sight(Modifiers::SHIFT, "Reveal, right: ", 0.4, "as the opposite side");
    assert!(!said, "it still rests");
    assert_eq!(window.reveal(), "1/4 in, 5/8 in, 3/8 in, 1/4 in");
}

#[test]
fn a_undermat_rests_where_it_is_even_and_at_the_usual_offset() {
    #[track_caller]
    fn case(held: Modifiers, back: &str, rest: &str, wanted: &str) {
        let plans = Plans::new();
        let mut window = open(&[&plans.reference()]);
        let undermat = window.mat().layers[1].id;
        window.hold(held);
        let from = window.handle("Undermat offset, right: ").center();
        let away = from + egui::vec2(window.points("0.5"), 0.0);
        window.take(from, away);
        window.drop(away);
        assert_eq!(in_inches(window.mat().openings[0].offset(undermat).right), "11/16 in");
        let from = window.handle("Undermat offset, right: ").center();
        let back = from - egui::vec2(window.points(back), 0.0);
        window.take(from, back);
        assert!(window.texts().contains(rest), "{rest}: {}", window.texts());
        window.drop(back);
        window.hold(Modifiers::NONE);
        let offset = window.mat().openings[0].offset(undermat);
        assert_eq!(crate::support::four(offset), wanted);
    }
    // Back to within its reach: 11/16 less 0.48 is 0.2075, and 3/16 draws it.
    let even = "3/16 in, 3/16 in, 3/16 in, 3/16 in";
    case(Modifiers::SHIFT, "0.48", "equal on all sides", even);
    // All four, 11/16 less 0.40.
    let usual = "1/4 in, 1/4 in, 1/4 in, 1/4 in";
    case(Modifiers::NONE, "0.40", "the usual offset", usual);
}

/// On a board of 20 × 26 in with a window of 11 1/2 × 15 5/8 in, centred: the optical top is
/// (20 + 11.5)(26 - 15.625) / (4 · 20) = 4.0852 in, the equal one 5 3/16.
/// Source: the closed form of the drawn construction in photography handouts.
#[test]
fn the_window_rests_at_equal_borders_and_at_the_optical_centre() {
    #[track_caller]
    fn case(start: Placement, by: &str, wanted: Placement, rest: Option<&str>) {
        let plans = Plans::new();
        let mut window = open(&[&plans.single(start)]);
        let from = window.handle("Top border to the window").center();
        let to = from + egui::vec2(0.0, window.points(by));
        window.take(from, to);
        let texts = window.texts();
        if let Some(rest) = rest {
            assert!(texts.contains(rest), "{by}: {texts}");
        }
        window.drop(to);
        let BoardBy::Outer { placement, .. } = window.mat().board_by else { panic!("borders") };
        assert_eq!(placement, wanted, "{by}");
        assert_eq!(window.steps().0, Some("outer size and placement"));
    }
    // 5.1875 less 1.14 is 4.0475.
    case(Placement::Centred, "-1.14", Placement::Optical, Some("optical centre"));
    // From the optical one to 5.1352.
    case(Placement::Optical, "1.05", Placement::Centred, Some("equal borders"));
    // In between, on the ruler: 5.1875 less 0.45 is 4.7375, 4 3/4 is nearest; 10 3/8 - 9 1/2.
    let extra = Placement::BottomExtra(inches("7/8"));
    case(Placement::Centred, "-0.45", extra, None);
    // As wide as the sides, 4 1/4: 10 3/8 - 8 1/2.
    let extra = Placement::BottomExtra(inches("1 7/8"));
    case(Placement::Centred, "-0.92", extra, Some("top as the left side"));
}

#[test]
fn a_window_placed_by_hand_moves_both_ways_and_rests_each_way() {
    let plans = Plans::new();
    let start = Placement::Free { left: inches("3"), top: inches("3") };
    let mut window = open(&[&plans.single(start)]);
    let from = window.handle("Top border to the window").center();
    // 4 1/4 is equal across; down it goes free of any rest.
    let to = from + egui::vec2(window.points("1.2"), window.points("0.5"));
    window.take(from, to);
    assert!(window.texts().contains("equal borders"), "{}", window.texts());
    window.drop(to);
    let BoardBy::Outer { placement, .. } = window.mat().board_by else { panic!("borders") };
    let wanted = Placement::Free { left: inches("4 1/4"), top: inches("3 1/2") };
    assert_eq!(placement, wanted);
}

#[test]
fn a_sheet_in_hand_rests_where_it_is_centred() {
    let plans = Plans::new();
    let mut window = open(&[&plans.in_hand()]);
    let from = window.handle("Overlap, top").center();
    // 13 in of sheet under 10 in of window: 1 1/2 each side; 19 under 14: 2 1/2.
    let to = from - egui::vec2(window.points("0.45"), window.points("1.46"));
    window.take(from, to);
    assert!(window.texts().contains("the sheet centred"), "{}", window.texts());
    window.drop(to);
    let WindowBy::InHand(hand) = window.mat().openings[0].window_by else {
        panic!("not in hand")
    };
    assert_eq!(in_inches(hand.overlap_left), "1 1/2 in");
    assert_eq!(in_inches(hand.overlap_top), "2 1/2 in");
}

/// Alt frees from the ruler and from the rests: every length can be reached.
#[test]
fn alt_is_held_by_no_rest() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Reveal, right: ").center();
    let to = from - egui::vec2(window.points("0.21"), 0.0);
    window.hold(Modifiers::ALT);
    window.take(from, to);
    window.drop(to);
    window.hold(Modifiers::NONE);
    let WindowBy::Reveal(reveal) = window.mat().openings[0].window_by else {
        panic!("in hand")
    };
    let aimed = inches("1/4 - 0.21");
    assert!((reveal.right - aimed).abs() <= inches("1/100"), "{}", window.reveal());
}
