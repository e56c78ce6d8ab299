//! Records of other versions and of other programs; the backups of a day.

use rusqlite::Connection;
use sightedge_studio::{BACKUPS, Error, FILE, backups, open};
use tempfile::TempDir;

use super::support::{TODAY, edition, fresh, issue};

/// A record with a work that calls itself of `version`.
fn of_version(version: i64) -> TempDir {
    let (folder, mut opened) = fresh();
    edition(opened.record(), 5);
    drop(opened);
    let conn = Connection::open(folder.path().join(FILE)).unwrap();
    conn.pragma_update(None, "user_version", version).unwrap();
    conn.pragma_update(None, "journal_mode", "DELETE").unwrap();
    folder
}

/// It is refused with an error for which `is` holds, in these words, and nothing is written.
#[track_caller]
fn left_alone(folder: &TempDir, is: impl FnOnce(&Error) -> bool, words: &str) {
    let file = folder.path().join(FILE);
    let before = std::fs::read(&file).unwrap();
    let refused = open(folder.path(), TODAY).unwrap_err();
    assert!(is(&refused), "{refused:?}");
    assert!(refused.to_string().contains(words), "{refused}");
    let after = std::fs::read(&file).unwrap();
    assert!(before[100..] == after[100..], "nothing but the log's mark in the head changed");
    assert!(!folder.path().join(BACKUPS).exists());
}

#[test]
fn a_newer_version_is_left_alone() {
    left_alone(
        &of_version(99),
        |error| matches!(error, Error::Newer { found: 99, .. }),
        "has version 99 of the record's format, and this program reads up to 6",
    );
}

#[test]
fn a_version_that_was_never_released_is_left_alone() {
    for version in 1..5 {
        left_alone(
            &of_version(version),
            |error| matches!(error, Error::NeverReleased { found, .. } if *found == version),
            &format!(
                "studio.sqlite was saved by version {version} of the record's format, which was \
                 never released; this program reads versions 5 to 6. Export it with the program that \
                 wrote it (sightedge edition export) and import that here into a new folder \
                 (sightedge edition import), or begin a new record there. Nothing was changed"
            ),
        );
    }
}

#[test]
fn another_programs_file_is_left_alone() {
    let folder = TempDir::new().unwrap();
    let conn = Connection::open(folder.path().join(FILE)).unwrap();
    conn.execute_batch("CREATE TABLE mine (x)").unwrap();
    drop(conn);
    let refused = open(folder.path(), TODAY).unwrap_err().to_string();
    assert!(refused.contains("it is a database of another program"), "{refused}");
}

#[test]
fn a_days_backup_is_made_once() {
    let (folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 5);
    let made = opened.back_up(TODAY).unwrap().unwrap();
    assert_eq!(opened.back_up(TODAY).unwrap(), None);
    // What was written since the day's first one is in one that takes its place.
    let before = sightedge_studio::contents(&made).unwrap();
    let what = sightedge_studio::NewWork { title: "Since".to_owned(), ..Default::default() };
    opened.record().add_work(&what, None, &sightedge_studio::Note::at(TODAY)).unwrap();
    let hour = std::time::Duration::from_hours(1);
    assert_eq!(opened.back_up_anew(TODAY, hour).unwrap(), None, "it is fresh");
    let again = opened.back_up_anew(TODAY, std::time::Duration::ZERO).unwrap().unwrap();
    assert_eq!(again, made);
    let after = sightedge_studio::contents(&made).unwrap();
    assert_eq!(after.works, before.works + 1);
    issue(opened.record(), of);
    opened.back_up("2025-12-01").unwrap().unwrap();
    let days: Vec<String> = backups(folder.path()).into_iter().map(|one| one.day).collect();
    assert_eq!(days, [TODAY, "2025-12-01"]);
    let conn = Connection::open(made).unwrap();
    let count: i64 =
        conn.query_row("SELECT count(*) FROM print", [], |row| row.get(0)).unwrap();
    assert_eq!(count, 0, "as it was on that day");
    assert!(opened.back_up("../../x").is_err());
}
