//! From sRGB to a monitor's own colours, by its ICC profile: what is sent to the screen so that
//! the eye sees the colour that is meant.
//!
//! Relative colorimetric, without black point compensation: white is the monitor's own white,
//! and a colour that it cannot show becomes the nearest one that the profile knows.
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "samples of 16 bits to 8, divided first"
)]

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use moxcms::{
    ColorProfile, DataColorSpace, Layout, RenderingIntent, Transform16BitExecutor,
    TransformOptions,
};

use crate::profile::{name, parse};

/// Why a profile cannot serve as a monitor's. Every message says what was found and what to do.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ProfileRefused {
    /// It cannot be read.
    #[error(
        "this colour profile is damaged ({0}): copy it again, or have the screen measured anew"
    )]
    Damaged(String),
    /// It is of a printer, a scanner or a grey device.
    #[error(
        "this colour profile is for {0} values; a screen’s profile is for RGB values: choose \
         another file"
    )]
    NotRgb(String),
    /// It tells what a device's colours look like, not how to make a colour.
    #[error(
        "this colour profile only leads away from its device ({0}): choose a screen’s profile"
    )]
    OneWay(String),
}

/// Takes sRGB to one monitor's RGB.
#[derive(Clone)]
pub struct ToDisplay {
    name: String,
    profile: Arc<[u8]>,
    engine: Arc<Transform16BitExecutor>,
}

/// Pixels that are converted at once: what a processor's own memory holds.
const AT_ONCE: usize = 4096;

impl ToDisplay {
    /// Reads a monitor's profile.
    ///
    /// # Errors
    /// What is wrong with it, and what to do.
    pub fn new(profile: &[u8]) -> Result<Self, ProfileRefused> {
        let parsed = parse(profile).map_err(ProfileRefused::Damaged)?;
        if parsed.color_space != DataColorSpace::Rgb {
            return Err(ProfileRefused::NotRgb(kind(parsed.color_space).to_owned()));
        }
        let built = catch_unwind(AssertUnwindSafe(|| engine(&parsed)));
        let engine = built
            .map_err(|_| ProfileRefused::Damaged("it could not be used".into()))?
            .map_err(ProfileRefused::OneWay)?;
        let all = Self { name: name(&parsed), profile: profile.into(), engine };
        // An engine may only find out at its first colour.
        all.convert([0; 3]).ok_or_else(|| {
            ProfileRefused::Damaged("no colour could be converted by it".into())
        })?;
        Ok(all)
    }

    /// What the profile calls itself; may be empty.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// One sRGB colour as the monitor's.
    #[must_use]
    pub fn colour(&self, rgb: [u8; 3]) -> [u8; 3] {
        self.convert(rgb.map(wide)).map_or(rgb, |[r, g, b]| [r, g, b].map(narrow))
    }

    /// Changes RGBA pixels from sRGB to the monitor's; opacity stays.
    pub fn apply(&self, rgba: &mut [u8]) {
        let (mut words, mut out) = (Vec::new(), Vec::new());
        for pixels in rgba.as_chunks_mut::<4>().0.chunks_mut(AT_ONCE) {
            words.clear();
            words.extend(pixels.iter().flat_map(|[r, g, b, _]| [*r, *g, *b].map(wide)));
            out.resize(words.len(), 0);
            if self.run(&words, &mut out).is_none() {
                continue;
            }
            for ([r, g, b, _], to) in pixels.iter_mut().zip(out.as_chunks::<3>().0) {
                [*r, *g, *b] = to.map(narrow);
            }
        }
    }

    fn convert(&self, rgb: [u16; 3]) -> Option<[u16; 3]> {
        let mut out = [0; 3];
        self.run(&rgb, &mut out)?;
        Some(out)
    }

    fn run(&self, from: &[u16], to: &mut [u16]) -> Option<()> {
        let engine = self.engine.as_ref();
        catch_unwind(AssertUnwindSafe(|| engine.transform(from, to))).ok()?.ok()
    }
}

impl std::fmt::Debug for ToDisplay {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("ToDisplay").field("name", &self.name).finish_non_exhaustive()
    }
}

/// Equal profiles convert equally.
impl PartialEq for ToDisplay {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.profile, &other.profile) || self.profile == other.profile
    }
}

impl Eq for ToDisplay {}

fn engine(profile: &ColorProfile) -> Result<Arc<Transform16BitExecutor>, String> {
    let options = TransformOptions {
        rendering_intent: RenderingIntent::RelativeColorimetric,
        prefer_fixed_point: false,
        ..TransformOptions::default()
    };
    ColorProfile::new_srgb()
        .create_transform_16bit(Layout::Rgb, profile, Layout::Rgb, options)
        .map_err(|error| error.to_string())
}

const fn kind(space: DataColorSpace) -> &'static str {
    match space {
        DataColorSpace::Gray => "grey",
        DataColorSpace::Cmyk => "CMYK",
        DataColorSpace::Lab => "Lab",
        DataColorSpace::Xyz => "XYZ",
        _ => "other",
    }
}

/// 255 becomes 65535.
fn wide(byte: u8) -> u16 {
    u16::from(byte) * 257
}

fn narrow(word: u16) -> u8 {
    ((u32::from(word) + 128) / 257) as u8
}
