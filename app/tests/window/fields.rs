//! The panels: exact fields beside the free hand, checks, figures.

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use sightedge_core::spec::{Placement, WindowBy};

use crate::support::{Plans, Window, in_inches, inches, open, read, sides};

fn sheet(window: &Window) -> (String, String) {
    let sheet = window.document().works[0].sheet;
    (in_inches(sheet.width), in_inches(sheet.height))
}

#[test]
fn enter_keeps_what_was_typed_as_one_step() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.type_in("Sheet width", "14 1/2");
    assert_eq!(sheet(&window).0, "13 in", "typing alone changes nothing");
    window.key(Key::Enter);
    assert_eq!(sheet(&window).0, "14 1/2 in");
    assert_eq!(window.field("Sheet width"), "14 ½ in");
    assert_eq!(window.steps(), (Some("sheet and image"), None));
}

#[test]
fn what_was_typed_is_kept_wherever_the_hand_goes_next() {
    #[track_caller]
    fn case(leave: impl FnOnce(&mut Window), wanted_focus: &str) {
        let plans = Plans::new();
        let mut window = open(&[&plans.reference()]);
        window.type_in("Image width", "10 3/4 in + 1/8");
        leave(&mut window);
        let image = window.document().works[0].image.size.width;
        assert_eq!(in_inches(image), "10 7/8 in");
        assert_eq!(window.steps(), (Some("sheet and image"), None));
        assert_eq!(window.field("Image width"), "10 ⅞ in");
        assert_eq!(window.focused(), wanted_focus);
    }
    case(|window| window.key(Key::Enter), "");
    case(|window| window.key(Key::Tab), "Image height");
    case(|window| window.key_with(Modifiers::SHIFT, Key::Tab), "Sheet height");
    // To a field below, and to one above: it is shown before the one that is left.
    case(|window| window.click("Reveal"), "Reveal");
    case(|window| window.click("Sheet width"), "Sheet width");
    // To the board, to a button, to nothing.
    case(
        |window| {
            let at = window.handle("Reveal, top: ").center();
            window.click_at(at);
        },
        "Reveal, top: ¼ in",
    );
    case(
        |window| {
            let board = window.board();
            window.click_at(board.left_top() - egui::vec2(30.0, 30.0));
        },
        "",
    );
}

fn image(window: &Window) -> String {
    let image = window.document().works[0].image;
    format!("{} × {}", in_inches(image.size.width), in_inches(image.size.height))
}

/// Source: derived; the picture has 1100 × 1500 pixels, printed at 11 × 15 in.
#[test]
fn one_side_of_the_image_gives_the_other_until_it_is_set_free() {
    const LOCK: &str = "Keep the picture's proportion";
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.type_in("Image width", "5 1/2");
    window.key(Key::Enter);
    assert_eq!(image(&window), "5 1/2 in × 7 1/2 in");
    assert_eq!(window.field("Image height"), "7 ½ in");
    let at = window.document().works[0].image.at;
    assert_eq!((at.x, at.y), (inches("3 3/4"), inches("5 1/4")), "about its middle");
    assert_eq!(window.steps(), (Some("sheet and image"), None));
    window.type_in("Image height", "15");
    window.key(Key::Enter);
    assert_eq!(image(&window), "11 in × 15 in");
    // Exactly, not on the ruler: 10 × 15 / 11.
    window.type_in("Image width", "10");
    window.key(Key::Enter);
    let height = window.document().works[0].image.size.height;
    assert_eq!(height, inches("10").scaled(15, 11));
    // Set free, each side is typed alone.
    window.click(LOCK);
    window.type_in("Image height", "15");
    window.key(Key::Enter);
    assert_eq!(image(&window), "10 in × 15 in");
    window.type_in("Image width", "9");
    window.key(Key::Enter);
    assert_eq!(image(&window), "9 in × 15 in");
    // Kept again, it is trimmed to the picture's proportion, in one step.
    window.click(LOCK);
    assert_eq!(window.document().works[0].image.size.height, inches("9").scaled(15, 11));
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(image(&window), "9 in × 15 in");
}

