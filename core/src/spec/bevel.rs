//! How the window's edge is cut, and how far the cut runs across the board.

use crate::length::Length;

/// The cut of a window's edge.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Bevel {
    /// Cut from the back: the core shows as a sloping edge round the window.
    Open(Angle),
    /// Cut square through the board.
    Straight,
    /// Cut from the face: the core is hidden behind the face's edge.
    Reverse(Angle),
}

/// A bevel's angle with the board's face, in tenths of a degree.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Angle(u16);

impl Angle {
    /// The usual bevel, 45 degrees: it shows as wide as the board is thick (common practice).
    pub const USUAL: Self = Self(450);

    /// From tenths of a degree; `None` unless between 30 and 89 degrees, which is what
    /// cutter heads offer.
    pub fn from_tenths(tenths: u16) -> Option<Self> {
        (300..=890).contains(&tenths).then_some(Self(tenths))
    }

    /// In tenths of a degree.
    pub const fn tenths(self) -> u16 {
        self.0
    }

    /// How far a cut at this angle runs across a board of that thickness:
    /// thickness / tan(angle), to the nearest unit. In whole numbers, so that every machine
    /// gives the same figure.
    pub fn run(self, thickness: Length) -> Length {
        if self == Self::USUAL {
            return thickness;
        }
        let (sine, cosine) = sine_and_cosine(self.0);
        thickness.scaled(cosine, sine)
    }
}

impl Bevel {
    /// The run of the cut across a board of that thickness, seen or not.
    pub fn run(self, thickness: Length) -> Length {
        match self {
            Self::Open(angle) | Self::Reverse(angle) => angle.run(thickness),
            Self::Straight => Length::ZERO,
        }
    }

    /// Whether it is cut with the face up.
    pub const fn from_the_face(self) -> bool {
        matches!(self, Self::Reverse(_))
    }

    /// What it is called, with the blade's angle: `reverse bevel 45°`.
    pub fn name(self) -> String {
        let degrees = |Angle(tenths): Angle| match tenths % 10 {
            0 => format!("{}°", tenths / 10),
            rest => format!("{}.{rest}°", tenths / 10),
        };
        match self {
            Self::Open(angle) => format!("bevel {}", degrees(angle)),
            Self::Straight => "straight, 90°".to_owned(),
            Self::Reverse(angle) => format!("reverse bevel {}", degrees(angle)),
        }
    }

    /// How much of the cut is seen from the front.
    pub fn shown(self, thickness: Length) -> Length {
        match self {
            Self::Open(angle) => angle.run(thickness),
            Self::Straight | Self::Reverse(_) => Length::ZERO,
        }
    }
}

impl Default for Bevel {
    fn default() -> Self {
        Self::Open(Angle::USUAL)
    }
}

/// Sine and cosine by their power series, both scaled by 2^56.
fn sine_and_cosine(tenths: u16) -> (i128, i128) {
    const ONE: i128 = 1 << 56;
    /// π scaled by 2^56.
    const PI: i128 = 226_375_608_064_910_089;
    let angle = PI * i128::from(tenths) / 1800;
    let (mut sine, mut cosine) = (0, 0);
    let mut term = ONE;
    for n in 0..24_i128 {
        match n % 4 {
            0 => cosine += term,
            1 => sine += term,
            2 => cosine -= term,
            _ => sine -= term,
        }
        term = term * angle / ONE / (n + 1);
    }
    (sine, cosine)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the tangents of 30, 60 and 52 degrees from any table of functions.
    #[test]
    fn runs() {
        let board = Length::inch_1000ths(60);
        let run = |tenths| Angle::from_tenths(tenths).map(|angle| angle.run(board).to_inches());
        assert_eq!(run(450), Some(0.06));
        for (tenths, cotangent) in [(300, 1.732_050_8), (600, 0.577_350_27), (520, 0.781_285_6)]
        {
            let off = run(tenths).map(|run| (run - 0.06 * cotangent).abs());
            assert!(off.is_some_and(|off| off < 1e-7), "{tenths}: {off:?}");
        }
        assert_eq!(run(299), None);
        assert_eq!(run(891), None);
        assert_eq!(Bevel::Straight.run(board), Length::ZERO);
        assert_eq!(Bevel::Reverse(Angle::USUAL).shown(board), Length::ZERO);
    }
}
