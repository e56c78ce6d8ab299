//! JPEG XL against the pixels that were written, where it is built in.
#![allow(clippy::unwrap_used, reason = "a failing test says where")]

mod support;

use sightedge_pictures::{
    CancelToken, Facts, Format, Limits, PictureError, Size, Target, preview, probe,
};
use support::{at, difference, folder, rgb_of, scene, whole};
use zune_core::bit_depth::BitDepth;
use zune_core::colorspace::ColorSpace;
use zune_core::options::EncoderOptions;
use zune_jpegxl::JxlSimpleEncoder;

fn encoded(pixels: &[u8], size: Size, colour: ColorSpace, depth: BitDepth) -> Vec<u8> {
    let count = |pixels: u32| usize::try_from(pixels).unwrap();
    let options = EncoderOptions::new(count(size.width), count(size.height), colour, depth);
    let mut out = Vec::new();
    JxlSimpleEncoder::new(pixels, options).encode(&mut out).unwrap();
    out
}

/// Source: the crate `zune-jpegxl`, an encoder without loss that shares no code with the decoder.
#[test]
fn it_comes_back_exactly() {
    let folder = folder("jxl");
    let path = folder.join("a.jxl");
    // Several groups of 256, the last ones partial.
    for (width, height) in [(150, 97), (600, 300)] {
        let size = Size::new(width, height);
        let rgb = scene(usize::try_from(width).unwrap(), usize::try_from(height).unwrap());
        std::fs::write(&path, encoded(&rgb, size, ColorSpace::RGB, BitDepth::Eight)).unwrap();
        let Facts { format, pixels, .. } = probe(&path, &Limits::default()).unwrap();
        assert_eq!((format, pixels), (Format::JpegXl, size), "as it says");
        let (most, mean) = difference(&rgb_of(&whole(&path)), &rgb);
        assert!(most <= 1 && mean < 0.01, "8 bits, {size}: off by {most}, {mean:.4}");
        let wide: Vec<u8> =
            rgb.iter().flat_map(|v| (u16::from(*v) * 257).to_ne_bytes()).collect();
        let wide = encoded(&wide, size, ColorSpace::RGB, BitDepth::Sixteen);
        std::fs::write(&path, wide).unwrap();
        let (most, mean) = difference(&rgb_of(&whole(&path)), &rgb);
        assert!(most <= 1 && mean < 0.01, "16 bits, {size}: off by {most}, {mean:.4}");
        let grey: Vec<u8> = rgb.chunks(3).map(|p| p[1]).collect();
        let one = encoded(&grey, size, ColorSpace::Luma, BitDepth::Eight);
        std::fs::write(&path, one).unwrap();
        let shown: Vec<u8> = whole(&path).rgba.chunks(4).map(|p| p[0]).collect();
        let (most, mean) = difference(&shown, &grey);
        assert!(most <= 1 && mean < 0.01, "grey, {size}: off by {most}, {mean:.4}");
    }
    assert_eq!(at(&path, Target::Longest(60)).size, Size::new(60, 30), "and smaller");
}

#[test]
fn a_broken_file_is_reported() {
    let folder = folder("jxl-broken");
    let path = folder.join("a.jxl");
    let size = Size::new(600, 300);
    let good = encoded(&scene(600, 300), size, ColorSpace::RGB, BitDepth::Eight);
    for length in [2, 20, good.len() / 2] {
        std::fs::write(&path, &good[..length]).unwrap();
        let told =
            preview(&path, Target::Longest(99), &Limits::default(), &CancelToken::default());
        // Half of a file may still show half of the picture.
        if let Err(error) = told {
            assert!(matches!(error, PictureError::Damaged { .. }), "cut to {length}: {error}");
        }
    }
}
