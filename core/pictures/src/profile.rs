//! Colour profiles: from the file's samples to linear light, and from there to sRGB.
//!
//! Matrix and grey profiles are applied where they are exact: the tone curve before reduction,
//! so that reducing happens in linear light; the 3 x 3 matrix and sRGB's curve after it, on
//! the few pixels left. Profiles with lookup tables go through the colour engine after
//! reduction; until then RGB is brought near linear light by a plain power of 2.2, and ink is
//! averaged as coverage, which is linear in reflected light (Murray and Davies, 1936).
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "samples of 8 and 16 bits to and from f32, clamped first"
)]

use std::ops::Range;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use moxcms::{
    ColorProfile, DataColorSpace, Layout, ProfileText, RenderingIntent, ToneReprCurve,
    Transform16BitExecutor, TransformOptions,
};
use serde::{Deserialize, Serialize};

use crate::decode::{Channels, Header, Samples};
use crate::tone::{
    SRGB_BYTE, Table, byte, code, curve_table, srgb_from_linear, srgb_to_linear, table,
};
use crate::{Finding, PictureError};

/// The colour profile a file carries.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum ProfileFacts {
    /// None: taken as sRGB.
    Untagged,
    /// One that names itself so (may be empty).
    Embedded(String),
    /// One that cannot be read: taken as sRGB.
    Damaged,
}

/// The profile's name for `header`'s file.
pub(crate) fn facts(header: &Header) -> ProfileFacts {
    match header.profile.as_deref().map(parse) {
        None => ProfileFacts::Untagged,
        Some(Err(_)) => ProfileFacts::Damaged,
        Some(Ok(profile)) => ProfileFacts::Embedded(name(&profile)),
    }
}

/// What a profile calls itself; may be empty.
pub(crate) fn name(profile: &ColorProfile) -> String {
    match &profile.description {
        Some(ProfileText::PlainString(text)) => text.clone(),
        Some(ProfileText::Description(text)) => text.ascii_string.clone(),
        Some(ProfileText::Localizable(all)) => {
            let english = all.iter().find(|text| text.language == "en").or(all.first());
            english.map(|text| text.value.clone()).unwrap_or_default()
        }
        None => String::new(),
    }
    .trim_matches(|c: char| c == '\0' || c.is_whitespace())
    .to_string()
}

/// Reads a profile; the engine's own panics on odd ones are an error like any other.
pub(crate) fn parse(bytes: &[u8]) -> Result<ColorProfile, String> {
    catch_unwind(|| ColorProfile::new_from_slice(bytes))
        .map_err(|_| "it could not be used".to_string())?
        .map_err(|e| e.to_string())
}

/// How linear rows become sRGB.
#[derive(Clone)]
enum End {
    /// The channels are sRGB's own, or grey.
    Plain,
    /// Linear RGB of another device.
    Matrix([[f32; 3]; 3]),
    /// Through the engine, after undoing the power curve (or none, for ink).
    Engine(Arc<Transform16BitExecutor>),
    /// Ink without a profile.
    Ink,
}

/// Takes one file's samples to linear light and its linear light to sRGB.
#[derive(Clone)]
pub(crate) struct Painter {
    channels: Channels,
    tables: [Table; 3],
    /// Codes of opacity and ink, which are linear.
    even: Table,
    end: End,
}

const POWER: f64 = 2.2;

impl Painter {
    /// The painter for `header`'s samples, and the findings on its profile.
    pub(crate) fn new(header: &Header) -> (Self, Vec<Finding>) {
        let codes = if header.bits > 8 { 1 << 16 } else { 1 << 8 };
        let cmyk = header.channels == Channels::Cmyk;
        let untagged = if cmyk { Finding::UntaggedCmyk } else { Finding::Untagged };
        let Some(bytes) = header.profile.as_deref() else {
            return (Self::without_profile(header.channels, codes), vec![untagged]);
        };
        match Self::with_profile(header.channels, codes, bytes) {
            Ok(painter) => (painter, Vec::new()),
            Err(finding) => (Self::without_profile(header.channels, codes), vec![finding]),
        }
    }

    fn without_profile(channels: Channels, codes: usize) -> Self {
        let srgb = table(codes, srgb_to_linear);
        let end = if channels == Channels::Cmyk { End::Ink } else { End::Plain };
        Self {
            channels,
            tables: [srgb.clone(), srgb.clone(), srgb],
            even: table(codes, |v| v),
            end,
        }
    }

