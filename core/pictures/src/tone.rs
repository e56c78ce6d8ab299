//! Tone curves: codes to linear light and linear light to sRGB's bytes.
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "samples of 8 and 16 bits to and from f32, clamped first"
)]

use std::sync::{Arc, LazyLock};

use moxcms::ToneReprCurve;

/// sRGB's curve. Source: IEC 61966-2-1.
pub(crate) fn srgb_to_linear(v: f64) -> f64 {
    if v <= 0.040_45 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
}

/// sRGB's curve, the other way.
pub(crate) fn srgb_from_linear(v: f64) -> f64 {
    if v <= 0.003_130_8 { v * 12.92 } else { 1.055 * v.powf(1.0 / 2.4) - 0.055 }
}

/// The sRGB byte of linear light 0 to 1 in 65536 steps: at most 0.06 of a code apart.
pub(crate) static SRGB_BYTE: LazyLock<Vec<u8>> = LazyLock::new(|| {
    (0..=65535u32)
        .map(|i| (srgb_from_linear(f64::from(i) / 65535.0) * 255.0).round() as u8)
        .collect()
});

/// The sRGB byte of linear light, cut off at its ends.
pub(crate) fn srgb_byte(light: f64) -> u8 {
    (srgb_from_linear(light.clamp(0.0, 1.0)) * 255.0).round() as u8
}

/// Linear light for each code of one channel.
pub(crate) type Table = Arc<Vec<f32>>;

/// The light of each of `codes` codes under a curve from 0..1 to 0..1.
pub(crate) fn table(codes: usize, curve: impl Fn(f64) -> f64) -> Table {
    let last = (codes - 1) as f64;
    let light = |i| {
        let v = curve(i as f64 / last);
        if v.is_finite() { v.clamp(0.0, 1.0) as f32 } else { 0.0 }
    };
    Arc::new((0..codes).map(light).collect())
}

/// The same under a profile's curve.
pub(crate) fn curve_table(codes: usize, curve: &ToneReprCurve) -> Result<Table, String> {
    let evaluator = curve.make_linear_evaluator().map_err(|e| e.to_string())?;
    Ok(table(codes, |v| f64::from(evaluator.evaluate_value(v as f32))))
}

/// `v` as a whole code from 0 to `top`.
pub(crate) fn code(v: f32, top: f32) -> u32 {
    (v.clamp(0.0, 1.0) * top + 0.5) as u32
}

/// The sRGB byte of `light`, looked up in [`SRGB_BYTE`].
pub(crate) fn byte(table: &[u8], light: f32) -> u8 {
    table[(code(light, 65535.0) & 0xffff) as usize]
}
