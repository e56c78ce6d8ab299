//! The record in the window: a work added, numbers issued, taken back, shown and sold.

use egui::Key;
use sightedge::window::request::Screen;
use sightedge_service::storage::Storage;
use sightedge_studio::{
    Change, NewEdition, NewWork, Note, Opened, State, TakenOver, Tier, WorkId,
};

use crate::support::many::many;
use crate::support::{Plans, Window};

pub(crate) const TODAY: &str = "2025-11-30";

pub(crate) fn record(plans: &Plans) -> Opened {
    sightedge_studio::open(&plans.folder().join("studio"), TODAY).unwrap()
}

pub(crate) fn window(plans: &Plans, files: &[&std::path::Path]) -> Window {
    let mut window = Window::new(Storage::at(plans.folder()), 1.0, files);
    window.click("Editions");
    window
}

/// Works that are there already, `prints` of each issued.
pub(crate) fn works(plans: &Plans, count: u32, prints: u32) -> WorkId {
    let mut opened = record(plans);
    let record = opened.record();
    let note = Note::at(TODAY);
    let mut first = None;
    for n in 1..=count {
        let what = NewWork {
            title: format!("Weir {n}"),
            maker: "Ada Brook".to_owned(),
            ..NewWork::default()
        };
        let work = record.add_work(&what, None, &note).unwrap();
        let edition = record.open_edition(work, &NewEdition::of(25, 10), &note).unwrap();
        let price = sightedge_studio::Money { cents: 80_000, currency: "EUR".to_owned() };
        record.set_tier(&Tier { edition, from: 1, price }, &note).unwrap();
        if prints == 0 {
            first = first.or(Some(work));
            continue;
        }
        // Of all but the second it is known.
        let sold = (1..=prints).filter(|number| *number != 2).collect();
        let taken = TakenOver { edition, from: 1, to: prints, sold };
        record.take_over(&taken, &note).unwrap();
        first = first.or(Some(work));
    }
    first.unwrap()
}

#[test]
fn the_open_picture_becomes_a_work_and_its_first_number() {
    let plans = Plans::new();
    let mut window = window(&plans, &[&plans.reference()]);
    assert!(window.texts().contains("No work is in the record yet"), "{}", window.texts());
    window.click("Add the open picture…");
    window.type_in("Maker", "Ada Brook");
    window.type_in("Year taken", "2021");
    window.type_in("Edition of", "x");
    window.click("Add the work");
    assert!(window.texts().contains("\"x\" is no number of prints: try 25."));
    window.type_in("Edition of", "25");
    window.click("Add the work");
    assert!(window.has("W0001 slack water, 0 of 25 issued"), "{:?}", window.seen());
    window.click("Issue 1/25");
    assert!(window.texts().contains("1/25 is issued."), "{}", window.texts());
    assert!(window.has("1/25, in the studio"));
    let id = window.document().id.clone();
    let print = record(&plans).read().prints_of_plan(&id, None).unwrap().remove(0).2;
    assert_eq!(print.number, 1, "for the open plan");
    let written = |window: &Window| window.document().inscribed.clone().unwrap().recorded;
    let recorded = written(&window);
    assert_eq!(recorded.notation.unwrap().text(recorded.numerals), "1/25");
    assert_eq!((recorded.maker.as_str(), recorded.taken), ("Ada Brook", Some(2021)));

    // One step back: the number is free again, and the history has both.
    window.click("Undo issuing 1/25");
    assert!(window.has("1/25, free again, voided"), "{}", window.texts());
    assert!(window.has("Issue 1/25"));
    assert!(window.document().inscribed.is_none(), "what came with the number goes with it");
    let opened = record(&plans);
    let prints = opened.read().prints(print.edition).unwrap();
    assert_eq!((prints.len(), prints[0].now.state), (1, State::Voided));
    let history = opened.read().history(sightedge_studio::Subject::Print(print.id)).unwrap();
    assert_eq!(history.len(), 2);
}

