//! Times, and what a family of jobs comes to.

use sightedge_cutting::{Problem, checker, solve_quietly};

use crate::options::Options;
use crate::peer;

/// Seconds this thread has worked: on a busy machine the time of day says little.
pub(crate) fn clock() -> f64 {
    let spent = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let spent = spent.and_then(|s| s.split(' ').next().and_then(|n| n.parse::<f64>().ok()));
    spent.map_or_else(
        || std::time::SystemTime::UNIX_EPOCH.elapsed().map_or(0.0, |d| d.as_secs_f64()),
        |nanoseconds| nanoseconds / 1e9,
    )
}

/// A loop of fixed work, for comparing machines.
pub(crate) fn calibration() -> f64 {
    let from = clock();
    let mut state = 1_u64;
    let mut cells = vec![0_u32; 1 << 16];
    for _ in 0..50_000_000 {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        let cell = &mut cells[(state >> 48) as usize];
        *cell = cell.wrapping_add(state as u32);
    }
    std::hint::black_box(&cells);
    clock() - from
}

/// Sums over the jobs of a family.
#[derive(Default)]
pub(crate) struct Sums {
    times: Vec<f64>,
    pub(crate) cost: f64,
    best: f64,
    bound: f64,
    proved: usize,
    priced: usize,
    above: usize,
    below: usize,
    high_bounds: usize,
    gap: f64,
    setups: usize,
    peer: f64,
    peer_less: usize,
    peer_time: f64,
}

impl Sums {
    /// Solves and checks one problem; `known` is the best published cost, where there is one.
    pub(crate) fn run(
        &mut self,
        name: &str,
        problem: &Problem,
        known: Option<f64>,
        o: &Options,
    ) {
        let from = clock();
        let plan = solve_quietly(problem, o.effort());
        let took = clock() - from;
        if let Err(faults) = checker::check(problem, &plan) {
            println!("{name}: NOT A PLAN: {}", faults[0]);
        }
        if o.prove {
            match checker::proven_bound(problem, &plan) {
                Ok(bound) if bound >= plan.bound.cost => self.priced += 1,
                other => println!("{name}: bound {} is not proven: {other:?}", plan.bound.cost),
            }
        }
        let (cost, bound) = (plan.cost as f64, plan.bound.cost as f64);
        self.times.push(took);
        self.cost += cost;
        self.bound += bound;
        self.proved += usize::from(plan.bound.proved);
        self.setups += plan.setups;
        if let Some(known) = known {
            self.best += known;
            self.above += usize::from(cost > known);
            self.below += usize::from(cost < known);
            self.high_bounds += usize::from(bound > known);
            self.gap = self.gap.max(cost / known - 1.0);
        }
        if o.peers {
            let from = clock();
            let sheets = peer::sheets(problem).unwrap_or(f64::NAN);
            self.peer_time += clock() - from;
            self.peer += sheets;
            self.peer_less += usize::from(sheets < cost);
        }
        if o.verbose {
            let known = known.map_or_else(String::new, |k| format!(" known {k}"));
            let proved = if plan.bound.proved { " proved" } else { "" };
            let setups = plan.setups;
            println!(
                "{name}: {cost}{known} bound {bound}{proved} {took:.3} s, {setups} set-ups"
            );
        }
    }

    pub(crate) fn print(mut self, what: &str, loops: f64) {
        let n = self.times.len();
        if n == 0 {
            return;
        }
        self.times.sort_by(f64::total_cmp);
        let mean = self.times.iter().sum::<f64>() / n as f64;
        let Self { cost, best, bound, above, below, high_bounds, setups, .. } = self;
        println!("{what}, {n} jobs: cost {cost}, bound {bound}, {setups} set-ups");
        if best > 0.0 {
            println!(
                "    best known {best}: {above} above (at worst {:.2} %), {below} below; \
                 {high_bounds} bounds above best known",
                100.0 * self.gap
            );
        }
        println!(
            "    proved {:.1} %; seconds: mean {mean:.3}, median {:.3}, 95 % {:.3}, worst {:.3}; \
             mean in calibration loops {:.2}",
            100.0 * self.proved as f64 / n as f64,
            self.times[n / 2],
            self.times[n * 95 / 100],
            self.times[n - 1],
            mean / loops
        );
        if self.priced > 0 {
            println!("    {} certificates priced again and found true", self.priced);
        }
        if self.peer > 0.0 {
            println!(
                "    cut-optimizer-2d: {} sheets, {} jobs with fewer than ours, mean {:.3} s",
                self.peer,
                self.peer_less,
                self.peer_time / n as f64
            );
        }
    }
}
