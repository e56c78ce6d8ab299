//! What is put right or added to the record in the window: a work, its sizes, an edition's terms, a
//! print; each by a new entry, nothing written over unseen.

use sightedge_studio::{Change, NewWork, Note, State, Subject};

use crate::editions::{TODAY, record, window, works};
use crate::support::Plans;

#[test]
fn a_work_is_corrected_and_its_plan_follows() {
    let plans = Plans::new();
    let mut window = window(&plans, &[&plans.reference()]);
    window.click("Add the open picture…");
    window.type_in("Edition of", "25");
    window.click("Add the work");
    window.click("Issue 1/25");
    window.click("Correct the work…");
    assert!(window.texts().contains("Correct W0001, slack water"), "{}", window.texts());
    window.type_in("Title", " ");
    window.click("Save it");
    assert!(window.texts().contains("No title was given"), "{}", window.texts());
    window.type_in("Title", "Slack Water");
    window.type_in("Year taken", "2020");
    window.type_in("Name of the size", "small");
    window.type_in("Why", "misspelt");
    window.click("Save it");
    assert!(window.has("W0001 Slack Water, 1 of 25 issued"), "{}", window.texts());
    let written = window.document().inscribed.clone().unwrap().recorded;
    assert_eq!((written.title.as_str(), written.taken), ("Slack Water", Some(2020)));
    let opened = record(&plans);
    let row = opened.read().index().unwrap().remove(0);
    assert_eq!(row.work.what.title, "Slack Water");
    assert!(!row.work.what.sha256.is_empty(), "the picture is as it was");
    assert_eq!(opened.read().formats(row.work.id).unwrap()[0].what.name, "small");
    let history = opened.read().history(Subject::Work(row.work.id)).unwrap();
    assert_eq!((history.len(), history[1].why.as_str()), (2, "misspelt"));
    assert!(history[0].payload.contains("slack water"), "{}", history[0].payload);
}

#[test]
fn what_others_changed_meanwhile_is_not_written_over() {
    let plans = Plans::new();
    let work = works(&plans, 2, 1);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 1 of 25 issued");
    window.click("Correct the work…");
    window.type_in("Medium", "pigment print");
    // Another work is not turned to while something is typed.
    window.click("W0002 Weir 2, 1 of 25 issued");
    assert!(window.texts().contains("What was typed is not in the record yet"));
    assert_eq!(window.field("Medium"), "pigment print");
    let mut other = record(&plans);
    let what = other.read().work(work).unwrap().what;
    let theirs = NewWork { title: "The weir".to_owned(), ..what };
    other.record().correct_work(work, &theirs, &Note::at(TODAY)).unwrap();
    window.click("Save it");
    assert!(
        window.texts().contains("The work was changed by another window or program"),
        "{}",
        window.texts()
    );
    assert_eq!(other.read().work(work).unwrap().what.title, "The weir");
    window.click("Cancel");
    window.click("Correct the work…");
    window.type_in("Medium", "pigment print");
    window.click("Save it");
    let what = other.read().work(work).unwrap().what;
    assert_eq!((what.title.as_str(), what.medium.as_str()), ("The weir", "pigment print"));
}

#[test]
fn another_size_with_an_edition_of_its_own_and_prices_that_rise() {
    let plans = Plans::new();
    let mut window = window(&plans, &[&plans.reference()]);
    window.click("Add the open picture…");
    window.type_in("Edition of", "25");
    window.click("Counts: this size alone");
    window.click("Add the work");
    window.click("Another size…");
    assert!(
        window.texts().contains("Each size of this work has an edition of its own."),
        "{}",
        window.texts()
    );
    window.type_in("Name of the size", "large");
    window.type_in("Sheet width", "30");
    window.type_in("Sheet height", "40 in");
    window.type_in("Edition of", "9");
    window.type_in("Price", "2000 EUR");
    window.type_in("Price 2 from number", "12");
    window.type_in("Price 2", "2500");
    window.click("Add the size");
    assert!(
        window.texts().contains("A price starts at number 12, but the edition has 9"),
        "{}",
        window.texts()
    );
    window.type_in("Price 2 from number", "4");
    window.click("Add the size");
    assert!(window.has("W0001 slack water, 0 of 25, 0 of 9 issued"), "{}", window.texts());
    let name = window
        .seen()
        .into_iter()
        .find(|one| one.name.starts_with("large, sheet 30"))
        .unwrap_or_else(|| panic!("{}", window.texts()));
    window.click(&name.name);
    window.click("4/9, free");
    window.click("Issue 4/9 itself");
    assert!(window.texts().contains("2500.00 EUR"), "{}", window.texts());
    // A third price; those there are cannot be taken away, the counts no more changed.
    window.click("Terms and prices…");
    assert!(window.texts().contains("The edition size is fixed"), "{}", window.texts());
    window.type_in("Price 3 from number", "7");
    window.type_in("Price 3", "3200");
    window.type_in("Price 2 from number", "5");
    window.click("Save it");
    assert!(
        window.texts().contains("A price from number 4 on, 2500.00 EUR, is in the record"),
        "{}",
        window.texts()
    );
    window.type_in("Price 2 from number", "4");
    window.type_in("Name", "Large");
    window.click("Save it");
    let opened = record(&plans);
    let row = opened.read().index().unwrap().remove(0);
    let large = &row.editions[1].edition;
    assert_eq!((large.what.name.as_str(), large.what.size), ("Large", 9));
    let tiers = opened.read().tiers(large.id).unwrap();
    let tiers: Vec<(u32, i64)> =
        tiers.iter().map(|tier| (tier.from, tier.price.cents)).collect();
    assert_eq!(tiers, [(1, 200_000), (4, 250_000), (7, 320_000)]);
}

