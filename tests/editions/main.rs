//! `sightedge edition`: what is numbered, where each print is, what is sold, without a window.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

mod at_bench;
mod correcting;
mod helping;
mod issuing;
mod keeping;
mod local_day;
mod written;

use sightedge_tests::commands::{Bench, Said, commands};

fn bench(name: &str) -> Bench {
    Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("editions-{name}")).unwrap()
}

/// As it is typed behind `sightedge edition`; the record is kept in the bench's folder, and what
/// has a day is of one day.
fn edition(bench: &Bench, line: &str) -> Said {
    let word = line.split(' ').next().unwrap_or_default();
    let dated = commands().iter().any(|command| {
        command.typed == ["edition", word] && command.options.iter().any(|one| one == "--date")
    });
    let date = if dated { "--date 2025-11-30" } else { "" };
    bench.run(&format!("edition {line} --record @studio {date}"))
}

#[track_caller]
fn done(bench: &Bench, line: &str, wanted: &str) {
    let said = edition(bench, line);
    assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}: {said:?}");
    assert!(said.out.contains(wanted), "{line}: {}", said.out);
}

/// As [`done`], with something to say beside it.
#[track_caller]
fn noted(bench: &Bench, line: &str, wanted: &str, note: &str) {
    let said = edition(bench, line);
    assert_eq!(said.exit, 0, "{line}: {said:?}");
    assert!(said.out.contains(wanted), "{line}: {}", said.out);
    assert!(said.err.contains(note), "{line}: {}", said.err);
}

#[track_caller]
fn refused(bench: &Bench, line: &str, exit: u8, wanted: &str) {
    let said = edition(bench, line);
    assert_eq!((said.exit, said.out.as_str()), (exit, ""), "{line}: {said:?}");
    assert!(said.err.contains(wanted), "{line}: {}", said.err);
}