/// Source: the record, read back: all that the form asks for is in it.
#[test]
fn an_edition_under_way_is_taken_over_whole() {
    let plans = Plans::new();
    let mut window = window(&plans, &[&plans.reference()]);
    window.click("Add the open picture…");
    window.type_in("Edition of", "50");
    window.type_in("Year printed", "2023");
    window.type_in("Printer's proofs", "2");
    window.type_in("Hors commerce", "3");
    window.click("Proofs numbered: AP 2/5");
    window.click("Counts: this size alone");
    window.type_in("Price", "800 CHF");
    window.type_in("Issued before", "4");
    window.type_in("Sold of these", "9");
    window.click("Add the work");
    assert!(
        window.texts().contains("Number 9 is marked as sold, but only 1 to 4"),
        "{}",
        window.texts()
    );
    window.type_in("Sold of these", "1, 4");
    window.click("Add the work");
    assert!(window.has("2/50, at an unknown place"), "{}", window.texts());
    assert!(window.has("Issue 5/50"), "{}", window.texts());
    let opened = record(&plans);
    let row = opened.read().index().unwrap().remove(0);
    assert_eq!(row.work.what.printed, Some(2023));
    let what = &row.editions[0].edition.what;
    assert_eq!((what.size, what.artist, what.printer, what.hors_commerce), (50, 5, 2, 3));
    assert!(!what.roman && what.format.is_some(), "{what:?}");
    let prints = opened.read().prints(row.editions[0].edition.id).unwrap();
    assert_eq!(prints.len(), 4);
    assert_eq!(opened.read().last_currency().unwrap().as_deref(), Some("CHF"));
}

/// What was out before the record began is said to be somewhere by the person alone, several
/// numbers at once.
#[test]
fn the_person_says_where_prints_are() {
    let plans = Plans::new();
    let mut window = window(&plans, &[&plans.reference()]);
    window.click("Add the open picture…");
    window.type_in("Edition of", "25");
    window.type_in("Issued before", "9");
    window.click("Add the work");
    assert!(window.texts().contains("9 at an unknown place"), "{}", window.texts());
    assert!(!window.texts().contains("sold"), "{}", window.texts());
    window.click("Enter where they are…");
    assert!(window.texts().contains("At an unknown place: 1-9."), "{}", window.texts());
    window.click("Save it");
    assert!(window.texts().contains("No number is named"), "{}", window.texts());
    window.type_in("Numbers", "1-3, 12");
    window.click("Save it");
    assert!(window.texts().contains("Number 12 is not issued"), "{}", window.texts());
    window.type_in("Numbers", "1-3, 5");
    window.click("Save it");
    assert!(window.texts().contains("Noted as sold: 1-3, 5."), "{}", window.texts());
    assert!(window.has("5/25, sold") && window.has("4/25, at an unknown place"));
    assert!(window.texts().contains("5 at an unknown place"), "{}", window.texts());
    let row = record(&plans).read().index().unwrap().remove(0);
    let totals = row.editions[0].totals;
    assert_eq!((totals.sold, totals.unknown, totals.studio), (4, 5, 0));
}

/// Looking begins no record, and a choice of its folder that cannot be read is made anew before
/// anything is opened.
#[test]
fn nothing_is_begun_before_the_person_has_chosen() {
    let plans = Plans::new();
    let file = plans.folder().join("studio/studio.sqlite");
    let looked = window(&plans, &[]);
    assert!(looked.texts().contains("No work is in the record yet"), "{}", looked.texts());
    drop(looked);
    assert!(!file.exists(), "looking begins none");
    works(&plans, 1, 1);
    let kept = plans.folder().join("studio.ron");
    std::fs::write(&kept, "spoilt").unwrap();
    for _ in 0..2 {
        let window = window(&plans, &[]);
        assert!(window.texts().contains("is not known any more"), "{}", window.texts());
        assert!(!window.has("W0001 Weir 1, 1 of 25 issued"));
        assert_eq!(std::fs::read_to_string(&kept).unwrap(), "spoilt");
    }
    let mut window = window(&plans, &[]);
    window.click("Use the usual folder");
    assert!(window.has("W0001 Weir 1, 1 of 25 issued"), "{}", window.texts());
    assert!(plans.folder().join("studio-1.unreadable").exists(), "what was spoilt is kept");
}

