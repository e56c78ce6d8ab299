//! Pictures made by our own code, and what every test file needs.
#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(clippy::unwrap_used, reason = "a failing test says where")]

pub(crate) mod files;
pub(crate) mod icc;

use std::path::{Path, PathBuf};

use sightedge_pictures::{CancelToken, Limits, Preview, Target, preview};

/// A folder of its own for one test, emptied first.
pub(crate) fn folder(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    drop(std::fs::remove_dir_all(&path));
    std::fs::create_dir_all(&path).unwrap();
    path
}

/// A small invented scene: gradients, a disc with a hard edge, a little texture. RGB rows.
pub(crate) fn scene(width: usize, height: usize) -> Vec<u8> {
    let mut rgb = Vec::with_capacity(width * height * 3);
    let mut noise = 1u32;
    for y in 0..height {
        for x in 0..width {
            noise = noise.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let grain = noise >> 29;
            let (dx, dy) = (x.abs_diff(width * 2 / 3) * 3, y.abs_diff(height / 3) * 3);
            let inside = dx * dx + dy * dy < height * height;
            let red = if inside { 220 } else { 40 + x * 150 / width };
            let green = if inside { 170 } else { 60 + y * 120 / height };
            let blue = if inside { 60 } else { 90 + (x + y) * 100 / (width + height) };
            let wave = (x / 7 + y / 5) % 9;
            for v in [red, green, blue] {
                let v = u32::try_from(v + wave).unwrap() + grain;
                rgb.push(u8::try_from(v.min(255)).unwrap());
            }
        }
    }
    rgb
}

/// EXIF data (from its TIFF header on) with an orientation, a resolution in pixels per inch and
/// a small picture.
pub(crate) fn exif(orientation: u16, ppi: u32, thumbnail: &[u8]) -> Vec<u8> {
    let entry = |tag: u16, kind: u16, value: u32| {
        let mut bytes = Vec::new();
        bytes.extend(tag.to_le_bytes());
        bytes.extend(kind.to_le_bytes());
        bytes.extend(1u32.to_le_bytes());
        bytes.extend(value.to_le_bytes());
        bytes
    };
    // Header 8, four entries 2 + 48 + 4, two rationals 16, two entries 2 + 24 + 4.
    let rationals = 8 + 54;
    let second = rationals + 16;
    let picture = second + 30;
    let mut all = b"II*\0\x08\0\0\0".to_vec();
    all.extend(4u16.to_le_bytes());
    all.extend(entry(0x0112, 3, orientation.into()));
    all.extend(entry(0x011a, 5, rationals));
    all.extend(entry(0x011b, 5, rationals + 8));
    all.extend(entry(0x0128, 3, 2));
    all.extend((if thumbnail.is_empty() { 0 } else { second }).to_le_bytes());
    for _ in 0..2 {
        all.extend(ppi.to_le_bytes());
        all.extend(1u32.to_le_bytes());
    }
    all.extend(2u16.to_le_bytes());
    all.extend(entry(0x0201, 4, picture));
    all.extend(entry(0x0202, 4, u32::try_from(thumbnail.len()).unwrap()));
    all.extend(0u32.to_le_bytes());
    all.extend_from_slice(thumbnail);
    all
}

/// The picture at its own size.
#[track_caller]
pub(crate) fn whole(path: &Path) -> Preview {
    at(path, Target::Longest(u32::from(u16::MAX)))
}

/// The picture at `target`.
#[track_caller]
pub(crate) fn at(path: &Path, target: Target) -> Preview {
    preview(path, target, &Limits::default(), &CancelToken::default()).unwrap()
}

/// RGB of RGBA.
pub(crate) fn rgb_of(preview: &Preview) -> Vec<u8> {
    preview.rgba.as_chunks::<4>().0.iter().flat_map(|&[r, g, b, _]| [r, g, b]).collect()
}

/// The largest and the mean difference of two runs of bytes.
#[track_caller]
pub(crate) fn difference(a: &[u8], b: &[u8]) -> (u8, f64) {
    assert_eq!(a.len(), b.len(), "as many samples");
    let all = a.iter().zip(b).map(|(a, b)| a.abs_diff(*b));
    let sum: u64 = all.clone().map(u64::from).sum();
    let count = u32::try_from(a.len()).unwrap();
    let mean = f64::from(u32::try_from(sum).unwrap()) / f64::from(count.max(1));
    (all.max().unwrap_or(0), mean)
}