    fn with_profile(channels: Channels, codes: usize, bytes: &[u8]) -> Result<Self, Finding> {
        let damaged = |detail| Finding::ProfileDamaged { detail };
        let profile = parse(bytes).map_err(damaged)?;
        let (pixels, wanted) = match channels {
            Channels::Grey | Channels::GreyAlpha => ("grey", DataColorSpace::Gray),
            Channels::Rgb | Channels::Rgba => ("RGB", DataColorSpace::Rgb),
            Channels::Cmyk => ("CMYK", DataColorSpace::Cmyk),
        };
        if profile.color_space != wanted {
            let profile = format!("{:?}", profile.color_space);
            return Err(Finding::ProfileUnsuitable { pixels: pixels.into(), profile });
        }
        let built = catch_unwind(AssertUnwindSafe(|| Self::build(channels, codes, &profile)));
        built.map_err(|_| damaged("it could not be used".into()))?.map_err(damaged)
    }

    fn build(channels: Channels, codes: usize, profile: &ColorProfile) -> Result<Self, String> {
        let even = table(codes, |v| v);
        match channels {
            Channels::Grey | Channels::GreyAlpha => {
                let curve = profile.gray_trc.as_ref().ok_or("it has no grey curve")?;
                let grey = curve_table(codes, curve)?;
                let tables = [grey.clone(), grey.clone(), grey];
                Ok(Self { channels, tables, even, end: End::Plain })
            }
            Channels::Cmyk => {
                let end = End::Engine(engine(profile, Layout::Rgba)?);
                let tables = [even.clone(), even.clone(), even.clone()];
                Ok(Self { channels, tables, even, end })
            }
            Channels::Rgb | Channels::Rgba => {
                let lut = profile.lut_a_to_b_colorimetric.is_some()
                    || profile.lut_a_to_b_perceptual.is_some();
                if lut || !profile.is_matrix_shaper() {
                    let power = table(codes, |v| v.powf(POWER));
                    let end = End::Engine(engine(profile, Layout::Rgb)?);
                    let tables = [power.clone(), power.clone(), power];
                    return Ok(Self { channels, tables, even, end });
                }
                let curves = [&profile.red_trc, &profile.green_trc, &profile.blue_trc];
                let tables = shaper_tables(codes, curves)?;
                let matrix = matrix_to_srgb(profile)?;
                let end = if is_identity(&matrix) { End::Plain } else { End::Matrix(matrix) };
                Ok(Self { channels, tables, even, end })
            }
        }
    }

    pub(crate) fn channels(&self) -> Channels {
        self.channels
    }

    /// Samples a pixel in a linear row.
    pub(crate) fn linear_channels(&self) -> usize {
        match self.channels {
            Channels::Grey => 1,
            Channels::Rgb => 3,
            // Grey with opacity is rare: it travels as RGBA.
            Channels::GreyAlpha | Channels::Rgba | Channels::Cmyk => 4,
        }
    }

    /// One row's `columns` to linear light, opacity multiplied in.
    pub(crate) fn linearise(&self, row: Samples<'_>, columns: Range<usize>, to: &mut [f32]) {
        let n = self.channels.count();
        let span = columns.start * n..columns.end * n;
        match row {
            Samples::Bytes(row) => self.linearise_codes(&row[span], to),
            Samples::Words(row) => self.linearise_codes(&row[span], to),
        }
    }

    /// Adds one row's `columns` to the sums of squares of side `square`; `wide` is scratch.
    pub(crate) fn gather(
        &self,
        row: Samples<'_>,
        columns: Range<usize>,
        square: usize,
        sums: &mut [f32],
        wide: &mut Vec<f32>,
    ) {
        if self.channels == Channels::Rgb {
            let span = columns.start * 3..columns.end * 3;
            let [r, g, b] = self.tables.each_ref().map(|table| table.as_slice());
            match row {
                Samples::Bytes(row) => {
                    // Tables as long as a byte has values need no check at each look.
                    let tables = [r, g, b].map(<[f32]>::first_chunk::<256>);
                    let [Some(r), Some(g), Some(b)] = tables else { return };
                    add_up(&row[span], square, sums, |[x, y, z]| {
                        [r[usize::from(x)], g[usize::from(y)], b[usize::from(z)]]
                    });
                }
                Samples::Words(row) => add_up(&row[span], square, sums, |[x, y, z]| {
                    [r[usize::from(x)], g[usize::from(y)], b[usize::from(z)]]
                }),
            }
            return;
        }
        let n = self.linear_channels();
        wide.resize(columns.len() * n, 0.0);
        self.linearise(row, columns, wide);
        for (block, sum) in wide.chunks(square * n).zip(sums.chunks_exact_mut(n)) {
            for pixel in block.chunks_exact(n) {
                for (sum, v) in sum.iter_mut().zip(pixel) {
                    *sum += v;
                }
            }
        }
    }

