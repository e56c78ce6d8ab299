//! The window round the places of work: tabs, keys, messages, sizes, help.

use std::path::PathBuf;

use egui::accesskit::Role;
use egui::{Key, Modifiers, Rect};
use sightedge::window::request::Screen;
use sightedge_service::storage::Storage;

use crate::support::{Plans, Seen, Window, open};

const BOTH: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

fn go(window: &mut Window, screen: Screen) {
    let shortcut = screen.shortcut().unwrap();
    window.key_with(shortcut.modifiers, shortcut.logical_key);
}

fn tabs(window: &Window) -> Vec<Seen> {
    window.seen().into_iter().filter(|one| one.role == Role::Tab).collect()
}

/// Twelve pictures with names that do not fit a narrow tab.
fn twelve(plans: &Plans) -> Vec<PathBuf> {
    (1..=12).map(|n| plans.picture(&format!("harbour wall in the rain {n:02}.png"))).collect()
}

#[track_caller]
fn nothing_touches(window: &Window, count: usize) {
    let tabs = tabs(window);
    assert!(!tabs.is_empty() && tabs.len() <= count, "{tabs:?}");
    let mut row: Vec<Seen> = tabs;
    for name in
        ["Open…", "Save", "Undo", "Redo", "Dimensions", "Hidden edges", "Section", "Fit"]
    {
        row.push(window.find(name));
    }
    row.push(window.find("More"));
    if window.has("12 plans") {
        row.push(window.find("12 plans"));
    }
    for (index, one) in row.iter().enumerate() {
        for other in &row[index + 1..] {
            let both = one.rect.intersect(other.rect);
            let apart = both.width() <= 0.5 || both.height() <= 0.5;
            assert!(apart, "{} {:?} and {} {:?}", one.name, one.rect, other.name, other.rect);
        }
    }
}

#[test]
fn twelve_plans_have_tabs_that_touch_nothing() {
    let plans = Plans::new();
    let files = twelve(&plans);
    let files: Vec<_> = files.iter().map(PathBuf::as_path).collect();
    let mut window = open(&files);
    assert_eq!(window.app().open_plans(), 12);
    for (width, height) in [(2560.0, 1440.0), (1280.0, 800.0), (1024.0, 640.0)] {
        window.resize(width, height);
        nothing_touches(&window, 12);
        // The one in front has a tab, whichever it is.
        for _ in 0..12 {
            window.key_with(Modifiers::CTRL, Key::Tab);
            let title = window.session().title();
            let front = tabs(&window).into_iter().any(|tab| tab.name.starts_with(&title));
            assert!(front, "{title} has no tab at {width}");
        }
    }
    // Those without a tab are in the list.
    window.click("12 plans");
    window.click("harbour wall in the rain 02.png");
    assert_eq!(window.session().title(), "harbour wall in the rain 02.png");
    // A cross closes its own plan, in front or not.
    let other = tabs(&window).into_iter().find(|tab| !tab.name.contains("02.png")).unwrap();
    window.click(&format!("Close {}", other.name));
    assert_eq!(window.app().open_plans(), 11);
    assert_eq!(window.session().title(), "harbour wall in the rain 02.png");
}

#[test]
fn plans_of_one_picture_are_told_apart_on_tabs_and_in_cutting() {
    let plans = Plans::new();
    let first = plans.reference();
    let second = plans.folder().join("narrow.sightedge.ron");
    std::fs::copy(&first, &second).unwrap();
    let mut window = open(&[&first, &second]);
    let names = ["slack-water.png", "slack-water.png (narrow)"];
    for name in names {
        assert!(window.has(name), "{:?}", tabs(&window));
    }
    go(&mut window, Screen::Cutting);
    for name in names {
        assert!(window.texts().contains(name), "{name}: {}", window.texts());
    }
}

/// What has the focus after each Tab, until it comes round.
fn tab_order(window: &mut Window) -> Vec<Seen> {
    let mut order: Vec<Seen> = Vec::new();
    for _ in 0..200 {
        window.key(Key::Tab);
        let Some(focused) = window.seen().into_iter().find(|one| one.focused) else { continue };
        if order.first().is_some_and(|first| first.rect == focused.rect) {
            break;
        }
        order.push(focused);
    }
    order
}

#[test]
fn the_first_tab_goes_to_the_first_field_and_the_top_bar_comes_last() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    for screen in Screen::ALL {
        go(&mut window, screen);
        let order = tab_order(&mut window);
        let names: Vec<_> = order.iter().map(|one| one.name.as_str()).collect();
        let at = |name: &str| {
            names
                .iter()
                .position(|one| *one == name)
                .unwrap_or_else(|| panic!("{name}: {names:?}"))
        };
        let first = order.first().unwrap().rect;
        assert!(first.left() > 108.0 && first.top() > 37.0, "{screen:?}: {names:?}");
        assert!(at("The mat") < at("Open…"), "{screen:?}: {names:?}");
        let top = order[at("Open…")..].iter().map(|one| one.rect.left());
        let top: Vec<f32> = top.collect();
        assert!(top.is_sorted(), "{screen:?}, left to right: {:?}", &names[at("Open…")..]);
        assert_eq!(names.last(), Some(&"More"), "{screen:?}");
    }
}

