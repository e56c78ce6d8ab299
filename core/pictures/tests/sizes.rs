//! Files that state a size beyond all bounds, and five thousand damaged ones of each format,
//! their header bytes above all: none takes long.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failing test says where"
)]

mod support;

use std::path::Path;
use std::time::{Duration, Instant};

use jpeg_encoder::ColorType;
use sightedge_pictures::{
    CancelToken, Finding, Limits, PictureError, Target, first_look, preview, probe,
};
use support::files::{Dice, jpeg, png_file, tiff_file, webp_file};
use support::{folder, scene};
use tiff::encoder::{Compression, Predictor, colortype};

/// A PNG of 8 bits a sample in RGB that states this size and holds 15 bytes of pixels.
fn png_of(width: u32, height: u32) -> Vec<u8> {
    let mut out = b"\x89PNG\r\n\x1a\n".to_vec();
    let mut chunk = |kind: &[u8], data: &[u8]| {
        out.extend(u32::try_from(data.len()).unwrap().to_be_bytes());
        out.extend(kind);
        out.extend(data);
        // Checksums are not looked at.
        out.extend([0; 4]);
    };
    let mut header = [width.to_be_bytes(), height.to_be_bytes()].concat();
    header.extend([8, 2, 0, 0, 0]);
    chunk(b"IHDR", &header);
    chunk(b"IDAT", &[0x78, 0x9c, 0x63, 0x60, 0x60, 0x60, 0, 0, 0, 4, 0, 1, 0, 0, 0]);
    chunk(b"IEND", &[]);
    out
}

/// A WebP that states this canvas and holds a small picture.
fn webp_of(width: u32, height: u32) -> Vec<u8> {
    let good = webp_file();
    let at = good.windows(4).position(|four| four == b"VP8X").unwrap();
    let mut out = good;
    out[at + 12..at + 15].copy_from_slice(&(width - 1).to_le_bytes()[..3]);
    out[at + 15..at + 18].copy_from_slice(&(height - 1).to_le_bytes()[..3]);
    out
}

/// A small TIFF whose tags state this size.
fn tiff_of(width: u32, height: u32) -> Vec<u8> {
    let rgb = scene(40, 30);
    let mut out =
        tiff_file::<colortype::RGB8>(&rgb, Compression::Uncompressed, Predictor::None);
    // In five strips, as the file has them: others are no TIFF.
    let strip = height.div_ceil(5);
    for (tag, value) in [(256_u16, width), (257, height), (278, strip)] {
        // Tag, kind 4 (a long), one of them.
        let entry = [&tag.to_le_bytes()[..], &[4, 0, 1, 0, 0, 0]].concat();
        let at = out.windows(8).position(|eight| eight == entry).unwrap();
        out[at + 8..at + 12].copy_from_slice(&value.to_le_bytes());
    }
    out
}

/// A JPEG whose frame states this size.
fn jpeg_of(width: u16, height: u16) -> Vec<u8> {
    let mut out = jpeg(false, ColorType::Rgb, 0);
    let at = out.windows(2).position(|two| two == [0xff, 0xc0]).unwrap();
    out[at + 5..at + 7].copy_from_slice(&height.to_be_bytes());
    out[at + 7..at + 9].copy_from_slice(&width.to_be_bytes());
    out
}

/// The shortest of three tries: other work on the machine is no fault of the decoder.
fn shortest<T>(mut work: impl FnMut() -> T) -> (Duration, T) {
    let mut tried = || {
        let began = Instant::now();
        let done = work();
        (began.elapsed(), done)
    };
    let (first, second, third) = (tried(), tried(), tried());
    let least = first.0.min(second.0).min(third.0);
    (least, third.1)
}

/// Every way in refuses the file, within a tenth of a second.
#[track_caller]
fn refused(path: &Path, words: &str) {
    let (limits, token) = (Limits::default(), CancelToken::default());
    let target = Target::Longest(2048);
    let (took, told) = shortest(|| {
        [
            probe(path, &limits).map(drop),
            first_look(path, 512, &limits, &token).map(drop),
            preview(path, target, &limits, &token).map(drop),
        ]
    });
    for told in told {
        let error = told.expect_err("it is refused");
        assert!(error.to_string().contains(words), "{error}");
    }
    assert!(took < Duration::from_millis(100), "{}: {took:?}", path.display());
}

