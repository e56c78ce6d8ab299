//! Ten thousand random problems, each plan judged by the checker, each bound priced again.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stderr,
    reason = "a test fails by panicking and says what it could not run"
)]

mod support;

use sightedge_cutting::{Effort, checker, solve_quietly};
use support::{Dice, problem};

/// Source: the problem's own conditions; no answer is published for random problems.
#[test]
fn every_plan_is_what_it_says() {
    let mut dice = Dice(8);
    let mut proved = 0;
    for number in 0..10_000 {
        let problem = problem(&mut dice);
        let plan = solve_quietly(&problem, Effort { steps: 700_000, seed: 1 });
        if let Err(faults) = checker::check(&problem, &plan) {
            panic!("problem {number}: {problem:?}\n{}\n{plan:?}", faults[0]);
        }
        if plan.bound.cost > 0 {
            match checker::proven_bound(&problem, &plan) {
                Ok(bound) if bound >= plan.bound.cost => {}
                other => panic!(
                    "problem {number}: {problem:?}\nbound {:?} but {other:?} by {:?}",
                    plan.bound, plan.certificate
                ),
            }
        }
        proved += i32::from(plan.bound.proved);
    }
    assert!(proved > 6_000, "only {proved} of 10000 proved");
}
