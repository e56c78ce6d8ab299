//! What day it is where the person is: what is sold in the evening is sold that day, wherever on
//! earth. Core's [`Date`] is the calendar; the clock and the time zone are here.

use std::time::SystemTime;

use jiff::Timestamp;
use jiff::tz::TimeZone;
use sightedge_core::date::Date;

/// Today, in this system's time zone.
pub fn today() -> Date {
    // A clock that stands beyond the calendar shows no day that means anything.
    day_of(SystemTime::now()).unwrap_or(Date::FIRST_OF_1970)
}

/// The day of a time, in this system's time zone; `None` for a time beyond the calendar.
pub fn day_of(time: SystemTime) -> Option<Date> {
    day_in(time, &TimeZone::system())
}

fn day_in(time: SystemTime, zone: &TimeZone) -> Option<Date> {
    let time = Timestamp::try_from(time).ok()?;
    Date::of(zone.to_datetime(time).date())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    /// Source: the IANA time zone database, by `TZ=… date -d @…` of GNU coreutils.
    #[test]
    fn the_day_is_that_of_the_place() {
        #[track_caller]
        fn case(seconds: u64, zone: &str, wanted: &str) {
            let time = SystemTime::UNIX_EPOCH + Duration::from_secs(seconds);
            let day = day_in(time, &TimeZone::get(zone).unwrap());
            assert_eq!(day.map(|day| day.to_string()), Some(wanted.to_owned()), "{zone}");
        }
        // 2026-03-02 04:30 in UTC: the evening before in America.
        case(1_772_425_800, "America/Los_Angeles", "2026-03-01");
        case(1_772_425_800, "UTC", "2026-03-02");
        case(1_772_425_800, "Asia/Tokyo", "2026-03-02");
        // Both sides of midnight, and of a night when the clocks change.
        case(1_772_438_399, "America/Los_Angeles", "2026-03-01");
        case(1_772_438_400, "America/Los_Angeles", "2026-03-02");
        case(1_772_953_199, "America/Los_Angeles", "2026-03-07");
        case(1_773_039_599, "America/Los_Angeles", "2026-03-08");
        case(1_773_039_600, "America/Los_Angeles", "2026-03-09");
        // Already tomorrow, at noon.
        case(1_772_447_400, "Pacific/Kiritimati", "2026-03-03");
    }

    #[test]
    fn a_clock_that_stands_wrong() {
        let before = SystemTime::UNIX_EPOCH - Duration::from_secs(1);
        let day = day_in(before, &TimeZone::UTC).map(|day| day.to_string());
        assert_eq!(day.as_deref(), Some("1969-12-31"));
        let far = SystemTime::UNIX_EPOCH.checked_add(Duration::from_secs(1 << 40));
        assert_eq!(far.and_then(|far| day_in(far, &TimeZone::UTC)), None);
    }
}
