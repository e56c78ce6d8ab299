//! Exact fractions for the arithmetic of what people type.

/// `over / under` to the nearest whole, halves away from zero, held within an `i64`.
pub(super) fn round(over: i128, under: i128) -> i64 {
    let (over, under) = if under < 0 { (-over, -under) } else { (over, under) };
    let half = under / 2;
    let whole = if over >= 0 { (over + half) / under } else { (over - half) / under };
    i64::try_from(whole).unwrap_or(if whole < 0 { i64::MIN } else { i64::MAX })
}

/// A fraction in lowest terms, its denominator above zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Ratio {
    pub(super) over: i128,
    pub(super) under: i128,
}

/// Beyond this a number is no measure of anything on a bench, and products stay in an `i128`.
const MOST: i128 = 1 << 60;

impl Ratio {
    pub(super) const ZERO: Self = Self { over: 0, under: 1 };

    /// Lowest terms; `None` for a zero denominator or numbers out of all measure.
    pub(super) fn new(over: i128, under: i128) -> Option<Self> {
        if under == 0 {
            return None;
        }
        let divisor = gcd(over.unsigned_abs(), under.unsigned_abs());
        let divisor = i128::try_from(divisor).ok()?.max(1) * under.signum();
        let made = Self { over: over / divisor, under: under / divisor };
        (made.over.abs() <= MOST && made.under <= MOST).then_some(made)
    }

    pub(super) fn whole(n: i128) -> Option<Self> {
        Self::new(n, 1)
    }

    pub(super) fn plus(self, other: Self) -> Option<Self> {
        Self::new(
            self.over
                .checked_mul(other.under)?
                .checked_add(other.over.checked_mul(self.under)?)?,
            self.under.checked_mul(other.under)?,
        )
    }

    pub(super) fn times(self, other: Self) -> Option<Self> {
        Self::new(self.over.checked_mul(other.over)?, self.under.checked_mul(other.under)?)
    }

    pub(super) fn divided_by(self, other: Self) -> Option<Self> {
        Self::new(self.over.checked_mul(other.under)?, self.under.checked_mul(other.over)?)
    }

    pub(super) fn negated(self) -> Self {
        Self { over: -self.over, under: self.under }
    }

    pub(super) fn is_zero(self) -> bool {
        self.over == 0
    }
}

fn gcd(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
