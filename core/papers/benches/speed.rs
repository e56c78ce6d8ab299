//! How long papers take, beside a fixed loop so that runs on other machines compare.
//!
//! Wanted: a plan sheet in under 150 ms, all papers of a plan in under 500 ms, 300 sheets at 80
//! pages a second or better in under 500 MB, 3,000 in no more.
#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a bench says what it measures")]

#[path = "../tests/support/mod.rs"]
mod support;

use std::hint::black_box;
use std::sync::atomic::AtomicBool;
use std::time::{Duration, Instant};

use sightedge_core::date::Date;
use sightedge_core::file;
use sightedge_papers::{Archive, Choice, Kind, Paper, forget, write_all};
use support::{made, reference};

/// The fixed loop: 2^27 steps of a generator that no compiler can fold.
fn calibration() -> Duration {
    let start = Instant::now();
    let mut state = black_box(1_u64);
    for _ in 0..1_u32 << 27 {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        state ^= state >> 29;
    }
    black_box(state);
    start.elapsed()
}

/// The least of five.
fn least(mut run: impl FnMut()) -> Duration {
    run();
    let times = (0..5).map(|_| {
        forget();
        let start = Instant::now();
        run();
        start.elapsed()
    });
    times.min().unwrap_or_default()
}

/// The most memory this process held, in MiB, where the system reports it.
fn peak() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM"))?;
    let kib: u64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kib / 1024)
}

fn main() {
    let unit = calibration().min(calibration());
    let print_row = |name: &str, time: Duration| {
        let ratio = time.as_secs_f64() / unit.as_secs_f64();
        println!("{name:<34}{:>9.1} ms {ratio:>8.3} loops", time.as_secs_f64() * 1e3);
    };
    print_row("the fixed loop", unit);
    let document = reference();
    let one = |kind| {
        black_box(made(&document, kind, Paper::Letter, Archive::A2aUa1));
    };
    print_row("a plan sheet (150 ms)", least(|| one(Kind::Sheet)));
    print_row("all papers of a plan (500 ms)", least(|| Kind::ALL.into_iter().for_each(one)));
    for count in [300_u32, 3_000] {
        let folder =
            std::env::temp_dir().join(format!("sightedge-bench-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let plans: Vec<_> = (0..count)
            .map(|n| {
                let mut document = reference();
                document.id = format!("plan{n:08}");
                document.works[0].title = format!("Slack water, {n}");
                document.works[0].picture.path = format!("picture-{n}.jpg");
                let path = folder.join(format!("picture-{n}.jpg.sightedge.ron"));
                std::fs::write(&path, file::write(&document)).unwrap();
                path
            })
            .collect();
        let choice = Choice {
            kinds: vec![Kind::Sheet],
            svg: false,
            dxf: false,
            csv: false,
            date: Date::new(2026, 3, 1),
            day_there: |_| None,
            ..Choice::default()
        };
        let start = Instant::now();
        let stop = AtomicBool::new(false);
        write_all(&plans, &folder.join("papers"), &choice, &stop, &mut |_| {}).unwrap();
        let time = start.elapsed();
        let rate = f64::from(count) / time.as_secs_f64();
        print_row(&format!("{count} sheets"), time);
        println!("{:<34}{rate:>9.1} pages a second, peak {:?} MiB", "", peak());
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
