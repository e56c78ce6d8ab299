//! Damaged files, full disks.

use std::path::{Path, PathBuf};

use rusqlite::Connection;
use sightedge_studio::{
    Contents, Error, FILE, WorkId, backups, begin_anew, contents, open, restore,
};

use super::support::{TODAY, edition, fresh, issue, next, now};

/// A closed record of some size, with a backup of the day before.
fn filled() -> (tempfile::TempDir, PathBuf) {
    let (folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 400);
    for _ in 0..300 {
        issue(opened.record(), of);
    }
    opened.back_up("2025-11-29").unwrap().unwrap();
    for _ in 0..5 {
        issue(opened.record(), of);
    }
    let file = opened.file().to_owned();
    (folder, file)
}

fn count(folder: &Path) -> usize {
    open(folder, TODAY).unwrap().read().dump().unwrap().prints.len()
}

#[test]
fn a_damaged_file_is_recognised_and_the_newest_backup_offered() {
    #[track_caller]
    fn case(damage: impl FnOnce(&mut Vec<u8>)) {
        let (folder, file) = filled();
        let mut bytes = std::fs::read(&file).unwrap();
        damage(&mut bytes);
        std::fs::write(&file, &bytes).unwrap();
        let refused = open(folder.path(), TODAY).unwrap_err();
        let words = refused.to_string();
        let Error::Damaged { backup: Some(backup), .. } = refused else { panic!("{words}") };
        assert_eq!(backup, backups(folder.path())[0].file);
        assert!(
            words.contains("is damaged (")
                && words.contains("The newest whole backup is")
                && words.contains("studio-2025-11-29.sqlite: restore it"),
            "{words}"
        );
        let kept = restore(folder.path(), &backup, "2025-11-30T10:00").unwrap();
        assert_eq!(std::fs::read(kept).unwrap(), bytes, "the damaged one is kept");
        assert_eq!(count(folder.path()), 300);
        assert!(backup.exists());
    }
    case(|bytes| bytes[..16].fill(b'x'));
    case(|bytes| bytes.truncate(bytes.len() / 2));
    // The heads of many pages.
    case(|bytes| {
        for page in bytes.chunks_mut(4096).skip(2) {
            page[..64].fill(0xff);
        }
    });
    case(|bytes| *bytes = b"not a database at all, but a letter to a friend".repeat(100));
}

#[test]
fn without_a_whole_backup_it_says_so() {
    let (folder, file) = filled();
    let mut bytes = std::fs::read(&file).unwrap();
    bytes[..16].fill(0);
    std::fs::write(&file, &bytes).unwrap();
    std::fs::write(&backups(folder.path())[0].file, "spoilt too").unwrap();
    let refused = open(folder.path(), TODAY).unwrap_err();
    assert!(matches!(refused, Error::Damaged { backup: None, .. }));
    assert!(refused.to_string().contains("There is no whole backup beside it"), "{refused}");
    let spoilt = restore(folder.path(), &backups(folder.path())[0].file, "x").unwrap_err();
    assert!(spoilt.to_string().contains("it is no whole backup"), "{spoilt}");
    assert_eq!(std::fs::read(&file).unwrap(), bytes, "nothing was changed");
}

#[test]
fn a_full_disk_leaves_the_record_as_it_was() {
    let (folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 100_000);
    issue(opened.record(), of);
    // As SQLite has it, a limit below what is there is what is there.
    opened.limit_pages(1).unwrap();
    let refused = loop {
        match opened.record().issue(&next(of), &now()) {
            Ok(_) => {}
            Err(error) => break error,
        }
    };
    assert!(matches!(refused, Error::Full(_)), "{refused}");
    let words = refused.to_string();
    assert!(
        words.starts_with("there is no room left for ")
            && words.contains("nothing was changed. Free some space"),
        "{words}"
    );
    let before = opened.read().dump().unwrap();
    assert!(opened.record().issue(&next(of), &now()).is_err());
    assert_eq!(opened.read().dump().unwrap(), before);
    assert_eq!(opened.read().check().unwrap(), Vec::<String>::new());
    // With room again, it goes on with the next number.
    opened.limit_pages(100_000).unwrap();
    let last = before.prints.last().unwrap().number;
    assert_eq!(issue(opened.record(), of).number, last + 1);
    drop(opened);
    assert_eq!(count(folder.path()), before.prints.len() + 1);
}

