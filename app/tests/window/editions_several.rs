//! Several numbers chosen at once; prints found by their buyer; a show renamed; a work withdrawn.

use egui::{Key, Modifiers};
use sightedge_studio::{Print, State};

use crate::editions::{record, window, works};
use crate::support::{Plans, Window};

fn prints(plans: &Plans) -> Vec<Print> {
    let opened = record(plans);
    let edition = opened.read().index().unwrap()[0].editions[0].edition.id;
    opened.read().prints(edition).unwrap()
}

fn states(plans: &Plans) -> Vec<State> {
    prints(plans).iter().filter(|print| print.live).map(|print| print.now.state).collect()
}

/// A window on a work with so many numbers issued just now.
fn issued(plans: &Plans, count: u32) -> Window {
    works(plans, 1, 0);
    let mut window = window(plans, &[]);
    window.click("W0001 Weir 1, 0 of 25 issued");
    for number in 1..=count {
        window.click(&format!("Issue {number}/25"));
    }
    window
}

#[test]
fn a_range_goes_to_a_show_and_back() {
    let plans = Plans::new();
    let mut window = issued(&plans, 5);
    window.click("2/25, in the studio");
    window.hold(Modifiers::SHIFT);
    window.click("4/25, in the studio");
    window.hold(Modifiers::NONE);
    assert!(window.texts().contains("3 numbers chosen"), "{}", window.texts());
    window.hold(Modifiers::COMMAND);
    window.click("3/25, in the studio");
    window.click("7/25, free");
    window.hold(Modifiers::NONE);
    let texts = window.texts();
    assert!(texts.contains("2, 4, 7"), "{texts}");
    assert!(texts.contains("1 not issued, left out"), "{texts}");
    window.type_in("Show", "Harbour");
    window.click("To the show");
    assert!(window.texts().contains("2, 4: at a show."), "{}", window.texts());
    let away = [State::Studio, State::Show, State::Studio, State::Show, State::Studio];
    assert_eq!(states(&plans), away);
    window.click("Undo marking 2, 4 at a show");
    assert_eq!(states(&plans), [State::Studio; 5]);
}

/// Shift and the arrows, Ctrl+A, or numbers as they are typed.
#[test]
fn several_are_chosen_by_keys_and_sold_at_one_price() {
    let plans = Plans::new();
    let mut window = issued(&plans, 5);
    window.click("1/25, in the studio");
    window.key_with(Modifiers::SHIFT, Key::ArrowRight);
    window.key_with(Modifiers::SHIFT, Key::ArrowRight);
    assert!(window.texts().contains("3 numbers chosen"), "{}", window.texts());
    assert_eq!(window.focused(), "3/25, in the studio");
    window.key_with(Modifiers::SHIFT, Key::ArrowLeft);
    assert!(window.texts().contains("2 numbers chosen"), "{}", window.texts());
    window.type_in("Buyer", "B. of Ostmere");
    window.type_in("Price of each", "700");
    window.click("Sold");
    assert!(window.texts().contains("1, 2: sold."), "{}", window.texts());
    for print in &prints(&plans)[..2] {
        assert_eq!(print.now.price.as_ref().unwrap().to_string(), "700.00 EUR");
        assert_eq!(print.now.buyer, "B. of Ostmere");
    }
    // All of them or none: two are sold.
    window.click("5/25, in the studio");
    window.key_with(Modifiers::COMMAND, Key::A);
    assert!(window.texts().contains("25 numbers chosen"), "{}", window.texts());
    window.click("Sold");
    assert!(window.texts().contains("1/25 is sold already"), "{}", window.texts());
    assert_eq!(states(&plans)[2..], [State::Studio; 3]);
    window.click("Choose none");
    window.type_in("Numbers", "3, 5-4");
    window.key(Key::Enter);
    assert!(window.texts().contains("\"5-4\" is no range"), "{}", window.texts());
    window.type_in("Numbers", "3, 4-5");
    window.key(Key::Enter);
    assert!(window.texts().contains("3 numbers chosen"), "{}", window.texts());
}

