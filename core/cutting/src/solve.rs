//! The entry point.

use crate::bound;
use crate::effort::{Control, Effort, Meter, Progress};
use crate::finish;
use crate::plan::Plan;
use crate::prepare;
use crate::problem::Problem;
use crate::solver::Solver;

/// Plans the cutting of `problem`: the same plan for the same problem and effort, as long as
/// `control` does not stop it early. What makes no sense is left out, with a complaint in
/// the plan; the rest is planned.
#[must_use]
pub fn solve(problem: &Problem, effort: Effort, control: Control<'_>) -> Plan {
    let (inst, complaints) = prepare::prepare(problem);
    let Control { should_stop, progress } = control;
    let mut meter = Meter::new(effort.steps, should_stop);
    let area = bound::by_area(&inst);
    let mut report = |pool: &_, best: &_, proof: Option<&_>, spent| {
        let plan =
            finish::plan(problem, &inst, pool, best, (area.as_ref(), proof), &complaints);
        progress(&Progress { plan: &plan, spent });
    };
    let mut solver = Solver::new(&inst, effort.seed, &mut meter, &mut report);
    solver.run();
    let (pool, best, proof) = (solver.pool, solver.best, solver.proof);
    finish::plan(problem, &inst, &pool, &best, (area.as_ref(), proof.as_ref()), &complaints)
}

/// As [`solve`], without progress reports and without an early stop.
#[must_use]
pub fn solve_quietly(problem: &Problem, effort: Effort) -> Plan {
    solve(problem, effort, Control { should_stop: &mut || false, progress: &mut |_| () })
}
