//! Behind the mat: hinges under the hand, the air, the frame.

use egui::{Key, Modifiers, vec2};
use sightedge_core::spec::{Grain, HingeKind};

use crate::support::{Plans, Window, in_inches, open};

/// The reference piece with its back turned up. Its 13 in sheet is held at 1 and at 12 in.
fn turned(plans: &Plans) -> Window {
    let mut window = open(&[&plans.reference()]);
    window.click("Behind it");
    window
}

/// Where its hinges were put by hand, the one that holds the place marked.
fn hinges(window: &Window) -> String {
    let at = window.mat().assembly.hinging.at.iter();
    let words = at.map(|one| {
        let mark = if one.locates { "*" } else { "" };
        format!("{}{mark}", in_inches(one.x))
    });
    words.collect::<Vec<_>>().join(", ")
}

/// An inch on the screen: the hinges are 11 in apart.
fn inch(window: &Window) -> f32 {
    let (one, two) = (window.handle("Hinge 1, "), window.handle("Hinge 2, "));
    (two.center().x - one.center().x).abs() / 11.0
}

#[test]
fn a_hinge_is_dragged_along_the_edge_on_both_sides() {
    #[track_caller]
    fn case(lifted: bool, by: f32, wanted: &str) {
        let plans = Plans::new();
        let mut window = turned(&plans);
        if lifted {
            window.click("Seen: Mat lifted");
        }
        let (one, two) = (window.handle("Hinge 1, "), window.handle("Hinge 2, "));
        assert_eq!(one.center().x < two.center().x, lifted, "left and right change places");
        let from = one.center();
        let to = from + vec2(by * inch(&window), 4.0);
        window.take(from, to);
        assert!(window.texts().contains("from the left"), "{}", window.texts());
        assert_eq!(window.steps(), (None, None), "not kept yet");
        window.drop(to);
        assert_eq!(hinges(&window), wanted);
        assert_eq!(window.steps(), (Some("hinges"), None), "one step");
        window.key_with(Modifiers::COMMAND, Key::Z);
        assert_eq!(hinges(&window), "");
    }
    case(false, -2.02, "3 in*, 12 in");
    case(true, 2.02, "3 in*, 12 in");
    // It comes to rest where it would be planned, and goes no further than the edge.
    case(true, 0.16, "1 in*, 12 in");
    case(true, -3.0, "0 in*, 12 in");
}

#[test]
fn esc_gives_a_hinge_back() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    let from = window.handle("Hinge 2, ").center();
    window.take(from, from + vec2(60.0, 0.0));
    assert_ne!(hinges(&window), "");
    window.key(Key::Escape);
    assert_eq!((hinges(&window), window.steps()), (String::new(), (None, None)));
    window.drop(from + vec2(80.0, 0.0));
    assert_eq!(window.steps(), (None, None));
}

#[test]
fn arrows_nudge_the_way_they_point_and_digits_set() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    let at = window.handle("Hinge 1, ").center();
    window.click_at(at);
    // Turned over, to the right is towards the sheet's left edge.
    window.key(Key::ArrowRight);
    assert_eq!(hinges(&window), "15/16 in*, 12 in");
    window.key(Key::ArrowLeft);
    window.key(Key::ArrowLeft);
    assert_eq!(hinges(&window), "1 1/16 in*, 12 in");
    window.type_at_once(&["2", " ", "1/4"], Some(Key::Enter));
    assert_eq!(hinges(&window), "2 1/4 in*, 12 in");
    window.type_text("9");
    window.key(Key::Escape);
    assert_eq!(hinges(&window), "2 1/4 in*, 12 in");
    assert!(window.focused().starts_with("Hinge 1, holds the place: 2"));
}