/// A plan whose image was set free opens so.
#[test]
fn an_image_of_another_proportion_is_free() {
    let plans = Plans::new();
    let plan = plans.plan("cropped.png", |document| {
        document.works[0].image.size = crate::support::size("11x14");
    });
    let mut window = open(&[&plan]);
    window.type_in("Image width", "10");
    window.key(Key::Enter);
    assert_eq!(image(&window), "10 in × 14 in");
}

#[test]
fn esc_gives_back_what_was_there() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.type_in("Sheet width", "99");
    window.key(Key::Escape);
    assert_eq!(window.field("Sheet width"), "13 in");
    assert_eq!(window.focused(), "");
    window.key(Key::Tab);
    window.key(Key::Enter);
    assert_eq!(sheet(&window).0, "13 in");
    assert_eq!(window.steps(), (None, None));
}

#[test]
fn what_is_no_length_is_refused_in_words() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.type_in("Sheet width", "13.5x");
    window.key(Key::Enter);
    let why = "\"13.5x\" is not a length: try 13 1/2, 13.5 in or 343 mm";
    // At the field, which keeps what was typed and the focus, so that it is mended there.
    assert!(window.texts().contains(why), "{}", window.texts());
    assert_eq!(window.said(), "");
    assert_eq!(window.field("Sheet width"), "13.5x in");
    assert_eq!(window.focused(), "Sheet width");
    assert_eq!(window.steps(), (None, None));
    // It stays while one looks elsewhere.
    window.click("Reveal");
    assert_eq!(window.field("Sheet width"), "13.5x in");
    assert!(window.texts().contains(why), "{}", window.texts());
    // The message leaves as soon as what is typed can be read.
    window.click("Sheet width");
    window.key_with(Modifiers::COMMAND, Key::A);
    window.type_text("13.5");
    assert!(!window.texts().contains("is not a length"), "{}", window.texts());
    window.key(Key::Enter);
    assert_eq!(sheet(&window).0, "13 1/2 in");
    // Esc gives it up.
    window.type_in("Sheet width", "x");
    window.key(Key::Tab);
    assert!(window.texts().contains("is not a length"), "{}", window.texts());
    window.click("Sheet width");
    window.key(Key::Escape);
    assert!(!window.texts().contains("is not a length"), "{}", window.texts());
    assert_eq!(window.field("Sheet width"), "13 ½ in");
    assert_eq!(window.steps(), (Some("sheet and image"), None));
}

#[test]
fn fields_take_fractions_units_and_sums() {
    #[track_caller]
    fn case(typed: &str, wanted: &str) {
        let plans = Plans::new();
        let mut window = open(&[&plans.reference()]);
        window.open_sides("Reveal");
        window.type_in("Reveal, top", typed);
        window.key(Key::Enter);
        let WindowBy::Reveal(reveal) = window.mat().openings[0].window_by else {
            panic!("in hand")
        };
        assert_eq!(reveal.top, inches(wanted), "{typed}");
    }
    case("½", "1/2");
    case("10 mm", "10 mm");
    case("1/4 + 1/16", "5/16");
    case("−⅛", "-1/8");
    case(".375", "3/8");
}

#[test]
fn undo_is_seen_in_a_field_that_has_the_focus() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.type_in("Sheet width", "14");
    window.key(Key::Enter);
    window.click("Sheet width");
    assert_eq!(window.focused(), "Sheet width");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sheet(&window).0, "13 in");
    assert_eq!(window.field("Sheet width"), "13 in");
    // And leaving the field brings nothing back.
    window.key(Key::Tab);
    assert_eq!(sheet(&window).0, "13 in");
    assert_eq!(window.steps(), (None, Some("sheet and image")));
}

#[test]
fn undo_takes_back_what_is_being_typed_before_it_takes_back_a_step() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.type_in("Sheet width", "14");
    window.key(Key::Enter);
    window.type_in("Sheet height", "77");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.field("Sheet height"), "19 in");
    assert_eq!(sheet(&window), ("14 in".to_owned(), "19 in".to_owned()));
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sheet(&window), ("13 in".to_owned(), "19 in".to_owned()));
}

