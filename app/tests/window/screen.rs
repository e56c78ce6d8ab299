//! The screen: its colours, the size of its pixels, and the board at true size.

// The profiles that the pictures' own tests make from published primaries.
#[path = "../../../core/pictures/tests/support/icc.rs"]
mod icc;

use std::sync::Arc;

use egui::{Key, Modifiers};
use sightedge_core::material::Colour;
use sightedge_core::spec::BoardBy;
use sightedge_pictures::ToDisplay;
use sightedge_service::monitors::{Colours, Monitor, Origin, Thing};
use sightedge_service::storage::Storage;

use crate::support::{Image, Plans, Window, sides};

/// A monitor of 1600 mm across with so many pixels a millimetre.
fn monitor(output: &str, per_mm: f64) -> Monitor {
    let side = |mm: f64| (mm * per_mm).round() as u32;
    Monitor {
        output: output.to_owned(),
        model: None,
        serial: None,
        at: (0, 0),
        pixels: (side(1600.0), side(900.0)),
        mm: Some((1600, 900)),
        colours: Colours::Assumed,
    }
}

fn with_profile(mut monitor: Monitor, profile: &[u8]) -> Monitor {
    let to = ToDisplay::new(profile).unwrap();
    monitor.colours = Colours::Profile(Origin::Desktop, Arc::new(to));
    monitor
}

/// A mat of 13 ¹⁄₂ in across: 11 in of image, a reveal of ¹⁄₄ in and a border of 1 in on each side.
fn small(plans: &Plans) -> std::path::PathBuf {
    plans.plan("low-water.png", |document| {
        document.variants[0].mat.board_by = BoardBy::Borders(sides("1,1,1,1"));
        document.variants[0].mat.layers[0].board.colour = Colour::new(240, 236, 228);
    })
}

const ACROSS_MM: f32 = 13.5 * 25.4;

fn grey([r, g, b, _]: [f32; 4]) -> f32 {
    (r + g + b) * 85.0
}

/// Where brightness steps from about `from` to about `to` in a row, in parts of a pixel: the
/// pixel that an edge cuts has its share of both.
fn edge(image: &Image, y: usize, x: impl Iterator<Item = usize>, from: f32, to: f32) -> f32 {
    let row: Vec<(usize, f32)> = x.map(|x| (x, grey(image.at(x, y)))).collect();
    let middle = f32::midpoint(from, to);
    let rises = to > from;
    let at = row.iter().position(|(_, v)| (*v > middle) == rises).unwrap();
    assert!(at > 0, "{from} to {to}: {row:?}");
    let share: f32 = row[at.saturating_sub(1)..=at]
        .iter()
        .map(|(_, v)| ((v - from) / (to - from)).clamp(0.0, 1.0))
        .sum();
    // As many pixels of the two as the new side covers, back from the end of the second.
    let (first, second) = (row[at - 1].0 as f32, row[at].0 as f32);
    let step = second - first;
    let end = if step > 0.0 { second + 1.0 } else { second };
    end - step * share
}

#[track_caller]
fn at_true_size(window: &Window, per_mm: f32) {
    let ppp = window.pixels_per_point();
    let handles = window.board();
    let near = |y: f32| window.strip(egui::Rangef::point(y).expand(20.0));
    let image = near(handles.center().y);
    assert!(handles.is_finite(), "the board is in view");
    let y = (handles.center().y * ppp) as usize;
    let (left, right) = ((handles.left() * ppp) as usize, (handles.right() * ppp) as usize);
    let board = grey(image.at(left + 12, y));
    // The surround right beside the board has its shadow, which is part of the step.
    let beside = |x: usize| grey(image.at(x, y));
    let l = edge(&image, y, left - 8..left + 8, beside(left - 8), board);
    let r = edge(&image, y, (right - 8..right + 8).rev(), beside(right + 8), board);
    let wanted = ACROSS_MM * per_mm;
    let wide = r - l;
    assert!((wide - wanted).abs() <= 0.5, "{wide} pixels, {wanted} at true size, at {ppp}");
    // Each mark of the rule is where its millimetre is, from the board's left edge.
    let strip = window.find_text("from the board’s left");
    let image = near(strip.center().y);
    let y = ((strip.center().y - 16.0) * ppp).round() as usize;
    let paper = grey(image.at(left, y)).max(grey(image.at(left + 2, y)));
    let dark = |x: usize| (grey(image.at(x, y)) - paper).abs() > 60.0;
    for mm in [0.0, 10.0, 50.0, 100.0, 200.0] {
        let at = l + mm * per_mm;
        let found = (at.floor() as usize - 2..at.ceil() as usize + 2).find(|x| dark(*x));
        let found = found.unwrap_or_else(|| panic!("no mark at {mm} mm, at {ppp}")) as f32;
        assert!((found - at).abs() <= 1.0, "{mm} mm: {found}, wanted {at}, at {ppp}");
    }
}

