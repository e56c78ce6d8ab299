//! A length, exact: whole numbers of 1/720 µm.
//!
//! In that unit 1 mm, 1/128 in, 0.001 in and a PDF point are all whole numbers, and halving
//! a border given in 64ths of an inch stays exact. Floats appear only in
//! [`Length::to_mm`] and [`Length::to_inches`], for screens and writers.

mod parse;
mod print;
mod ratio;
mod signs;
mod typeset;

pub use parse::{LengthError, first_unit, parse, parse_list, parse_pair};
pub use print::{Round, Style, Written};
pub use typeset::typeset;

use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub, SubAssign};

/// A length: a whole number of 1/720 µm.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

/// The unit a person works in.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub enum Unit {
    /// Inches and their fractions.
    #[default]
    Inch,
    /// Millimetres.
    Millimetre,
}

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);
    /// One millimetre.
    pub const MM: Self = Self(720_000);
    /// One inch, 25.4 mm by definition (international yard and pound agreement, 1959).
    pub const INCH: Self = Self(18_288_000);
    /// The longest length read from what people type or open: one kilometre.
    pub const MOST: Self = Self(720_000_000_000);

    /// Whole units of 1/720 µm.
    pub const fn from_units(units: i64) -> Self {
        Self(units)
    }

    /// This length in units of 1/720 µm.
    pub const fn units(self) -> i64 {
        self.0
    }

    /// Whole millimetres.
    pub const fn mm(n: i64) -> Self {
        Self(n * 720_000)
    }

    /// Whole micrometres.
    pub const fn um(n: i64) -> Self {
        Self(n * 720)
    }

    /// Whole 128ths of an inch.
    pub const fn inch_128ths(n: i64) -> Self {
        Self(n * 142_875)
    }

    /// Whole thousandths of an inch.
    pub const fn inch_1000ths(n: i64) -> Self {
        Self(n * 18_288)
    }

    /// `whole` inches and `over`/`under`; `under` one of 1 to 128 in powers of two.
    pub const fn inches(whole: i64, over: i64, under: i64) -> Self {
        Self(whole * 18_288_000 + over * (18_288_000 / under))
    }

    /// Two parts that add up to `self` again; the first is never the longer one.
    pub const fn halves(self) -> (Self, Self) {
        let first = self.0.div_euclid(2);
        (Self(first), Self(self.0 - first))
    }

    /// The length without its sign.
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// Less than nothing.
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// More than nothing.
    pub const fn is_positive(self) -> bool {
        self.0 > 0
    }

    /// `self` times `over / under`, to the nearest unit, halves away from zero.
    /// `under` of zero gives `self`: a layout is total, a rule judges the nonsense.
    pub fn scaled(self, over: i128, under: i128) -> Self {
        if under == 0 {
            return self;
        }
        Self(ratio::round(i128::from(self.0) * over, under))
    }

    /// The largest multiple of `step` that is not longer than `self`.
    pub const fn floor_to(self, step: Self) -> Self {
        if step.0 <= 0 { self } else { Self(self.0.div_euclid(step.0) * step.0) }
    }

    /// The smallest multiple of `step` that is not shorter than `self`.
    pub const fn ceil_to(self, step: Self) -> Self {
        let down = self.floor_to(step);
        if down.0 == self.0 { self } else { Self(down.0 + step.0) }
    }

    /// The nearest multiple of `step`, halves upwards.
    pub const fn round_to(self, step: Self) -> Self {
        if step.0 <= 0 { self } else { Self((self.0 + step.0 / 2).div_euclid(step.0) * step.0) }
    }

    /// Whether `self` is a whole number of `step`s.
    pub const fn is_on(self, step: Self) -> bool {
        step.0 > 0 && self.0.rem_euclid(step.0) == 0
    }

    /// Millimetres, for screens and writers only.
    #[expect(
        clippy::as_conversions,
        clippy::cast_precision_loss,
        reason = "below 2^53 units, 12 km, exact"
    )]
    pub fn to_mm(self) -> f64 {
        self.0 as f64 / 720_000.0
    }

    /// Inches, for screens and writers only.
    #[expect(
        clippy::as_conversions,
        clippy::cast_precision_loss,
        reason = "below 2^53 units, 12 km, exact"
    )]
    pub fn to_inches(self) -> f64 {
        self.0 as f64 / 18_288_000.0
    }

    /// The nearest length to so many millimetres, from a screen; what is no number or out of
    /// all measure becomes the nearest of zero and ± one kilometre.
    #[expect(
        clippy::as_conversions,
        clippy::cast_possible_truncation,
        reason = "clamped to ± 1 km first; NaN gives 0"
    )]
    pub fn from_mm_nearest(mm: f64) -> Self {
        Self((mm * 720_000.0).round().clamp(-7.2e11, 7.2e11) as i64)
    }
}

impl std::fmt::Debug for Length {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} = {}", self.exact(Unit::Inch), self.exact(Unit::Millimetre))
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, times: i64) -> Self {
        Self(self.0 * times)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests;
