//! The print at the bench: chosen, proposed, sold, replaced; what the record's buttons do to it.

use std::path::{Path, PathBuf};

use egui::Key;
use sightedge_service::storage::Storage;
use sightedge_studio::{
    Change, Choice, EditionId, Issue, Kind, NewEdition, NewWork, Note, Print, PrintDetails,
    State,
};

use crate::editions::{TODAY, record};
use crate::support::{Plans, Window};

/// The reference piece's plan with so many numbers of an edition of 25.
fn issued(plans: &Plans, count: u32) -> (PathBuf, EditionId) {
    let plan = plans.reference();
    let text = std::fs::read_to_string(&plan).unwrap();
    let document = sightedge_core::file::read(&text, "plan").unwrap();
    let mut opened = record(plans);
    let record = opened.record();
    let note = Note::at(TODAY);
    let what = NewWork {
        title: "Slack water".to_owned(),
        maker: "Ada Brook".to_owned(),
        sha256: document.works[0].picture.sha256.clone(),
        ..NewWork::default()
    };
    let work = record.add_work(&what, None, &note).unwrap();
    let edition = record.open_edition(work, &NewEdition::of(25, 10), &note).unwrap();
    for _ in 0..count {
        let stock = PrintDetails {
            plan: document.id.clone(),
            plan_file: plan.to_string_lossy().into_owned(),
            ..PrintDetails::default()
        };
        let issue =
            Issue { edition, kind: Kind::Numbered, choice: Choice::Next, stock, size: None };
        record.issue(&issue, &note).unwrap();
    }
    (plan, edition)
}

fn window(plans: &Plans, plan: &Path, room: &str) -> Window {
    let mut window = Window::new(Storage::at(plans.folder()), 1.0, &[plan]);
    window.click(room);
    window
}

fn sell(plans: &Plans, edition: EditionId, number: usize) {
    let mut opened = record(plans);
    let print = opened.read().prints(edition).unwrap().remove(number - 1);
    let buyer = Some("B. of Ostmere".to_owned());
    let sold = Change::Move { to: State::Sold, place: None, buyer, price: None };
    opened.record().change(print.id, &sold, &Note::at(TODAY)).unwrap();
}

fn number(window: &Window) -> String {
    window.document().inscribed.as_ref().map(|own| own.recorded.number()).unwrap_or_default()
}

fn live(plans: &Plans, edition: EditionId, number: u32) -> Print {
    let prints = record(plans).read().prints(edition).unwrap();
    prints.into_iter().find(|print| print.live && print.number == number).unwrap()
}

/// Source: common practice: a print is inscribed, hinged and cut for by its own number.
#[test]
fn inscription_steps_and_ticks_follow_the_print_that_is_chosen() {
    let plans = Plans::new();
    let (plan, edition) = issued(&plans, 5);
    sell(&plans, edition, 1);
    let mut window = window(&plans, &plan, "Bench");
    let shown = window.texts();
    assert!(
        shown.contains("2/25 is the lowest number in the studio that is not matted"),
        "{shown}"
    );
    assert_eq!(window.steps().0, None, "nothing is done unasked");
    window.click("Take “2/25” to the bench");
    assert_eq!(number(&window), "2/25");
    assert!(window.has("Print at the bench: 2/25, in the studio"), "{:?}", window.seen());
    // Clear the bench, then inscribe the back.
    window.key(Key::Space);
    assert!(window.texts().contains("“2/25” (sign)"), "{}", window.texts());
    window.key(Key::Space);
    assert!(window.has("Step 2: Inscribe the back, done"));
    // Another print has its own ticks.
    window.click("Print at the bench: 2/25, in the studio");
    window.click("3/25, in the studio");
    assert_eq!(number(&window), "3/25");
    assert!(window.has("Step 2: Inscribe the back, to do"), "{}", window.texts());
    window.click("Print at the bench: 3/25, in the studio");
    window.click("2/25, in the studio");
    assert!(window.has("Step 2: Inscribe the back, done"));
    // One that is sold can be chosen: it is noted, and the buyer named.
    window.click("Print at the bench: 2/25, in the studio");
    window.click("1/25, sold, B. of Ostmere");
    let shown = window.texts();
    assert!(
        shown.contains("“1/25”, the print at the bench, is sold to B. of Ostmere"),
        "{shown}"
    );
    window.click("Take “2/25” to the bench");
    assert_eq!(number(&window), "2/25");
    // The label and the certificate are that print's.
    window.click("Label and certificate…");
    assert!(window.texts().contains("Printouts of Slack water, 2/25"), "{}", window.texts());
}

