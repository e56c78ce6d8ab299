//! What is painted, without a graphics card.

use crate::support::{Plans, open};

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

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place in a picture"
)]
fn pixel(place: f32) -> usize {
    place.round().max(0.0) as usize
}
