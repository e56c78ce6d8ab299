//! A made-up version before version 5, in which no prices went by number, is migrated as a
//! released one would be.

use rusqlite::Connection;
use tempfile::TempDir;

use super::{APPLICATION, LADDER, Rung, VERSION};
use crate::exchange::to_ron;
use crate::studio::{open, open_on};
use crate::{BACKUPS, Error, FILE, Money, Note, Opened, Tier};

const OLDER: i64 = VERSION - 1;
const TODAY: &str = "2025-11-30";

/// What a program of that version wrote.
const SAMPLE: &str = "
INSERT INTO setting VALUES ('proof_share', '10');
INSERT INTO work VALUES (1, 'W0001', 'Slack water', 'Ada Brook', 2021, 2025, '', '', '', '', '',
    '2025-01-01', '');
INSERT INTO edition VALUES (1, 1, NULL, '', 25, 10, 2, 0, 0, 0, 1, '2025-01-01', '');
INSERT INTO print VALUES (1, 1, 'numbered', 1, 1, NULL, NULL, 'sold', '', '', '', '', '', 90000,
    'EUR', 'B.', '2025-01-02', '');
INSERT INTO print VALUES (2, 1, 'numbered', 2, 1, NULL, NULL, 'studio', '', '', '', '', '', NULL,
    '', '', '2025-01-03', '');
UPDATE print SET live = 0, state = 'voided', at = '2025-01-04', why = 'torn' WHERE id = 2;
";

/// A step that also changes what is there.
const CHANGE: &str = "UPDATE work SET medium = 'pigment print', why = 'all of them were';\n";

/// The SQL of the older version, and the step from it to version 5.
fn parts() -> (&'static str, String) {
    let [(_, whole)] = LADDER;
    let (older, rest) = whole.split_once("-- What prints cost").unwrap();
    (older, format!("-- {rest}{CHANGE}"))
}

fn longer() -> [Rung; 2] {
    let (older, step) = parts();
    [(OLDER, older), (VERSION, step.leak())]
}

/// A record as the older program left it.
fn sample() -> TempDir {
    let folder = TempDir::new().unwrap();
    let conn = Connection::open(folder.path().join(FILE)).unwrap();
    let sql = format!(
        "{}{SAMPLE}PRAGMA application_id = {APPLICATION};\nPRAGMA user_version = {OLDER};\n",
        parts().0
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
fn a_sample_of_an_older_version_means_what_it_meant() {
    let folder = sample();
    let mut opened = open_on(&longer(), folder.path(), TODAY).unwrap();
    let dump = opened.read().dump().unwrap();
    assert_eq!(dump.works[0].what.title, "Slack water");
    assert_eq!(dump.works[0].what.medium, "pigment print");
    assert_eq!(dump.prints[0].now.price.as_ref().unwrap().to_string(), "900.00 EUR");
    // Four things were added and one changed; the step leaves an entry of its own.
    assert_eq!(dump.history.len(), 6);
    assert_eq!(dump.history[5].why, "all of them were");
    assert_eq!(opened.read().check().unwrap(), Vec::<String>::new());
    // It can do what a new one can.
    let price = Money { cents: 95_000, currency: "EUR".to_owned() };
    let tier = Tier { edition: dump.editions[0].id, from: 1, price };
    opened.record().set_tier(&tier, &Note::at(TODAY)).unwrap();
    drop(opened);
    assert_eq!(version_of(&folder.path().join(FILE)), VERSION);
    let kept = format!("studio-{TODAY}-of-version-{OLDER}.sqlite");
    let kept = folder.path().join(BACKUPS).join(kept);
    assert_eq!(version_of(&kept), OLDER, "the older one is kept as it was");
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
    let dump = open_on(&longer(), old.path(), TODAY).unwrap().read().dump().unwrap();
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
    let [first, (to, step)] = longer();
    let broken: &str = format!("{step}INSERT INTO nothing VALUES (1);").leak();
    let refused = open_on(&[first, (to, broken)], folder.path(), TODAY).unwrap_err();
    assert!(matches!(refused, Error::System { .. }), "{refused}");
    assert_eq!(version_of(&folder.path().join(FILE)), OLDER);
    let opened = open_on(&longer(), folder.path(), TODAY).unwrap();
    assert_eq!(opened.read().dump().unwrap().history.len(), 6);
}
