//! The picture in the papers: its own bytes where they serve, else a smaller copy in sRGB.

use std::fs;
use std::path::{Path, PathBuf};

use krilla::image::Image;
use sightedge_pictures::{CancelToken, Limits, Size, Target, preview};

/// Pixels an inch that a printed page shows.
const PPI: f64 = 300.0;
/// A picture of so many times the pixels is still passed through as it is.
const PASSED: f64 = 1.6;
/// No larger a file is passed through: a sheet is sent by mail.
const MOST_BYTES: u64 = 3 << 20;
/// How well a smaller copy is kept, of 100.
const QUALITY: u8 = 92;

/// A picture as it goes into a PDF.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Placed {
    /// The bytes of a JPEG.
    pub(crate) bytes: Vec<u8>,
    /// Where it comes from.
    pub(crate) path: PathBuf,
    /// Something the person should know.
    pub(crate) note: Option<String>,
}

/// The picture at `path`, to be printed `wide` × `high` millimetres large.
///
/// # Errors
/// Says what is wrong with the file.
pub(crate) fn place(path: &Path, wide: f64, high: f64) -> Result<Placed, String> {
    let small = fs::metadata(path).is_ok_and(|facts| facts.len() <= MOST_BYTES);
    let mut note = None;
    if small && let Ok(bytes) = fs::read(path) {
        match passable(&bytes, pixels(wide).max(pixels(high))) {
            Passable::Yes if image_of(&bytes).is_ok() => {
                return Ok(Placed { bytes, path: path.to_owned(), note });
            }
            Passable::Yes | Passable::No => {}
            Passable::NewProfile => {
                note = Some(format!(
                    "The colour profile of {} is of a newer version than a PDF of this kind may \
                     hold: on paper its colours are converted to sRGB.",
                    path.display()
                ));
            }
        }
    }
    let longest = pixels(wide).max(pixels(high)).clamp(16, 4096);
    let made =
        preview(path, Target::Longest(longest), &Limits::default(), &CancelToken::default())
            .map_err(|error| error.to_string())?;
    let Size { width, height, .. } = made.size;
    let bytes = jpeg(&made.rgba, width, height)
        .ok_or_else(|| format!("{} cannot be made small enough for a page", path.display()))?;
    Ok(Placed { bytes, path: path.to_owned(), note })
}

/// The picture at `path` as large as it can be within `most`, width and height in millimetres;
/// with how large that is.
///
/// # Errors
/// Says what is wrong with the file.
pub(crate) fn fitted(path: &Path, most: [f64; 2]) -> Result<(Placed, [f64; 2]), String> {
    let longest = pixels(most[0].max(most[1])).clamp(16, 2048);
    let made =
        preview(path, Target::Longest(longest), &Limits::default(), &CancelToken::default())
            .map_err(|error| error.to_string())?;
    let Size { width, height, .. } = made.size;
    let [w, h] = [width, height].map(|side| f64::from(side).max(1.0));
    let share = (most[0] / w).min(most[1] / h);
    let bytes = jpeg(&made.rgba, width, height)
        .ok_or_else(|| format!("{} cannot be made small enough for a page", path.display()))?;
    Ok((Placed { bytes, path: path.to_owned(), note: None }, [w * share, h * share]))
}

/// A JPEG as a PDF holds it. Readers are not asked to smooth it: PDF/A forbids that.
pub(crate) fn image_of(jpeg: &[u8]) -> Result<Image, String> {
    Image::from_jpeg(jpeg.to_vec().into(), false)
}

/// So many millimetres at the pixels an inch that a page shows.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped first"
)]
fn pixels(mm: f64) -> u32 {
    (mm / 25.4 * PPI).ceil().clamp(1.0, 65_535.0) as u32
}

