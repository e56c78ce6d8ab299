//! Stock sheets into boards by straight edge-to-edge cuts.
mod bound;
pub mod checker;
mod effort;
mod fill;
mod finish;
mod grid;
pub mod instance;
mod master;
mod plan;
mod pool;
mod prepare;
mod pricing;
mod problem;
mod rng;
mod search;
mod simplex;
mod solve;
mod solver;
mod tidy;
mod tree;

pub use effort::{Control, Effort, Progress};
pub use plan::{Bound, Certificate, Cut, Fate, Part, Pattern, Placement, Plan};
pub use problem::{
    Complaint, DEAREST, LONGEST, MOST_COPIES, Piece, Problem, Stages, Stock, Supply, Trim,
};
pub use solve::{solve, solve_quietly};
