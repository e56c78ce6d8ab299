//! The day, as it is written into a plan's log and on papers.

use std::time::SystemTime;

use sightedge_papers::Date;

/// Today in UTC, as in `2026-03-02`. A clock that stands before 1970 is taken to stand there.
pub fn today() -> String {
    day_of(SystemTime::now())
}

/// The day of a time in UTC, as in `2026-03-02`; one before 1970 is taken as the first of 1970.
pub fn day_of(time: SystemTime) -> String {
    let since = time.duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    let days = i64::try_from(since.as_secs() / 86_400).unwrap_or(0);
    let (year, month, day) = civil(days);
    format!("{year:04}-{month:02}-{day:02}")
}

/// Today in UTC, as papers are dated; `None` where the clock stands before 1970.
pub fn day() -> Option<Date> {
    let since = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).ok()?;
    Date::after_1970(since.as_secs() / 86_400)
}

/// Year, month and day of so many days after 1970-01-01 in the proleptic Gregorian calendar.
fn civil(days: i64) -> (i64, i64, i64) {
    // Counted from the first of March of year 0, so that a leap day ends its year.
    let days = days + 719_468;
    let (era, day_of_era) = (days.div_euclid(146_097), days.rem_euclid(146_097));
    let year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let from_march = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 { from_march + 3 } else { from_march - 9 };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    (year, month, day)
}

#[cfg(test)]
mod tests {
    use super::civil;

    /// Source: POSIX.1-2017, seconds since the epoch: day 0 is 1970-01-01; ISO 8601 calendar.
    #[test]
    fn days() {
        #[track_caller]
        fn case(days: i64, wanted: (i64, i64, i64)) {
            assert_eq!(civil(days), wanted);
        }
        case(0, (1970, 1, 1));
        case(-1, (1969, 12, 31));
        case(11_016, (2000, 2, 29));
        case(11_017, (2000, 3, 1));
        case(20_454, (2026, 1, 1));
        case(47_541, (2100, 3, 1));
        case(47_540, (2100, 2, 28));
    }
}