/// A number of one work is not noted as that of another picture's plan.
#[test]
fn the_plan_of_another_picture_gets_no_number() {
    let plans = Plans::new();
    let mut window = window(&plans, &[&plans.reference()]);
    window.click("Add the open picture…");
    window.type_in("Edition of", "25");
    window.click("Add the work");
    let mut opened = record(&plans);
    let what =
        NewWork { title: "Weir".to_owned(), sha256: "0".repeat(64), ..NewWork::default() };
    let note = Note::at(TODAY);
    let other = opened.record().add_work(&what, None, &note).unwrap();
    let edition = opened.record().open_edition(other, &NewEdition::of(9, 10), &note).unwrap();
    window.click("Issue 1/25");
    window.click("W0002 Weir, 0 of 9 issued");
    assert!(!window.texts().contains("for the open plan"), "{}", window.texts());
    window.click("Issue 1/9");
    assert!(window.has("1/9, in the studio"));
    let prints = opened.read().prints(edition).unwrap();
    assert_eq!(prints[0].now.plan, "");
    let recorded = window.document().inscribed.clone().unwrap().recorded;
    assert_eq!(recorded.notation.unwrap().text(recorded.numerals), "1/25");
}

#[test]
fn a_number_goes_to_a_show_and_to_a_buyer() {
    let plans = Plans::new();
    works(&plans, 2, 3);
    let mut window = window(&plans, &[]);
    window.click("W0002 Weir 2, 3 of 25 issued");
    assert!(window.has("2/25, at an unknown place"));
    assert!(window.texts().contains("22 free"), "{}", window.texts());
    // A free number that the maker chooses.
    window.click("7/25, free");
    window.click("Issue 7/25 itself");
    assert!(window.has("7/25, in the studio"));
    window.type_in("Show", "Harbour");
    window.click("To the show");
    assert!(window.has("7/25, at a show"));
    window.type_in("Price", "soon");
    window.click("Sold");
    assert!(window.texts().contains("\"soon\" is no price: try 1200"), "{}", window.texts());
    assert!(window.has("7/25, at a show"), "nothing was done");
    window.type_in("Buyer", "B. of Ostmere");
    window.type_in("Price", "900 EUR");
    window.click("Sold");
    assert!(window.has("7/25, sold"), "{}", window.texts());
    assert!(window.texts().contains("1 sold for 900.00 EUR"), "{}", window.texts());
    // Taken back, and done again; it comes back, and is asked for as before.
    window.click("Undo marking 7/25 sold");
    assert!(window.has("7/25, at a show"), "{}", window.texts());
    window.type_in("Buyer", "B. of Ostmere");
    window.type_in("Price", "900 EUR");
    window.click("Sold");
    window.click("Returned");
    assert!(window.texts().contains("returned  ·  800.00 EUR"), "{}", window.texts());
    assert!(window.texts().contains("offered at 800.00 EUR"), "{}", window.texts());
    window.click("Destroyed");
    window.click("Undo marking 7/25 destroyed");
    assert!(window.has("7/25, returned"), "{}", window.texts());
    window.click("5/25, free");
    window.click("Issue 5/25 itself");
    window.type_in("Show", "Harbour");
    window.click("To the show");
    window.click("List: Shows");
    window.click("Harbour  ·  1");
    assert!(window.has("5/25   Weir 2, Ada Brook   800.00 EUR"), "{}", window.texts());
}

