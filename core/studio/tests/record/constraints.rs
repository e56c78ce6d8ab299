//! The database refuses by itself what another program might try.

use super::support::{edition, fresh, issue};
use rusqlite::Connection;

#[track_caller]
fn case(conn: &Connection, sql: &str, wanted: &str) {
    let refused = conn.execute_batch(sql).unwrap_err().to_string();
    assert!(refused.contains(wanted), "{refused}");
}

#[test]
fn constraints_hold_whoever_writes() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 50);
    issue(record, edition);
    issue(record, edition);
    let other = Connection::open(opened.file()).unwrap();
    other.pragma_update(None, "foreign_keys", true).unwrap();
    let print = "INSERT INTO print (edition, kind, number, live, state, place, printed, matted, \
        plan, plan_file, currency, buyer, at, why) VALUES";
    let rest = "'studio', '', '', '', '', '', '', '', '2025-11-30', '')";
    case(&other, &format!("{print} (1, 'numbered', 2, 1, {rest}"), "UNIQUE");
    case(&other, &format!("{print} (1, 'numbered', 51, 1, {rest}"), "beyond-edition");
    case(&other, &format!("{print} (1, 'ap', 6, 1, {rest}"), "beyond-edition");
    case(&other, &format!("{print} (1, 'bat', 2, 1, {rest}"), "beyond-edition");
    case(&other, &format!("{print} (1, 'numbered', 0, 1, {rest}"), "CHECK");
    case(&other, &format!("{print} (1, 'other', 1, 1, {rest}"), "CHECK");
    case(&other, &format!("{print} (1, 'numbered', 3, 0, {rest}"), "CHECK");
    case(&other, &format!("{print} (7, 'numbered', 3, 1, {rest}"), "FOREIGN KEY");
    case(&other, "UPDATE print SET number = 9 WHERE id = 1", "number-fixed");
    case(&other, "UPDATE print SET edition = 2 WHERE id = 1", "number-fixed");
    case(&other, "UPDATE edition SET size = 60", "edition-fixed");
    case(&other, "UPDATE edition SET artist = 1", "edition-fixed");
    case(&other, "UPDATE edition SET artist = 6", "edition-fixed");
    case(&other, "DELETE FROM print", "never-deleted");
    case(&other, "DELETE FROM edition", "never-deleted");
    case(&other, "DELETE FROM work", "never-deleted");
    case(&other, "DELETE FROM history", "never-deleted");
    case(&other, "UPDATE history SET why = 'x'", "history-stands");
    case(&other, "UPDATE print SET state = 'voided' WHERE id = 1", "CHECK");
    case(&other, "UPDATE print SET cents = -1, currency = 'EUR' WHERE id = 1", "CHECK");
    other.execute_batch("UPDATE print SET live = 0, state = 'voided' WHERE id = 1").unwrap();
    case(&other, "UPDATE print SET live = 1, state = 'studio' WHERE id = 1", "print-gone");
    // What another program changed is in the history all the same.
    let told: i64 = other
        .query_row(
            "SELECT count(*) FROM history WHERE subject = 'print' AND subject_id = 1",
            [],
            |row| row.get(0),
        )
        .unwrap();
    assert_eq!(told, 2);
}
