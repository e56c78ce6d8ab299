//! Checks and figures beside the board: which of them has the room, and what is folded.

use egui::{Pos2, Rect};
use sightedge_service::storage::Storage;

use crate::support::{Plans, Window, open};

/// Where that text was painted, and the part of it that is seen.
fn painted(window: &Window, words: &str) -> Option<(Rect, Rect)> {
    fn find(shape: &egui::Shape, clip: Rect, words: &str) -> Option<(Rect, Rect)> {
        match shape {
            egui::Shape::Vec(shapes) => shapes.iter().find_map(|one| find(one, clip, words)),
            egui::Shape::Text(text) if text.galley.text() == words => {
                let rect = text.visual_bounding_rect();
                Some((rect, rect.intersect(clip)))
            }
            _ => None,
        }
    }
    window.shapes().iter().find_map(|one| find(&one.shape, one.clip_rect, words))
}

/// With no findings the figures are read whole at the size of the smallest laptop.
#[test]
fn figures_fold_and_stay_so() {
    let plans = Plans::new();
    let plan = plans.reference();
    let storage = || Storage::at(plans.folder());
    let mut window = Window::new(storage(), 1.0, &[&plan]);
    window.resize(1280.0, 800.0);
    let head = "For the bench, from the front";
    assert!(window.texts().contains(head), "{}", window.texts());
    window.click("Figures");
    assert!(!window.texts().contains(head), "folded");
    // Behind the mat they are not.
    window.key_with(egui::Modifiers::COMMAND, egui::Key::Num2);
    assert!(window.texts().contains("Overlap, from the back"), "{}", window.texts());
    // The next day they are as they were.
    window.close();
    window.settle();
    drop(window);
    let window = Window::new(storage(), 1.0, &[&plan]);
    assert!(!window.texts().contains(head), "folded still");
    assert!(window.texts().contains("Figures"));
}

/// No figure is cut off in the smallest window that shows all of them.
#[test]
fn the_last_figure_is_read_whole() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.resize(1280.0, 800.0);
    for words in
        ["Outer", "Undermat, left, right", "Overlap, top, bottom", "Overlap, left, right"]
    {
        let (whole, seen) =
            painted(&window, words).unwrap_or_else(|| panic!("{words}: {}", window.texts()));
        assert!(seen.height() > whole.height() - 1.0, "{words}: {seen:?} of {whole:?}");
        assert!(seen.width() > whole.width() - 1.0, "{words}: {seen:?} of {whole:?}");
    }
}

/// Where there is room they stand beside each other.
#[test]
fn a_wide_window_has_two_columns() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.resize(2560.0, 1440.0);
    let left = |words: &str| -> Pos2 {
        painted(&window, words).unwrap_or_else(|| panic!("{words}: {}", window.texts())).0.min
    };
    let (checks, figures) = (left("Checks"), left("Figures"));
    assert!(figures.x > checks.x + 200.0, "{checks:?} {figures:?}");
    assert!((figures.y - checks.y).abs() < 12.0, "{checks:?} {figures:?}");
}
