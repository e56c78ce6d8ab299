//! Records of every earlier version open, and mean what they meant.

use rusqlite::Connection;
use sightedge_studio::{BACKUPS, Error, FILE, VERSION, backups, exchange, open, schema_of};
use tempfile::TempDir;

use super::support::{TODAY, edition, fresh, issue};

/// What a program of version 1 wrote.
const OF_VERSION_1: &str = "
INSERT INTO setting VALUES ('proof_share', '10');
INSERT INTO work VALUES (1, 'W0001', 'Slack water', 'Ada Brook', 2021, 2025, 'pigment print',
    '', '', '', '', '2025-01-01', '');
INSERT INTO edition VALUES (1, 1, NULL, '', 25, 10, 2, 0, 0, 0, 1, '2025-01-01', '');
INSERT INTO print VALUES (1, 1, 'numbered', 1, 1, NULL, NULL, 'sold', '', '', '', '', '', 90000,
    'EUR', 'B.', '2025-01-02', '');
INSERT INTO print VALUES (2, 1, 'numbered', 2, 1, NULL, NULL, 'studio', '', '', '', '', '', NULL,
    '', '', '2025-01-03', '');
UPDATE print SET live = 0, state = 'voided', at = '2025-01-04', why = 'torn' WHERE id = 2;
";

fn older(version: i64, sql: &str) -> TempDir {
    let folder = TempDir::new().unwrap();
    let conn = Connection::open(folder.path().join(FILE)).unwrap();
    conn.execute_batch(&schema_of(version)).unwrap();
    conn.execute_batch(sql).unwrap();
    folder
}

fn version_of(folder: &TempDir) -> i64 {
    let conn = Connection::open(folder.path().join(FILE)).unwrap();
    conn.pragma_query_value(None, "user_version", |row| row.get(0)).unwrap()
}

#[test]
fn every_earlier_version_opens_and_means_the_same() {
    for version in 1..VERSION {
        let folder = older(version, OF_VERSION_1);
        assert_eq!(version_of(&folder), version);
        let mut opened = open(folder.path(), TODAY).unwrap();
        let dump = opened.read().dump().unwrap();
        assert_eq!(dump.works[0].what.title, "Slack water");
        assert_eq!(dump.prints[0].now.price.as_ref().unwrap().to_string(), "900.00 EUR");
        assert_eq!(dump.history.len(), 5);
        assert_eq!(opened.read().check().unwrap(), Vec::<String>::new());
        // It can do all that a new one can.
        let of = dump.editions[0].id;
        assert_eq!(issue(opened.record(), of).number, 2);
        drop(opened);
        assert_eq!(version_of(&folder), VERSION);
        let kept =
            folder.path().join(BACKUPS).join(format!("studio-{TODAY}-of-version-1.sqlite"));
        let old = Connection::open(kept).unwrap();
        let found: i64 =
            old.pragma_query_value(None, "user_version", |row| row.get(0)).unwrap();
        assert_eq!(found, version, "the older one is kept as it was");
    }
}

/// An older record is in the end what a new one with the same content is.
#[test]
fn climbing_and_beginning_anew_come_to_the_same() {
    let schema = |folder: &TempDir| -> Vec<String> {
        let conn = Connection::open(folder.path().join(FILE)).unwrap();
        let mut sql = conn
            .prepare("SELECT name || sql FROM sqlite_schema WHERE sql <> '' ORDER BY name")
            .unwrap();
        sql.query_map([], |row| row.get(0)).unwrap().collect::<Result<_, _>>().unwrap()
    };
    let (new, opened) = fresh();
    drop(opened);
    let old = older(1, OF_VERSION_1);
    let dump = open(old.path(), TODAY).unwrap().read().dump().unwrap();
    assert_eq!(schema(&old), schema(&new));
    let mut opened = open(new.path(), TODAY).unwrap();
    opened.record().fill(&dump).unwrap();
    let again = opened.read().dump().unwrap();
    assert_eq!(exchange::to_ron(&again).unwrap(), exchange::to_ron(&dump).unwrap());
}

#[test]
fn a_newer_version_is_left_alone() {
    let folder = older(VERSION, "PRAGMA user_version = 99");
    let before = std::fs::read(folder.path().join(FILE)).unwrap();
    let refused = open(folder.path(), TODAY).unwrap_err();
    assert!(matches!(refused, Error::Newer { found: 99, .. }));
    assert!(
        refused.to_string().contains("is of version 99, and at most 2 is wanted"),
        "{refused}"
    );
    let after = std::fs::read(folder.path().join(FILE)).unwrap();
    assert!(before[100..] == after[100..], "nothing but the log's mark in the head changed");
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
