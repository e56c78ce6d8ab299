//! Saving loses nothing: whatever step fails, and whenever the process dies, the old or the
//! new plan is there and opens, and the backup is whole.

#![allow(clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use std::fs::{self, Permissions};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, SystemTime};

use sightedge_core::file::store::{
    Disk, OpenError, Overwrite, SaveError, Stamp, Step, System, open, plan_of, save,
};
use sightedge_core::spec::Document;
use sightedge_tests::faulty::{Failing, Faulty};
use sightedge_tests::plans;
use sightedge_tests::random::Random;

/// An empty folder of its own for one test.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("save").join(name);
    match fs::remove_dir_all(&folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => panic!("{error}"),
        _ => fs::create_dir_all(&folder).expect("a folder for the test"),
    }
    folder
}

fn backup(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".bak");
    PathBuf::from(name)
}

fn names(folder: &Path) -> Vec<String> {
    let mut names = System.names(folder).expect("the folder's names");
    names.sort();
    names
}

/// The number of the plan that lies there; `None` where there is no file.
#[track_caller]
fn number(path: &Path) -> Option<u64> {
    match open(&System, path) {
        Ok(opened) => {
            Some(plans::number(&opened.document).expect("a plan that was saved, whole"))
        }
        Err(OpenError::Missing(_)) => None,
        Err(error) => panic!("{error}"),
    }
}

/// A folder where `saved` plans were saved, one after the other: 1, 2 and so on.
fn prepared(name: &str, saved: u64) -> (PathBuf, Option<Stamp>) {
    let path = plan_of(&folder(name).join("slack-water.jpg"));
    let mut stamp = None;
    for n in 1..=saved {
        let over = stamp.as_ref().map_or(Overwrite::Nothing, Overwrite::This);
        stamp = Some(save(&System, &path, &plans::numbered(n), over).expect("saved"));
    }
    (path, stamp)
}

/// Lets each step of a save fail in turn; `before` plans were saved before.
fn each_step_fails(
    name: &str,
    before: u64,
    second_names: bool,
    failing: fn(usize) -> Failing,
) -> usize {
    let new = before + 1;
    for n in 0.. {
        let (path, stamp) = prepared(name, before);
        let disk = Faulty::new(failing(n), second_names);
        let over = stamp.as_ref().map_or(Overwrite::Nothing, Overwrite::This);
        let saved = save(&disk, &path, &plans::numbered(new), over);
        let context = format!("{before} before, {:?}: {:?}", disk.failing(), disk.steps());

        let there = number(&path);
        let old = (before > 0).then_some(before);
        let wanted = match &saved {
            Ok(_) | Err(SaveError::Unsure { .. }) => Some(new),
            Err(SaveError::Failed(_)) => old,
            Err(other) => panic!("{other}: {context}"),
        };
        assert_eq!(there, wanted, "{context}");

        let kept = number(&backup(&path));
        let before_that = (before > 1).then(|| before - 1);
        if there == Some(new) {
            assert_eq!(kept, old, "{context}");
        } else {
            assert!(kept == old || kept == before_that, "{kept:?}: {context}");
        }

        // The next save goes well, and what is left over does not hinder it.
        let again = match &saved {
            Ok(stamp) | Err(SaveError::Unsure { stamp, .. }) => Some(stamp.clone()),
            Err(_) => stamp,
        };
        let over = again.as_ref().map_or(Overwrite::Nothing, Overwrite::This);
        save(&System, &path, &plans::numbered(new + 1), over).expect(&context);
        assert_eq!(number(&path), Some(new + 1), "{context}");
        assert_eq!(number(&backup(&path)), there, "{context}");

        if !disk.has_failed() {
            assert!(saved.is_ok(), "{context}");
            return n;
        }
    }
    0
}

#[test]
fn any_one_step_fails() {
    for (before, second_names) in [(0, true), (1, true), (2, true), (2, false)] {
        let steps = each_step_fails("once", before, second_names, Failing::Once);
        assert!(steps >= 9, "only {steps} steps were tried");
    }
}

