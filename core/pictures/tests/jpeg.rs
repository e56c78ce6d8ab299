//! JPEG previews beside an independent decoder, and beside what was encoded.
#![allow(clippy::unwrap_used, reason = "a failing test says where")]
#![allow(clippy::print_stdout, reason = "figures to be seen, and what was not run")]

mod support;

use std::path::{Path, PathBuf};
use std::process::Command;

use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use sightedge_pictures::{
    CancelToken, Finding, Limits, Preview, Region, Size, Target, first_look, preview, probe,
};
use support::{at, difference, exif, folder, rgb_of, scene, whole};

struct Case {
    name: &'static str,
    colour: ColorType,
    sampling: SamplingFactor,
    progressive: bool,
    restart: u16,
    /// Largest and mean difference allowed from the other decoder.
    allowed: (u8, f64),
}

fn encoded(case: &Case, pixels: &[u8], width: u16, height: u16) -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = Encoder::new(&mut out, 90);
    encoder.set_sampling_factor(case.sampling);
    encoder.set_progressive(case.progressive);
    if case.restart > 0 {
        encoder.set_restart_interval(case.restart);
    }
    encoder.encode(pixels, width, height, case.colour).unwrap();
    out
}

/// A picture of that kind and size: its file, its samples as we see them.
fn shown(case: &Case, width: u16, height: u16) -> (PathBuf, Vec<u8>) {
    let rgb = scene(width.into(), height.into());
    let pixels: Vec<u8> = match case.colour {
        ColorType::Luma => rgb.chunks(3).map(|p| p[1]).collect(),
        _ => rgb,
    };
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("jpeg-agrees");
    std::fs::create_dir_all(&path).unwrap();
    let path = path.join(format!("{}-{width}x{height}.jpg", case.name));
    std::fs::write(&path, encoded(case, &pixels, width, height)).unwrap();
    let ours = whole(&path);
    assert_eq!(ours.size, Size::new(width.into(), height.into()), "{}", case.name);
    let samples = match case.colour {
        ColorType::Luma => ours.rgba.chunks(4).map(|p| p[0]).collect(),
        _ => rgb_of(&ours),
    };
    (path, samples)
}

const fn case(name: &'static str, sampling: SamplingFactor, progressive: bool) -> Case {
    Case { name, colour: ColorType::Rgb, sampling, progressive, restart: 0, allowed: (5, 0.3) }
}

fn every_kind() -> Vec<Case> {
    vec![
        case("444", SamplingFactor::F_1_1, false),
        case("422", SamplingFactor::F_2_1, false),
        case("420", SamplingFactor::F_2_2, false),
        case("440", SamplingFactor::F_1_2, false),
        case("411", SamplingFactor::F_4_1, false),
        case("progressive-444", SamplingFactor::F_1_1, true),
        case("progressive-420", SamplingFactor::F_2_2, true),
        Case { restart: 3, ..case("restarts", SamplingFactor::F_2_2, false) },
        Case { restart: 2, ..case("progressive-restarts", SamplingFactor::F_2_2, true) },
        Case { colour: ColorType::Luma, ..case("grey", SamplingFactor::F_1_1, false) },
        Case {
            colour: ColorType::Luma,
            ..case("progressive-grey", SamplingFactor::F_1_1, true)
        },
    ]
}

/// Source: the crate `jpeg-decoder` 0.3, an independent implementation of ITU-T T.81. It rounds
/// differently, which a picture of a few pixels shows: each may differ by so much at most, all
/// sizes together on average.
#[test]
fn every_kind_agrees_with_the_other_decoder() {
    for case in &every_kind() {
        let (mut ours, mut theirs) = (Vec::new(), Vec::new());
        for (width, height) in [(200, 120), (201, 123), (16, 16), (7, 5), (1, 1), (130, 3)] {
            let (path, samples) = shown(case, width, height);
            let bytes = std::fs::read(path).unwrap();
            ours.extend(samples);
            theirs.extend(jpeg_decoder::Decoder::new(bytes.as_slice()).decode().unwrap());
        }
        let (most, mean) = difference(&ours, &theirs);
        assert!(
            most <= case.allowed.0 && mean <= case.allowed.1,
            "{}: off by at most {most}, on average {mean:.3}",
            case.name
        );
    }
}