#[test]
fn tab_walks_the_fields_in_the_order_of_the_job() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.click("Sheet width");
    let mut fields = Vec::new();
    let mut handles = Vec::new();
    for _ in 0..120 {
        let Some(now) = window.seen().into_iter().find(|one| one.focused) else { break };
        match now.role {
            Role::TextInput if fields.contains(&now.name) => break,
            Role::TextInput => fields.push(now.name),
            Role::Slider => handles.push(now.name),
            _ => {}
        }
        window.key(Key::Tab);
    }
    assert_eq!(
        fields,
        [
            "Sheet width",
            "Sheet height",
            "Image width",
            "Image height",
            "Image margin",
            "Reveal",
            "Border",
            "Thickness of the top",
            "Thickness of the undermat 1",
            "Offset of undermat 1",
        ]
    );
    // Every handle on the board is reached too.
    for start in ["Top border to the window", "Reveal, ", "Undermat offset, ", "Border, "] {
        assert!(handles.iter().any(|name| name.starts_with(start)), "{start}: {handles:?}");
    }
    assert_eq!(handles.len(), 13, "{handles:?}");
}

#[test]
fn a_remedy_takes_its_finding_away_and_is_one_step() {
    let plans = Plans::new();
    // The window covers no paper at the right: 15/16 of an inch of margin, 1/16 held.
    let plan = plans.plan("tide.png", |document| {
        document.variants[0].mat.openings[0].window_by =
            WindowBy::Reveal(sides("1/4,15/16,1/4,1/4"));
    });
    let mut window = open(&[&plan]);
    let finding = |window: &Window| {
        let findings = &window.session().derived().findings;
        findings.iter().find(|finding| finding.rule == "overlap").cloned()
    };
    let found = finding(&window).unwrap();
    let words = sightedge_service::wording::sentence(&found.remedy.unwrap().words);
    let message = sightedge_service::wording::sentence(&found.message);
    let told = window.seen().iter().any(|one| one.name.contains(&message));
    assert!(told, "{message} is not told");
    window.click(&words);
    assert_eq!(finding(&window), None);
    assert!(window.steps().0.is_some(), "a remedy can be taken back");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert!(finding(&window).is_some(), "undo brings the finding back");
}

/// The reference piece's figures as the panel tells them to a screen reader.
/// Source: worked by hand from the layout's rules (sheet 13 × 19, image 11 × 15 at 1 and
/// 1 1/2, borders 4 1/2, 4 5/16, 5 1/2, 3 13/16, offset 3/16, reveal 1/4 and 3/8 below).
#[test]
fn the_reference_piece_is_read_back_from_the_panel() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    assert_eq!(window.field("Reveal"), "¼, bottom ⅜ in");
    assert_eq!(window.field("Border"), "4 ½, 4 ⁵⁄₁₆, 5 ½, 3 ¹³⁄₁₆ in");
    for name in ["Image margin", "Reveal", "Border"] {
        window.open_sides(name);
    }
    let said: Vec<String> = window
        .seen()
        .into_iter()
        .filter(|one| one.role == Role::Label)
        .map(|one| if one.value.is_empty() { one.name } else { one.value })
        .collect();
    let after = |name: &str| -> &str {
        let at = said.iter().position(|text| text == name);
        let at = at.unwrap_or_else(|| panic!("{name:?} is not among {said:?}"));
        said[at + 1].as_str()
    };
    assert!(said.iter().any(|text| text == "For the bench, from the front"), "{said:?}");
    for (name, wanted) in [
        ("Outer", "20 × 26 in"),
        ("Top mat window", "11 ⅞ × 16 in"),
        ("Top mat, top, bottom", "4 ½, 5 ½ in"),
        ("Top mat, left, right", "3 ¹³⁄₁₆, 4 ⁵⁄₁₆ in"),
        ("Undermat window", "11 ½ × 15 ⅝ in"),
        ("Undermat, top, bottom", "4 ¹¹⁄₁₆, 5 ¹¹⁄₁₆ in"),
        ("Undermat, left, right", "4, 4 ½ in"),
        ("Overlap, top, bottom", "1 ¼, 2 ⅛ in"),
        ("Overlap, left, right", "¾, ¾ in"),
    ] {
        assert_eq!(after(name), wanted, "{name}");
    }
    for (name, wanted) in [
        ("Sheet width", "13"),
        ("Sheet height", "19"),
        ("Image width", "11"),
        ("Image height", "15"),
        ("Image margin, top", "1 1/2"),
        ("Image margin, right", "1"),
        ("Image margin, bottom", "2 1/2"),
        ("Image margin, left", "1"),
        ("Reveal, top", "1/4"),
        ("Reveal, right", "1/4"),
        ("Reveal, bottom", "3/8"),
        ("Reveal, left", "1/4"),
        ("Border, top", "4 1/2"),
        ("Border, right", "4 5/16"),
        ("Border, bottom", "5 1/2"),
        ("Border, left", "3 13/16"),
        ("Offset of undermat 1", "3/16"),
        ("Thickness of the top", ".060"),
    ] {
        assert_eq!(read(&window.field(name)), inches(wanted), "{name}");
    }
}

