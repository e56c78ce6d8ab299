//! `sightedge edition`: what is numbered, where each print is, what is sold, without a window.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

mod at_bench;
mod correcting;
mod helping;
mod issuing;
mod keeping;
mod local_day;
mod written;

use sightedge_tests::verbs::{Bench, Said};

fn bench(name: &str) -> Bench {
    Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("editions-{name}")).unwrap()
}

/// As it is typed behind `sightedge edition`; the record is kept in the bench's folder.
fn edition(bench: &Bench, line: &str) -> Said {
    bench.run(&format!("edition {line} --studio @studio --date 2025-11-30"))
}

#[track_caller]
fn done(bench: &Bench, line: &str, wanted: &str) {
    let said = edition(bench, line);
    assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}: {said:?}");
    assert!(said.out.contains(wanted), "{line}: {}", said.out);
}

#[track_caller]
fn refused(bench: &Bench, line: &str, exit: u8, wanted: &str) {
    let said = edition(bench, line);
    assert_eq!((said.exit, said.out.as_str()), (exit, ""), "{line}: {said:?}");
    assert!(said.err.contains(wanted), "{line}: {}", said.err);
}
