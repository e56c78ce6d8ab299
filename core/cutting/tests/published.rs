//! A quick subset of the instances with published answers: the bench runs them all.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stderr,
    reason = "a test fails by panicking and says what it could not run"
)]

mod support;

use std::fmt::Write as _;

use sightedge_cutting::report::{CertificateReport, Report};
use sightedge_cutting::{Effort, Problem, Stages, checker, instance, solve_quietly};
use support::load;

/// Solves, checks everything there is to check, and returns cost, bound and whether proved.
fn run(name: &str, problem: &Problem, steps: u64) -> (i64, i64, bool) {
    let plan = solve_quietly(problem, Effort { steps, seed: 1 });
    if let Err(faults) = checker::check(problem, &plan) {
        panic!("{name}: {}", faults[0]);
    }
    let bound = checker::proven_bound(problem, &plan).unwrap();
    assert!(bound >= plan.bound.cost, "{name}: {bound} proven, {} claimed", plan.bound.cost);
    (plan.cost, plan.bound.cost, plan.bound.proved)
}

/// Source: Berkey and Wang (1987); Martello and Vigo (1998); best known numbers as collected
/// in the public repository fontanf/packingsolver.
#[test]
fn bin_packing() {
    let Some((problems, best)) = load("bin-packing") else { return };
    for (stages, key) in [(Stages::Any, "any"), (Stages::Three, "three_stage")] {
        for (turn, word) in [(true, "rotated"), (false, "oriented")] {
            let (mut total, mut total_best) = (0, 0);
            for (name, problem) in problems.iter().step_by(10) {
                let mut problem = problem.clone();
                problem.stages = stages;
                for piece in &mut problem.pieces {
                    piece.may_turn = turn;
                }
                let (cost, bound, _) = run(name, &problem, 400_000_000);
                let known: i64 = best[name][&format!("best_{key}_{word}")].parse().unwrap();
                assert!(bound <= known, "{name}: bound {bound} above the best known {known}");
                total += cost;
                total_best += known;
            }
            assert!(total <= total_best + 3, "{key} {word}: {total}, best known {total_best}");
        }
    }
}

/// Source: an independent solver's optima for generated shows (see the data's README).
#[test]
fn shows() {
    for family in ["shows-small", "shows-big"] {
        let Some((problems, best)) = load(family) else { return };
        for (name, problem) in problems.iter().step_by(6) {
            let mut problem = problem.clone();
            problem.stages = Stages::Any;
            for piece in &mut problem.pieces {
                piece.may_turn = best[name]["may_turn"] == "yes";
            }
            let (cost, bound, proved) = run(name, &problem, 2_000_000_000);
            let known: i64 = best[name]["best"].parse().unwrap();
            assert!(cost == known && proved, "{name}: {cost} ({bound}), best known {known}");
        }
    }
}

/// Source: Cintra, Miyazawa, Wakabayashi and Xavier (2008); best known and bound as collected
/// in the public repository fontanf/packingsolver. Their first cuts all run one way; ours may
/// run either way, so ours may be cheaper.
#[test]
fn stock_sheets() {
    let Some((problems, best)) = load("stock-sheets") else { return };
    for (name, problem) in problems.iter().filter(|(n, _)| !n.contains("gcut11")) {
        let mut problem = problem.clone();
        problem.stages = Stages::Two;
        let (cost, bound, _) = run(name, &problem, 200_000_000);
        let known: f64 = best[name]["two_stage_rotated_best"].parse().unwrap();
        let (cost, bound) =
            (f64::from(i32::try_from(cost).unwrap()), i32::try_from(bound).unwrap());
        assert!(cost <= known * 1.005, "{name}: {cost}, best known {known}");
        assert!(f64::from(bound) <= known, "{name}: bound {bound} above {known}");
    }
}

/// Source: the shape other programs read (`sheets`, `cost`, `lower_bound`, ...).
#[test]
fn the_report_says_what_the_plan_says() {
    let Some((problems, _)) = load("shows-small") else { return };
    let (_, problem) = &problems[0];
    let plan = solve_quietly(problem, Effort::seconds(1));
    let json = serde_json::to_value(Report::new(problem, &plan, 0.5, None)).unwrap();
    assert_eq!(json["sheets"], plan.sheets, "sheets");
    assert_eq!(json["cost"], plan.cost, "cost");
    assert_eq!(json["lower_bound"], plan.bound.cost, "bound");
    assert_eq!(json["patterns"][0]["stock"]["width"], 318, "stock");
    assert_eq!(json["patterns"][0]["cuts"]["height"], 254, "root of the cuts");
    let mut copies = vec![0; problem.pieces.len()];
    for placement in json["placements"].as_array().unwrap() {
        let piece = usize::try_from(placement["piece"].as_u64().unwrap()).unwrap();
        copies[piece] += placement["copies"].as_u64().unwrap();
    }
    let wanted: Vec<u64> = problem.pieces.iter().map(|p| u64::from(p.copies)).collect();
    assert_eq!(copies, wanted, "copies");
    let proof = serde_json::to_value(CertificateReport::new(problem, &plan)).unwrap();
    assert_eq!(proof["pieces"][0]["price"], plan.certificate.prices[0], "price");
    let millimetres = Report::new(problem, &plan, 0.5, Some(3.175));
    let json = serde_json::to_value(millimetres).unwrap();
    assert_eq!(json["patterns"][0]["stock"]["width"], 318.0 * 3.175, "scaled");
}

/// Source: none published; the bound is the plan's own, priced again where that is quick
/// enough. With hundreds of sizes the relaxation must not take all the effort.
#[test]
fn two_thousand_pieces_of_two_hundred_sizes() {
    let mut state = 3_u64;
    let mut roll = |from: u64, to: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        i64::try_from(from + (state >> 33) % (to - from + 1)).unwrap()
    };
    let mut table = "instance,kind,width,height,copies\nlarge,sheet,318,254,\n".to_owned();
    for _ in 0..200 {
        let (width, height) = (roll(30, 160), roll(30, 200));
        writeln!(table, "large,piece,{width},{height},10").unwrap();
    }
    let problem = instance::read(table.as_bytes(), "large", true).unwrap().problem;
    let plan = solve_quietly(&problem, Effort::seconds(8));
    assert_eq!(checker::check(&problem, &plan), Ok(()), "checked");
    assert!(plan.bound.gap <= 0.02, "{} against {}", plan.cost, plan.bound.cost);
}
