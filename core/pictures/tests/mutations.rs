//! Good files damaged in thousands of ways: never a panic, never a hang.
#![allow(clippy::unwrap_used, reason = "a failing test says where")]

mod support;

use std::time::{Duration, Instant};

use jpeg_encoder::ColorType;
use sightedge_pictures::{
    CancelToken, Limits, PictureError, Region, Size, Target, first_look, preview, probe,
};
use support::files::{Dice, jpeg, png_file, tiff_file, webp_file};
use support::{folder, scene};
use tiff::encoder::{Compression, DeflateLevel, Predictor, colortype};

fn damaged(good: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut bytes = good.to_vec();
    match dice.roll(8) {
        0 => bytes.truncate(dice.roll(good.len())),
        1 => {
            // A piece taken out.
            let (from, length) = (dice.roll(good.len()), dice.roll(60));
            bytes.drain(from..(from + length).min(good.len()));
        }
        2 => {
            // A piece put in twice.
            let (from, length) = (dice.roll(good.len()), dice.roll(60));
            let piece = good[from..(from + length).min(good.len())].to_vec();
            let at = dice.roll(good.len());
            bytes.splice(at..at, piece);
        }
        3 => {
            // The largest or smallest number somewhere in the headers.
            let at = dice.roll(good.len().min(700));
            let fill = if dice.roll(2) == 0 { 0xff } else { 0 };
            let end = (at + 1 + dice.roll(4)).min(bytes.len());
            bytes[at..end].fill(fill);
        }
        _ => {
            for _ in 0..=dice.roll(6) {
                let front = dice.roll(3) > 0;
                let at = dice.roll(if front { good.len().min(400) } else { good.len() });
                bytes[at] = dice.byte();
            }
        }
    }
    bytes
}

#[track_caller]
fn survives(name: &str, good: &[u8], rounds: usize) {
    let folder = folder(&format!("mutations-{name}"));
    let path = folder.join(name);
    let token = CancelToken::default();
    let limits = Limits {
        pixels: 20_000_000,
        memory: 256 << 20,
        time: Duration::from_secs(5),
        ..Limits::default()
    };
    std::fs::write(&path, good).unwrap();
    probe(&path, &limits).unwrap();
    preview(&path, Target::Longest(16), &limits, &token).unwrap();
    let mut dice = Dice(u64::try_from(name.len()).unwrap() * 977 + 5);
    for round in 0..rounds {
        std::fs::write(&path, damaged(good, &mut dice)).unwrap();
        let region = Region { left: 3.0, top: 2.0, width: 20.0, height: 11.5 };
        let target = match round % 3 {
            0 => Target::Longest(16),
            1 => Target::Exact(Size::new(30, 22)),
            _ => Target::Part(region, Size::new(9, 5)),
        };
        let began = Instant::now();
        let outcomes = [
            probe(&path, &limits).map(drop),
            first_look(&path, 64, &limits, &token).map(drop),
            preview(&path, target, &limits, &token).map(drop),
        ];
        for outcome in outcomes {
            if let Err(PictureError::Crashed { detail }) = outcome {
                let kept = folder.join(format!("crash-{round}"));
                std::fs::copy(&path, &kept).unwrap();
                unreachable!("{name}, round {round}: {detail}; kept as {}", kept.display());
            }
        }
        assert!(began.elapsed() < Duration::from_secs(20), "{name}, round {round} took long");
    }
}

/// Damaged files of each kind; `SIGHTEDGE_ROUNDS` asks for more.
fn rounds() -> usize {
    std::env::var("SIGHTEDGE_ROUNDS").ok().and_then(|v| v.parse().ok()).unwrap_or(250)
}

#[test]
fn jpeg_survives() {
    survives("baseline.jpg", &jpeg(false, ColorType::Rgb, 0), rounds());
    survives("restarts.jpg", &jpeg(false, ColorType::Rgb, 2), rounds());
    survives("progressive.jpg", &jpeg(true, ColorType::Rgb, 0), rounds());
    survives("cmyk.jpg", &jpeg(false, ColorType::Cmyk, 0), rounds());
    survives("grey.jpg", &jpeg(true, ColorType::Luma, 1), rounds());
}

#[test]
fn tiff_survives() {
    let rgb = scene(40, 30);
    let wide: Vec<u16> = rgb.iter().map(|&v| u16::from(v) * 257).collect();
    let none = Predictor::None;
    let plain = tiff_file::<colortype::RGB8>(&rgb, Compression::Uncompressed, none);
    survives("plain.tif", &plain, rounds());
    let lzw = tiff_file::<colortype::RGB16>(&wide, Compression::Lzw, Predictor::Horizontal);
    survives("lzw.tif", &lzw, rounds());
    let deflate = Compression::Deflate(DeflateLevel::Fast);
    survives("deflate.tif", &tiff_file::<colortype::RGB8>(&rgb, deflate, none), rounds());
    let packed = tiff_file::<colortype::RGB8>(&rgb, Compression::Packbits, none);
    survives("packbits.tif", &packed, rounds());
}

#[test]
fn png_and_webp_survive() {
    survives("a.png", &png_file(), rounds());
    survives("a.webp", &webp_file(), rounds());
}
