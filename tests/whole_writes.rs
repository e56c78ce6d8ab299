//! Any file that is written is there whole, as it was or as it is now, whatever step fails.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use sightedge_core::file::store::{System, write_new, write_whole, write_whole_by};
use sightedge_tests::faulty::{Failing, Faulty};

fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("whole-writes").join(name);
    match fs::remove_dir_all(&folder) {
        Err(error) if error.kind() != ErrorKind::NotFound => panic!("{error}"),
        _ => fs::create_dir_all(&folder).unwrap(),
    }
    folder
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<_> =
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

/// The steps, in their order: on the disk before it takes the place, and the folder after it.
#[test]
fn it_is_on_the_disk_before_it_takes_the_place_of_the_old_one() {
    let path = folder("steps").join("list.csv");
    let disk = Faulty::none();
    write_whole(&disk, &path, b"one").unwrap();
    assert_eq!(
        disk.steps(),
        ["link", "create", "permissions", "write", "sync", "rename", "sync folder"]
    );
    let disk = Faulty::none();
    write_new(&disk, &path.with_file_name("new.csv"), b"one").unwrap();
    let end = ["write", "sync", "hard link", "remove", "sync folder"];
    assert!(disk.steps().ends_with(&end), "{:?}", disk.steps());
}

#[test]
fn the_old_one_or_the_new_one_is_there_whatever_fails() {
    for old in [None, Some("old")] {
        for at in 0..10 {
            for failing in [Failing::Once(at), Failing::From(at)] {
                let folder = folder("faults");
                let path = folder.join("list.csv");
                if let Some(old) = old {
                    fs::write(&path, old).unwrap();
                }
                let disk = Faulty::new(failing, true);
                let done = write_whole(&disk, &path, b"brand new");
                let there = fs::read_to_string(&path).ok();
                assert_eq!(done.is_err(), disk.has_failed(), "{failing:?}");
                match done {
                    Ok(()) => assert_eq!(there.as_deref(), Some("brand new")),
                    // The very last step makes it outlast a power cut: it is there by then.
                    Err(_) if disk.steps().contains(&"sync folder") => {
                        assert_eq!(there.as_deref(), Some("brand new"), "{failing:?}");
                    }
                    Err(_) => assert_eq!(there.as_deref(), old, "{failing:?}"),
                }
                if matches!(failing, Failing::Once(_)) {
                    let count = usize::from(there.is_some());
                    assert_eq!(names(&folder).len(), count, "nothing is left: {failing:?}");
                }
            }
        }
    }
}

#[test]
fn what_cannot_be_filled_changes_nothing() {
    let folder = folder("filled");
    let path = folder.join("mat.png");
    fs::write(&path, "old").unwrap();
    let done = write_whole_by(&System, &path, |out| {
        out.write_all(b"half")?;
        Err(ErrorKind::StorageFull.into())
    });
    assert_eq!(done.unwrap_err().kind(), ErrorKind::StorageFull);
    assert_eq!(fs::read_to_string(&path).unwrap(), "old");
    assert_eq!(names(&folder), ["mat.png"]);
}

/// With second names and without.
#[test]
fn a_new_file_takes_the_place_of_none() {
    for second_names in [true, false] {
        let folder = folder("new");
        let path = folder.join("list.csv");
        let disk = Faulty::new(Failing::Once(usize::MAX), second_names);
        write_new(&disk, &path, b"one").unwrap();
        let again = write_new(&disk, &path, b"two").unwrap_err();
        assert_eq!(again.kind(), ErrorKind::AlreadyExists);
        assert_eq!(fs::read_to_string(&path).unwrap(), "one");
        assert_eq!(names(&folder), ["list.csv"]);
    }
}

/// A link stays a link, and who may read a file stays who may.
#[cfg(unix)]
#[test]
fn links_and_permissions_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = folder("links");
    let (real, link) = (folder.join("real.ron"), folder.join("link.ron"));
    fs::write(&real, "old").unwrap();
    fs::set_permissions(&real, fs::Permissions::from_mode(0o600)).unwrap();
    symlink("real.ron", &link).unwrap();
    write_whole(&System, &link, b"new").unwrap();
    assert_eq!(fs::read_to_string(&real).unwrap(), "new");
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(fs::metadata(&real).unwrap().permissions().mode() & 0o777, 0o600);
    assert_eq!(names(&folder), ["link.ron", "real.ron"]);
}
