//! How large a pixel of a monitor is: what the monitor reports, or what a thing of known size
//! laid on it shows.

use serde::{Deserialize, Serialize};

/// A thing of known size to lay on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Thing {
    /// A bank card. Source: ISO/IEC 7810, ID-1.
    Card,
    /// A sheet of A4, its long side across. Source: ISO 216.
    A4,
    /// A sheet of US Letter, its long side across. Source: ANSI/ASME Y14.1, size A.
    Letter,
    /// A ruler in millimetres, of which 150 mm are used.
    RulerMm,
    /// A ruler in inches, of which 6 in are used.
    RulerInches,
}

impl Thing {
    /// In the order in which they are offered.
    pub const ALL: [Self; 5] =
        [Self::Card, Self::A4, Self::Letter, Self::RulerMm, Self::RulerInches];

    /// What is laid on the screen, as a button says it.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Card => "Bank card",
            Self::A4 => "A4 sheet",
            Self::Letter => "Letter sheet",
            Self::RulerMm => "Ruler, 150 mm",
            Self::RulerInches => "Ruler, 6 in",
        }
    }

    /// The same in the middle of a sentence, after "a".
    pub const fn name(self) -> &'static str {
        match self {
            Self::Card => "bank card",
            Self::A4 => "sheet of A4",
            Self::Letter => "sheet of US Letter",
            Self::RulerMm | Self::RulerInches => "ruler",
        }
    }

    /// Its width and height as it is laid, in millimetres; a ruler's height is only drawn.
    pub const fn mm(self) -> (f64, f64) {
        match self {
            Self::Card => (85.60, 53.98),
            Self::A4 => (297.0, 210.0),
            Self::Letter => (279.4, 215.9),
            Self::RulerMm => (150.0, 30.0),
            Self::RulerInches => (152.4, 30.0),
        }
    }

    /// What to do with it.
    pub const fn advice(self) -> &'static str {
        match self {
            Self::Card => "Hold any bank card on the shape, its long side across.",
            Self::A4 => {
                "Hold a sheet of A4 on the shape, its long side across. Only that side counts."
            }
            Self::Letter => {
                "Hold a sheet of US Letter on the shape, its long side across. Only that side counts."
            }
            Self::RulerMm => {
                "Hold a ruler along the shape: its 0 at the left edge, 150 mm at the right."
            }
            Self::RulerInches => {
                "Hold a ruler along the shape: its 0 at the left edge, 6 in at the right."
            }
        }
    }
}

/// What the hand and the eye leave open at each edge, in millimetres: one looks past the
/// edge of a thing through the glass of the screen. An assumption of ours, not a standard's.
pub const HAND: f64 = 0.25;

/// The size of a monitor's pixels as a person measured it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measured {
    /// What was laid on the screen.
    pub thing: Thing,
    /// How many pixels wide it was.
    pub wide: f64,
    /// The pixels that the monitor had across at that time: it may be set to others later.
    pub across: u32,
}

impl Measured {
    /// Pixels a millimetre of a monitor that has `across` pixels now.
    pub fn per_mm(self, across: u32) -> f64 {
        let then = f64::from(self.across.max(1));
        self.wide / self.thing.mm().0 * f64::from(across.max(1)) / then
    }

    /// How far off it may be, in per cent up or down: half a pixel and [`HAND`] at each edge.
    pub fn error(self) -> f64 {
        let mm = self.thing.mm().0;
        let pixel = mm / self.wide.max(1.0);
        100.0 * (2.0 * (0.5 * pixel + HAND)) / mm
    }
}

/// Pixels a millimetre that a screen can have: from a wall of lamps to a telephone.
const SENSIBLE: std::ops::RangeInclusive<f64> = 0.5..=40.0;

/// Pixels a millimetre by the size that a monitor reports; `None` where that makes no sense.
pub(super) fn reported(pixels: (u32, u32), mm: (u32, u32)) -> Option<f64> {
    /// Pixels are square: what differs by more across and down was made up.
    const SQUARE: f64 = 0.04;
    // A monitor that stands on its side may still report its size as it lies.
    let turned = (pixels.0 > pixels.1) != (mm.0 > mm.1);
    let (width, height) = if turned { (mm.1, mm.0) } else { mm };
    if width == 0 || height == 0 {
        return None;
    }
    let across = f64::from(pixels.0) / f64::from(width);
    let down = f64::from(pixels.1) / f64::from(height);
    let per_mm = f64::midpoint(across, down);
    let square = (across / down - 1.0).abs() <= SQUARE;
    (square && SENSIBLE.contains(&per_mm)).then_some(per_mm)
}

/// The widths in pixels that a thing on a screen can have.
pub fn widths(thing: Thing) -> std::ops::RangeInclusive<f64> {
    let mm = thing.mm().0;
    SENSIBLE.start() * mm..=SENSIBLE.end() * mm
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: ISO/IEC 7810 (ID-1: 85.60 by 53.98 mm), ISO 216 (A4: 210 by 297 mm; its sides
    /// are as 1 to the root of 2, rounded to whole millimetres), ANSI/ASME Y14.1 (A: 8.5 by 11
    /// inches).
    #[test]
    fn things_have_their_published_sizes() {
        assert_eq!(Thing::Card.mm(), (85.60, 53.98));
        let (long, short) = Thing::A4.mm();
        assert_eq!((long, short), (297.0, 210.0));
        assert!((long / short - 2_f64.sqrt()).abs() < 0.001);
        let (long, short) = Thing::Letter.mm();
        assert!((long - 11.0 * 25.4).abs() < 1e-9 && (short - 8.5 * 25.4).abs() < 1e-9);
    }

    #[test]
    fn a_card_of_342_pixels_is_a_screen_of_101_dpi() {
        let measured = Measured { thing: Thing::Card, wide: 342.4, across: 1920 };
        assert!((measured.per_mm(1920) - 4.0).abs() < 1e-9);
        // Half as many pixels on the same glass are twice as large.
        assert!((measured.per_mm(960) - 2.0).abs() < 1e-9);
        // A pixel of 0.25 mm, half of it and 0.25 mm at both edges, on 85.6 mm: 0.75 of 85.6.
        assert!((measured.error() - 75.0 / 85.6).abs() < 1e-9, "{}", measured.error());
        // A longer thing leaves less open.
        let sheet = Measured { thing: Thing::A4, wide: 1188.0, across: 1920 };
        assert!((sheet.error() - 75.0 / 297.0).abs() < 1e-9, "{}", sheet.error());
    }

    #[test]
    fn a_size_that_a_monitor_reports_is_used_where_it_makes_sense() {
        let close = |pixels, mm, wanted: f64| {
            let got = reported(pixels, mm).unwrap();
            assert!((got - wanted).abs() < 0.01, "{got}");
        };
        close((2560, 1440), (597, 336), 4.287);
        close((1080, 1920), (531, 299), 3.614);
        close((1080, 1920), (299, 531), 3.614);
        assert_eq!(reported((1920, 1080), (0, 0)), None, "a projector");
        assert_eq!(reported((1920, 1080), (160, 90)), Some(12.0));
        assert_eq!(reported((1920, 1080), (16, 9)), None, "only its shape");
        assert_eq!(reported((1920, 1200), (700, 390)), None, "another shape than its pixels");
    }
}
