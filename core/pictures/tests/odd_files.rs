//! Hundreds of malformed and odd files from elsewhere: no panic, no hang, no flood of memory.
//!
//! `tests/fetch_odd_files.sh` fetches them into `$SIGHTEDGE_ODD_FILES`. Each is opened in a child
//! process (this program is its own child), the way the window opens a stranger's file.
#![allow(
    clippy::print_stdout,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a test program without the usual harness, which plays its child's part too"
)]

use std::collections::BTreeMap;
use std::io::BufReader;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use sightedge_pictures::job::{Reply, Request, Work, serve};
use sightedge_pictures::{CancelToken, Limits, PictureError, Target};

const LONGEST: Duration = Duration::from_secs(10);
const MOST_MEMORY_MIB: u64 = 1024;
const FEWEST_FILES: usize = 300;

fn main() {
    match std::env::args().nth(1).as_deref() {
        Some("--serve") => {
            let mut input = BufReader::new(std::io::stdin());
            serve(&mut input, &mut std::io::stdout().lock()).unwrap();
            if let Some(path) = std::env::var_os("ODD_FILES_PEAK") {
                std::fs::write(path, peak_kib().to_string()).unwrap();
            }
        }
        Some("--list") => println!("odd_files: test"),
        _ => all(),
    }
}

/// The most this process ever held, where the system tells.
fn peak_kib() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.and_then(|v| v.split_whitespace().next()?.parse().ok()).unwrap_or(0)
}

fn all() {
    let Some(folder) = std::env::var_os("SIGHTEDGE_ODD_FILES").map(PathBuf::from) else {
        let what = "SIGHTEDGE_ODD_FILES is not set: core/pictures/tests/fetch_odd_files.sh \
                    fetches the files";
        assert!(std::env::var_os("CI").is_none(), "odd files not run: {what}");
        println!("odd files not run: {what}");
        return;
    };
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder.join("pictures"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    files.sort();
    assert!(files.len() >= FEWEST_FILES, "only {} files are there", files.len());
    let mut tally: BTreeMap<&str, usize> = BTreeMap::new();
    let mut bad = Vec::new();
    let (mut slowest, mut largest) = ((Duration::ZERO, String::new()), (0, String::new()));
    for file in &files {
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let (reply, time, peak) = open(file);
        let outcome = match &reply {
            Reply::Preview(preview) if preview.findings.is_empty() => "shown",
            Reply::Preview(_) => "shown, with findings",
            Reply::Failed(PictureError::Crashed { detail }) => {
                bad.push(format!("{name}: {detail}"));
                "crashed"
            }
            Reply::Failed(error) => {
                assert!(error.to_string().len() > 20, "{name}: {error}");
                "refused, with a reason"
            }
            _ => "answered oddly",
        };
        *tally.entry(outcome).or_default() += 1;
        if time > LONGEST {
            bad.push(format!("{name}: took {time:?}"));
        }
        if time > slowest.0 {
            slowest = (time, name.clone());
        }
        if peak > largest.0 {
            largest = (peak, name);
        }
    }
    println!("odd files: {} opened: {tally:?}", files.len());
    println!("odd files: slowest {:?} ({})", slowest.0, slowest.1);
    println!("odd files: most memory {} MiB ({})", largest.0, largest.1);
    assert!(largest.0 < MOST_MEMORY_MIB, "{} held {} MiB", largest.1, largest.0);
    assert!(bad.is_empty(), "{} went wrong:\n{}", bad.len(), bad.join("\n"));
}

/// The reply, how long it took, and the MiB it held.
fn open(file: &Path) -> (Reply, Duration, u64) {
    let limits = Limits { time: LONGEST, ..Limits::default() };
    let target = Target::Longest(512);
    let request = Request { path: file.to_path_buf(), work: Work::Preview(target), limits };
    let note = Path::new(env!("CARGO_TARGET_TMPDIR")).join("odd-files-peak");
    drop(std::fs::remove_file(&note));
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.arg("--serve").env("ODD_FILES_PEAK", &note).stderr(Stdio::null());
    let start = Instant::now();
    let reply = request.run_in_child(&mut command, &CancelToken::default());
    let time = start.elapsed();
    let peak = std::fs::read_to_string(&note).ok().and_then(|v| v.parse::<u64>().ok());
    (reply, time, peak.unwrap_or(0) / 1024)
}
