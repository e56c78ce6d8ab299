//! The `sightedge` program.
fn main() {}
