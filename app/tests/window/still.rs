//! Idle costs nothing: no frame is asked for, and none differs.

use std::time::Duration;

use sightedge::window::request::Screen;
use sightedge_core::length::Unit;
use sightedge_service::cutting::model::Shop;
use sightedge_service::storage::Storage;
use sightedge_studio::{NewWork, Note};

use crate::editions::{TODAY, record, works};
use crate::support::{Plans, Window, open};

#[track_caller]
fn rests(window: &mut Window) {
    // What was changed is kept safe, what was hovered is forgotten.
    window.wait(3.0);
    window.frame();
    let shapes = window.shapes().to_vec();
    for frame in 0..60 {
        window.frame();
        assert_eq!(window.repaint_delay(), Duration::MAX, "frame {frame} asks for another");
        assert!(window.asked().is_empty(), "frame {frame} asks {:?}", window.asked());
        assert!(window.shapes() == shapes, "frame {frame} differs");
    }
}

#[test]
fn sixty_idle_frames_change_nothing() {
    let plans = Plans::new();
    rests(&mut open(&[]));
    let mut window = open(&[&plans.reference()]);
    let before = window.document().clone();
    rests(&mut window);
    assert_eq!(*window.document(), before);
    assert_eq!(window.steps(), (None, None));
    // After a drag too, and with another plan beside it.
    let from = window.handle("Reveal, right: ").center();
    let by = window.points("0.4");
    window.drag(from, (by, 0.0));
    window.drop_files(&[&plans.in_hand()]);
    rests(&mut window);
}

#[track_caller]
fn shows(window: &Window, words: &str) {
    assert!(window.texts().contains(words), "{words}: {}", window.texts());
}

/// Each screen with work in it: sheets that were found, a record with works and numbers, pictures
/// beside them.
#[test]
fn every_screen_rests_with_work_in_it() {
    let plans = Plans::new();
    works(&plans, 3, 4);
    let plan = plans.reference();
    let picture = plans.folder().join("slack-water.png").display().to_string();
    let what = NewWork { title: "Slack water".to_owned(), picture, ..NewWork::default() };
    record(&plans).record().add_work(&what, None, &Note::at(TODAY)).unwrap();
    let storage = Storage::at(plans.folder());
    let mut shop = Shop::usual(Unit::Inch);
    (shop.seconds, shop.give) = (1, 0);
    storage.write("stock.ron", &shop).unwrap();
    let mut window = Window::new(storage, 1.0, &[&plan]);
    let mut rest = |screen: Screen, work: &dyn Fn(&mut Window)| {
        let shortcut = screen.shortcut().unwrap();
        window.key_with(shortcut.modifiers, shortcut.logical_key);
        work(&mut window);
        rests(&mut window);
    };
    rest(Screen::Mat, &|window| assert!(!window.handles("Reveal, right: ").is_empty()));
    rest(Screen::Behind, &|window| shows(window, "How the sheet is held"));
    rest(Screen::Printouts, &|window| {
        assert!(window.has("Plan sheet, page 1 of 2"), "{:?}", window.seen());
    });
    rest(Screen::Cutting, &|window| {
        window.click("Find the fewest sheets");
        shows(window, "to buy");
    });
    rest(Screen::Bench, &|window| shows(window, "Step 1 of"));
    rest(Screen::Editions, &|window| {
        window.click("W0001 Weir 1, 4 of 25 issued");
        window.click("2/25, at an unknown place");
        shows(window, "W0004");
        shows(window, "at an unknown place");
        assert!(window.has("To the show"), "{:?}", window.seen());
    });
    // And on its other pages.
    rest(Screen::Editions, &|window| {
        window.click("Correct 2/25…");
        shows(window, "Correct 2/25 of Weir 1");
    });
    rest(Screen::Editions, &|window| {
        window.click("Cancel");
        window.click("Printouts…");
        shows(window, "Printouts of Weir 1, 2/25");
    });
    rest(Screen::Editions, &|window| {
        window.click("Record kept in…");
        shows(window, "Where the record is kept");
    });
}
