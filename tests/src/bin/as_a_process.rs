//! The program's own `main`, so that tests can run it as a process.

use std::process::ExitCode;

fn main() -> ExitCode {
    sightedge::commands::main()
}