#[test]
fn enter_and_the_panel_say_which_one_holds_the_place() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    let at = window.handle("Hinge 2, ").center();
    window.click_at(at);
    window.key(Key::Enter);
    assert_eq!(hinges(&window), "1 in, 12 in*");
    window.click("Hinge 1 holds the place");
    assert_eq!(hinges(&window), "1 in*, 12 in");
    window.click("Add");
    assert_eq!(hinges(&window), "1 in*, 6 1/2 in, 12 in");
    window.click("Automatic");
    assert_eq!(hinges(&window), "");
    window.type_in("Place of hinge 2", "11 1/2");
    window.key(Key::Enter);
    assert_eq!(hinges(&window), "1 in*, 11 1/2 in");
    assert_eq!(window.steps().0, Some("hinges"));
}

#[test]
fn paper_grain_and_kind_are_chosen_and_checked_at_once() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    window.click("Paper: Not chosen");
    window.click("Etching paper, cotton, 300 g");
    assert_eq!(window.mat().assembly.paper.as_ref().unwrap().id, "etching-300");
    window.click("Grain: height");
    assert_eq!(window.mat().assembly.grain, Some(Grain::Height));
    window.click("Hangs in: Not chosen");
    window.click("Storage of prints");
    let hangs = window.mat().assembly.hangs_at.unwrap();
    assert_eq!((hangs.dry.text(), hangs.damp.text()), ("30".to_owned(), "50".to_owned()));
    window.click("Held by: Automatic: T hinges");
    window.click("V hinges");
    assert_eq!(window.mat().assembly.hinging.kind, Some(HingeKind::V));
    assert!(window.texts().contains("Your choice."));
    window.type_in("Hold on the sheet", "3/8");
    window.key(Key::Enter);
    window.click("Hold on the sheet: back to the usual");
    assert_eq!(window.mat().assembly.hinging.hold, None);
    window.click("Corners of the mat: glued");
    assert!(window.texts().contains("can no longer be reached"), "{}", window.texts());
}

#[test]
fn the_air_moves_the_sheet_and_no_plan() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    window.click("Paper: Not chosen");
    window.click("Etching paper, cotton, 300 g");
    window.click("Grain: height");
    let before = window.document().clone();
    assert!(window.texts().contains("now 50 %"));
    let slider = window.find("Humidity shown: 50 %").rect;
    window.click_at(slider.left_center() + vec2(6.0, 0.0));
    assert!(window.texts().contains("now 40"), "{}", window.texts());
    window.click("Movement drawn: true size");
    assert_eq!(*window.document(), before);
}

/// What is shown, each figure parted from its unit by a plain space.
fn shown(window: &Window) -> String {
    window.texts().replace('\u{a0}', " ")
}

#[test]
fn a_frame_is_chosen_and_its_section_follows() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    window.click("Work on: Frame");
    assert!(window.has("Section through the package: 4 layers, ³⁄₁₆ in deep"));
    window.click("Frame: None: matted and bagged");
    window.click("Gallery, wood");
    assert!(window.has("Section through the package: 7 layers, ½ in deep"));
    // 0.4925 and 1/8 of room are 0.6175, the rabbet 0.5: 0.1175, in 64ths upwards.
    let short = "is ⅛ in too deep for the rabbet: it needs ⅝ in, and the rabbet is ½ in";
    assert!(shown(&window).contains(short), "{}", window.texts());
    window.click("Use the frame “Wide, wood”");
    assert!(!shown(&window).contains("too deep"), "{}", window.texts());
    window.click("Frame: Wide, wood");
    window.click("Deep, wood");
    assert_eq!(window.mat().assembly.package.frame.as_ref().unwrap().id, "deep-wood");
    window.click("Frame sized by: rabbet");
    window.type_in("Rabbet width", "22 1/8");
    window.key(Key::Enter);
    let outer = |window: &Window| window.session().derived().layout.exact.outer;
    assert_eq!(in_inches(outer(&window).width), "20 in");
    window.click("Make the mat 22 × 26 in");
    assert_eq!(in_inches(outer(&window).width), "22 in");
    window.click("Hooks: two");
    window.type_in("Rings apart", "16");
    window.key(Key::Enter);
    window.type_in("Rise of the wire", "4");
    window.key(Key::Enter);
    // The hooks are half as far apart as the contents are wide, 11 in: the slope is 4 : 2 1/2.
    assert!(window.texts().contains("at 58°"), "{}", window.texts());
}