/// Source: a known number of pixels a millimetre; 25.4 mm to the inch exactly (international
/// yard and pound agreement, 1959).
#[test]
fn true_size_is_true_at_every_scale() {
    for (ppp, per_mm) in [(1.0, 1.5), (1.25, 1.875), (2.0, 3.0)] {
        let plans = Plans::new();
        let plan = small(&plans);
        let monitors = vec![monitor("A", f64::from(per_mm)), monitor("B", 1.4)];
        let mut window = Window::on(monitors, Storage::nothing(), ppp, &[&plan]);
        window.resize(1524.0, 640.0);
        window.key_with(Modifiers::COMMAND, Key::D);
        window.click("True size");
        window.wait(0.5);
        at_true_size(&window, per_mm);
        // Text of another size changes nothing on the board.
        window.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::Plus);
        window.wait(0.5);
        at_true_size(&window, per_mm);
        window.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::Num0);
        // Moved by hand it stays what it is.
        let ground = window.board().left_center() - egui::vec2(30.0, 0.0);
        window.drag(ground, (14.0, 3.0));
        at_true_size(&window, per_mm);
        // On another monitor it is as large as on this one.
        window.move_to_monitor("B");
        window.wait(0.5);
        at_true_size(&window, 1.4);
        // The same button shows all of it again.
        window.click("True size");
        assert!(!window.texts().contains("from the board’s left\nedge"));
    }
}

#[test]
fn a_card_on_the_screen_gives_its_true_size() {
    for ppp in [1.0, 1.25, 2.0] {
        let plans = Plans::new();
        let plan = small(&plans);
        let mut unknown = monitor("A", 4.0);
        unknown.mm = None;
        let mut window = Window::on(vec![unknown], Storage::nothing(), ppp, &[&plan]);
        // Its size is not known, so that the button asks for it.
        window.click("True size");
        assert!(window.texts().contains("Its size is not known"), "{}", window.texts());
        window.click("Bank card");
        let wide = |window: &Window| {
            window.find("Right edge").value.trim_end_matches(" pixels").parse::<f64>().unwrap()
        };
        let usual = (85.60 * 96.0 / 25.4 * f64::from(ppp)).round();
        assert_eq!(wide(&window), usual);
        assert!(window.find("Right edge").focused);
        for _ in 0..3 {
            window.key(Key::ArrowRight);
        }
        window.key_with(Modifiers::SHIFT, Key::ArrowRight);
        window.key(Key::ArrowLeft);
        assert_eq!(wide(&window), usual + 12.0);
        let grip = window.find("Right edge").rect;
        window.drag(grip.center(), (16.0, 0.0));
        let dragged = usual + 12.0 + 16.0 * f64::from(ppp);
        assert_eq!(wide(&window), dragged);
        // It is drawn as many pixels wide as it says.
        let grip = window.find("Right edge").rect;
        let image = window.strip(egui::Rangef::point(grip.center().y).expand(2.0));
        let (x, y) = ((grip.center().x * ppp) as usize - 6, (grip.center().y * ppp) as usize);
        let inside = image.at(x, y);
        let same = |x: usize| image.at(x, y) == inside;
        let left = (0..x).rev().find(|x| !same(*x)).unwrap() + 1;
        let right = (x..image.width).find(|x| !same(*x)).unwrap();
        assert_eq!((right - left) as f64, dragged);
        window.click("Keep this size");
        let kept = window.app().settings().monitors.clone();
        let measured = kept[0].measured.unwrap();
        assert_eq!((kept[0].key.as_str(), measured.thing), ("A", Thing::Card));
        assert_eq!(measured.wide, dragged);
        assert!(window.texts().contains("measured with a bank card; true within ±"));
        window.key(Key::Escape);
        window.click("True size");
        assert!(window.texts().contains("from the board’s left\nedge"), "now it is known");
        window.click("More");
        window.click("Screen…");
        window.click("Forget this measure");
        assert_eq!(window.app().settings().monitors, []);
    }
}

#[test]
fn esc_puts_the_card_down_and_then_closes() {
    let plans = Plans::new();
    let mut window =
        Window::on(vec![monitor("A", 4.0)], Storage::nothing(), 1.0, &[&small(&plans)]);
    window.click("More");
    window.click("Screen…");
    window.click("A4 sheet");
    assert!(window.has("Right edge"));
    window.key(Key::Escape);
    assert!(!window.has("Right edge") && window.has("Bank card"));
    window.key(Key::Escape);
    assert!(!window.has("Bank card"));
}