/// Source: by hand: 72 bytes that state 3 x 268,435,457 pixels, fewer than a thousand million
/// in all, took 38 s; a side is bounded by itself.
#[test]
fn a_size_beyond_bounds_is_refused_before_any_work() {
    let folder = folder("sizes");
    let put = |name: &str, bytes: &[u8]| {
        let path = folder.join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    };
    let tall = png_of(3, 268_435_457);
    assert_eq!(tall.len(), 72, "as it was found");
    let words = "the picture states 3 x 268435457 pixels; no side may have more than 300000: its \
                 file may be damaged, so copy it again from where it came, or export a smaller \
                 copy";
    refused(&put("tall.png", &tall), words);
    let long = "no side may have more than 300000";
    refused(&put("wide.png", &png_of(268_435_457, 3)), long);
    refused(&put("one more.png", &png_of(300_001, 1)), long);
    refused(&put("wide.tif", &tiff_of(300_001, 30)), long);
    refused(&put("tall.tif", &tiff_of(2, u32::MAX)), long);
    refused(&put("wide.webp", &webp_of(1 << 24, 1)), long);
    let many = "MP); at most 1000 MP are opened here";
    refused(&put("all.png", &png_of(300_000, 300_000)), many);
    refused(&put("all.tif", &tiff_of(300_000, 3_334)), many);
    refused(&put("all.webp", &webp_of(40_000, 40_000)), many);
    refused(&put("all.jpg", &jpeg_of(u16::MAX, u16::MAX)), many);
}

/// A TIFF of one strip that states this size and so many samples a pixel, of 8 bits in grey,
/// and holds hardly any. Source: TIFF 6.0, section 2.
fn tiff_of_samples(width: u32, height: u32, samples: u32) -> Vec<u8> {
    let tags: [(u16, u32); 9] = [
        (256, width),
        (257, height),
        (258, 8),
        (259, 1),
        (262, 1),
        (273, 122),
        (277, samples),
        (278, height),
        (279, 64),
    ];
    let mut out = b"II*\0\x08\0\0\0\x09\0".to_vec();
    for (tag, value) in tags {
        out.extend(tag.to_le_bytes());
        out.extend([4, 0, 1, 0, 0, 0]);
        out.extend(value.to_le_bytes());
    }
    out.resize(186, 0);
    out
}

/// Source: by hand: 186 bytes that claim 65535 samples a pixel took 10 s and 4 GB.
#[test]
fn samples_beyond_bounds_are_refused_before_any_work() {
    let path = folder("samples").join("a.tif");
    let limits = Limits::default();
    let open = |bytes: &[u8]| {
        std::fs::write(&path, bytes).unwrap();
        let (took, told) = shortest(|| {
            preview(&path, Target::Longest(2048), &limits, &CancelToken::default()).map(drop)
        });
        assert!(took < Duration::from_millis(100), "{took:?}");
        told.expect_err("it is refused").to_string()
    };
    for (width, height, samples) in [(1000, 1000, 65_535), (300_000, 64, 1000), (9, 9, 17)] {
        let told = open(&tiff_of_samples(width, height, samples));
        let words = format!("uses {samples} samples a pixel (16 at most), which is not opened");
        assert!(told.contains(&words), "{told}");
    }
    // As many as may be, in rows that two threads could still hold; none of them is there.
    let told = open(&tiff_of_samples(300_000, 64, 16));
    assert!(told.contains("the file ends before its pixels do"), "{told}");
}

/// Source: by hand: a PNG of 0.9 MB whose colour profile unpacks to 900 MB took 3.4 s, 1.9 GB.
#[test]
fn a_profile_that_unpacks_to_very_much_is_left_out() {
    let packed = {
        let mut png = Vec::new();
        let mut info = png::Info::with_size(1, 1);
        info.icc_profile = Some(vec![0; 64 << 20].into());
        let mut encoder = png::Encoder::with_info(&mut png, info).unwrap();
        encoder.set_depth(png::BitDepth::Eight);
        drop(encoder.write_header().unwrap());
        png
    };
    let at = packed.windows(4).position(|four| four == b"iCCP").unwrap();
    let length = u32::from_be_bytes(packed[at - 4..at].try_into().unwrap());
    let chunk = &packed[at - 4..at + 8 + usize::try_from(length).unwrap()];
    let good = png_of(1, 1);
    let bytes = [&good[..33], chunk, &good[33..]].concat();
    let path = folder("profile").join("a.png");
    std::fs::write(&path, bytes).unwrap();
    let facts = probe(&path, &Limits::default()).unwrap();
    assert!(facts.findings.contains(&Finding::Untagged), "left out: {:?}", facts.findings);
}