/// An inch plan shows pounds; grams are set beside the unit, and what is typed is read as shown.
#[test]
fn weights_are_set_apart_from_the_unit() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    // High enough for all figures below the checks.
    window.resize(1524.0, 1400.0);
    window.click("Work on: Frame");
    window.click("Frame: None: matted and bagged");
    window.click("Gallery, wood");
    window.click("Mass by: weighed");
    window.type_in("Mass", "13");
    window.key(Key::Enter);
    assert_eq!(window.mat().assembly.package.mass_g, Some(5897));
    assert_eq!(window.field("Mass"), "13 lb");
    // One hook, four times over.
    assert!(window.texts().contains("52 lb"), "{}", window.texts());
    window.type_in("Each hook is rated for", "heavy");
    window.key(Key::Enter);
    assert!(window.texts().contains("\"heavy\" is no"), "{}", window.texts());
    assert_eq!(window.mat().assembly.hanging.hook_rated_g, None);
    window.type_in("Each hook is rated for", "20 kg");
    window.key(Key::Enter);
    assert_eq!(window.mat().assembly.hanging.hook_rated_g, Some(20_000));
    window.click("The mat");
    window.click("Weights: grams, newtons");
    assert_eq!(window.steps().0, Some("unit of weights"));
    window.click("Behind it");
    assert_eq!(window.field("Mass"), "5.9 kg");
    assert!(window.texts().contains("23.6 kg"), "{}", window.texts());
    assert!(!window.texts().contains(" lb"), "{}", window.texts());
}

/// A plan opened while its back is looked at shows its picture under the lifted mat, though its
/// mat was never in front.
#[test]
fn the_lifted_mat_shows_the_picture_by_itself() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    window.click("Seen: Mat lifted");
    window.settle();
    let before = window.app().pictures_held().0.textures;
    let other = plans.plan("another.png", |_| {});
    window.drop_files(&[&other]);
    window.wait(1.0);
    window.settle();
    assert!(window.has("Seen: Mat lifted"), "the place stays");
    assert!(window.app().pictures_held().0.textures > before);
}

/// The checks and figures follow while a hinge is in the hand, before anything is kept.
#[test]
fn checks_follow_while_a_hinge_is_dragged() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    window.click("Seen: Mat lifted");
    let before = window.texts();
    assert!(!before.contains("past the side of the sheet"), "{before}");
    let from = window.handle("Hinge 1, ").center();
    let to = from - vec2(0.5 * inch(&window), 0.0);
    window.take(from, to);
    let during = window.texts();
    assert!(during.contains("past the side of the sheet"), "{during}");
    assert_eq!(window.steps(), (None, None), "not kept yet");
    window.key(Key::Escape);
    assert!(!window.texts().contains("past the side of the sheet"), "{}", window.texts());
}

/// A framed plan keeps what it usually has, though nothing was said of it.
#[test]
fn a_frame_brings_its_glazing_and_filler_into_the_plan() {
    let plans = Plans::new();
    let mut window = turned(&plans);
    window.click("Work on: Frame");
    window.click("Frame: None: matted and bagged");
    window.click("Deep, wood");
    let package = &window.mat().assembly.package;
    assert_eq!(package.glazing.as_ref().map(|one| one.id.as_str()), Some("acrylic-3"));
    assert_eq!(package.filler.as_ref().map(|one| one.id.as_str()), Some("foam-5"));
    assert_eq!(window.steps(), (Some("frame and package"), None), "one step");
}
