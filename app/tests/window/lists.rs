//! Lists that drop down, and the one field for four sides.

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use sightedge_core::spec::{BoardBy, WindowBy};

use crate::support::{Plans, Window, four, in_inches, open, sides};

fn board(window: &Window) -> String {
    window.mat().layers[0].board.name.clone()
}

fn places(window: &Window) -> Vec<String> {
    let seen = window.seen();
    let options = seen.iter().filter(|one| one.role == Role::ListBoxOption);
    options.map(|one| one.name.clone()).collect()
}

#[test]
fn after_a_choice_the_focus_stays_on_the_list() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.click("Board of the top");
    let offered = places(&window);
    assert!(offered.len() >= 10, "{offered:?}");
    let other = offered.iter().find(|name| **name != board(&window)).unwrap().clone();
    window.click(&other);
    assert_eq!(board(&window), other);
    assert_eq!(window.focused(), "Board of the top");
    assert!(places(&window).is_empty(), "the list is closed");
    assert_eq!(window.field("Board of the top"), other);
}

#[test]
fn arrows_home_end_and_letters_choose_at_once() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.click("Board of the top");
    let offered = places(&window);
    window.click(&offered[0].clone());
    window.key(Key::ArrowDown);
    assert_eq!(board(&window), offered[1]);
    window.key(Key::ArrowDown);
    window.key(Key::ArrowUp);
    assert_eq!(board(&window), offered[1]);
    window.key(Key::End);
    assert_eq!(board(&window), *offered.last().unwrap());
    window.key(Key::ArrowDown);
    assert_eq!(board(&window), *offered.last().unwrap(), "it ends there");
    window.key(Key::Home);
    assert_eq!(board(&window), offered[0]);
    // The first whose name begins so.
    let last = offered.last().unwrap().to_lowercase();
    let start: String = last.chars().filter(|c| !c.is_whitespace()).take(4).collect();
    window.type_text(&start);
    let squeezed: String = board(&window).to_lowercase().split_whitespace().collect();
    assert!(squeezed.starts_with(&start), "{squeezed} for {start}");
    assert_eq!(window.focused(), "Board of the top");
    // The same while it is open; Esc closes it and the focus stays.
    window.key(Key::Enter);
    assert!(!places(&window).is_empty());
    window.key(Key::Home);
    assert_eq!(board(&window), offered[0]);
    window.key(Key::Escape);
    assert!(places(&window).is_empty(), "closed");
    window.key(Key::Tab);
    assert_eq!(window.focused(), "More on the top");
}

/// At least ten rows are seen at once, and a name is read whole.
#[test]
fn a_list_shows_ten_rows() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.resize(1280.0, 800.0);
    window.click("Board of the top");
    let area = window.seen();
    let rows: Vec<_> = area.iter().filter(|one| one.role == Role::ListBoxOption).collect();
    let high = rows[0].rect.height();
    let texts = window.texts();
    let whole = rows.iter().filter(|row| texts.lines().any(|line| line == row.name)).count();
    assert!(whole >= 10, "{whole} names are read whole");
    assert!(high >= 24.0, "{high}");
}

#[test]
fn four_sides_are_one_field_that_opens_into_four() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let reveal = |window: &Window| window.reveal();
    assert_eq!(window.field("Reveal"), "¼, bottom ⅜ in");
    window.type_in("Reveal", "1/2");
    window.key(Key::Enter);
    assert_eq!(reveal(&window), four(sides("1/2,1/2,1/2,1/2")));
    assert_eq!(window.field("Reveal"), "½ in");
    window.type_in("Reveal", "1/4, top 1/8");
    window.key(Key::Tab);
    assert_eq!(reveal(&window), four(sides("1/8,1/4,1/4,1/4")));
    assert_eq!(window.focused(), "Reveal: each side");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.field("Reveal"), "½ in", "one step");
    // Each side by itself, in the order top, right, bottom, left.
    window.open_sides("Reveal");
    window.type_in("Reveal, top", "3/8");
    for next in ["Reveal, right", "Reveal, bottom", "Reveal, left"] {
        window.key(Key::Tab);
        assert_eq!(window.focused(), next);
    }
    assert_eq!(reveal(&window), four(sides("3/8,1/2,1/2,1/2")));
    assert_eq!(window.field("Reveal"), "½, top ⅜ in");
    // What cannot be read stays there, with the reason.
    window.type_in("Reveal", "1, 2, 3");
    window.key(Key::Enter);
    assert!(window.texts().contains("is not one length, nor one with"), "{}", window.texts());
    assert_eq!(window.field("Reveal"), "1, 2, 3 in");
    assert_eq!(reveal(&window), four(sides("3/8,1/2,1/2,1/2")));
    window.key(Key::Escape);
    assert_eq!(window.field("Reveal"), "½, top ⅜ in");
}

#[test]
fn borders_overlap_offset_and_margins_are_one_field_too() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.type_in("Border", "4, bottom 5");
    window.key(Key::Enter);
    let BoardBy::Borders(borders) = window.mat().board_by else { panic!("by its size") };
    assert_eq!(four(borders), four(sides("4,4,5,4")));
    window.type_in("Offset of undermat 1", "1/4, bottom 3/8");
    window.key(Key::Enter);
    let offset = window.mat().openings[0].offsets.values().next().unwrap();
    assert_eq!(four(*offset), four(sides("1/4,1/4,3/8,1/4")));
    window.click("Window given by: overlap");
    window.type_in("Overlap", "1/2");
    window.key(Key::Enter);
    let WindowBy::Reveal(reveal) = window.mat().openings[0].window_by else { panic!("cut") };
    // Margins are 1 1/2, 1, 2 1/2, 1.
    assert_eq!(four(reveal), four(sides("1,1/2,2,1/2")));
    // The image fits inside its margins, in the picture's proportion.
    window.type_in("Image margin", "1 1/2");
    window.key(Key::Enter);
    let image = window.document().works[0].image;
    assert_eq!(in_inches(image.size.width), "10 in");
    assert_eq!(in_inches(image.at.x), "1 1/2 in");
    // More than the sheet has is refused.
    window.type_in("Image margin", "8");
    window.key(Key::Enter);
    assert!(window.texts().contains("leaves nothing of"), "{}", window.texts());
}
