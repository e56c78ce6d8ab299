//! Records of every earlier version open, and mean what they meant.

use rusqlite::Connection;
use sightedge_studio::{
    BACKUPS, Error, FILE, FormatId, NewFormat, Record, State, Subject, VERSION, WorkId,
    backups, exchange, open, schema_of,
};
use tempfile::TempDir;

use super::support::{TODAY, edition, fresh, issue, now};

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

/// What a program of version 2 wrote besides: sizes, and prices by number.
const OF_VERSION_2: &str = "
INSERT INTO format VALUES (1, 1, '', 201168000, 274320000, 237744000, 347472000, '2025-01-05',
    '');
INSERT INTO tier VALUES (1, 1, 1, 90000, 'EUR', '2025-01-05', '');
UPDATE tier SET cents = 95000, at = '2025-01-06', why = 'dearer' WHERE id = 1;
";

/// What a program of version 3 wrote besides: numbers taken over, all as sold, of which one was
/// put right since and of one the buyer was noted.
const OF_VERSION_3: &str = "
INSERT INTO print VALUES (3, 1, 'numbered', 3, 1, NULL, NULL, 'sold', '', '', '', '', '', NULL,
    '', '', '2025-01-07', 'out before the record began');
INSERT INTO print VALUES (4, 1, 'numbered', 4, 1, NULL, NULL, 'sold', '', '', '', '', '', NULL,
    '', '', '2025-01-07', 'out before the record began');
UPDATE print SET buyer = 'C.', at = '2025-01-08' WHERE id = 4;
";

/// A record as a program of `version` left it.
fn of_version(version: i64) -> TempDir {
    let folder = older(version, OF_VERSION_1);
    if version > 1 {
        let conn = Connection::open(folder.path().join(FILE)).unwrap();
        conn.execute_batch(OF_VERSION_2).unwrap();
        if version > 2 {
            conn.execute_batch(OF_VERSION_3).unwrap();
        }
    }
    folder
}

fn older(version: i64, sql: &str) -> TempDir {
    let folder = TempDir::new().unwrap();
    let conn = Connection::open(folder.path().join(FILE)).unwrap();
    conn.execute_batch(&schema_of(version)).unwrap();
    conn.execute_batch(sql).unwrap();
    folder
}

fn add(record: &mut dyn Record, work: WorkId) -> FormatId {
    record.add_format(work, &NewFormat::default(), &now()).unwrap()
}

fn version_of(folder: &TempDir) -> i64 {
    let conn = Connection::open(folder.path().join(FILE)).unwrap();
    conn.pragma_query_value(None, "user_version", |row| row.get(0)).unwrap()
}

#[test]
fn every_earlier_version_opens_and_means_the_same() {
    for version in 1..VERSION {
        let folder = of_version(version);
        assert_eq!(version_of(&folder), version);
        let mut opened = open(folder.path(), TODAY).unwrap();
        let dump = opened.read().dump().unwrap();
        assert_eq!(dump.works[0].what.title, "Slack water");
        assert_eq!(dump.prints[0].now.price.as_ref().unwrap().to_string(), "900.00 EUR");
        // Of version 3 the last entry is that nobody said that number 3 is sold.
        let entries = [5, 8, 12][usize::try_from(version).unwrap() - 1];
        assert_eq!(dump.history.len(), entries);
        if version > 2 {
            let states: Vec<_> = dump.prints.iter().map(|print| print.now.state).collect();
            let sold = State::Sold;
            assert_eq!(states, [sold, State::Voided, State::Unknown, sold]);
            let last = dump.history.last().unwrap();
            assert_eq!((last.subject_id, last.at.as_str()), (3, "2025-01-07"));
            assert_eq!(last.why, "nobody said that it is sold");
        }
        assert_eq!(dump.tiers.len(), usize::from(version > 1));
        if version > 1 {
            assert_eq!(dump.tiers[0].price.to_string(), "950.00 EUR");
            assert_eq!(dump.formats[0].what.image_w, 11 * 18_288_000);
        }
        assert_eq!(opened.read().check().unwrap(), Vec::<String>::new());
        // It can do all that a new one can.
        let of = dump.editions[0].id;
        assert_eq!(issue(opened.record(), of).number, 2);
        let format = match dump.formats.first() {
            Some(format) => format.id,
            None => add(opened.record(), dump.works[0].id),
        };
        let sizes = NewFormat { name: "Large".to_owned(), ..NewFormat::default() };
        opened.record().correct_format(format, &sizes, &now()).unwrap();
        let entries = opened.read().history(Subject::Format(format)).unwrap();
        assert_eq!(entries.len(), 2, "added and put right: {entries:?}");
        drop(opened);
        assert_eq!(version_of(&folder), VERSION);
        let kept = folder
            .path()
            .join(BACKUPS)
            .join(format!("studio-{TODAY}-of-version-{version}.sqlite"));
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
    for version in 1..VERSION {
        let old = of_version(version);
        let dump = open(old.path(), TODAY).unwrap().read().dump().unwrap();
        assert_eq!(schema(&old), schema(&new));
        let (_folder, mut opened) = fresh();
        opened.record().fill(&dump).unwrap();
        let again = opened.read().dump().unwrap();
        assert_eq!(exchange::to_ron(&again).unwrap(), exchange::to_ron(&dump).unwrap());
    }
}

#[test]
fn a_newer_version_is_left_alone() {
    let folder = older(VERSION, "PRAGMA user_version = 99");
    let before = std::fs::read(folder.path().join(FILE)).unwrap();
    let refused = open(folder.path(), TODAY).unwrap_err();
    assert!(matches!(refused, Error::Newer { found: 99, .. }));
    assert!(
        refused.to_string().contains("is of version 99, and at most 4 is wanted"),
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