/// A limit on the size of files, as a quota sets one: this test is its own child.
#[cfg(unix)]
#[test]
fn a_limit_on_files_leaves_the_record_as_it_was() {
    const CHILD: &str = "SIGHTEDGE_LIMITED";
    let name = "damage::a_limit_on_files_leaves_the_record_as_it_was";
    if let Some(folder) = std::env::var_os(CHILD) {
        let mut opened = open(Path::new(&folder), TODAY).unwrap();
        let of = opened.read().index().unwrap()[0].editions[0].edition.id;
        let refused = loop {
            if let Err(error) = opened.record().issue(&next(of), &now()) {
                break error.to_string();
            }
        };
        assert!(
            refused.contains("there is no room left")
                || refused.contains("could not be written"),
            "{refused}"
        );
        println!("refused");
        return;
    }
    let (folder, mut opened) = fresh();
    edition(opened.record(), 100_000);
    drop(opened);
    // In blocks of 512 or 1024 bytes, as the shell has it. The signal is ignored so that the
    // write fails instead.
    let script = "trap '' XFSZ; ulimit -f 4096; exec \"$0\" \"$1\" --exact --nocapture";
    let child = std::process::Command::new("sh")
        .args(["-c", script])
        .arg(std::env::current_exe().unwrap())
        .arg(name)
        .env(CHILD, folder.path())
        .output()
        .unwrap();
    let told = String::from_utf8_lossy(&child.stdout);
    assert!(child.status.success() && told.contains("refused"), "{child:?}");
    let opened = open(folder.path(), TODAY).unwrap();
    assert_eq!(opened.read().check().unwrap(), Vec::<String>::new());
    let dump = opened.read().dump().unwrap();
    let numbers: Vec<u32> = dump.prints.iter().map(|print| print.number).collect();
    let wanted: Vec<u32> = (1..).take(numbers.len()).collect();
    assert!(numbers == wanted && numbers.len() > 50, "{}", numbers.len());
}

#[test]
fn a_file_in_place_of_the_folder_is_refused() {
    let (folder, _opened) = fresh();
    let inside = folder.path().join(FILE).join("deeper");
    let refused = open(&inside, TODAY).unwrap_err().to_string();
    assert!(refused.contains("cannot hold the studio's record"), "{refused}");
    let (_folder, opened) = fresh();
    let missing = opened.read().work(WorkId(7)).unwrap_err().to_string();
    assert_eq!(missing, "there is no work 7: list them");
}

#[test]
fn a_backup_says_how_much_it_holds() {
    let (folder, _file) = filled();
    let backup = &backups(folder.path())[0];
    assert_eq!(backup.day, "2025-11-29");
    assert_eq!(contents(&backup.file), Some(Contents { works: 1, prints: 300 }));
    std::fs::write(&backup.file, "spoilt").unwrap();
    assert_eq!(contents(&backup.file), None);
}

#[test]
fn without_a_backup_one_can_begin_anew_and_the_damaged_file_is_kept() {
    let (folder, file) = filled();
    let spoilt = b"spoilt ".repeat(900);
    std::fs::write(&file, &spoilt).unwrap();
    let kept = begin_anew(folder.path(), "2025-11-30").unwrap();
    assert_eq!(std::fs::read(kept).unwrap(), spoilt);
    assert_eq!(count(folder.path()), 0);
}

#[test]
fn what_others_write_is_noticed_and_ones_own_is_not() {
    let (folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 25);
    let before = opened.read().pulse().unwrap();
    issue(opened.record(), of);
    assert_eq!(opened.read().pulse().unwrap(), before, "its own");
    let mut other = open(folder.path(), TODAY).unwrap();
    issue(other.record(), of);
    let after = opened.read().pulse().unwrap();
    assert_ne!(after, before);
    assert_eq!(opened.read().pulse().unwrap(), after);
}

/// Another window puts a backup back: this one must not go on in the file kept aside.
#[cfg(unix)]
#[test]
fn a_record_that_was_replaced_is_noticed() {
    let (folder, file) = filled();
    let opened = open(folder.path(), TODAY).unwrap();
    assert!(!opened.replaced());
    restore(folder.path(), &backups(folder.path())[0].file, "2025-11-30").unwrap();
    assert!(opened.replaced(), "{}", file.display());
}