/// Source: libjpeg-turbo, through `vips` (Debian: libvips-tools).
#[test]
fn every_kind_agrees_with_libjpeg() {
    for case in &every_kind() {
        let (mut ours, mut theirs) = (Vec::new(), Vec::new());
        for (width, height) in [(200, 120), (201, 123), (16, 16), (7, 5), (130, 3)] {
            let (path, samples) = shown(case, width, height);
            let png = path.with_extension("png");
            let Ok(ran) = Command::new("vips").arg("copy").args([&path, &png]).status() else {
                let what = "vips is not installed (Debian: libvips-tools)";
                assert!(std::env::var_os("CI").is_none(), "not run: {what}");
                return println!("not run: {what}");
            };
            assert!(ran.success(), "{}: vips reads it", case.name);
            let png = whole(&png);
            ours.extend(samples);
            match case.colour {
                ColorType::Luma => theirs.extend(png.rgba.chunks(4).map(|p| p[0])),
                _ => theirs.extend(rgb_of(&png)),
            }
        }
        let (most, mean) = difference(&ours, &theirs);
        println!("{}: off by at most {most}, on average {mean:.4}", case.name);
        assert!(most <= 3 && mean <= 0.12, "{}: {most}, {mean:.4}", case.name);
    }
}

#[test]
fn ink_comes_back_as_it_was_meant() {
    let folder = folder("jpeg-ink");
    let ink: Vec<u8> = [[0, 0, 0, 0], [200, 30, 0, 0], [0, 0, 0, 180], [60, 90, 120, 40]]
        .iter()
        .flat_map(|pixel| pixel.repeat(16 * 16))
        .collect();
    for (name, colour) in [("cmyk", ColorType::Cmyk), ("ycck", ColorType::CmykAsYcck)] {
        let case = Case { colour, ..case("ink", SamplingFactor::F_1_1, false) };
        let path = folder.join(format!("{name}.jpg"));
        std::fs::write(&path, encoded(&case, &ink, 16, 64)).unwrap();
        let preview = whole(&path);
        assert!(preview.findings.contains(&Finding::UntaggedCmyk), "{name}: said so");
        // Without a profile: light left by each ink, times that left by black.
        for (block, pixel) in ink.chunks(16 * 16 * 4).enumerate() {
            let at = (block * 16 * 16 + 16 * 8 + 8) * 4;
            for c in 0..3 {
                let left = |v: u8| f64::from(255 - v) / 255.0;
                let wanted = left(pixel[c]) * left(pixel[3]) * 255.0;
                let got = f64::from(preview.rgba[at + c]);
                assert!((got - wanted).abs() <= 4.0, "{name} {block}: {got}, not {wanted}");
            }
        }
    }
}

#[test]
fn it_is_reduced_as_the_same_pixels_in_another_file() {
    let folder = folder("jpeg-shrink");
    let (width, height) = (800, 600);
    let rgb = scene(width, height);
    for (name, sampling) in [("444", SamplingFactor::F_1_1), ("420", SamplingFactor::F_2_2)] {
        let bytes = encoded(&case("shrink", sampling, false), &rgb, 800, 600);
        let jpeg = folder.join(format!("{name}.jpg"));
        std::fs::write(&jpeg, &bytes).unwrap();
        let png = folder.join(format!("{name}.png"));
        sightedge_pictures::write_png(&whole(&jpeg), &mut std::fs::File::create(&png).unwrap())
            .unwrap();
        for side in [400, 399, 200, 110, 100, 50] {
            let (a, b) = (at(&jpeg, Target::Longest(side)), at(&png, Target::Longest(side)));
            assert_eq!(a.size, b.size, "{name} at {side}");
            let (most, mean) = difference(&a.rgba, &b.rgba);
            assert_eq!(most, 0, "{name} at {side}: {mean:.2} on average, {most} at most");
        }
    }
}