#[test]
fn everything_by_keyboard() {
    let plans = Plans::new();
    works(&plans, 1, 1);
    let mut window = Window::new(Storage::at(plans.folder()), 1.0, &[]);
    let shortcut = Screen::Editions.shortcut().unwrap();
    window.key_with(shortcut.modifiers, shortcut.logical_key);
    let mut steps = 0;
    while window.focused() != "W0001 Weir 1, 1 of 25 issued" {
        window.key(Key::Tab);
        steps += 1;
        assert!(steps < 30, "{}", window.focused());
    }
    window.key(Key::Enter);
    while window.focused() != "Issue 2/25" {
        window.key(Key::Tab);
        steps += 1;
        assert!(steps < 60, "{}", window.focused());
    }
    window.key(Key::Enter);
    assert!(window.has("2/25, in the studio"), "{}", window.texts());
    // One stop among the numbers; from there the arrows lead on.
    while window.focused() != "2/25, in the studio" {
        window.key(Key::Tab);
        steps += 1;
        assert!(steps < 70, "{}", window.focused());
    }
    window.key(Key::ArrowRight);
    assert_eq!(window.focused(), "3/25, free");
    assert!(window.has("Issue 3/25 itself"));
    window.key(Key::End);
    assert_eq!(window.focused(), "25/25, free");
    window.key(Key::ArrowUp);
    window.key(Key::Home);
    assert_eq!(window.focused(), "1/25, sold");
    window.key(Key::Tab);
    assert!(window.focused().starts_with("AP I/"), "{}", window.focused());
    window.key(Key::Tab);
    assert_eq!(window.focused(), "BAT, free");
    window.key(Key::Tab);
    assert_eq!(window.focused(), "Printouts…");
}

#[test]
fn what_another_window_took_is_told() {
    let plans = Plans::new();
    works(&plans, 1, 3);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 3 of 25 issued");
    window.click("5/25, free");
    let mut other = record(&plans);
    let edition = other.read().index().unwrap()[0].editions[0].edition.id;
    let issue = sightedge_studio::Issue {
        edition,
        kind: sightedge_studio::Kind::Numbered,
        choice: sightedge_studio::Choice::Number(5),
        stock: sightedge_studio::PrintDetails::default(),
        size: None,
    };
    let five = other.record().issue(&issue, &Note::at(TODAY)).unwrap();
    window.click("Issue 5/25 itself");
    assert!(window.texts().contains("Another print has this number"));
    assert!(window.has("5/25, in the studio"), "and what is there now is shown");
    other.record().change(five.id, &Change::Void, &Note::at(TODAY)).unwrap();
}

#[test]
fn thousands_of_works_make_only_the_rows_in_sight_and_rest() {
    let plans = Plans::new();
    let all = many(&plans.folder().join("one"), TODAY, &NewWork::default(), 3000);
    record(&plans).record().fill(&all).unwrap();

    let mut window = window(&plans, &[]);
    let rows = |window: &Window| {
        window.seen().iter().filter(|one| one.name.ends_with("0 of 25 issued")).count()
    };
    assert!((5..40).contains(&rows(&window)), "{}", rows(&window));
    assert!(window.repaint_delay() > std::time::Duration::from_secs(1), "it rests");
    window.type_in("Search", "weir 2718");
    assert_eq!(rows(&window), 1);
    window.key(Key::Escape);
    window.type_in("Search", "nothing of the sort");
    assert!(window.texts().contains("No work, buyer or show matches."));
}

#[test]
fn a_damaged_record_offers_its_backup() {
    let plans = Plans::new();
    works(&plans, 1, 3);
    record(&plans).back_up("2025-11-29").unwrap();
    let file = plans.folder().join("studio").join(sightedge_studio::FILE);
    std::fs::write(&file, "spoilt ".repeat(4000)).unwrap();
    let mut window = window(&plans, &[]);
    assert!(window.texts().contains("The record is damaged"), "{}", window.texts());
    assert!(window.has("2025-11-29   1 work, 3 prints"), "{}", window.texts());
    window.click("Restore the backup of 2025-11-29");
    assert!(window.has("W0001 Weir 1, 3 of 25 issued"), "{}", window.texts());
}