#[test]
fn a_step_that_changed_since_it_was_ticked_is_open_again() {
    let plans = Plans::new();
    let (plan, _) = issued(&plans, 1);
    let mut window = window(&plans, &plan, "Bench");
    window.click("Take “1/25” to the bench");
    window.key(Key::Space);
    window.key(Key::Space);
    window.click("Behind it");
    window.click("Work on: Inscription");
    window.type_in("Year taken", "2021");
    window.key(Key::Enter);
    window.click("Bench");
    assert!(window.has("Step 2: Inscribe the back, to do again"), "{:?}", window.seen());
    window.click("Step 2: Inscribe the back, to do again");
    let shown = window.texts();
    assert!(shown.contains("Open again, for it changed since it was ticked on"), "{shown}");
    assert!(shown.contains("2021"), "{shown}");
    window.key(Key::Space);
    assert!(window.has("Step 2: Inscribe the back, done"));
}

/// The record's word stands among the checks, too.
#[test]
fn a_number_that_was_voided_stops() {
    let plans = Plans::new();
    let (plan, edition) = issued(&plans, 2);
    let mut window = window(&plans, &plan, "Bench");
    window.click("Take “1/25” to the bench");
    let one = live(&plans, edition, 1);
    record(&plans).record().change(one.id, &Change::Void, &Note::at(TODAY)).unwrap();
    for _ in 0..400 {
        window.frame();
        if window.texts().contains("was voided") {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    window.click("The mat");
    let stop = "Fault: “1/25”, the print at the bench, was voided: no print has that number, \
                and none may be signed with it. Take another print, or issue the number \
                again.";
    assert!(window.has(stop), "{:?}", window.seen());
    window.click("Take “2/25” to the bench");
    assert_eq!(number(&window), "2/25");
    assert!(!window.texts().contains("was voided"));
}

/// A print that replaces another inherits plan, inscription and its place at the bench; the
/// button asks first.
#[test]
fn replacing_asks_and_the_new_print_inherits() {
    let plans = Plans::new();
    let (plan, edition) = issued(&plans, 2);
    let mut window = window(&plans, &plan, "Bench");
    window.click("Take “1/25” to the bench");
    window.key(Key::Space);
    window.key(Key::Space);
    window.click("Editions");
    window.click("1/25, in the studio");
    window.click("Destroyed");
    window.click("Replace 1/25…");
    assert!(window.texts().contains("its plan and its inscription"), "{}", window.texts());
    window.click("Leave it");
    assert_eq!(live(&plans, edition, 1).now.state, State::Destroyed, "nothing was done");
    window.click("Replace 1/25…");
    window.click("Replace 1/25 by a new print");
    assert!(window.has("1/25, in the studio"), "{}", window.texts());
    let new = live(&plans, edition, 1);
    assert_eq!(new.now.plan, window.document().id);
    let own = window.document().inscribed.clone().unwrap().recorded;
    assert_eq!((own.number().as_str(), own.print), ("1/25", u32::try_from(new.id.0).ok()));
    window.click("Bench");
    assert!(window.has("Print at the bench: 1/25, in the studio"), "{:?}", window.seen());
    assert!(window.has("Step 2: Inscribe the back, to do"), "the new one has no ticks");
}

/// Issuing the next numbers leaves the print at the bench where it lies.
#[test]
fn numbers_issued_in_a_row_leave_the_bench_alone() {
    let plans = Plans::new();
    let (plan, _) = issued(&plans, 0);
    let mut window = window(&plans, &plan, "Editions");
    for next in 1..=3 {
        window.click(&format!("Issue {next}/25"));
        assert_eq!(number(&window), "1/25");
    }
}

/// What the buttons of a number do can be undone.
#[test]
fn what_was_done_to_a_number_is_undone() {
    let plans = Plans::new();
    let (plan, edition) = issued(&plans, 2);
    let mut window = window(&plans, &plan, "Editions");
    let was = live(&plans, edition, 2).now;
    window.click("2/25, in the studio");
    window.click("Void");
    assert!(window.has("2/25, free again, voided"), "{}", window.texts());
    window.click("Undo voiding 2/25");
    assert!(window.has("2/25, in the studio"), "{}", window.texts());
    assert_eq!(live(&plans, edition, 2).now, was, "its plan, too");
    for (button, shown) in [("Sold", "sold"), ("Destroyed", "destroyed")] {
        window.click(button);
        assert!(window.has(&format!("2/25, {shown}")), "{}", window.texts());
        window.click(&format!("Undo marking 2/25 {shown}"));
        assert_eq!(live(&plans, edition, 2).now, was);
    }
    window.click("Correct 2/25…");
    window.type_in("Buyer", "B.");
    window.click("Save it");
    assert_eq!(live(&plans, edition, 2).now.buyer, "B.");
    window.click("Undo correcting 2/25");
    assert_eq!(live(&plans, edition, 2).now, was);
    window.click("Correct the work…");
    window.type_in("Title", "Low water");
    window.click("Save it");
    let title =
        |plans: &Plans| record(plans).read().index().unwrap()[0].work.what.title.clone();
    assert_eq!(title(&plans), "Low water");
    window.click("Undo correcting W0001");
    assert_eq!(title(&plans), "Slack water");
    window.click("Terms and prices…");
    window.type_in("Name", "The first");
    window.click("Save it");
    window.click("Undo correcting the edition");
    assert_eq!(record(&plans).read().edition(edition).unwrap().what.name, "");
}

/// The show of the print before is a proposal until it is taken, and can be cleared.
#[test]
fn the_show_of_the_last_print_is_a_proposal() {
    let plans = Plans::new();
    let (plan, edition) = issued(&plans, 3);
    let mut window = window(&plans, &plan, "Editions");
    window.click("1/25, in the studio");
    assert!(!window.texts().contains("that of the last print"));
    window.type_in("Show", "Harbour");
    assert!(!window.texts().contains("that of the last print"), "it is this one's");
    window.click("To the show");
    assert!(!window.texts().contains("that of the last print"), "it is this one's still");
    window.click("2/25, in the studio");
    assert_eq!(window.field("Show"), "Harbour");
    assert!(window.texts().contains("that of the last print"), "{}", window.texts());
    window.click("Clear");
    assert_eq!(window.field("Show"), "");
    assert!(!window.texts().contains("that of the last print"));
    window.click("1/25, at a show");
    window.type_in("Show", "Harbour");
    window.click("3/25, in the studio");
    window.click("To the show");
    assert_eq!(live(&plans, edition, 3).now.place, "Harbour", "taken as it was proposed");
}

/// Once every step is done the print is noted as matted, and the next one is proposed.
#[test]
fn a_print_that_is_done_is_noted_as_matted() {
    let plans = Plans::new();
    let (plan, edition) = issued(&plans, 2);
    let mut window = window(&plans, &plan, "Bench");
    window.click("Take “1/25” to the bench");
    let all = |window: &Window| {
        (12..20).any(|steps| window.texts().contains(&format!("{steps} of {steps} done")))
    };
    for _ in 0..30 {
        assert!(!window.has("Note “1/25” as matted"), "{}", window.texts());
        window.key(Key::Space);
        if all(&window) {
            break;
        }
    }
    assert!(all(&window), "{}", window.texts());
    window.click("Note “1/25” as matted");
    assert_eq!(window.said(), "1/25 is noted as matted today. Editions can undo that.");
    assert_ne!(live(&plans, edition, 1).now.matted, "");
    assert!(
        window.texts().contains("2/25 is the lowest number in the studio"),
        "{}",
        window.texts()
    );
    window.click("Editions");
    window.click("Undo noting 1/25 as matted");
    assert_eq!(live(&plans, edition, 1).now.matted, "");
    // Where the numbers are, another one can be taken to the bench, too.
    window.click("2/25, in the studio");
    window.click("Take “2/25” to the bench");
    assert_eq!(number(&window), "2/25");
    assert!(!window.has("Take “2/25” to the bench"));
}
