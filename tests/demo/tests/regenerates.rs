//! The pictures in `assets/demo` are what this code draws, pixel for pixel.
//!
//! Drawing them whole takes minutes, so each is drawn again in a few places. A JPEG block
//! depends on nothing outside itself, so a piece cut on the blocks' grid, written and read
//! back, must give the very levels that the whole file gives there.

#![allow(clippy::expect_used, reason = "a test stops at what it cannot read")]

use std::path::Path;

use image::{ImageFormat, RgbImage, load_from_memory_with_format};
use sightedge_demo::{Area, Picture, all};

/// Blocks at most twice as wide and high as 8 pixels, whatever the colour sampling.
const GRID: u32 = 16;

fn file(picture: &Picture) -> Vec<u8> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/demo");
    std::fs::read(folder.join(picture.file)).expect("the demo picture is in assets/demo")
}

fn read(bytes: &[u8]) -> RgbImage {
    load_from_memory_with_format(bytes, ImageFormat::Jpeg).expect("a JPEG file").to_rgb8()
}

fn redraw(picture: &Picture, whole: &RgbImage, across: u32, down: u32) {
    // One block of margin all round: a reader may smooth colour across a block's edge.
    let place = |share: u32, size: u32| (size * share / 100 / GRID).max(1) * GRID;
    let (x, y) = (place(across, picture.size.0), place(down, picture.size.1));
    let area = Area { x: x - GRID, y: y - GRID, width: 3 * GRID, height: 3 * GRID };
    let levels = picture.part(area);
    let piece = picture.jpeg(&levels, area.width, area.height).expect("as many levels");
    let piece = read(&piece);
    for j in 0..GRID {
        for i in 0..GRID {
            assert_eq!(
                piece.get_pixel(GRID + i, GRID + j),
                whole.get_pixel(x + i, y + j),
                "{} at {}, {}: draw the pictures again, see assets/demo/README.md",
                picture.file,
                x + i,
                y + j,
            );
        }
    }
}

#[test]
fn pictures_are_what_the_code_draws() {
    for picture in all() {
        let whole = read(&file(&picture));
        assert_eq!(whole.dimensions(), picture.size, "{}", picture.file);
        // Sky, far shore, timber and its mirror, open water.
        for (across, down) in [(70, 8), (22, 42), (63, 43), (30, 65), (88, 90)] {
            redraw(&picture, &whole, across, down);
        }
    }
}

#[test]
fn a_changed_level_is_seen() {
    let picture = all().remove(2);
    let mut whole = read(&file(&picture));
    let x = picture.size.0 * 30 / 100 / GRID * GRID + 3;
    let y = picture.size.1 * 65 / 100 / GRID * GRID + 5;
    whole.get_pixel_mut(x, y).0[1] ^= 8;
    let seen = std::panic::catch_unwind(|| redraw(&picture, &whole, 30, 65));
    assert!(seen.is_err(), "one changed level went unseen");
}

#[test]
fn proportions_and_density_are_as_promised() {
    let cases = [
        ("slack-water.jpg", (11, 15), 200),
        ("long-ebb.jpg", (3, 1), 100),
        ("mooring.jpg", (1, 1), 100),
    ];
    for (picture, (name, (wide, high), density)) in all().iter().zip(cases) {
        assert_eq!(picture.file, name);
        assert_eq!(picture.size.0 * high, picture.size.1 * wide, "{name}");
        // JFIF: after the marker and its length, "JFIF\0", the version, then the unit
        // (1: dots an inch) and the density across and down.
        // Source: ITU-T T.871 (JFIF 1.02), 10.1.
        let bytes = file(picture);
        assert_eq!(&bytes[6..11], b"JFIF\0", "{name}");
        assert_eq!(bytes[13], 1, "{name}: dots an inch");
        assert_eq!(u16::from_be_bytes([bytes[14], bytes[15]]), density, "{name}");
        assert_eq!(u16::from_be_bytes([bytes[16], bytes[17]]), density, "{name}");
    }
}
