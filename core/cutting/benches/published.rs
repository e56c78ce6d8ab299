//! Totals against published answers, in one run.
#![allow(
    clippy::print_stdout,
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "a bench prints a table"
)]

use std::collections::BTreeMap;
use std::path::PathBuf;

use sightedge_cutting::{Effort, Problem, Stages, instance, solve_quietly};

fn data() -> PathBuf {
    std::env::var_os("SIGHTEDGE_DATA").map_or_else(
        || PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data")),
        PathBuf::from,
    )
}

fn load(family: &str) -> (Vec<(String, Problem)>, BTreeMap<String, BTreeMap<String, String>>) {
    let open = |tail: &str| {
        std::fs::File::open(data().join("cutting").join(format!("{family}-{tail}.csv")))
            .unwrap()
    };
    let problems = instance::read_all(open("instances"), true).unwrap();
    let mut best = BTreeMap::new();
    let mut rows = csv::Reader::from_reader(open("best"));
    let headings = rows.headers().unwrap().clone();
    for row in rows.records() {
        let row = row.unwrap();
        let fields: BTreeMap<String, String> = headings
            .iter()
            .zip(row.iter())
            .map(|(h, f)| (h.to_owned(), f.to_owned()))
            .collect();
        best.insert(fields["instance"].clone(), fields);
    }
    (problems, best)
}

/// Seconds this thread has worked: on a busy machine the time of day says little.
fn clock() -> f64 {
    let spent = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let spent = spent.and_then(|s| s.split(' ').next().and_then(|n| n.parse::<f64>().ok()));
    spent.map_or_else(
        || std::time::SystemTime::UNIX_EPOCH.elapsed().unwrap().as_secs_f64(),
        |nanoseconds| nanoseconds / 1e9,
    )
}

struct Options {
    every: usize,
    skip: usize,
    seconds: f64,
    verbose: bool,
    only: String,
}

fn run(
    name: &str,
    problem: &Problem,
    best: f64,
    best_bound: Option<f64>,
    o: &Options,
    sums: &mut Sums,
) {
    let from = clock();
    let steps = (o.seconds * 1e9) as u64;
    let plan = solve_quietly(problem, Effort { steps, seed: 1 });
    let took = clock() - from;
    sums.times.push(took);
    sums.cost += plan.cost as f64;
    sums.best += best;
    sums.bound += plan.bound.cost as f64;
    sums.proved += usize::from(plan.bound.proved);
    sums.beaten += usize::from((plan.cost as f64) < best);
    sums.worse += usize::from((plan.cost as f64) > best);
    sums.high += usize::from(plan.bound.cost as f64 > best + 1e-6);
    sums.gap = sums.gap.max(plan.cost as f64 / best - 1.0);
    sums.setups += plan.setups;
    if o.verbose {
        println!(
            "{name:40} cost {:9} best {best:9} bound {:9} ({:?}) area {:6} {} {took:7.3} s setups {}",
            plan.cost,
            plan.bound.cost,
            best_bound,
            plan.bound.area,
            if plan.bound.proved { "proved" } else { "      " },
            plan.setups
        );
    }
}

#[derive(Default)]
struct Sums {
    times: Vec<f64>,
    cost: f64,
    best: f64,
    bound: f64,
    proved: usize,
    beaten: usize,
    worse: usize,
    high: usize,
    gap: f64,
    setups: usize,
}

impl Sums {
    fn print(mut self, what: &str) {
        let n = self.times.len();
        if n == 0 {
            return;
        }
        self.times.sort_by(f64::total_cmp);
        println!(
            "{what:32} n {n:4} cost {} best {} bound {} better {} worse {} proved {:.1}% worst gap {:.3}% high bounds {} mean {:.3} s median {:.3} p95 {:.3} max {:.3} setups {}",
            self.cost,
            self.best,
            self.bound,
            self.beaten,
            self.worse,
            100.0 * self.proved as f64 / n as f64,
            100.0 * self.gap,
            self.high,
            self.times.iter().sum::<f64>() / n as f64,
            self.times[n / 2],
            self.times[n * 95 / 100],
            self.times[n - 1],
            self.setups
        );
    }
}

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let value =
        |flag: &str| args.iter().position(|a| a == flag).and_then(|i| args.get(i + 1)).cloned();
    let has = |flag: &str| args.iter().any(|a| a == flag);
    let o = Options {
        every: value("--every").map_or(1, |v| v.parse().unwrap()),
        skip: value("--skip").map_or(0, |v| v.parse().unwrap()),
        seconds: value("--seconds").map_or(4.0, |v| v.parse().unwrap()),
        verbose: has("--verbose"),
        only: value("--only").unwrap_or_default(),
    };
    if has("bins") {
        let (problems, best) = load("bin-packing");
        for (stages, word, key) in
            [(Stages::Any, "any", "any"), (Stages::Three, "3", "three_stage")]
        {
            for (turn, orient) in [(true, "rotated"), (false, "oriented")] {
                if value("--stages").is_some_and(|s| s != word)
                    || value("--turn").is_some_and(|t| t != orient)
                {
                    continue;
                }
                let mut sums = Sums::default();
                for (name, problem) in problems
                    .iter()
                    .filter(|p| p.0.contains(&o.only))
                    .skip(o.skip)
                    .step_by(o.every)
                {
                    let mut problem = problem.clone();
                    problem.stages = stages;
                    for p in &mut problem.pieces {
                        p.may_turn = turn;
                    }
                    let b: f64 = best[name][&format!("best_{key}_{orient}")].parse().unwrap();
                    run(name, &problem, b, None, &o, &mut sums);
                }
                sums.print(&format!("bins {word} {orient}"));
            }
        }
    }
    if has("stock") {
        let (problems, best) = load("stock-sheets");
        for orient in ["rotated", "oriented"] {
            if value("--turn").is_some_and(|t| t != orient) {
                continue;
            }
            let mut sums = Sums::default();
            for (name, problem) in problems.iter().filter(|p| p.0.contains(&o.only)) {
                let mut problem = problem.clone();
                problem.stages = Stages::Two;
                for p in &mut problem.pieces {
                    p.may_turn = orient == "rotated";
                }
                let b: f64 = best[name][&format!("two_stage_{orient}_best")].parse().unwrap();
                let l: f64 = best[name][&format!("two_stage_{orient}_bound")].parse().unwrap();
                run(name, &problem, b, Some(l), &o, &mut sums);
            }
            sums.print(&format!("stock sheets {orient}"));
        }
    }
    for family in ["shows-small", "shows-big"] {
        if !has(family) && !has("shows") {
            continue;
        }
        let (problems, best) = load(family);
        let stages = if has("--three") { Stages::Three } else { Stages::Any };
        for mm in [false, true] {
            if has("--mm") != mm {
                continue;
            }
            let mut sums = Sums::default();
            for (name, problem) in
                problems.iter().filter(|p| p.0.contains(&o.only)).skip(o.skip).step_by(o.every)
            {
                let mut problem = problem.clone();
                problem.stages = stages;
                for p in &mut problem.pieces {
                    p.may_turn = best[name]["may_turn"] == "yes";
                    if mm {
                        p.width = (p.width * 254 + 79) / 80;
                        p.height = (p.height * 254 + 79) / 80;
                    }
                }
                for s in &mut problem.stocks {
                    if mm {
                        s.width = s.width * 254 / 80;
                        s.height = s.height * 254 / 80;
                    }
                }
                let b: f64 = best[name]["best"].parse().unwrap();
                run(name, &problem, b, None, &o, &mut sums);
            }
            sums.print(&format!("{family}{}", if mm { " mm" } else { "" }));
        }
    }
}
