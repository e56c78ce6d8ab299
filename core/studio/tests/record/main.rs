//! The record of a studio, held against what it promises.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test fails by panicking, and its child says how it ended"
)]

mod constraints;
mod corrections;
mod damage;
mod exchange;
mod migrations;
mod numbers;
mod processes;
mod promises;
mod sales;
mod support;
mod waiting;
