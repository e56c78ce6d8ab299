//! The record in the window as it changes under one's hands: written by others, undone, damaged;
//! its pictures, its long list.

use egui::Key;
use sightedge_studio::{Change, NewEdition, NewWork, Note, State};

use crate::editions::{TODAY, record, window, works};
use crate::support::{Plans, Window};

/// Whether a file of those bytes was set aside.
fn kept(plans: &Plans, bytes: &[u8]) -> bool {
    std::fs::read_dir(plans.folder().join("studio")).unwrap().any(|entry| {
        let path = entry.unwrap().path();
        path.to_string_lossy().contains("studio-damaged-")
            && std::fs::read(path).unwrap() == bytes
    })
}

/// Frames until something is shown, or none for too long.
fn wait_for(window: &mut Window, name: &str) {
    for _ in 0..400 {
        window.frame();
        if window.has(name) {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    panic!("{name} never came: {}", window.texts());
}

#[test]
fn a_damaged_record_without_a_backup_can_be_begun_anew() {
    let plans = Plans::new();
    works(&plans, 1, 3);
    let file = plans.folder().join("studio").join(sightedge_studio::FILE);
    let spoilt = "spoilt ".repeat(4000);
    std::fs::write(&file, &spoilt).unwrap();
    let mut window = window(&plans, &[]);
    assert!(
        window.texts().contains("There is no whole backup beside it"),
        "{}",
        window.texts()
    );
    window.click("Begin a new record here");
    assert!(window.texts().contains("No work is in the record yet"), "{}", window.texts());
    assert!(kept(&plans, spoilt.as_bytes()), "the damaged file is kept");
}

/// Bytes in the middle of the file are overwritten before the window opens it.
#[test]
fn damage_within_the_file_is_told_and_the_backup_put_back() {
    let plans = Plans::new();
    works(&plans, 40, 3);
    record(&plans).back_up("2025-11-29").unwrap();
    let file = plans.folder().join("studio").join(sightedge_studio::FILE);
    let mut bytes = std::fs::read(&file).unwrap();
    for page in bytes.chunks_mut(4096).skip(2) {
        page[..64].fill(0xff);
    }
    std::fs::write(&file, &bytes).unwrap();
    let mut window = window(&plans, &[]);
    let texts = window.texts();
    assert!(texts.contains("The record is damaged"), "{texts}");
    assert!(window.has("2025-11-29   40 works, 120 prints"), "{texts}");
    window.click("Restore the backup of 2025-11-29");
    assert!(window.has("W0001 Weir 1, 3 of 25 issued"), "{}", window.texts());
    assert!(kept(&plans, &bytes), "the damaged file is kept");
}

/// The file is spoilt while the window has it open, and read anew because another program
/// wrote.
#[test]
fn damage_met_later_is_told_and_the_backup_put_back() {
    let plans = Plans::new();
    works(&plans, 40, 3);
    let mut window = window(&plans, &[]);
    assert!(window.has("W0001 Weir 1, 3 of 25 issued"), "{}", window.texts());
    let mut other = record(&plans);
    let edition = other.read().index().unwrap()[0].editions[0].edition.id;
    let file = plans.folder().join("studio").join(sightedge_studio::FILE);
    let mut bytes = std::fs::read(&file).unwrap();
    for page in bytes.chunks_mut(4096).skip(2) {
        page[..64].fill(0xff);
    }
    std::fs::write(&file, &bytes).unwrap();
    // What it has in its memory is whole: it writes, and knows nothing.
    let issue = sightedge_studio::Issue {
        edition,
        kind: sightedge_studio::Kind::Numbered,
        choice: sightedge_studio::Choice::Next,
        stock: sightedge_studio::PrintDetails::default(),
        size: None,
    };
    other.record().issue(&issue, &Note::at(TODAY)).unwrap();
    wait_for(&mut window, "The record is damaged");
    drop(other);
    window.settle();
    let today = sightedge_service::record::today();
    assert!(window.has(&format!("{today}   40 works, 120 prints")), "{}", window.texts());
    window.click(&format!("Restore the backup of {today}"));
    assert!(window.has("W0001 Weir 1, 3 of 25 issued"), "{}", window.texts());
}

/// The newest backup is not always the wanted one.
#[test]
fn an_older_backup_can_be_put_back() {
    let plans = Plans::new();
    works(&plans, 1, 3);
    record(&plans).back_up("2025-11-28").unwrap();
    works(&plans, 1, 2);
    record(&plans).back_up("2025-11-29").unwrap();
    let file = plans.folder().join("studio").join(sightedge_studio::FILE);
    std::fs::write(&file, "spoilt ".repeat(4000)).unwrap();
    let unread = file.parent().unwrap().join("backups").join("studio-2025-11-27.sqlite");
    std::fs::write(unread, "spoilt too").unwrap();
    let mut window = window(&plans, &[]);
    assert!(window.has("2025-11-29   2 works, 5 prints"), "{}", window.texts());
    assert!(window.has("2025-11-27   cannot be read"), "{}", window.texts());
    assert!(window.has("Restore the backup of 2025-11-29"));
    window.click("2025-11-28   1 work, 3 prints");
    window.click("Restore the backup of 2025-11-28");
    assert!(window.has("W0001 Weir 1, 3 of 25 issued"), "{}", window.texts());
    assert!(!window.has("W0002 Weir 1, 2 of 25 issued"), "{}", window.texts());
}

#[test]
fn what_was_entered_last_is_in_a_backup_when_the_window_closes() {
    let plans = Plans::new();
    works(&plans, 1, 3);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 3 of 25 issued");
    window.click("Issue 4/25");
    drop(window);
    let backups = sightedge_studio::backups(&plans.folder().join("studio"));
    let held = sightedge_studio::contents(&backups.last().unwrap().file).unwrap();
    assert_eq!((held.works, held.prints), (1, 4));
}

/// Another program adds works while one looks at the middle of a long list.
#[test]
fn the_list_stays_where_it_is_when_others_write() {
    let plans = Plans::new();
    works(&plans, 60, 1);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 1 of 25 issued");
    window.key(Key::End);
    window.key(Key::PageUp);
    let row = |window: &Window| window.find("W0050 Weir 50, 1 of 25 issued").rect;
    let before = row(&window);
    let mut other = record(&plans);
    let edition = other.read().index().unwrap()[49].editions[0].edition.id;
    let issue = sightedge_studio::Issue {
        edition,
        kind: sightedge_studio::Kind::Numbered,
        choice: sightedge_studio::Choice::Next,
        stock: sightedge_studio::PrintDetails::default(),
        size: None,
    };
    other.record().issue(&issue, &Note::at(TODAY)).unwrap();
    wait_for(&mut window, "2/25, in the studio");
    window.settle();
    assert_eq!(window.find("W0050 Weir 50, 2 of 25 issued").rect, before);
    assert_eq!(window.focused(), "W0050 Weir 50, 2 of 25 issued");
}

#[test]
fn a_record_that_cannot_be_opened_says_why_and_can_be_tried_again() {
    let plans = Plans::new();
    std::fs::write(plans.folder().join("studio"), "a file where the folder should be").unwrap();
    let mut window = window(&plans, &[]);
    let texts = window.texts();
    assert!(texts.contains("The record could not be opened"), "{texts}");
    assert!(texts.contains("cannot hold the studio's record"), "{texts}");
    std::fs::remove_file(plans.folder().join("studio")).unwrap();
    window.click("Try again");
    assert!(window.texts().contains("No work is in the record yet"), "{}", window.texts());
}

#[test]
fn what_others_write_is_shown_and_nothing_chosen_or_typed_is_lost() {
    let plans = Plans::new();
    works(&plans, 2, 3);
    let mut window = window(&plans, &[]);
    window.click("W0002 Weir 2, 3 of 25 issued");
    window.click("3/25, sold");
    window.type_in("Show", "Harb");
    let mut other = record(&plans);
    let edition = other.read().index().unwrap()[1].editions[0].edition.id;
    let issue = sightedge_studio::Issue {
        edition,
        kind: sightedge_studio::Kind::Numbered,
        choice: sightedge_studio::Choice::Next,
        stock: sightedge_studio::PrintDetails::default(),
        size: None,
    };
    other.record().issue(&issue, &Note::at(TODAY)).unwrap();
    wait_for(&mut window, "4/25, in the studio");
    window.settle();
    assert!(window.has("W0002 Weir 2, 4 of 25 issued"), "{}", window.texts());
    assert_eq!(window.field("Show"), "Harb", "what is typed stays");
    assert_eq!(window.focused(), "Show");
    window.type_text("our");
    assert_eq!(window.field("Show"), "Harbour");
}

#[test]
fn the_undo_key_voids_what_was_issued_here_and_nothing_else() {
    let plans = Plans::new();
    works(&plans, 1, 1);
    let mut window = window(&plans, &[]);
    let undo = egui::Modifiers::COMMAND;
    window.click("W0001 Weir 1, 1 of 25 issued");
    window.key_with(undo, Key::Z);
    assert!(
        window.texts().contains("Nothing was done to a print just now."),
        "{}",
        window.texts()
    );
    window.click("Issue 2/25");
    assert!(window.has("Undo issuing 2/25"));
    window.key_with(undo, Key::Z);
    assert!(window.has("2/25, free again, voided"), "{}", window.texts());
    assert!(window.texts().contains("Undone: issuing 2/25."), "{}", window.texts());
    window.key_with(undo, Key::Z);
    assert!(window.texts().contains("1 at an unknown place") || window.has("1/25, sold"));
    assert_eq!(record(&plans).read().index().unwrap()[0].editions[0].totals.issued, 1);
    // Sold by another window meanwhile: not voided.
    window.click("Issue 2/25");
    let mut other = record(&plans);
    let edition = other.read().index().unwrap()[0].editions[0].edition.id;
    let prints = other.read().prints(edition).unwrap();
    let print = prints.iter().map(|one| one.id).max().unwrap();
    let buyer = Some("B.".to_owned());
    let sold = Change::Move { to: State::Sold, place: None, buyer, price: None };
    other.record().change(print, &sold, &Note::at(TODAY)).unwrap();
    window.key_with(undo, Key::Z);
    assert!(window.texts().contains("but its print is sold by now"), "{}", window.texts());
    assert!(window.has("2/25, sold"));
    assert_eq!(other.read().print(print).unwrap().now.state, State::Sold);
}

#[test]
fn a_picture_that_is_missed_says_where_and_is_found_when_it_is_back() {
    let plans = Plans::new();
    let note = Note::at(TODAY);
    let mut opened = record(&plans);
    plans.reference();
    let there = plans.folder().join("slack-water.png");
    let gone = plans.folder().join("gone.png");
    for (title, picture) in [("Weir", there.clone()), ("Lock", gone.clone())] {
        let what = NewWork {
            title: title.to_owned(),
            picture: picture.to_string_lossy().into_owned(),
            ..NewWork::default()
        };
        let work = opened.record().add_work(&what, None, &note).unwrap();
        opened.record().open_edition(work, &NewEdition::of(25, 10), &note).unwrap();
    }
    let mut window = window(&plans, &[]);
    window.wait(0.5);
    let pictures = |window: &Window| {
        let held = |shape: &egui::epaint::ClippedShape| match &shape.shape {
            egui::Shape::Rect(rect) => rect.brush.is_some(),
            egui::Shape::Mesh(mesh) => mesh.texture_id != egui::TextureId::default(),
            _ => false,
        };
        window.shapes().iter().filter(|shape| held(shape)).count()
    };
    assert_eq!(pictures(&window), 1, "the first has its picture");
    window.click("W0001 Weir, 0 of 25 issued");
    window.wait(0.5);
    assert_eq!(pictures(&window), 2, "and beside its title");
    window.click("W0002 Lock, 0 of 25 issued");
    window.wait(0.5);
    assert!(window.texts().contains("Picture not found at "), "{}", window.texts());
    std::fs::copy(&there, &gone).unwrap();
    window.click("W0002 Lock, 0 of 25 issued");
    window.wait(0.5);
    assert!(!window.texts().contains("Picture not found"), "{}", window.texts());
    assert_eq!(pictures(&window), 3);
}

#[test]
fn arrows_walk_the_list_beyond_what_is_in_sight() {
    let plans = Plans::new();
    works(&plans, 60, 1);
    let mut window = window(&plans, &[]);
    window.click("W0001 Weir 1, 1 of 25 issued");
    window.key(Key::ArrowDown);
    assert_eq!(window.focused(), "W0002 Weir 2, 1 of 25 issued");
    window.key(Key::End);
    assert_eq!(window.focused(), "W0060 Weir 60, 1 of 25 issued");
    window.key(Key::PageUp);
    assert_eq!(window.focused(), "W0050 Weir 50, 1 of 25 issued");
    window.key(Key::Home);
    assert_eq!(window.focused(), "W0001 Weir 1, 1 of 25 issued");
    window.type_in("Search", "weir 2");
    window.key(Key::ArrowDown);
    assert_eq!(window.focused(), "W0002 Weir 2, 1 of 25 issued");
    window.key(Key::ArrowDown);
    assert_eq!(window.focused(), "W0020 Weir 20, 1 of 25 issued");
}
