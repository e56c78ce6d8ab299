//! Paper sizes and dates, as arguments.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use sightedge_core::length::Unit;

/// What is printed on.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Paper {
    /// 210 × 297 mm. Source: ISO 216.
    A4,
    /// 8 1/2 × 11 in.
    Letter,
}

impl Paper {
    /// What is usual where that unit is.
    pub const fn usual(unit: Unit) -> Self {
        match unit {
            Unit::Inch => Self::Letter,
            Unit::Millimetre => Self::A4,
        }
    }

    /// What it is measured in.
    pub const fn unit(self) -> Unit {
        match self {
            Self::A4 => Unit::Millimetre,
            Self::Letter => Unit::Inch,
        }
    }

    /// Width and height in millimetres, upright.
    pub const fn size(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::Letter => [215.9, 279.4],
        }
    }
}

/// A day, as it is handed in; nothing here looks at a clock.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// A day of the Gregorian calendar; `None` where there is none.
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap =
            (year.is_multiple_of(4) && !year.is_multiple_of(100)) || year.is_multiple_of(400);
        let days = match month {
            4 | 6 | 9 | 11 => 30,
            2 => 28 + u8::from(leap),
            1..=12 => 31,
            _ => return None,
        };
        let made = (1..=9999).contains(&year) && (1..=days).contains(&day);
        made.then_some(Self { year, month, day })
    }

    /// So many days after the first of 1970. Source: the civil calendar in days, by years that
    /// begin in March (Hinnant, *chrono-Compatible Low-Level Date Algorithms*, 2014).
    pub fn after_1970(days: u64) -> Option<Self> {
        let days = days.checked_add(719_468)?;
        let (era, day) = (days / 146_097, days % 146_097);
        let year = (day - day / 1_460 + day / 36_524 - day / 146_096) / 365;
        let in_year = day - (365 * year + year / 4 - year / 100);
        let month = (5 * in_year + 2) / 153;
        let day = in_year - (153 * month + 2) / 5 + 1;
        let (month, later) = if month < 10 { (month + 3, 0) } else { (month - 9, 1) };
        Self::new(
            u16::try_from(era * 400 + year + later).ok()?,
            u8::try_from(month).ok()?,
            u8::try_from(day).ok()?,
        )
    }

    /// Year, month and day.
    pub(crate) const fn parts(self) -> (u16, u8, u8) {
        (self.year, self.month, self.day)
    }
}

impl fmt::Display for Date {
    /// ISO 8601.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// Why a text is no day.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct DateError(String);

impl fmt::Display for DateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "\"{}\" is not a day: try one like 2026-03-01", self.0)
    }
}

impl std::error::Error for DateError {}

impl FromStr for Date {
    type Err = DateError;

    /// Reads `2026-03-01`, or the day of `2026-03-01T14:30:00Z`.
    fn from_str(text: &str) -> Result<Self, DateError> {
        let day = text.split(['T', ' ']).next().unwrap_or_default();
        let mut parts = day.split('-');
        let mut part = |digits: usize| {
            parts.next().filter(|part| {
                part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit())
            })
        };
        let read = (|| {
            let (year, month, day) = (part(4)?, part(2)?, part(2)?);
            Self::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
        })();
        read.filter(|_| parts.next().is_none()).ok_or_else(|| DateError(text.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: IEEE Std 1003.1, seconds since the Epoch, from `date -u -d @…`.
    #[test]
    fn days_after_1970() {
        for (days, wanted) in [
            (0, "1970-01-01"),
            (11_016, "2000-02-29"),
            (20_513, "2026-03-01"),
            (19_723, "2024-01-01"),
        ] {
            assert_eq!(Date::after_1970(days).map(|d| d.to_string()), Some(wanted.to_owned()));
        }
    }

    #[test]
    fn days() {
        for text in ["2026-03-01", "2024-02-29", "2000-02-29", "2026-03-01T14:30:00Z"] {
            let read: Date = text.parse().unwrap();
            assert_eq!(read.to_string(), text[..10]);
        }
        for text in ["2026-02-29", "1900-02-29", "2026-13-01", "26-03-01", "2026-3-1", "", "x"]
        {
            let error = Date::from_str(text).unwrap_err();
            let words = format!("\"{text}\" is not a day: try one like 2026-03-01");
            assert_eq!(error.to_string(), words);
        }
    }
}
