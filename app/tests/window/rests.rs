//! Where a drag likes to rest, and how it passes.

use egui::Modifiers;
use sightedge_core::spec::{Fixing, Meets, Placement};

use crate::support::{Plans, Window, in_inches, inches, open};

/// Drags to where the edge's value is `value` and a bit beside it, and says what was shown.
#[track_caller]
fn sight(edge: &str, by: f32, rest: &str) -> (Window, bool) {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle(edge).center();
    let to = from + egui::vec2(by * window.points("1"), 0.0);
    window.take(from, to);
    let said = window.texts().lines().any(|line| line == rest);
    window.drop(to);
    (window, said)
}

#[test]
fn a_reveal_rests_on_the_image_on_the_sheet_and_where_it_equals_its_opposite() {
    // 1/4 less 0.21 is 0.04, near the image's edge; the ruler alone would say 1/16.
    let (window, _) = sight("Reveal, right: ", -0.21, "on the image's edge");
    assert_eq!(window.reveal(), "1/4 in, 0 in, 3/8 in, 1/4 in");
    // The paper ends 1 in beside the image.
    let (window, _) = sight("Reveal, right: ", 0.66, "on the sheet's edge");
    assert_eq!(window.reveal(), "1/4 in, 1 in, 3/8 in, 1/4 in");
    // Back near where it came from: as the left side.
    let (window, _) = sight("Reveal, right: ", 0.09, "as the opposite side");
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
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
    let (window, said) = sight("Reveal, right: ", 0.4, "as the opposite side");
    assert!(!said, "it still rests");
    assert_eq!(window.reveal(), "1/4 in, 5/8 in, 3/8 in, 1/4 in");
}

#[test]
fn a_liner_rests_where_it_equals_its_opposite() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let liner = window.mat().layers[1].id;
    let from = window.handle("Liner offset, right: ").center();
    let away = from + egui::vec2(window.points("0.5"), 0.0);
    window.take(from, away);
    window.drop(away);
    assert_eq!(in_inches(window.mat().openings[0].offset(liner).right), "11/16 in");
    // Back to within its reach: 11/16 less 0.42 is 0.27, and 3/16 draws it.
    let from = window.handle("Liner offset, right: ").center();
    let back = from - egui::vec2(window.points("0.42"), 0.0);
    window.take(from, back);
    assert!(window.texts().contains("as the opposite side"), "{}", window.texts());
    window.drop(back);
    assert_eq!(in_inches(window.mat().openings[0].offset(liner).right), "3/16 in");
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
        let Fixing::Outer { placement, .. } = window.mat().fixing else { panic!("borders") };
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
    let Fixing::Outer { placement, .. } = window.mat().fixing else { panic!("borders") };
    let wanted = Placement::Free { left: inches("4 1/4"), top: inches("3 1/2") };
    assert_eq!(placement, wanted);
}

#[test]
fn a_sheet_in_hand_rests_where_it_is_centred() {
    let plans = Plans::new();
    let mut window = open(&[&plans.in_hand()]);
    let from = window.handle("Overlap, top").center();
    // 13 in of sheet under 10 in of window: 1 1/2 each side; 19 under 14: 2 1/2.
    let to = from - egui::vec2(window.points("0.45"), window.points("1.42"));
    window.take(from, to);
    assert!(window.texts().contains("the sheet centred"), "{}", window.texts());
    window.drop(to);
    let Meets::InHand(hand) = window.mat().openings[0].meets else { panic!("not in hand") };
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
    let Meets::Reveal(reveal) = window.mat().openings[0].meets else { panic!("in hand") };
    let aimed = inches("1/4 - 0.21");
    assert!((reveal.right - aimed).abs() <= inches("1/100"), "{}", window.reveal());
}