#[test]
fn all_steps_fail_from_one_on() {
    for (before, second_names) in [(0, true), (1, true), (2, true), (2, false)] {
        let steps = each_step_fails("from", before, second_names, Failing::From);
        assert!(steps >= 9, "only {steps} steps were tried");
    }
}

/// Source: the order of `rename(2)` and `fsync(2)` that POSIX needs for a file to be whole
/// after a power cut: the bytes are sure before the name is, then the folder is.
#[test]
fn bytes_are_sure_before_names() {
    let (path, stamp) = prepared("order", 2);
    let disk = Faulty::none();
    let over = stamp.as_ref().map_or(Overwrite::Nothing, Overwrite::This);
    save(&disk, &path, &plans::numbered(3), over).expect("saved");
    let steps = disk.steps();
    let wanted = ["create", "write", "sync", "hard link", "rename", "rename", "sync folder"];
    let order: Vec<&str> = steps.iter().copied().filter(|step| wanted.contains(step)).collect();
    assert_eq!(order, wanted);
}

#[test]
fn the_process_dies_at_any_moment() {
    let (path, _) = prepared("dies", 1);
    let mut random = Random::new(20_260_301);
    let (mut last, mut mid_save) = (1, 0);
    for death in 0..200 {
        let mut child = Command::new(env!("CARGO_BIN_EXE_save_forever"))
            .arg(&path)
            .stdout(Stdio::piped())
            .spawn()
            .expect("the helper starts");
        let mut begins = [0];
        let output = child.stdout.as_mut().expect("its output");
        output.read_exact(&mut begins).expect("it begins to save");
        sleep(Duration::from_micros(random.below(30_000)));
        child.kill().expect("it can be killed");
        let ended = child.wait().expect("it has ended");
        assert_eq!(ended.code(), None, "death {death}: it ended by itself");

        let there = number(&path).expect("a plan is there");
        assert!(there >= last, "death {death}: {there} after {last}");
        if let Some(kept) = number(&backup(&path)) {
            let is_whole = kept == there || kept + 1 == there;
            assert!(is_whole, "death {death}: backup {kept} beside {there}");
        } else {
            assert_eq!(there, 1, "death {death}: no backup");
        }
        last = there;
        let left = names(path.parent().expect("a folder")).len().saturating_sub(2);
        mid_save = mid_save.max(left);
    }
    println!("{last} saves in 200 lives, {mid_save} of them ended in the middle of a save");
    assert!(last > 1, "nothing was saved in 200 lives");
    assert!(mid_save > 0, "no life ended in the middle of a save");
}

#[test]
fn someone_elses_change_is_noticed() {
    let (path, stamp) = prepared("changed", 1);
    let stamp = stamp.expect("the stamp of what was saved");
    let theirs = plans::numbered(7);
    let other = open(&System, &path).expect("opened by someone else");
    save(&System, &path, &theirs, Overwrite::This(&other.stamp))
        .expect("saved by someone else");

    let mine = plans::numbered(8);
    let noticed =
        save(&System, &path, &mine, Overwrite::This(&stamp)).map_err(|e| e.to_string());
    let words = "slack-water.jpg.sightedge.ron: someone else has changed it since it was opened \
                 here. Open it again to see their changes, save under another name, or write \
                 over it (theirs is kept as .bak)";
    assert!(noticed.as_ref().is_err_and(|e| e.ends_with(words)), "{noticed:?}");
    assert_eq!(number(&path), Some(7));

    save(&System, &path, &mine, Overwrite::Anything).expect("overwritten when asked");
    assert_eq!((number(&path), number(&backup(&path))), (Some(8), Some(7)));
}