#[test]
fn a_buyer_leads_to_the_number() {
    let plans = Plans::new();
    let mut window = issued(&plans, 3);
    window.click("2/25, in the studio");
    window.type_in("Buyer", "Élise of Ostmere");
    window.click("Sold");
    window.click("Choose none");
    window.type_in("Search", "OSTMERE");
    window.wait(0.5);
    window.click("W0001 2/25, sold  ·  800.00 EUR  ·  Élise of Ostmere");
    assert!(window.has("Correct 2/25…"), "{}", window.texts());
    window.type_in("Search", "nobody");
    window.wait(0.5);
    assert!(window.texts().contains("No work, buyer or show matches."), "{}", window.texts());
}

#[test]
fn a_show_gets_another_name() {
    let plans = Plans::new();
    let mut window = issued(&plans, 2);
    window.click("1/25, in the studio");
    window.type_in("Show", "Harbor");
    window.click("To the show");
    window.click("List: Shows");
    window.click("Harbor  ·  1");
    window.click("Rename…");
    window.type_in("New name of the show", "Harbour Hall");
    window.click("Rename the show");
    assert!(window.texts().contains("Harbor is Harbour Hall now."), "{}", window.texts());
    assert!(window.has("Harbour Hall  ·  1"), "{}", window.texts());
    assert_eq!(prints(&plans)[0].now.place, "Harbour Hall");
    window.click("Undo renaming Harbor");
    assert_eq!(prints(&plans)[0].now.place, "Harbor");
}

/// Off the list with a reason, found again by the filter, and brought back.
#[test]
fn a_mistaken_work_leaves_the_list_and_comes_back() {
    let plans = Plans::new();
    works(&plans, 2, 0);
    let mut window = window(&plans, &[]);
    window.click("W0002 Weir 2, 0 of 25 issued");
    window.click("Correct the work…");
    window.click("Withdrawn: it was entered by mistake");
    window.click("Save it");
    assert!(window.texts().contains("only with a reason"), "{}", window.texts());
    window.type_in("Why", "entered twice");
    window.click("Save it");
    assert!(
        window.texts().contains("W0002 is withdrawn and off the list"),
        "{}",
        window.texts()
    );
    assert!(!window.has("W0002 Weir 2, 0 of 25 issued"), "{}", window.texts());
    window.click("Show withdrawn works (1)");
    window.click("W0002 Weir 2, 0 of 25 issued");
    window.click("Bring it back");
    assert!(window.texts().contains("W0002 is back on the list."), "{}", window.texts());
    window.click("Show withdrawn works (0)");
    assert!(window.has("W0002 Weir 2, 0 of 25 issued"), "{}", window.texts());
    window.click("W0002 Weir 2, 0 of 25 issued");
    window.click("Correct the work…");
    window.type_in("Number", "W0001");
    window.type_in("Why", "as in the book");
    window.click("Save it");
    assert!(window.texts().contains("Another work has this catalogue number"));
    window.type_in("Number", "A 7");
    window.click("Save it");
    assert!(window.has("A 7 Weir 2, 0 of 25 issued"), "{}", window.texts());
}

/// What the certificate tells is typed where the work is corrected.
#[test]
fn the_certificates_fields_are_kept() {
    let plans = Plans::new();
    works(&plans, 1, 0);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 0 of 25 issued");
    window.click("Correct the work…");
    window.click("For the certificate");
    for (field, text) in [
        ("Process", "photogravure"),
        ("How and where signed", "in pencil, below the image"),
        ("Authorised by", "the maker"),
        ("What becomes of negative, plate or file", "the plate is cancelled"),
        ("Other editions", "10 of 8 × 10 in"),
    ] {
        window.type_in(field, text);
    }
    window.click("Save it");
    let what = record(&plans).read().index().unwrap()[0].work.what.clone();
    let kept = [what.process, what.signed, what.authorised, what.master, what.others];
    assert_eq!(
        kept,
        [
            "photogravure",
            "in pencil, below the image",
            "the maker",
            "the plate is cancelled",
            "10 of 8 × 10 in"
        ]
    );
}
