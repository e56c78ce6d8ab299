//! Ten thousand random problems, each plan judged by the checker, each bound priced again.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stderr,
    reason = "a test fails by panicking and says what it could not run"
)]

use sightedge_cutting::{
    Effort, Piece, Problem, Stages, Stock, Supply, Trim, checker, solve_quietly,
};

/// Source: Steele, Lea and Flood (2014), as in the solver, but kept apart from it.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, from: i64, to: i64) -> i64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        let span = u64::try_from(to - from + 1).unwrap();
        from + i64::try_from((z ^ (z >> 31)) % span).unwrap()
    }

    fn count(&mut self, from: i64, to: i64) -> u32 {
        u32::try_from(self.roll(from, to)).unwrap()
    }

    fn chance(&mut self, percent: i64) -> bool {
        self.roll(1, 100) <= percent
    }
}

fn problem(dice: &mut Dice) -> Problem {
    let stages =
        [Stages::Two, Stages::Three, Stages::Any][usize::try_from(dice.roll(0, 2)).unwrap()];
    let kerf = if dice.chance(50) { 0 } else { dice.roll(1, 3) };
    let least_strip = if dice.chance(80) { 0 } else { dice.roll(1, 4) };
    let mut problem = Problem { stages, kerf, least_strip, ..Problem::default() };
    for index in 0..dice.roll(1, 3) {
        let (width, height) = (dice.roll(8, 60), dice.roll(8, 60));
        let trim = if dice.chance(60) {
            Trim::default()
        } else {
            Trim { left: dice.roll(0, 3), right: 1, bottom: dice.roll(0, 2), top: 2 }
        };
        let supply = if index == 0 && dice.chance(70) || dice.chance(40) {
            Supply::Unlimited
        } else {
            Supply::InHand(dice.count(0, 6))
        };
        let (name, cost) = (format!("stock {index}"), dice.roll(0, 12) * dice.roll(1, 3));
        problem.stocks.push(Stock { name, width, height, cost, supply, trim });
    }
    for index in 0..dice.roll(1, 7) {
        let (width, height) = (dice.roll(2, 30), dice.roll(2, 30));
        let (name, copies) = (format!("piece {index}"), dice.count(0, 6));
        problem.pieces.push(Piece { name, width, height, copies, may_turn: dice.chance(50) });
    }
    for piece in 0..problem.pieces.len() {
        let Piece { width, height, .. } = problem.pieces[piece];
        if dice.chance(20) && width > 6 && height > 6 {
            problem.stocks.push(Stock {
                name: format!("window of {piece}"),
                width: width - dice.roll(2, 5),
                height: height - dice.roll(2, 5),
                cost: 0,
                supply: Supply::Window { piece, each: dice.count(1, 2) },
                trim: Trim::default(),
            });
        }
    }
    problem
}

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
