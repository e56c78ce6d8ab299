//! The `sightedge` program.

use std::process::ExitCode;

fn main() -> ExitCode {
    sightedge::cli::main()
}