    fn linearise_codes<T: Copy + Into<usize>>(&self, row: &[T], to: &mut [f32]) {
        let [r, g, b] = &self.tables;
        let (r, g, b) = (r.as_slice(), g.as_slice(), b.as_slice());
        match self.channels {
            Channels::Grey => {
                for (&v, to) in row.iter().zip(to) {
                    *to = r[v.into()];
                }
            }
            Channels::Rgb => {
                let (row, _) = row.as_chunks::<3>();
                let (to, _) = to.as_chunks_mut::<3>();
                for (v, to) in row.iter().zip(to) {
                    *to = [r[v[0].into()], g[v[1].into()], b[v[2].into()]];
                }
            }
            Channels::GreyAlpha => {
                let (row, _) = row.as_chunks::<2>();
                let (to, _) = to.as_chunks_mut::<4>();
                for (v, to) in row.iter().zip(to) {
                    let a = self.even[v[1].into()];
                    let light = r[v[0].into()] * a;
                    *to = [light, light, light, a];
                }
            }
            Channels::Rgba => {
                let (row, _) = row.as_chunks::<4>();
                let (to, _) = to.as_chunks_mut::<4>();
                for (v, to) in row.iter().zip(to) {
                    let a = self.even[v[3].into()];
                    *to = [r[v[0].into()] * a, g[v[1].into()] * a, b[v[2].into()] * a, a];
                }
            }
            Channels::Cmyk => {
                for (&v, to) in row.iter().zip(to) {
                    *to = self.even[v.into()];
                }
            }
        }
    }

    /// One reduced linear row to sRGB bytes, appended to `rgba`.
    pub(crate) fn paint(
        &self,
        line: &mut [f32],
        words: &mut Vec<u16>,
        rgba: &mut Vec<u8>,
    ) -> Result<(), PictureError> {
        if self.channels.has_alpha() {
            for [r, g, b, a] in line.as_chunks_mut::<4>().0 {
                let scale = if *a > 1e-6 { a.recip() } else { 0.0 };
                (*r, *g, *b) = (*r * scale, *g * scale, *b * scale);
            }
        }
        let n = self.linear_channels();
        let bytes = SRGB_BYTE.as_slice();
        match &self.end {
            End::Plain if n == 1 => {
                for &mut v in line {
                    let grey = byte(bytes, v);
                    rgba.extend_from_slice(&[grey, grey, grey, 255]);
                }
            }
            End::Plain => {
                for v in line.chunks_exact(n) {
                    let rgb = [byte(bytes, v[0]), byte(bytes, v[1]), byte(bytes, v[2])];
                    rgba.extend_from_slice(&[rgb[0], rgb[1], rgb[2], opacity(v)]);
                }
            }
            End::Matrix(matrix) => {
                for v in line.chunks_exact(n) {
                    let [r, g, b] = apply(matrix, [v[0], v[1], v[2]]);
                    let rgb = [byte(bytes, r), byte(bytes, g), byte(bytes, b)];
                    rgba.extend_from_slice(&[rgb[0], rgb[1], rgb[2], opacity(v)]);
                }
            }
            End::Engine(engine) => self.through_engine(engine.as_ref(), line, words, rgba)?,
            End::Ink => {
                for [cyan, magenta, yellow, black] in line.as_chunks::<4>().0 {
                    let light = |ink: f32| code((1.0 - ink) * (1.0 - black), 255.0) as u8;
                    rgba.extend_from_slice(&[
                        light(*cyan),
                        light(*magenta),
                        light(*yellow),
                        255,
                    ]);
                }
            }
        }
        Ok(())
    }

    fn through_engine(
        &self,
        engine: &Transform16BitExecutor,
        line: &[f32],
        words: &mut Vec<u16>,
        rgba: &mut Vec<u8>,
    ) -> Result<(), PictureError> {
        let n = self.linear_channels();
        let ink = self.channels == Channels::Cmyk;
        let pixels = line.len() / n;
        words.clear();
        for v in line.chunks_exact(n) {
            if ink {
                words.extend(v.iter().map(|&v| code(v, 65535.0) as u16));
            } else {
                let encode = |&v: &f32| code(v.max(0.0).powf(POWER.recip() as f32), 65535.0);
                words.extend(v.iter().take(3).map(|v| encode(v) as u16));
            }
        }
        let mut out = vec![0u16; pixels * 3];
        let crashed = |detail| PictureError::Crashed { detail };
        catch_unwind(AssertUnwindSafe(|| engine.transform(words, &mut out)))
            .map_err(|_| crashed("in the colour engine".into()))?
            .map_err(|e| crashed(e.to_string()))?;
        for (rgb, v) in out.as_chunks::<3>().0.iter().zip(line.chunks_exact(n)) {
            let [r, g, b] = rgb.map(|v| ((u32::from(v) + 128) / 257) as u8);
            rgba.extend_from_slice(&[r, g, b, if ink { 255 } else { opacity(v) }]);
        }
        Ok(())
    }
}

