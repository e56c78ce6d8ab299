//! Saves plans, one after the other, until it is killed: `save_forever FILE`. The test of
//! saving kills it at random moments.

use std::io::Write;
use std::path::Path;
use std::process::ExitCode;

use sightedge_core::file::store::{Overwrite, System, open, save};
use sightedge_tests::plans;

fn main() -> ExitCode {
    let Some(path) = std::env::args_os().nth(1) else { return ExitCode::from(4) };
    let path = Path::new(&path);
    let Ok(opened) = open(&System, path) else { return ExitCode::from(3) };
    let Some(mut n) = plans::number(&opened.document) else { return ExitCode::from(3) };
    let mut stamp = opened.stamp;
    // Tells that saving begins.
    if std::io::stdout().write_all(b"!").and_then(|()| std::io::stdout().flush()).is_err() {
        return ExitCode::from(5);
    }
    loop {
        n += 1;
        match save(&System, path, &plans::numbered(n), Overwrite::This(&stamp)) {
            Ok(saved) => stamp = saved,
            Err(_) => return ExitCode::from(5),
        }
    }
}
