//! Many processes issue from one edition at once, and some are killed: no number twice, none
//! left out but what was voided, nothing lost that was reported done. This test is its own
//! children.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use sightedge_studio::{Change, EditionId, Error, State, open};
use tempfile::TempDir;

use super::support::{TODAY, edition, fresh, issue, next, now};

const SIZE: u32 = 10_000;
const FOLDER: &str = "SIGHTEDGE_STUDIO_FOLDER";
const TOLD: &str = "SIGHTEDGE_STUDIO_TOLD";

/// Issues until the edition is full, and writes down each number once it is reported done.
fn child(folder: &Path, told: &Path) {
    let mut opened = open(folder, TODAY).unwrap();
    let mut told = std::fs::File::create(told).unwrap();
    for turn in 1.. {
        match opened.record().issue(&next(EditionId(1)), &now()) {
            Ok(print) => {
                writeln!(told, "issued {} {}", print.id.0, print.number).unwrap();
                // An error at the bench, now and then.
                if turn % 97 == 0 {
                    opened.record().change(print.id, &Change::Void, &now()).unwrap();
                    writeln!(told, "voided {} {}", print.id.0, print.number).unwrap();
                }
            }
            Err(Error::Refused(words)) => {
                assert!(words.0.contains("no number is free"), "{words:?}");
                return;
            }
            Err(other) => panic!("{other}"),
        }
    }
}

fn start(folder: &Path, told: &Path) -> Child {
    Command::new(std::env::current_exe().unwrap())
        .args(["processes::ten_thousand_numbers_by_eight_processes", "--exact"])
        .env(FOLDER, folder)
        .env(TOLD, told)
        .stdout(Stdio::null())
        .spawn()
        .unwrap()
}

fn lines(file: &Path) -> usize {
    std::fs::read_to_string(file).unwrap_or_default().lines().count()
}

#[test]
fn ten_thousand_numbers_by_eight_processes() {
    if let (Some(folder), Some(told)) = (std::env::var_os(FOLDER), std::env::var_os(TOLD)) {
        child(Path::new(&folder), Path::new(&told));
        return;
    }
    let (folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), SIZE);
    assert_eq!(of, EditionId(1));
    let notes = TempDir::new().unwrap();
    let mut files: Vec<PathBuf> = Vec::new();
    let mut begin = || {
        files.push(notes.path().join(files.len().to_string()));
        start(folder.path(), files.last().unwrap())
    };
    let mut children: Vec<Child> = (0..8).map(|_| begin()).collect();
    // Three are killed in the midst of their work; three others begin meanwhile. Which of them
    // gets so far first is the disk's and the scheduler's choice.
    let mut killed = BTreeSet::new();
    for after in [100, 250, 400] {
        let until = Instant::now() + Duration::from_mins(10);
        let far = |child: &usize| lines(&notes.path().join(child.to_string())) >= after;
        let one = loop {
            let mut left = (0..8).filter(|child| !killed.contains(child));
            if let Some(one) = left.find(far) {
                break one;
            }
            assert!(Instant::now() < until, "no child gets to {after}");
            std::thread::sleep(Duration::from_millis(3));
        };
        children[one].kill().unwrap();
        children[one].wait().unwrap();
        killed.insert(one);
        children.push(begin());
    }
    for (number, mut child) in children.into_iter().enumerate() {
        assert!(killed.contains(&number) || child.wait().unwrap().success());
    }

    let prints = opened.read().prints(of).unwrap();
    let live: Vec<u32> =
        prints.iter().filter(|print| print.live).map(|print| print.number).collect();
    assert_eq!(live, (1..=SIZE).collect::<Vec<_>>(), "each number once, and none left out");
    let by_id: BTreeMap<i64, _> = prints.iter().map(|print| (print.id.0, print)).collect();
    let (mut issued, mut voided) = (BTreeSet::new(), BTreeSet::new());
    for file in &files {
        for line in std::fs::read_to_string(file).unwrap().lines() {
            let words: Vec<&str> = line.split(' ').collect();
            // A line cut short by the kill was not told to anyone.
            let [what, id, number] = words[..] else { continue };
            let (id, number): (i64, u32) = (id.parse().unwrap(), number.parse().unwrap());
            let print = by_id[&id];
            assert_eq!(print.number, number, "what was reported done is there");
            let first = if what == "issued" { issued.insert(id) } else { voided.insert(id) };
            assert!(first, "{what} twice: print {id}");
            if what == "voided" {
                assert_eq!(print.now.state, State::Voided);
            }
        }
    }
    // Each of the killed may have done one thing that it could not report any more.
    assert!(voided.len() > 50, "{}", voided.len());
    let untold = prints.len() - issued.len();
    assert!(untold <= 3, "{untold} that nobody issued");
    let dead = prints.iter().filter(|print| !print.live).count();
    assert!(dead - voided.len() <= 3, "{dead} voided, {} told", voided.len());
    assert_eq!(opened.read().check().unwrap(), Vec::<String>::new());
    assert_eq!(opened.read().history(sightedge_studio::Subject::Edition(of)).unwrap().len(), 1);

    // What is voided from now on is a gap, and the only one.
    let gap = prints.iter().find(|print| print.live && print.number == 777).unwrap().id;
    opened.record().change(gap, &Change::Void, &now()).unwrap();
    assert_eq!(issue(opened.record(), of).number, 777);
}
