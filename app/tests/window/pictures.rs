//! What is painted, without a graphics card.

use egui::{Key, Modifiers};
use sightedge_core::export::raster;
use sightedge_core::geometry::Rect as BoardRect;
use sightedge_core::plates::{self, Look};
use sightedge_pictures::{CancelToken, Limits, Size, Target, preview};

use crate::support::{Image, Plans, Window, open};

/// The board's edge and colours lie where the plan says, within a pixel and a level or two.
#[test]
fn the_board_is_painted_where_it_lies() {
    let plans = Plans::new();
    let window = open(&[&plans.reference()]);
    let (image, board) = (window.image(), window.board());
    let grey = |x: f32, y: f32| image.at(pixel(x), pixel(y)).map(|part| part * 255.0);
    // Above the middle, clear of dimension lines.
    let y = board.top() + board.height() * 0.06;
    let near = |found: [f32; 4], wanted: [f32; 3]| {
        found.iter().zip(wanted).all(|(found, wanted)| (found - wanted).abs() < 2.5)
    };
    let white = [246.0, 245.0, 241.0];
    assert!(near(grey(board.left() + 2.0, y), white), "{:?}", grey(board.left() + 2.0, y));
    assert!(near(grey(board.right() - 2.0, y), white), "{:?}", grey(board.right() - 2.0, y));
    for outside in [board.left() - 2.0, board.right() + 2.0] {
        let found = grey(outside, y);
        assert!(found[0] < 135.0, "the surround, with the board's shadow on it: {found:?}");
        assert!((found[0] - found[2]).abs() < 1.5, "neutral: {found:?}");
    }
}

/// The whole board as the command `picture` paints it, so many pixels wide with its surround.
fn painted(window: &Window, width: u32, surround: u8) -> (raster::Pixels, BoardRect) {
    let session = window.session();
    let picture = session.picture().unwrap();
    let look = Look { surround, ..Look::default() };
    let mat = &session.variant().unwrap().mat;
    let drawing = plates::front(mat, &session.derived().layout.exact, &look);
    let mut source = |_, width, height| {
        let target = Target::Exact(Size::new(width, height));
        let made =
            preview(&picture, target, &Limits::default(), &CancelToken::default()).unwrap();
        Some(raster::Pixels {
            width: made.size.width,
            height: made.size.height,
            rgba: made.rgba,
        })
    };
    (raster::paint(&drawing, width, &mut source).unwrap(), drawing.bounds)
}

/// How far the canvas is from what `picture` makes, all over the board: the mean difference in
/// levels of 255, and the share of places that differ by more than 8.
fn apart(window: &Window) -> (f32, f32) {
    let image = window.image();
    let board = window.board();
    let outer = window.session().derived().layout.exact.outer;
    let scale = f64::from(board.width()) / outer.width.to_mm();
    let (_, bounds) = painted(window, 64, 128);
    let width = pixel32(bounds.size.width.to_mm() * scale);
    let (wanted, bounds) = painted(window, width, 128);
    let each = f64::from(wanted.width) / bounds.size.width.to_mm();
    let from = (-bounds.at.x.to_mm() * each, -bounds.at.y.to_mm() * each);
    let wanted = Image::of(&wanted.rgba, wanted.width, wanted.height);
    let (mut sum, mut off, mut count) = (0.0_f32, 0.0_f32, 0.0_f32);
    let mut y = 2.0_f64;
    while y < outer.height.to_mm() * scale - 2.0 {
        let mut x = 2.0_f64;
        while x < f64::from(board.width()) - 2.0 {
            let here = image.at(
                pixel(board.left() + single(x) - 0.5),
                pixel(board.top() + single(y) - 0.5),
            );
            let (u, v) = (from.0 + x / scale * each, from.1 + y / scale * each);
            let there = wanted.nearest(&here, single(u), single(v));
            let worst = (0..3).map(|i| (here[i] - there[i]).abs() * 255.0).fold(0.0, f32::max);
            sum += worst;
            off += if worst > 8.0 { 1.0 } else { 0.0 };
            count += 1.0;
            x += 1.0;
        }
        y += 1.0;
    }
    (sum / count, off / count)
}

/// The same description is painted on the screen and by `picture`: board, bevels, shades,
/// undermats, the sheet's margin and the picture agree all over, within a pixel of place and a few
/// levels of colour.
#[test]
fn the_canvas_is_what_picture_makes() {
    #[track_caller]
    fn case(plan: &std::path::Path) {
        let mut window = open(&[plan]);
        // Dimension lines are the canvas's alone.
        window.key_with(Modifiers::COMMAND, Key::D);
        window.wait(1.0);
        let (mean, off) = apart(&window);
        assert!(mean < 1.5 && off < 0.01, "{}: {mean} levels, {off} off", plan.display());
    }
    let plans = Plans::new();
    case(&plans.reference());
    case(&plans.single(sightedge_core::spec::Placement::Optical));
    case(&plans.in_hand());
}

/// And a difference would be seen: the same board with another undermat.
#[test]
fn another_undermat_is_told_from_it() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.key_with(Modifiers::COMMAND, Key::D);
    window.wait(1.0);
    let before = window.image();
    let board = window.board();
    window.type_in("Offset of undermat 1", "1/2");
    window.key(Key::Enter);
    window.wait(1.0);
    assert_ne!(window.image(), before);
    assert_ne!(window.board(), board);
    let (mean, off) = apart(&window);
    assert!(mean < 1.5 && off < 0.01, "{mean} levels, {off} off");
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a count of pixels"
)]
fn pixel32(count: f64) -> u32 {
    count.round().max(1.0) as u32
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "a place in a picture"
)]
fn single(place: f64) -> f32 {
    place as f32
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place in a picture"
)]
fn pixel(place: f32) -> usize {
    place.round().max(0.0) as usize
}