/// The folder is chosen in the window; the old record stays, a new one begins, and the choice is
/// remembered. A folder that is missed is said, and no new record is begun in its place.
#[test]
fn the_record_is_kept_where_one_says() {
    let plans = Plans::new();
    works(&plans, 2, 1);
    let elsewhere = plans.folder().join("prints");
    let mut chosen = window(&plans, &[]);
    chosen.click("Record kept in…");
    chosen.type_in("Folder of the record", &elsewhere.display().to_string());
    chosen.click("Keep the record there");
    assert!(
        chosen.texts().contains("there was none, a new one is begun"),
        "{}",
        chosen.texts()
    );
    assert!(chosen.texts().contains("No work is in the record yet"), "{}", chosen.texts());
    assert!(elsewhere.join(sightedge_studio::FILE).is_file());
    assert!(plans.folder().join("studio").join(sightedge_studio::FILE).is_file());
    drop(chosen);

    let away = plans.folder().join("away");
    std::fs::rename(&elsewhere, &away).unwrap();
    let mut missed = window(&plans, &[]);
    assert!(missed.texts().contains("is not there"), "{}", missed.texts());
    assert!(!elsewhere.exists(), "no new record in its place");
    missed.type_in("Folder of the record", &away.display().to_string());
    missed.click("Keep the record there");
    assert!(missed.texts().contains("No work is in the record yet"), "{}", missed.texts());
    missed.click("Record kept in…");
    missed.click("Use the usual folder");
    assert!(missed.has("W0002 Weir 2, 1 of 25 issued"), "{}", missed.texts());
}

#[test]
fn printouts_of_a_print_and_of_a_show_are_written() {
    let plans = Plans::new();
    works(&plans, 1, 3);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 3 of 25 issued");
    window.click("4/25, free");
    window.click("Issue 4/25 itself");
    window.type_in("Show", "Harbour");
    window.click("To the show");
    window.click("Printouts…");
    assert!(window.texts().contains("Printouts of Weir 1, 4/25"), "{}", window.texts());
    // What does not fit is told before anything is written.
    window.type_in("Labels across", "9");
    window.key(Key::Enter);
    assert!(window.texts().contains("9 columns of labels"), "{}", window.texts());
    window.type_in("Labels across", "1");
    window.key(Key::Enter);
    window.click("Paper: A4");
    // Who stands at the head of the pages is asked for here, and remembered.
    window.type_in("Studio name", "Ada Brook, Prints");
    window.key(Key::Enter);
    window.click("Write the printouts");
    let out = plans.folder().join("studio").join("printouts");
    assert!(window.has("Open W0001-4-25-labels.pdf"), "{}", window.texts());
    assert!(window.has("Open W0001-4-25-certificate.pdf"), "{}", window.texts());
    assert!(out.join("W0001-4-25-certificate.pdf").is_file());
    window.click("Back to the numbers");
    window.click("List: Shows");
    window.click("Harbour  ·  1");
    window.click("Printouts…");
    window.type_in("Folder for printouts", &plans.folder().join("paper").display().to_string());
    window.click("Write the printouts");
    for name in ["wall-labels", "prices", "consignment"] {
        let file = plans.folder().join("paper").join(format!("Harbour-{name}.pdf"));
        assert!(std::fs::read(&file).unwrap().starts_with(b"%PDF"), "{name}");
    }
    // How labels are printed is remembered.
    window.click("Labels for the backing");
    assert_eq!(window.field("Labels across"), "1");
    assert_eq!(window.field("Studio name"), "Ada Brook, Prints");
    // So is the paper.
    let kept = std::fs::read_to_string(plans.folder().join("labels.ron")).unwrap();
    assert!(kept.contains("sheet:Some(A4)"), "{kept}");
}
