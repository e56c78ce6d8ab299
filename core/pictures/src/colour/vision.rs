//! How a colour-blind person sees a whole frame.

use serde::{Deserialize, Serialize};

use super::lab::linear;
use crate::tone::srgb_byte;

/// A kind of colour vision.
///
/// Source of the matrices: Machado, Oliveira, Fernandes, "A Physiologically-based Model for
/// Simulation of Color Vision Deficiency", IEEE TVCG 15 (2009), severity 1.0, applied to linear
/// sRGB (values from memory; each row adds up to 1).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Vision {
    /// No long-wave cones.
    Protan,
    /// No middle-wave cones.
    Deutan,
    /// No short-wave cones.
    Tritan,
}

impl Vision {
    /// What linear sRGB is multiplied by, row by row.
    #[must_use]
    pub const fn matrix(self) -> [[f64; 3]; 3] {
        match self {
            Self::Protan => [
                [0.152_286, 1.052_583, -0.204_868],
                [0.114_503, 0.786_281, 0.099_216],
                [-0.003_882, -0.048_116, 1.051_998],
            ],
            Self::Deutan => [
                [0.367_322, 0.860_646, -0.227_968],
                [0.280_085, 0.672_501, 0.047_413],
                [-0.011_820, 0.042_940, 0.968_881],
            ],
            Self::Tritan => [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        }
    }

    /// One sRGB colour as seen.
    #[must_use]
    pub fn see(self, rgb: [u8; 3]) -> [u8; 3] {
        let light = linear(rgb);
        self.matrix()
            .map(|row| srgb_byte(row[0] * light[0] + row[1] * light[1] + row[2] * light[2]))
    }
}

/// Changes a frame of RGBA pixels into what `vision` sees; opacity stays.
pub fn simulate(rgba: &mut [u8], vision: Vision) {
    let mut last = ([0, 0, 0], vision.see([0, 0, 0]));
    for [r, g, b, _] in rgba.as_chunks_mut::<4>().0 {
        // Frames are mostly flat: the colour before is often the same.
        let rgb = [*r, *g, *b];
        if last.0 != rgb {
            last = (rgb, vision.see(rgb));
        }
        [*r, *g, *b] = last.1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Vision; 3] = [Vision::Protan, Vision::Deutan, Vision::Tritan];

    #[test]
    fn greys_stay_grey() {
        for vision in ALL {
            for v in [0, 1, 60, 128, 200, 255] {
                let seen = vision.see([v; 3]);
                let off = seen.iter().map(|s| s.abs_diff(v)).max();
                assert!(off <= Some(1), "{vision:?} sees {v} as {seen:?}");
            }
        }
    }

    #[test]
    fn red_and_green_come_closer_blue_and_yellow_do_not() {
        use super::super::{Lab, delta_e_2000};
        let apart = |a, b, vision: Option<Vision>| {
            let see = |c| Lab::from_srgb(vision.map_or(c, |v| v.see(c)));
            delta_e_2000(see(a), see(b))
        };
        let (red, green) = ([200, 60, 40], [110, 130, 40]);
        let (blue, yellow) = ([40, 70, 200], [220, 200, 60]);
        for vision in [Vision::Protan, Vision::Deutan] {
            let seen = apart(red, green, Some(vision));
            let normal = apart(red, green, None);
            assert!(seen < 0.7 * normal, "{vision:?}: {seen} of {normal}");
            let seen = apart(blue, yellow, Some(vision));
            assert!(seen > 40.0, "{vision:?} keeps blue and yellow apart: {seen}");
        }
    }

    #[test]
    fn a_frame_changes_as_its_pixels_do() {
        let mut frame = vec![10, 200, 30, 77, 10, 200, 30, 255, 250, 0, 0, 0];
        simulate(&mut frame, Vision::Deutan);
        let [r, g, b] = Vision::Deutan.see([10, 200, 30]);
        assert_eq!(frame[..8], [r, g, b, 77, r, g, b, 255], "colours seen, opacity kept");
    }
}