#[test]
fn headers_tell_size_resolution_orientation_and_thumbnail() {
    let folder = folder("jpeg-headers");
    let small = encoded(&case("small", SamplingFactor::F_1_1, false), &scene(40, 30), 40, 30);
    let path = folder.join("a.jpg");
    let mut out = Vec::new();
    let mut encoder = Encoder::new(&mut out, 90);
    encoder.add_exif_metadata(&exif(6, 300, &small)).unwrap();
    encoder.encode(&scene(400, 300), 400, 300, ColorType::Rgb).unwrap();
    std::fs::write(&path, &out).unwrap();
    let facts = probe(&path, &Limits::default()).unwrap();
    assert_eq!(facts.pixels, Size::new(300, 400), "turned");
    assert!(facts.has_thumbnail, "a small picture inside");
    let (w, h) = facts.print_size_mm().unwrap();
    assert!((w - 25.4).abs() < 1e-9 && (h - 4.0 * 25.4 / 3.0).abs() < 1e-9, "{w} x {h} mm");
    assert!(facts.print_size_disagrees(30.0, 33.9, 1.0), "another sheet");
    let look =
        first_look(&path, 512, &Limits::default(), &CancelToken::default()).unwrap().unwrap();
    assert_eq!(look.size, Size::new(30, 40), "the thumbnail, turned");
    let unequal = difference(&look.rgba, &at(&path, Target::Exact(look.size)).rgba).1;
    assert!(unequal < 12.0, "looks like the picture: {unequal:.1}");
}

/// Source: CIPA DC-008 (EXIF 2.32), 4.6.4: where the resolution is unknown, 72 is written.
#[test]
fn a_camera_that_writes_72_states_no_resolution() {
    let folder = folder("jpeg-72");
    let path = folder.join("a.jpg");
    for (ppi, stated) in [(72, None), (73, Some(73.0)), (300, Some(300.0))] {
        let mut out = Vec::new();
        let mut encoder = Encoder::new(&mut out, 90);
        encoder.add_exif_metadata(&exif(1, ppi, &[])).unwrap();
        encoder.encode(&scene(40, 30), 40, 30, ColorType::Rgb).unwrap();
        std::fs::write(&path, &out).unwrap();
        let facts = probe(&path, &Limits::default()).unwrap();
        assert_eq!(facts.resolution.map(|r| r.x_ppi), stated, "{ppi} in EXIF");
    }
}

/// Rows told and rows there should be, of a picture that is not whole.
#[track_caller]
fn told(preview: &Preview) -> (u32, u32) {
    let told = preview.findings.iter().find_map(|finding| match finding {
        Finding::Incomplete { rows, of, detail } => {
            assert_eq!(detail, "it ends early", "and why");
            Some((*rows, *of))
        }
        _ => None,
    });
    told.unwrap_or_else(|| unreachable!("not told: {:?}", preview.findings))
}

