//! Light that is lost: the shade in a window, the shadow under a board.

use egui::{Color32, Rect};
use sightedge_core::drawing::{Band, Shade, Shadow, srgb_from_linear};
use sightedge_core::geometry::Side;

use super::Brush;
use crate::window::canvas::lens::mm;

/// Black with the alpha that leaves `light` of what is under it, blended in gamma space.
fn dim(light: f32) -> Color32 {
    let kept = srgb_from_linear(light.clamp(0.0, 1.0));
    Color32::from_black_alpha(byte((1.0 - kept) * 255.0))
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a byte first"
)]
fn byte(value: f32) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}

impl Brush<'_> {
    pub(super) fn shade(&mut self, shade: &Shade) {
        let edge = self.pixels(shade.edge);
        for (side, band) in shade.bands.each() {
            let reach = mm(band.reach) * self.lens.scale * self.ppp;
            let across = match side {
                Side::Top | Side::Bottom => edge.height(),
                Side::Left | Side::Right => edge.width(),
            };
            if !(reach > 0.25 && band.strength > 0.0) {
                continue;
            }
            let steps = steps(reach);
            for step in 0..steps {
                let (near, far) = (share(step, steps), share(step + 1, steps));
                let (from, to) = ((near * reach).min(across), (far * reach).min(across));
                let tint = |at: f32| dim(band.light(f64::from(at) * band.reach.to_mm()));
                self.band(edge, side, (from, to), (tint(near), tint(far)));
            }
        }
    }

    /// A strip along the inside of one side of `edge`, from one distance to another.
    fn band(&mut self, edge: Rect, side: Side, at: (f32, f32), tints: (Color32, Color32)) {
        let (l, t, r, b) = (edge.left(), edge.top(), edge.right(), edge.bottom());
        let corners = match side {
            Side::Top => [(l, t + at.0), (r, t + at.0), (r, t + at.1), (l, t + at.1)],
            Side::Bottom => [(l, b - at.0), (r, b - at.0), (r, b - at.1), (l, b - at.1)],
            Side::Left => [(l + at.0, t), (l + at.0, b), (l + at.1, b), (l + at.1, t)],
            Side::Right => [(r - at.0, t), (r - at.0, b), (r - at.1, b), (r - at.1, t)],
        };
        self.quad(corners, [tints.0, tints.0, tints.1, tints.1]);
    }

    pub(super) fn shadow(&mut self, shadow: &Shadow) {
        let of = self.pixels(shadow.of);
        let reach = mm(shadow.band.reach) * self.lens.scale * self.ppp;
        if !(reach > 0.25 && of.width() > 0.0 && of.height() > 0.0) {
            return;
        }
        let across = ramp(of.left(), of.right(), reach, &shadow.band);
        let down = ramp(of.top(), of.bottom(), reach, &shadow.band);
        let first = u32::try_from(self.mesh.vertices.len()).unwrap_or(0);
        for (y, dark_y) in &down {
            for (x, dark_x) in &across {
                let at = self.point(*x, *y);
                self.mesh.colored_vertex(at, dim(1.0 - shadow.band.strength * dark_x * dark_y));
            }
        }
        let columns = u32::try_from(across.len()).unwrap_or(0);
        let rows = u32::try_from(down.len()).unwrap_or(0);
        for row in 0..rows.saturating_sub(1) {
            for column in 0..columns.saturating_sub(1) {
                let a = first + row * columns + column;
                self.mesh.add_triangle(a, a + 1, a + columns);
                self.mesh.add_triangle(a + 1, a + columns + 1, a + columns);
            }
        }
    }
}

/// Strips for a gradient of so many pixels.
fn steps(reach: f32) -> u8 {
    byte(reach / 1.5).clamp(3, 14)
}

fn share(step: u8, steps: u8) -> f32 {
    f32::from(step) / f32::from(steps.max(1))
}

/// Where a shadow's darkness changes along one direction, and how dark it is there.
fn ramp(from: f32, to: f32, reach: f32, band: &Band) -> Vec<(f32, f32)> {
    let count = steps(reach);
    let dark_at = |share: f32| band.dark(f64::from(share) * band.reach.to_mm());
    let mut stops = Vec::with_capacity(usize::from(count) * 2 + 2);
    for step in (0..=count).rev() {
        stops.push((from - share(step, count) * reach, dark_at(share(step, count))));
    }
    for step in 0..=count {
        stops.push((to + share(step, count) * reach, dark_at(share(step, count))));
    }
    stops
}