#[test]
fn another_size_of_one_edition_across_all_sizes() {
    let plans = Plans::new();
    works(&plans, 1, 1);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 1 of 25 issued");
    window.click("Another size…");
    assert!(window.texts().contains("count in the one edition of 25"), "{}", window.texts());
    window.click("Add the size");
    assert!(window.texts().contains("No size was given"), "{}", window.texts());
    window.type_in("Image width", "20 in");
    window.type_in("Sheet width", "10 in");
    window.type_in("Sheet height", "10 in");
    window.click("Add the size");
    assert!(
        window.texts().contains("Type both width and height of the image, or neither."),
        "{}",
        window.texts()
    );
    window.type_in("Image height", "9 in");
    window.click("Add the size");
    assert!(window.texts().contains("is larger than its sheet"), "{}", window.texts());
    window.type_in("Sheet width", "24 in");
    window.click("Add the size");
    window.click("1/25, sold");
    window.click("Correct 1/25…");
    assert!(window.texts().contains("not noted"), "{}", window.texts());
    window.click("Cancel");
    let opened = record(&plans);
    let row = opened.read().index().unwrap().remove(0);
    assert_eq!(row.editions.len(), 1);
    assert_eq!(opened.read().formats(row.work.id).unwrap().len(), 1);
}

#[test]
fn a_print_is_corrected_by_a_new_entry() {
    let plans = Plans::new();
    works(&plans, 1, 3);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 3 of 25 issued");
    window.click("3/25, sold");
    window.click("Destroyed");
    assert!(window.has("3/25, destroyed"), "{}", window.texts());
    window.click("Correct 3/25…");
    window.click("It is: destroyed");
    window.click("sold");
    window.type_in("Printed on", "yesterday");
    window.type_in("Buyer", "B. of Ostmere");
    window.click("Save it");
    assert!(window.texts().contains("2025-11-30"), "{}", window.texts());
    assert_eq!(window.field("Buyer"), "B. of Ostmere", "what was typed stays");
    window.type_in("Printed on", "2025-11-20");
    window.type_in("Why", "it was the other one");
    window.click("Save it");
    assert!(window.texts().contains("3/25 is corrected"), "{}", window.texts());
    let mut opened = record(&plans);
    let edition = opened.read().index().unwrap()[0].editions[0].edition.id;
    let print = opened.read().prints(edition).unwrap().remove(2);
    assert_eq!((print.now.printed.as_str(), print.number), ("2025-11-20", 3));
    assert_eq!(print.now.state, State::Sold, "not destroyed after all");
    let history = opened.read().history(Subject::Print(print.id)).unwrap();
    assert_eq!(history.len(), 3);
    assert_eq!(history[2].why, "it was the other one");
    // Changed by others meanwhile: not written over.
    window.click("2/25, at an unknown place");
    window.click("Correct 2/25…");
    window.type_in("Price", "700 EUR");
    let two = opened.read().prints(edition).unwrap().remove(1);
    let sold = Change::Move { to: State::Sold, place: None, buyer: None, price: None };
    opened.record().change(two.id, &sold, &Note::at(TODAY)).unwrap();
    window.click("Save it");
    assert!(window.texts().contains("The print was changed by another"), "{}", window.texts());
    assert_eq!(opened.read().print(two.id).unwrap().now.price, None);
}

/// What a voided number was is seen, and is no more among those never given.
#[test]
fn a_voided_number_shows_its_history() {
    let plans = Plans::new();
    works(&plans, 1, 1);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 1 of 25 issued");
    window.click("Issue 2/25");
    window.click("Void");
    assert!(window.has("2/25, free again, voided"), "{}", window.texts());
    assert!(window.texts().contains("23 free\n"), "{}", window.texts());
    assert!(window.texts().contains("1 free again, voided"), "{}", window.texts());
    window.click("2/25, free again, voided");
    assert!(window.texts().contains("It was given before, and voided:"), "{}", window.texts());
    window.click("Issue 2/25 itself");
    assert!(window.has("2/25, in the studio"), "{}", window.texts());
    let lines = window.texts();
    assert!(lines.contains("voided"), "the history of the number, not of the print: {lines}");
}