/// Adds the `light` of a row's pixels to the sums of squares of side `square`.
fn add_up<T: Copy>(
    row: &[T],
    square: usize,
    sums: &mut [f32],
    light: impl Fn([T; 3]) -> [f32; 3],
) {
    let (row, _) = row.as_chunks::<3>();
    let (sums, _) = sums.as_chunks_mut::<3>();
    // What pictures of 40 to 130 megapixels come to on a screen.
    let pairs = if square == 2 { row.as_chunks::<2>().0 } else { &[] };
    let (paired, others) = sums.split_at_mut(pairs.len().min(sums.len()));
    for ([v, w], sum) in pairs.iter().zip(paired) {
        let (v, w) = (light(*v), light(*w));
        *sum = [sum[0] + v[0] + w[0], sum[1] + v[1] + w[1], sum[2] + v[2] + w[2]];
    }
    for (block, sum) in row[pairs.len() * 2..].chunks(square).zip(others) {
        for v in block {
            let v = light(*v);
            *sum = [sum[0] + v[0], sum[1] + v[1], sum[2] + v[2]];
        }
    }
}

impl std::fmt::Debug for Painter {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Painter").field("channels", &self.channels).finish_non_exhaustive()
    }
}

fn opacity(v: &[f32]) -> u8 {
    v.get(3).map_or(255, |&a| code(a, 255.0) as u8)
}

fn apply(m: &[[f32; 3]; 3], v: [f32; 3]) -> [f32; 3] {
    m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

fn shaper_tables(
    codes: usize,
    curves: [&Option<ToneReprCurve>; 3],
) -> Result<[Table; 3], String> {
    let missing = "a tone curve is missing";
    let [red, green, blue] = curves.map(Option::as_ref);
    let (red, green, blue) = (red.ok_or(missing)?, green.ok_or(missing)?, blue.ok_or(missing)?);
    let r = curve_table(codes, red)?;
    let g = if green == red { r.clone() } else { curve_table(codes, green)? };
    let b = if blue == red { r.clone() } else { curve_table(codes, blue)? };
    Ok([r, g, b])
}

/// Writers round sRGB's own colorants differently; what differs by less is sRGB, and bytes are
/// to pass through it unchanged.
fn is_identity(matrix: &[[f32; 3]; 3]) -> bool {
    let rows = matrix.iter().enumerate();
    rows.flat_map(|(i, row)| row.iter().enumerate().map(move |(j, v)| (i == j, *v)))
        .all(|(diagonal, v)| (v - if diagonal { 1.0 } else { 0.0 }).abs() < 1e-3)
}

fn matrix_to_srgb(profile: &ColorProfile) -> Result<[[f32; 3]; 3], String> {
    let matrix = profile.transform_matrix(&ColorProfile::new_srgb()).v;
    let all = matrix.as_flattened();
    if all.iter().any(|v| !v.is_finite() || v.abs() > 100.0) || all.iter().all(|&v| v == 0.0) {
        return Err("its colorants make no sense".into());
    }
    Ok(matrix.map(|row| row.map(|v| v as f32)))
}

fn engine(
    profile: &ColorProfile,
    layout: Layout,
) -> Result<Arc<Transform16BitExecutor>, String> {
    let options = TransformOptions {
        rendering_intent: RenderingIntent::RelativeColorimetric,
        prefer_fixed_point: false,
        ..TransformOptions::default()
    };
    profile
        .create_transform_16bit(layout, &ColorProfile::new_srgb(), Layout::Rgb, options)
        .map_err(|e| e.to_string())
}

/// An RGB profile's colours as sRGB, one at a time: the same tables and matrix that previews
/// go through, without the last rounding to bytes.
#[derive(Debug)]
pub struct ToSrgb(Painter);

impl ToSrgb {
    /// Reads an RGB profile.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn new(profile: &[u8]) -> Result<Self, Finding> {
        Painter::with_profile(Channels::Rgb, 1 << 16, profile).map(Self)
    }

    /// The sRGB of the device colour `rgb` (each 0 to 1), not clipped; `None` for a profile
    /// with lookup tables.
    #[must_use]
    pub fn convert(&self, rgb: [u16; 3]) -> Option<[f64; 3]> {
        let [r, g, b] = &self.0.tables;
        let light = [r[usize::from(rgb[0])], g[usize::from(rgb[1])], b[usize::from(rgb[2])]];
        let light = match &self.0.end {
            End::Plain => light,
            End::Matrix(matrix) => apply(matrix, light),
            End::Engine(_) | End::Ink => return None,
        };
        Some(light.map(|v| srgb_from_linear(f64::from(v))))
    }
}