#[test]
fn a_plan_in_the_way_of_a_new_one_is_noticed() {
    let (path, _) = prepared("exists", 1);
    let mine = plans::numbered(2);
    let noticed = save(&System, &path, &mine, Overwrite::Nothing).map_err(|e| e.to_string());
    let words = "there is already a plan. Replace it (it is kept \
                 as .bak), or save under another name";
    assert!(noticed.as_ref().is_err_and(|e| e.ends_with(words)), "{noticed:?}");
    assert_eq!(number(&path), Some(1));
    save(&System, &path, &mine, Overwrite::Anything).expect("replaced when asked");
    assert_eq!((number(&path), number(&backup(&path))), (Some(2), Some(1)));
}

#[test]
fn a_file_taken_away_is_made_again() {
    let (path, stamp) = prepared("gone", 1);
    fs::remove_file(&path).expect("taken away");
    let stamp = stamp.expect("the stamp of what was saved");
    save(&System, &path, &plans::numbered(2), Overwrite::This(&stamp)).expect("saved");
    assert_eq!(number(&path), Some(2));
}

#[test]
fn saving_the_same_again_keeps_the_backup() {
    let (path, stamp) = prepared("same", 2);
    let stamp = stamp.expect("the stamp of what was saved");
    let again =
        save(&System, &path, &plans::numbered(2), Overwrite::This(&stamp)).expect("saved");
    assert_eq!(again, stamp);
    assert_eq!((number(&path), number(&backup(&path))), (Some(2), Some(1)));
}

#[test]
fn a_plan_that_would_not_open_is_not_saved() {
    let (path, stamp) = prepared("senseless", 1);
    let stamp = stamp.expect("the stamp of what was saved");
    let mut senseless: Document = plans::reference();
    senseless.variants.clear();
    let refused = save(&System, &path, &senseless, Overwrite::This(&stamp));
    assert!(matches!(refused, Err(SaveError::WouldNotOpen { .. })), "{refused:?}");
    let mut huge = plans::reference();
    huge.variants[0].mat.notes = "x".repeat(2 << 20);
    let refused =
        save(&System, &path, &huge, Overwrite::This(&stamp)).map_err(|e| e.to_string());
    assert!(refused.as_ref().is_err_and(|e| e.contains("1024 KiB at most")), "{refused:?}");
    assert_eq!(number(&path), Some(1));
}

#[test]
fn what_a_crash_left_is_swept_and_nothing_else() {
    let (path, stamp) = prepared("swept", 1);
    let home = path.parent().expect("a folder");
    let stamp = stamp.expect("the stamp of what was saved");
    // Dies before the first rename, its new file and a second name left behind.
    let dying = Faulty::new(Failing::From(9), true);
    save(&dying, &path, &plans::numbered(2), Overwrite::This(&stamp)).expect_err("it dies");
    let plan = path.file_name().and_then(|name| name.to_str()).expect("a name");
    let left: Vec<String> = names(home).into_iter().filter(|name| name != plan).collect();
    assert_eq!(left.len(), 2, "{left:?}: {:?}", dying.steps());
    assert!(left.iter().all(|name| name.starts_with(".sightedge-")), "{left:?}");

    // Another plan's, and one whose name only begins like ours.
    let begin = left[0].rsplit_once('-').expect("a number").0;
    let others = [".sightedge-0123456789abcdef-1-1.part", &format!("{begin}-x.part")];
    for other in others {
        fs::write(home.join(other), "not ours").expect("written");
    }
    let long_ago = SystemTime::UNIX_EPOCH + Duration::from_hours(1);
    let age = |name: &str| {
        let file = fs::File::options().append(true).open(home.join(name)).expect("opened");
        file.set_modified(long_ago).expect("made old");
    };

    save(&System, &path, &plans::numbered(3), Overwrite::Anything).expect("saved");
    assert!(left.iter().all(|name| home.join(name).exists()), "another may still be saving");
    for name in left.iter().map(String::as_str).chain(others) {
        age(name);
    }
    save(&System, &path, &plans::numbered(4), Overwrite::Anything).expect("saved");
    assert!(!left.iter().any(|name| home.join(name).exists()), "{:?}", names(home));
    assert!(others.iter().all(|name| home.join(name).exists()), "{:?}", names(home));
}

