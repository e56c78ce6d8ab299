//! The `sightedge` program.

use std::process::ExitCode;

fn main() -> ExitCode {
    sightedge::commands::main()
}