/// An older backup is put back: the newer one of that day, which the next change would write
/// over, stays under another name.
#[test]
fn the_backup_that_is_not_restored_is_kept_too() {
    let (folder, file) = filled();
    let opened = open(folder.path(), TODAY).unwrap();
    opened.back_up(TODAY).unwrap().unwrap();
    drop(opened);
    std::fs::write(&file, "spoilt").unwrap();
    let old = backups(folder.path()).remove(0);
    assert_eq!(old.day, "2025-11-29");
    restore(folder.path(), &old.file, TODAY).unwrap();
    let mut opened = open(folder.path(), TODAY).unwrap();
    let of = opened.read().index().unwrap()[0].editions[0].edition.id;
    assert_eq!(issue(opened.record(), of).number, 301);
    opened.back_up_change(TODAY).unwrap().unwrap();
    let held: Vec<(String, u32)> = backups(folder.path())
        .into_iter()
        .map(|one| (one.day, contents(&one.file).unwrap().prints))
        .collect();
    let held: Vec<(&str, u32)> =
        held.iter().map(|(day, prints)| (day.as_str(), *prints)).collect();
    assert_eq!(held, [("2025-11-29", 300), (TODAY, 305), (TODAY, 301)]);
}

#[test]
fn a_small_record_is_backed_up_at_each_change() {
    let (_folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 25);
    for number in 1..=3 {
        issue(opened.record(), of);
        let made = opened.back_up_change(TODAY).unwrap().unwrap();
        assert_eq!(contents(&made).unwrap().prints, number);
    }
}

/// A head that is no head: SQLite calls it an unsupported format.
#[test]
fn a_spoilt_head_is_damage_too() {
    let (folder, file) = filled();
    let mut bytes = std::fs::read(&file).unwrap();
    for (at, byte) in bytes.iter_mut().enumerate().skip(40).take(60) {
        *byte = u8::try_from(at * 37 % 251).unwrap();
    }
    std::fs::write(&file, &bytes).unwrap();
    let refused = open(folder.path(), TODAY).unwrap_err();
    assert!(matches!(refused, Error::Damaged { backup: Some(_), .. }), "{refused}");
}

/// A record that is gone or empty beside its backups is not begun anew unasked, and no backup is
/// lost to the empty one.
#[test]
fn a_record_that_is_gone_is_not_taken_for_a_new_one() {
    for empty in [false, true] {
        let (folder, file) = filled();
        open(folder.path(), TODAY).unwrap().back_up(TODAY).unwrap().unwrap();
        std::fs::remove_file(&file).unwrap();
        if empty {
            std::fs::write(&file, "").unwrap();
        }
        let refused = open(folder.path(), TODAY).unwrap_err();
        let words = refused.to_string();
        let Error::Damaged { backup: Some(_), .. } = refused else { panic!("{words}") };
        let why = if empty { "it is empty" } else { "it is not there" };
        assert!(words.contains(why) && words.contains("and its backups are"), "{words}");
        begin_anew(folder.path(), TODAY).unwrap();
        let opened = open(folder.path(), TODAY).unwrap();
        opened.back_up_change(TODAY).unwrap().unwrap();
        let held: Vec<u32> = backups(folder.path())
            .iter()
            .map(|one| contents(&one.file).unwrap().prints)
            .collect();
        assert_eq!(held, [300, 305, 0]);
    }
}

/// A print that was changed past its history is found out.
#[test]
fn a_print_is_what_its_history_says() {
    let (_folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 5);
    issue(opened.record(), of);
    let print = issue(opened.record(), of);
    let other = Connection::open(opened.file()).unwrap();
    other
        .execute_batch(&format!(
            "DROP TRIGGER print_changed; UPDATE print SET state = 'sold' WHERE id = {}",
            print.id.0
        ))
        .unwrap();
    let wrong = opened.read().check().unwrap();
    assert_eq!(
        wrong,
        ["W0001: number 2 (print 2) is not what its history says: look at the history, and \
          correct the print"]
    );
}