/// How far `after` is from what the profile makes of `before`, on the board, on average and for
/// the share of pixels that are off by more than 4 levels: edges are mixed before or after.
fn off(window: &Window, before: &Image, after: &Image, to: &ToDisplay) -> (f32, f32) {
    let board = window.board().shrink(3.0);
    let (mut sum, mut far, mut count) = (0.0_f32, 0.0_f32, 0.0_f32);
    for y in (board.top() as usize..board.bottom() as usize).step_by(2) {
        for x in (board.left() as usize..board.right() as usize).step_by(3) {
            let bytes = |image: &Image| {
                let [r, g, b, _] = image.at(x, y);
                [r, g, b].map(|part| (part * 255.0).round() as u8)
            };
            let (wanted, found) = (to.colour(bytes(before)), bytes(after));
            let worst = (0..3).map(|i| found[i].abs_diff(wanted[i])).max().unwrap();
            sum += f32::from(worst);
            far += if worst > 4 { 1.0 } else { 0.0 };
            count += 1.0;
        }
    }
    (sum / count, far / count)
}

#[test]
fn board_and_picture_are_painted_for_the_monitor_and_the_greys_stay() {
    let plans = Plans::new();
    let path = plans.plan("rust.png", |document| {
        let mat = &mut document.variants[0].mat;
        mat.layers[0].board.colour = Colour::new(176, 72, 48);
    });
    let wide = icc::WIDE.profile();
    let to = ToDisplay::new(&wide).unwrap();
    let monitors = vec![monitor("A", 4.0), with_profile(monitor("B", 4.0), &wide)];
    let mut window = Window::on(monitors, Storage::nothing(), 1.0, &[&path]);
    window.key_with(Modifiers::COMMAND, Key::D);
    window.wait(1.0);
    let before = window.image();
    window.move_to_monitor("B");
    window.wait(1.0);
    let after = window.image();
    let (mean, far) = off(&window, &before, &after, &to);
    assert!(mean < 1.0 && far < 0.01, "{mean} on average, {far} far off");
    let (mean, _) = off(&window, &before, &before, &to);
    assert!(mean > 5.0, "that is another colour: {mean}");
    let ground = window.board().left_top() - egui::vec2(20.0, 20.0);
    let at = |image: &Image| image.at(ground.x as usize, ground.y as usize);
    assert_eq!(at(&before), at(&after), "the surround is a grey of the tools");
    // Back on the first one, all is as it was.
    window.move_to_monitor("A");
    window.wait(1.0);
    assert_eq!(before, window.image());
}

#[test]
fn a_profile_of_ones_own_is_used_told_and_refused() {
    let plans = Plans::new();
    let plan = small(&plans);
    let mut window = Window::on(vec![monitor("A", 4.0)], Storage::nothing(), 1.0, &[&plan]);
    let good = plans.folder().join("desk.icc");
    std::fs::write(&good, icc::P3.profile()).unwrap();
    let bad = plans.folder().join("bad.icc");
    std::fs::write(&bad, [7; 300]).unwrap();
    window.click("More");
    window.click("Screen…");
    assert!(window.texts().contains("sRGB is assumed: this screen has no colour profile."));
    window.answer_dialog(Some(&bad));
    window.click("Use a profile of your own…");
    assert!(window.texts().contains("This profile cannot be used"), "{}", window.texts());
    assert!(window.texts().contains("this colour profile is damaged ("));
    window.key(Key::Enter);
    assert_eq!(window.app().settings().monitors, []);
    window.answer_dialog(Some(&good));
    window.click("Use a profile of your own…");
    let told = "Colour profile “like Display P3”, from your file desk.icc.";
    assert!(window.texts().contains(told), "{}", window.texts());
    assert_eq!(window.app().settings().monitors[0].profile.as_deref(), Some(&*good));
    window.click("Use no file of your own");
    assert!(window.texts().contains("sRGB is assumed: this screen has no colour profile."));
    assert_eq!(window.app().settings().monitors, []);
}

#[test]
fn the_magnifier_shows_what_is_under_the_pointer() {
    let plans = Plans::new();
    let plan = small(&plans);
    let mut window = Window::on(vec![monitor("A", 3.0)], Storage::nothing(), 1.0, &[&plan]);
    window.key_with(Modifiers::COMMAND, Key::D);
    window.key_with(Modifiers::COMMAND, Key::L);
    let title = window.find_text("4 times true size");
    let board = window.board();
    // Half an inch beside the window's edge there is nothing but board: 4 times 3 pixels a
    // millimetre make 110 points of 9 mm.
    window.move_to(board.left_center() + egui::vec2(9.0 * window.scale(), 40.0));
    window.frame();
    let image = window.image();
    let (x, y) = (title.left() as usize + 90, title.bottom() as usize + 90);
    let near = |a: [f32; 4], b: [f32; 4]| (0..3).all(|i| (a[i] - b[i]).abs() < 0.02);
    let face = image.at(board.left() as usize + 6, board.center().y as usize);
    assert!(near(image.at(x, y), face), "{:?} {face:?}", image.at(x, y));
    window.key_with(Modifiers::COMMAND, Key::L);
    assert!(!window.texts().contains("4 times true size"));
}