#[test]
fn a_broken_end_shows_what_came() {
    let folder = folder("jpeg-broken");
    let mut rgb = scene(640, 480);
    // Mid-grey is what some decoders fill the rest with.
    rgb[640 * 3 * 150..640 * 3 * 250].fill(128);
    for (name, sampling, progressive) in [
        ("444", SamplingFactor::F_1_1, false),
        ("420", SamplingFactor::F_2_2, false),
        ("progressive", SamplingFactor::F_2_2, true),
    ] {
        let bytes = encoded(&case(name, sampling, progressive), &rgb, 640, 480);
        let path = folder.join(format!("{name}.jpg"));
        std::fs::write(&path, &bytes).unwrap();
        let good = whole(&path);
        let incomplete = |f: &Finding| matches!(f, Finding::Incomplete { .. });
        assert!(!good.findings.iter().any(incomplete), "{name}: nothing lacks");
        for part in 1..10 {
            std::fs::write(&path, &bytes[..bytes.len() * part / 10]).unwrap();
            let Ok(broken) = preview(
                &path,
                Target::Longest(640),
                &Limits::default(),
                &CancelToken::default(),
            ) else {
                assert_eq!(part, 1, "{name}: {part} tenths show something");
                continue;
            };
            let (rows, of) = told(&broken);
            assert_eq!(of, 480, "{name}: of all rows");
            if progressive {
                assert_eq!(rows, 480, "{name}: all of it, if coarse");
                continue;
            }
            let there = usize::try_from(rows).unwrap() * 640 * 4;
            assert!(
                broken.rgba[..there] == good.rgba[..there],
                "{name}, {rows} rows: the same"
            );
            assert!(
                broken.rgba[there..].iter().skip(3).step_by(4).all(|a| *a == 0),
                "none more"
            );
            // What came to an end within a unit of 8 or 16 rows is not told as there.
            let share =
                f64::from(rows) / 480.0 - f64::from(u32::try_from(part).unwrap()) / 10.0;
            assert!(share.abs() < 0.3, "{name}: {rows} rows of {part} tenths");
        }
        std::fs::write(&path, &bytes[..bytes.len() - 2]).unwrap();
        let ended = whole(&path);
        assert_eq!(ended.rgba, good.rgba, "{name}: all but the end marker");
        let told = ended.findings.iter().any(incomplete);
        assert_eq!(told, progressive, "{name}: whether more scans were to come");
        let upper = Region { left: 0.0, top: 0.0, width: 640.0, height: 64.0 };
        std::fs::write(&path, &bytes[..bytes.len() * 6 / 10]).unwrap();
        let part = at(&path, Target::Part(upper, Size::new(320, 32)));
        assert_eq!(told_rows(&part), told_rows(&whole(&path)), "{name}: in a part, too");
    }
}

/// Scans that are whole make a coarser picture, wherever the rest breaks off: within a scan,
/// within what describes the next, between two.
#[test]
fn a_progressive_one_shows_something_wherever_it_breaks() {
    let folder = folder("jpeg-coarse");
    for sampling in [SamplingFactor::F_1_1, SamplingFactor::F_2_2] {
        let bytes = encoded(&case("coarse", sampling, true), &scene(48, 32), 48, 32);
        let path = folder.join("a.jpg");
        let scan = bytes.windows(2).position(|pair| pair == b"\xff\xda").unwrap();
        for length in scan + 16..bytes.len() - 2 {
            std::fs::write(&path, &bytes[..length]).unwrap();
            let shown = whole(&path);
            assert_eq!(told(&shown), (32, 32), "{length} of {} bytes", bytes.len());
            let words: Vec<String> = shown.findings.iter().map(Finding::message).collect();
            assert!(
                words.iter().any(|words| words.contains("its fine detail may be missing")),
                "no row is missing: {words:?}"
            );
        }
    }
}

fn told_rows(preview: &Preview) -> u32 {
    told(preview).0
}

/// A side of a JPEG may be 65,535 pixels long. Source: ITU-T T.81, table B.2.
#[test]
fn long_sides_open() {
    let path = folder("jpeg-long").join("a.jpg");
    for (width, height) in [(65_535, 8), (8, 65_535)] {
        let grey = vec![90; usize::from(width) * usize::from(height)];
        let case =
            Case { colour: ColorType::Luma, ..case("long", SamplingFactor::F_1_1, false) };
        std::fs::write(&path, encoded(&case, &grey, width, height)).unwrap();
        let shown = at(&path, Target::Longest(600));
        assert_eq!(shown.picture, Size::new(width.into(), height.into()), "as long as it is");
        assert!(shown.rgba.chunks(4).all(|p| p[0].abs_diff(90) <= 1), "and seen to its end");
    }
}

#[test]
fn cancelled_work_stops() {
    let folder = folder("jpeg-cancel");
    let path = folder.join("a.jpg");
    let bytes = encoded(&case("a", SamplingFactor::F_2_2, false), &scene(640, 480), 640, 480);
    std::fs::write(&path, bytes).unwrap();
    let token = CancelToken::default();
    token.cancel();
    let stopped = preview(&path, Target::Longest(100), &Limits::default(), &token);
    assert_eq!(stopped, Err(sightedge_pictures::PictureError::Cancelled), "at once");
}