#[test]
fn errors_name_step_file_reason_and_remedy() {
    let path = folder("nowhere").join("gone").join("a.jpg.sightedge.ron");
    let error = save(&System, &path, &plans::reference(), Overwrite::Nothing);
    assert!(
        matches!(&error, Err(SaveError::Failed(failed)) if failed.step == Step::Create),
        "{error:?}"
    );
    let error = error.map_err(|error| error.to_string()).expect_err("no such folder");
    assert!(error.starts_with("could not make a new file beside "), "{error}");
    assert!(
        error.ends_with("Check that the folder is still there, or save elsewhere"),
        "{error}"
    );
    let missing = open(&System, &path).map_err(|error| error.to_string());
    assert!(
        missing.as_ref().is_err_and(|e| e.contains("there is no such plan")),
        "{missing:?}"
    );
    let not_a_file = open(&System, path.parent().and_then(Path::parent).expect("a folder"));
    assert!(matches!(not_a_file, Err(OpenError::Failed(_))), "{not_a_file:?}");
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::os::unix::fs::{PermissionsExt, symlink};

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).expect("it is there").permissions().mode() & 0o777
    }

    #[test]
    fn permissions_are_kept() {
        for second_names in [true, false] {
            let (path, stamp) = prepared("permissions", 1);
            fs::set_permissions(&path, Permissions::from_mode(0o640)).expect("set");
            let stamp = stamp.expect("the stamp of what was saved");
            let disk = Faulty::new(Failing::Once(usize::MAX), second_names);
            save(&disk, &path, &plans::numbered(2), Overwrite::This(&stamp)).expect("saved");
            assert_eq!((mode(&path), mode(&backup(&path))), (0o640, 0o640));
        }
    }

    #[test]
    fn a_read_only_plan_is_left_alone() {
        let (path, stamp) = prepared("read-only", 1);
        fs::set_permissions(&path, Permissions::from_mode(0o444)).expect("set");
        let stamp = stamp.expect("the stamp of what was saved");
        let refused = save(&System, &path, &plans::numbered(2), Overwrite::This(&stamp));
        assert!(matches!(refused, Err(SaveError::ReadOnly(_))), "{refused:?}");
        assert_eq!(number(&path), Some(1));
        assert_eq!(names(path.parent().expect("a folder")).len(), 1, "nothing is left over");
    }

    #[test]
    fn a_link_stays_a_link() {
        let (path, _) = prepared("linked", 1);
        let home = path.parent().expect("a folder");
        let session = home.join("desk");
        fs::create_dir(&session).expect("made");
        let link = session.join("plan.sightedge.ron");
        symlink("../slack-water.jpg.sightedge.ron", session.join("between")).expect("linked");
        symlink("between", &link).expect("linked");

        let opened = open(&System, &link).expect("opened");
        assert_eq!(
            opened.folder.canonicalize().expect("a folder"),
            home.canonicalize().expect("a folder")
        );
        save(&System, &link, &plans::numbered(2), Overwrite::This(&opened.stamp))
            .expect("saved");
        assert!(fs::symlink_metadata(&link).expect("it is there").is_symlink());
        assert_eq!((number(&path), number(&link)), (Some(2), Some(2)));
        assert_eq!(number(&backup(&path)), Some(1));
        assert_eq!(names(&session), ["between", "plan.sightedge.ron"]);

        let circle = session.join("circle");
        symlink("circle", &circle).expect("linked");
        let error = save(&System, &circle, &plans::numbered(2), Overwrite::Nothing);
        let error = error.map_err(|error| error.to_string()).expect_err("a circle");
        assert!(error.contains("the link points back to itself"), "{error}");

        let dangling = session.join("dangling");
        symlink("new.sightedge.ron", &dangling).expect("linked");
        save(&System, &dangling, &plans::numbered(5), Overwrite::Nothing).expect("saved");
        assert_eq!(number(&session.join("new.sightedge.ron")), Some(5));
    }
}
