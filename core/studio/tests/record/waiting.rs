//! A change that waits for another program says so once, after a second, and goes on waiting.

use std::cell::Cell;
use std::rc::Rc;
use std::time::{Duration, Instant};

use rusqlite::Connection;
use sightedge_studio::when_waiting;

use super::support::{edition, fresh, issue};

#[test]
fn a_busy_record_says_so_after_a_second() {
    let (_folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 5);
    let told = Rc::new(Cell::new(None));
    let (since, count) = (Instant::now(), Rc::clone(&told));
    when_waiting(move || {
        assert!(count.get().is_none(), "told once");
        count.set(Some(since.elapsed()));
    });
    issue(opened.record(), of);
    assert_eq!(told.get(), None, "nobody was in the way");
    let file = opened.file().to_owned();
    let (began, locked) = std::sync::mpsc::channel();
    let other = std::thread::spawn(move || {
        let other = Connection::open(file).unwrap();
        other.execute_batch("BEGIN IMMEDIATE").unwrap();
        began.send(()).unwrap();
        std::thread::sleep(Duration::from_millis(1500));
        other.execute_batch("ROLLBACK").unwrap();
    });
    locked.recv().unwrap();
    assert_eq!(issue(opened.record(), of).number, 2, "it waited, and was done");
    other.join().unwrap();
    let after = told.get().unwrap();
    assert!(after >= Duration::from_secs(1) && after < Duration::from_secs(3), "{after:?}");
}