fn jpeg(rgba: &[u8], width: u32, height: u32) -> Option<Vec<u8>> {
    let (wide, high) = (u16::try_from(width).ok()?, u16::try_from(height).ok()?);
    let rgb: Vec<u8> = rgba
        .chunks_exact(4)
        .flat_map(|pixel| match *pixel {
            // On white, as paper is.
            [r, g, b, a] => [r, g, b].map(|part| {
                let part = u16::from(part) * u16::from(a) + 255 * (255 - u16::from(a));
                u8::try_from(part / 255).unwrap_or(255)
            }),
            _ => [255; 3],
        })
        .collect();
    let mut bytes = Vec::new();
    let encoder = jpeg_encoder::Encoder::new(&mut bytes, QUALITY);
    encoder.encode(&rgb, wide, high, jpeg_encoder::ColorType::Rgb).ok()?;
    Some(bytes)
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Passable {
    Yes,
    No,
    /// But for its colour profile, which is newer than the PDF's own version of it.
    NewProfile,
}

/// Whether a file goes into a PDF as it is: a JPEG of one or three colours, upright, not much
/// finer than `longest` pixels. Source: ITU-T T.81, Annex B; ICC.1:2004-10 (profile version
/// 4.2), which PDF 1.7 refers to; Exif 2.32 for the orientation.
fn passable(bytes: &[u8], longest: u32) -> Passable {
    let Some(mut rest) = bytes.strip_prefix(&[0xff, 0xd8]) else { return Passable::No };
    let mut new_profile = false;
    while let [0xff, marker, after @ ..] = rest {
        if *marker == 0xff {
            rest = rest.get(1..).unwrap_or_default();
            continue;
        }
        let Some((length, _)) = after.split_first_chunk::<2>() else { return Passable::No };
        let length = usize::from(u16::from_be_bytes(*length));
        let (Some(body), Some(next)) = (after.get(2..length), after.get(length..)) else {
            return Passable::No;
        };
        match marker {
            // Frames: baseline and progressive ones are what PDF readers know.
            0xc0..=0xc2 => {
                let &[8, h1, h0, w1, w0, colours, ..] = body else { return Passable::No };
                let side = u16::from_be_bytes([h1, h0]).max(u16::from_be_bytes([w1, w0]));
                let fine = f64::from(side) > f64::from(longest) * PASSED;
                return match (matches!(colours, 1 | 3) && !fine, new_profile) {
                    (false, _) => Passable::No,
                    (true, true) => Passable::NewProfile,
                    (true, false) => Passable::Yes,
                };
            }
            0xc3 | 0xc5..=0xc7 | 0xc9..=0xcb | 0xcd..=0xcf | 0xda => return Passable::No,
            0xe1 if body.starts_with(b"Exif\0") && turned(body) => return Passable::No,
            0xe2 if body.starts_with(b"ICC_PROFILE\0\x01") => {
                // Behind the name and two numbers; the version is its ninth byte and tenth.
                if let Some([major, minor]) = body.get(22..24) {
                    new_profile = (*major, minor >> 4) > (4, 2);
                }
            }
            // Adobe's mark with an inverted or unknown colour transform is left to the decoder.
            _ => {}
        }
        rest = next;
    }
    Passable::No
}

/// Whether an Exif block says that the picture is not upright.
fn turned(body: &[u8]) -> bool {
    let tiff = body.get(6..).unwrap_or_default();
    let little = tiff.starts_with(b"II");
    let two = |at: usize| {
        let bytes = *tiff.get(at..)?.first_chunk::<2>()?;
        Some(if little { u16::from_le_bytes(bytes) } else { u16::from_be_bytes(bytes) })
    };
    let four = |at: usize| {
        let bytes = *tiff.get(at..)?.first_chunk::<4>()?;
        let value = if little { u32::from_le_bytes(bytes) } else { u32::from_be_bytes(bytes) };
        usize::try_from(value).ok()
    };
    let orientation = (|| {
        let start = four(4)?;
        let rows = usize::from(two(start)?);
        (0..rows.min(512))
            .map(|row| start.saturating_add(2 + row * 12))
            .find(|at| two(*at) == Some(0x0112))
            .and_then(|at| two(at.saturating_add(8)))
    })();
    orientation.is_some_and(|orientation| orientation > 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A JPEG's head: an ICC profile of that version, then a frame of that size.
    fn head(version: [u8; 2], side: u16) -> Vec<u8> {
        let mut bytes = vec![0xff, 0xd8, 0xff, 0xe2, 0, 34];
        bytes.extend(b"ICC_PROFILE\0\x01\x01");
        bytes.extend([0, 0, 0, 18, b't', b'e', b's', b't', version[0], version[1]]);
        bytes.extend([0; 8]);
        bytes.extend([0xff, 0xc0, 0, 10, 8]);
        bytes.extend(side.to_be_bytes());
        bytes.extend(side.to_be_bytes());
        bytes.extend([3, 0, 0]);
        bytes
    }

    #[test]
    fn what_is_passed_through() {
        assert_eq!(passable(&head([2, 0x10], 800), 800), Passable::Yes);
        assert_eq!(passable(&head([4, 0x20], 800), 800), Passable::Yes);
        assert_eq!(passable(&head([4, 0x40], 800), 800), Passable::NewProfile);
        assert_eq!(passable(&head([2, 0x10], 4000), 800), Passable::No, "too fine");
        assert_eq!(passable(b"\x89PNG", 800), Passable::No);
        let whole = head([2, 0x10], 800);
        for end in 0..whole.len() {
            assert_eq!(passable(&whole[..end], 800), Passable::No, "cut at {end}");
        }
    }
}
