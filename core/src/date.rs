//! A day of the calendar. It comes in as an argument: nothing here looks at a clock, or asks where
//! on earth somebody is.

use std::fmt;
use std::str::FromStr;

use jiff::civil;

/// A day of the Gregorian calendar, of the years 1 to 9999.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Date(civil::Date);

impl Date {
    /// The day from which computers count.
    pub const FIRST_OF_1970: Self = Self(civil::date(1970, 1, 1));

    /// The day of that year, month and day of the month; `None` where there is none.
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let [month, day] = [month, day].map(i8::try_from);
        Self::of(civil::Date::new(i16::try_from(year).ok()?, month.ok()?, day.ok()?).ok()?)
    }

    /// The same day of `jiff`; `None` before the year 1.
    pub fn of(date: civil::Date) -> Option<Self> {
        (date.year() >= 1).then_some(Self(date))
    }

    /// Year, month and day of the month.
    pub fn parts(self) -> (u16, u8, u8) {
        let Self(date) = self;
        (date.year().unsigned_abs(), date.month().unsigned_abs(), date.day().unsigned_abs())
    }
}

impl fmt::Display for Date {
    /// ISO 8601: `2026-03-01`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.parts();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

/// Why a text is no day.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct DateError(String);

impl fmt::Display for DateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "\"{}\" is not a date: type it as 2026-03-01", self.0)
    }
}

impl std::error::Error for DateError {}

impl FromStr for Date {
    type Err = DateError;

    /// Reads `2026-03-01`, or the day of `2026-03-01T14:30:00Z`. A day is written in full:
    /// `jiff` would take other forms, too.
    fn from_str(text: &str) -> Result<Self, DateError> {
        let day = text.split(['T', ' ']).next().unwrap_or_default();
        let shaped = day.len() == 10
            && day.bytes().enumerate().all(|(at, byte)| match at {
                4 | 7 => byte == b'-',
                _ => byte.is_ascii_digit(),
            });
        let read = day.parse().ok().filter(|_| shaped).and_then(Self::of);
        read.ok_or_else(|| DateError(text.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: ISO 8601, the Gregorian calendar and its leap years.
    #[test]
    fn days() {
        for text in ["2026-03-01", "2024-02-29", "2000-02-29", "2026-03-01T14:30:00Z"] {
            let read: Date = text.parse().unwrap();
            assert_eq!(read.to_string(), text[..10]);
        }
        for text in [
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "26-03-01",
            "2026-3-1",
            "20260301",
            "2026-W09-7",
            "2026-060",
            "0000-01-01",
            "-001-01-01",
            "",
            "x",
        ] {
            let error = Date::from_str(text).unwrap_err();
            let words = format!("\"{text}\" is not a date: type it as 2026-03-01");
            assert_eq!(error.to_string(), words);
        }
        assert_eq!(Date::new(2026, 3, 1).map(|day| day.to_string()), "2026-03-01".parse().ok());
        for (year, month, day) in
            [(0, 1, 1), (10_000, 1, 1), (2026, 2, 29), (2026, 0, 1), (2026, 200, 1)]
        {
            assert_eq!(Date::new(year, month, day), None, "{year}-{month}-{day}");
        }
    }
}
