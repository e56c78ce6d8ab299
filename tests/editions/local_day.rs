//! What the record takes for today.

use std::process::Command;

use super::bench;

/// Today in that time zone, as the system says.
fn today_in(zone: &str) -> String {
    let said = Command::new("date").arg("+%F").env("TZ", zone).output().unwrap();
    String::from_utf8(said.stdout).unwrap().trim().to_owned()
}

/// Whatever the hour in Greenwich, it is another day in one of these two places.
///
/// Source: POSIX.1-2024, `TZ` and `date`; the IANA time zone database.
#[test]
fn today_is_the_day_where_the_person_is() {
    for zone in ["Etc/GMT+12", "Pacific/Kiritimati"] {
        let bench = bench(&format!("day-in-{}", zone.replace(['/', '+'], "-")));
        let before = today_in(zone);
        let said = Command::new(env!("CARGO_BIN_EXE_as_a_process"))
            .args(["edition", "new", "--title", "Weir", "--size", "5", "--record"])
            .arg(bench.path("studio"))
            .env("TZ", zone)
            .output()
            .unwrap();
        assert!(said.status.success(), "{said:?}");
        // Midnight may have passed meanwhile.
        let days = [before, today_in(zone)];
        let told = bench.json("edition list W0001 --history --json --record @studio").unwrap();
        let noted = told[0]["at"].as_str().unwrap();
        assert!(days.iter().any(|day| day == noted), "{zone}: {noted}, and it is {days:?}");
        let backup = |day: &String| bench.path(&format!("studio/backups/studio-{day}.sqlite"));
        assert!(days.iter().any(|day| backup(day).exists()), "{zone}: {days:?}");
    }
}