#[test]
fn where_the_ruler_rounds_the_exact_figure_is_there_on_hover() {
    let plans = Plans::new();
    let mut window = open(&[&plans.single(Placement::Optical)]);
    // 3.8 in and a bit at the top: no mark of a ruler in sixteenths.
    let exact = window.session().derived().layout.exact.openings[0].borders.top;
    let shown = sightedge_service::wording::length(exact, sightedge_core::length::Unit::Inch);
    assert!(!window.texts().contains(&format!("Exactly {shown}")), "{}", window.texts());
    let seen = window.seen();
    let label = |one: &crate::support::Seen| one.role == Role::Label;
    let at = seen
        .iter()
        .position(|one| label(one) && (one.value == "Border, top" || one.name == "Border, top"))
        .unwrap();
    let figure = seen[at + 1..].iter().find(|one| label(one)).unwrap();
    let at = figure.rect.center();
    window.move_to(at);
    window.wait(1.0);
    window.move_to(at + egui::vec2(0.5, 0.0));
    window.wait(1.0);
    assert!(window.texts().contains(&format!("Exactly {shown}")), "{}", window.texts());
}

/// Every widget one can act on has a name: also in what opens on demand. The check itself runs
/// each time the window settles.
#[test]
fn what_opens_on_demand_is_named_too() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let colour = window.seen().into_iter().find(|one| one.role == Role::ColorWell).unwrap();
    for name in ["Paper size", "Board of the top", "More on the undermat 1", "Ruler", "More"] {
        window.click(name);
        window.key(Key::Escape);
    }
    window.click_at(colour.rect.center());
    window.key(Key::Escape);
    window.key_with(Modifiers::COMMAND, Key::K);
    window.key_with(Modifiers::COMMAND, Key::H);
    window.click("Window given by: overlap");
    window.click("Window given by: ready-cut");
    window.click("Board given by: borders");
    let start = open(&[]);
    assert!(start.has("Open the demo"), "{:?}", start.texts());
}

/// A slow frame gathers Tab and the next press of the mouse.
#[test]
fn what_was_typed_is_kept_when_tab_and_a_press_come_at_once() {
    #[track_caller]
    fn case(to: impl Fn(&Window) -> egui::Pos2) {
        let plans = Plans::new();
        let mut window = open(&[&plans.reference()]);
        window.type_in("Image width", "10 3/4 in + 1/8");
        let at = to(&window);
        window.tab_and_press_at(at);
        let image = window.document().works[0].image.size.width;
        assert_eq!(in_inches(image), "10 7/8 in");
    }
    case(|window| window.find("Reveal").rect.center());
    case(|window| window.find("Sheet width").rect.center());
    case(|window| window.handle("Reveal, top: ").center());
    case(|window| window.find("Add an undermat").rect.center());
}