/// The show that was named stays for the next print, and is one show however it is typed.
#[test]
fn prints_go_to_one_show() {
    let plans = Plans::new();
    works(&plans, 1, 1);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 1 of 25 issued");
    window.click("Issue 2/25");
    window.type_in("Show", "Harbour Hall");
    window.key(egui::Key::Enter);
    assert!(window.has("2/25, at a show"), "{}", window.texts());
    window.click("Issue 3/25");
    assert_eq!(window.field("Show"), "Harbour Hall");
    window.type_in("Show", " harbour  hall");
    window.click("To the show");
    window.click("List: Shows");
    window.click("Harbour Hall  ·  2");
    assert!(
        window.texts().contains("2 prints  ·  2 offered at 1600.00 EUR"),
        "{}",
        window.texts()
    );
}

/// In an edition across several sizes, each print says which one it is of.
#[test]
fn a_print_is_of_the_size_that_is_picked() {
    let plans = Plans::new();
    works(&plans, 1, 1);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 1 of 25 issued");
    for (name, sheet) in [("small", ["8 in", "10 in"]), ("large", ["16 in", "20 in"])] {
        window.click("Another size…");
        window.type_in("Name of the size", name);
        window.type_in("Sheet width", sheet[0]);
        window.type_in("Sheet height", sheet[1]);
        window.key(egui::Key::Enter);
    }
    assert!(window.texts().contains("small, sheet 8 in × 10 in"), "{}", window.texts());
    window.click("Size: not noted");
    window.click("large, sheet 16 in × 20 in");
    window.click("Issue 2/25");
    let opened = record(&plans);
    let row = opened.read().index().unwrap().remove(0);
    let large = opened.read().formats(row.work.id).unwrap().remove(1).id;
    let print = opened.read().prints(row.editions[0].edition.id).unwrap().remove(1);
    assert_eq!(print.now.format, Some(large));
}

/// A number of an edition of one size is not issued for a plan of another.
#[test]
fn a_plan_of_another_size_gets_no_number() {
    let plans = Plans::new();
    let mut window = window(&plans, &[&plans.reference()]);
    window.click("Add the open picture…");
    window.type_in("Edition of", "25");
    window.click("Counts: this size alone");
    window.click("Add the work");
    window.click("Issue 1/25");
    let written = window.document().inscribed.clone();
    window.click("Another size…");
    window.type_in("Name of the size", "large");
    window.type_in("Edition of", "9");
    window.click("Add the size");
    window.click("large");
    assert!(window.texts().contains("the open plan is of another size"), "{}", window.texts());
    window.click("Issue 1/9");
    assert_eq!(window.document().inscribed, written, "what is on the plan's print stays");
    let opened = record(&plans);
    let row = opened.read().index().unwrap().remove(0);
    let print = opened.read().prints(row.editions[1].edition.id).unwrap().remove(0);
    assert_eq!(print.now.plan, "");
}

/// While a field is typed in, the undo key is the field's own.
#[test]
fn the_undo_key_leaves_the_record_alone_while_one_types() {
    let plans = Plans::new();
    works(&plans, 1, 1);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 1 of 25 issued");
    window.click("Issue 2/25");
    for field in ["Buyer", "Search"] {
        window.type_in(field, "Weir");
        window.key_with(egui::Modifiers::COMMAND, egui::Key::Z);
        assert!(window.has("2/25, in the studio"), "{}", window.texts());
    }
    window.click("Correct the work…");
    window.type_in("Notes", "hangs in the hall");
    window.key_with(egui::Modifiers::COMMAND, egui::Key::Z);
    window.click("Cancel");
    assert!(window.has("2/25, in the studio"), "{}", window.texts());
}

/// What happened last week is said of last week; a print that is out keeps its number.
#[test]
fn a_sale_has_its_day_and_what_is_out_is_not_voided() {
    let plans = Plans::new();
    works(&plans, 1, 2);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 2 of 25 issued");
    window.click("Issue 3/25");
    window.type_in("Day", "last week");
    window.click("Sold");
    assert!(window.texts().contains("\"last week\" is no day"), "{}", window.texts());
    window.type_in("Day", "2025-11-20");
    window.type_in("Price", "720,50 EUR");
    window.click("Sold");
    assert!(window.has("3/25, sold"), "{}", window.texts());
    assert!(window.texts().contains("720.50 EUR"), "{}", window.texts());
    let mut opened = record(&plans);
    let edition = opened.read().index().unwrap()[0].editions[0].edition.id;
    let prints = opened.read().prints(edition).unwrap();
    let history = opened.read().history(Subject::Print(prints[2].id)).unwrap();
    assert_eq!(history[1].at, "2025-11-20");
    let out = &prints[1];
    assert_eq!(out.now.state, State::Unknown);
    let refused = opened.record().change(out.id, &Change::Void, &Note::at(TODAY)).unwrap_err();
    assert!(
        refused
            .to_string()
            .contains("number 2 cannot be voided: this print is at an unknown place"),
        "{refused}"
    );
}
