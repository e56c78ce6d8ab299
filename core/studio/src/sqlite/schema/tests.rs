//! A record that version 5 wrote climbs to the newest version, and means what it meant.

use rusqlite::Connection;
use tempfile::TempDir;

use super::{APPLICATION, LADDER, VERSION};
use crate::exchange::to_ron;
use crate::studio::{open, open_on};
use crate::{BACKUPS, Correction, Error, FILE, NewWork, Note, Opened, WorkId};

const TODAY: &str = "2025-11-30";

/// What a program of version 5 wrote: its triggers wrote the history.
const SAMPLE: &str = "
INSERT INTO setting VALUES ('currency', 'EUR');
INSERT INTO work VALUES (1, 'W0001', 'Slack water', 'Ada Brook', 2021, 2025, 'pigment print',
    'cotton rag 300 g', '/pictures/slack.jpg', 'ab12', 'dry-mounted proofs', '2025-01-01', '');
INSERT INTO work VALUES (2, 'W0002', 'Slak water', '', NULL, NULL, '', '', '', '', '',
    '2025-01-01', '');
INSERT INTO format VALUES (1, 1, 'large', 274320000, 201168000, 347472000, 237744000,
    '2025-01-01', '');
INSERT INTO edition VALUES (1, 1, NULL, '', 25, 10, 2, 0, 0, 0, 1, '2025-01-01', '');
INSERT INTO tier (edition, first, cents, currency, at, why)
    VALUES (1, 11, 120000, 'EUR', '2025-01-01', '');
INSERT INTO print VALUES (1, 1, 'numbered', 1, 1, NULL, 1, 'sold', '', '', '', '', '', 90000,
    'EUR', 'B.', '2025-01-02', '');
INSERT INTO print VALUES (2, 1, 'numbered', 2, 1, NULL, 1, 'studio', '', '', '', '', '', NULL,
    '', '', '2025-01-03', '');
UPDATE print SET live = 0, state = 'voided', at = '2025-01-04', why = 'torn' WHERE id = 2;
";
/// Entries that the sample has.
const ENTRIES: usize = 8;

/// A record as version 5 left it.
fn sample() -> TempDir {
    let folder = TempDir::new().unwrap();
    let conn = Connection::open(folder.path().join(FILE)).unwrap();
    let (version, whole) = LADDER[0];
    let sql = format!(
        "{whole}{SAMPLE}PRAGMA application_id = {APPLICATION};\nPRAGMA user_version = {version};\n"
    );
    conn.execute_batch(&sql).unwrap();
    folder
}

fn version_of(file: &std::path::Path) -> i64 {
    let conn = Connection::open(file).unwrap();
    conn.pragma_query_value(None, "user_version", |row| row.get(0)).unwrap()
}

fn fresh() -> (TempDir, Opened) {
    let folder = TempDir::new().unwrap();
    let opened = open(folder.path(), TODAY).unwrap();
    (folder, opened)
}

#[test]
fn a_record_of_version_5_means_what_it_meant() {
    let folder = sample();
    let mut opened = open(folder.path(), TODAY).unwrap();
    let dump = opened.read().dump().unwrap();
    let first = &dump.works[0];
    let told = NewWork {
        title: "Slack water".into(),
        maker: "Ada Brook".into(),
        taken: Some(2021),
        printed: Some(2025),
        medium: "pigment print".into(),
        paper: "cotton rag 300 g".into(),
        picture: "/pictures/slack.jpg".into(),
        sha256: "ab12".into(),
        notes: "dry-mounted proofs".into(),
        ..NewWork::default()
    };
    assert_eq!((&first.what, first.withdrawn), (&told, false));
    assert_eq!(dump.formats[0].what.image_w, 274_320_000);
    assert_eq!(dump.editions[0].what.size, 25);
    assert_eq!(dump.tiers[0].price.to_string(), "1200.00 EUR");
    assert_eq!(dump.prints[0].now.price.as_ref().unwrap().to_string(), "900.00 EUR");
    assert_eq!((dump.prints[0].now.buyer.as_str(), dump.prints[1].live), ("B.", false));
    assert_eq!(dump.history.len(), ENTRIES, "the step itself makes no entry");
    assert_eq!(dump.history[ENTRIES - 1].why, "torn");
    assert_eq!(opened.read().last_currency().unwrap().as_deref(), Some("EUR"));
    assert_eq!(opened.read().check().unwrap(), Vec::<String>::new());
    // It can do what a new one can.
    let signed = NewWork { signed: "in pencil, on the back".into(), ..told };
    opened.record().correct_work(first.id, &signed, &Note::at(TODAY)).unwrap();
    assert_eq!(opened.read().work(first.id).unwrap().what, signed);
    let twice = Correction { withdrawn: Some(true), ..Correction::default() };
    opened.record().correct(WorkId(2), &twice, &Note::because(TODAY, "typed twice")).unwrap();
    let entries = opened.read().dump().unwrap().history;
    assert!(entries[ENTRIES].payload.contains("in pencil"), "{}", entries[ENTRIES].payload);
    assert!(
        entries[ENTRIES + 1].payload.contains("\"withdrawn\":1"),
        "{}",
        entries[ENTRIES + 1].payload
    );
    drop(opened);
    assert_eq!(version_of(&folder.path().join(FILE)), VERSION);
    let kept = folder.path().join(BACKUPS).join(format!("studio-{TODAY}-of-version-5.sqlite"));
    assert_eq!(version_of(&kept), 5, "the older one is kept as it was");
}

/// An older record is in the end what a new one with the same content is.
#[test]
fn a_migrated_record_is_the_same_as_a_new_one() {
    let schema = |folder: &TempDir| -> Vec<String> {
        let conn = Connection::open(folder.path().join(FILE)).unwrap();
        let mut sql = conn
            .prepare("SELECT name || sql FROM sqlite_schema WHERE sql <> '' ORDER BY name")
            .unwrap();
        sql.query_map([], |row| row.get(0)).unwrap().collect::<Result<_, _>>().unwrap()
    };
    let old = sample();
    let dump = open(old.path(), TODAY).unwrap().read().dump().unwrap();
    let (new, mut opened) = fresh();
    assert_eq!(schema(&old), schema(&new));
    opened.record().fill(&dump).unwrap();
    let again = opened.read().dump().unwrap();
    assert_eq!(to_ron(&again).unwrap(), to_ron(&dump).unwrap());
}

/// A step that fails leaves the record as it was.
#[test]
fn a_step_is_taken_whole_or_not_at_all() {
    let folder = sample();
    let [first, (to, step)] = LADDER;
    let broken: &str = format!("{step}INSERT INTO nothing VALUES (1);").leak();
    let refused = open_on(&[first, (to, broken)], folder.path(), TODAY).unwrap_err();
    assert!(matches!(refused, Error::System { .. }), "{refused}");
    assert_eq!(version_of(&folder.path().join(FILE)), 5);
    let opened = open(folder.path(), TODAY).unwrap();
    assert_eq!(opened.read().dump().unwrap().history.len(), ENTRIES);
}