#[test]
fn f6_moves_between_the_regions() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let board = window.board();
    let places = window.find("The mat").rect;
    let region = |rect: Rect| {
        if rect.center().x < places.right() + 4.0 {
            "places"
        } else if rect.right() < board.left() - 40.0 {
            "panel"
        } else if rect.left() > board.right() + 40.0 {
            "checks"
        } else {
            "board"
        }
    };
    let focused = |window: &Window| {
        let one = window.seen().into_iter().find(|one| one.focused);
        one.map(|one| region(one.rect)).unwrap_or_default()
    };
    for expected in ["places", "panel", "board", "checks", "places"] {
        window.key(Key::F6);
        assert_eq!(focused(&window), expected, "{}", window.focused());
    }
    for expected in ["checks", "board", "panel", "places"] {
        window.key_with(Modifiers::SHIFT, Key::F6);
        assert_eq!(focused(&window), expected, "{}", window.focused());
    }
    // In a place without a board too.
    go(&mut window, Screen::Printouts);
    window.key(Key::F6);
    assert_eq!(window.focused(), "The mat");
    window.key(Key::F6);
    assert!(window.seen().iter().any(|one| one.focused && one.rect.left() > 108.0));
}

#[test]
fn a_message_belongs_to_the_place_where_it_arose() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let from = window.handle("Reveal, right: ").center();
    window.drag(from, (20.0, 0.0));
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert!(window.said().starts_with("Undid: "), "{}", window.said());
    window.key_with(BOTH, Key::Z);
    assert!(window.said().starts_with("Redid: "), "{}", window.said());
    go(&mut window, Screen::Cutting);
    assert_eq!(window.said(), "");
    go(&mut window, Screen::Mat);
    assert_eq!(window.said(), "");
}

#[test]
fn the_size_of_text_is_remembered() {
    let plans = Plans::new();
    let storage = Storage::at(plans.folder());
    let mut window = Window::new(storage.clone(), 1.0, &[]);
    window.key_with(BOTH, Key::Plus);
    window.key_with(BOTH, Key::Equals);
    window.key_with(BOTH, Key::Equals);
    window.key_with(BOTH, Key::Minus);
    assert_eq!(window.app().settings().text, 125);
    assert_eq!(window.said(), "Text at 125 %.");
    window.wait(0.5);
    assert_eq!(storage.settings().text, 125);
    drop(window);
    let mut again = Window::new(storage, 1.0, &[]);
    assert!((again.zoom() - 1.25).abs() < 1e-6, "{}", again.zoom());
    again.key_with(BOTH, Key::Num0);
    assert!((again.zoom() - 1.0).abs() < 1e-6, "{}", again.zoom());
}

#[test]
fn panels_fold_before_the_board_becomes_small() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.resize(1024.0, 640.0);
    assert!(!window.has("Checks"), "{}", window.texts());
    let narrow = window.board();
    assert!(narrow.height() > 0.6 * 640.0, "{narrow:?}");
    window.click("Show Checks");
    assert!(window.has("Checks") && window.has("Hide Checks"), "{}", window.texts());
    // As at 1280 × 800 with the text at 150 %.
    window.click("Hide Checks");
    window.resize(853.0, 533.0);
    assert!(window.board().width() > 0.25 * 853.0, "{:?}", window.board());
    window.resize(2560.0, 1440.0);
    let (checks, figures) = (window.find_text("Checks"), window.find_text("Figures"));
    assert!(checks.right() < figures.left(), "side by side: {checks:?} {figures:?}");
    assert!((checks.top() - figures.top()).abs() < 24.0, "{checks:?} {figures:?}");
    assert!(window.board().height() > 0.8 * 1440.0, "{:?}", window.board());
}

#[test]
fn the_help_lists_the_keys_of_the_place_and_the_words_of_the_job() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.resize(1280.0, 3000.0);
    window.key(Key::F1);
    for words in ["Drag an edge of the mat", "Ctrl+S", "Everywhere", "would fail", "AP:"] {
        assert!(window.texts().contains(words), "{words}: {}", window.texts());
    }
    window.click("Help: Words of the job");
    for word in sightedge::window::help::TERMS {
        assert!(window.has(&word.title()), "{}", word.title());
    }
    window.key(Key::Escape);
    assert!(!window.has("Close help"));
    go(&mut window, Screen::Bench);
    window.key(Key::F1);
    assert!(window.texts().contains("ticks the step"), "{}", window.texts());
    window.click("Close help");
    assert!(!window.has("Close help"));
}

#[test]
fn a_first_start_says_what_to_do_once() {
    let plans = Plans::new();
    let storage = Storage::at(plans.folder());
    let first = "Open a picture, and give the size of its sheet and image.";
    let mut window = Window::new(storage.clone(), 1.0, &[]);
    assert!(window.texts().contains(first), "{}", window.texts());
    window.wait(0.5);
    assert!(storage.settings().greeted);
    // Still there once the first picture is open, until it was read.
    window.drop_files(&[&plans.reference()]);
    assert!(window.texts().contains(first), "{}", window.texts());
    window.click("Got it");
    assert!(!window.texts().contains(first), "{}", window.texts());
    drop(window);
    let again = Window::new(storage, 1.0, &[]);
    assert!(!again.texts().contains(first), "{}", again.texts());
}

/// At 1280 × 800, as it is and with the text at 150 %, which leaves 853 × 533 points.
#[test]
fn no_text_is_cut_off() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    let mut found = Vec::new();
    for (width, height) in [(1280.0, 800.0), (1280.0 / 1.5, 800.0 / 1.5)] {
        window.resize(width, height);
        for screen in Screen::ALL {
            go(&mut window, screen);
            window.wait(0.3);
            let misfits = window.misfits();
            found
                .extend(misfits.into_iter().map(|fit| format!("{width:.0} {screen:?}: {fit}")));
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}