/// Sets bytes of `good`, three times out of four among those at `heads`, where sizes and
/// lengths are.
fn damaged(good: &[u8], heads: &[std::ops::Range<usize>], dice: &mut Dice) -> Vec<u8> {
    let mut bytes = good.to_vec();
    for _ in 0..=dice.roll(3) {
        let head = heads[dice.roll(heads.len())].clone();
        let end = head.end.min(good.len());
        let at = match dice.roll(4) {
            0 => dice.roll(good.len()),
            _ => head.start.min(end - 1) + dice.roll(end - head.start.min(end - 1)),
        };
        let to = (at + 1 + dice.roll(4)).min(bytes.len());
        match dice.roll(5) {
            0 => bytes[at..to].fill(0xff),
            1 => bytes[at..to].fill(0),
            // One bit.
            2 => bytes[at] ^= 1 << dice.roll(8),
            _ => bytes[at] = dice.byte(),
        }
    }
    if dice.roll(12) == 0 {
        bytes.truncate(dice.roll(good.len()).max(1));
    }
    bytes
}

/// No file under 1 MiB may take this long that decodes to under 4 megapixels.
const LONGEST: Duration = Duration::from_secs(2);
/// A file that states more pixels than that has a time that follows from them.
const LARGE: u64 = 4_000_000;

fn quick(name: &str, good: &[u8], heads: &[std::ops::Range<usize>]) {
    let folder = folder(&format!("quick-{name}"));
    let path = folder.join(name);
    let (limits, token) = (Limits::default(), CancelToken::default());
    let mut dice = Dice(u64::try_from(good.len()).unwrap());
    let (mut opened, mut refused) = (0, 0);
    for round in 0..5_000 {
        let bytes = damaged(good, heads, &mut dice);
        assert!(bytes.len() < 1 << 20, "a small file");
        std::fs::write(&path, &bytes).unwrap();
        let work = || {
            let facts = probe(&path, &limits);
            (facts, preview(&path, Target::Longest(64), &limits, &token).map(drop))
        };
        let began = Instant::now();
        let (facts, shown) = work();
        let took = began.elapsed();
        if shown.is_ok() {
            opened += 1;
        } else {
            refused += 1;
        }
        if let Err(PictureError::Crashed { detail }) = &shown {
            panic!("{name}, round {round}: {detail}");
        }
        let small = facts.as_ref().map_or(true, |facts| facts.pixels.pixels() < LARGE);
        if took >= LONGEST && (!small || shortest(work).0 >= LONGEST) {
            let pixels = facts.ok().map(|facts| facts.pixels.pixels());
            let most = limits.allowed(0, pixels);
            assert!(!small && took < most, "{name}, round {round}: {took:?} for {pixels:?}");
        }
    }
    assert!(opened > 100 && refused > 100, "{name}: {opened} opened, {refused} refused");
}

#[test]
fn five_thousand_jpegs_are_quick() {
    quick("a.jpg", &jpeg(false, ColorType::Rgb, 2), &[0..4, 2_000..3_000, 0..700]);
}

#[test]
fn five_thousand_pngs_are_quick() {
    quick("a.png", &png_file(), &[8..33, 8..60]);
}

#[test]
fn five_thousand_tiffs_are_quick() {
    let rgb = scene(40, 30);
    let good = tiff_file::<colortype::RGB8>(&rgb, Compression::Lzw, Predictor::None);
    // The tags are at the end.
    let tags = good.len().saturating_sub(320)..good.len();
    quick("a.tif", &good, &[0..8, tags.clone(), tags]);
}

#[test]
fn five_thousand_webps_are_quick() {
    quick("a.webp", &webp_file(), &[8..48, 8..48]);
}

#[cfg(feature = "jxl")]
#[test]
fn five_thousand_jpeg_xls_are_quick() {
    quick("a.jxl", &support::files::jxl_file(), &[0..40, 0..40]);
}
