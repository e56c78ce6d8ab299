//! At the same cost: fewer set-ups, then one large remnant.

#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "counts of sheets beside the relaxation's value"
)]

use crate::answer::Answer;
use crate::effort::Meter;
use crate::master::Master;
use crate::pool::{Pattern, Pool};
use crate::prepare::{Instance, Placed};
use crate::rng::Rng;
use crate::search::{self, Search};
use crate::tree;

/// Steps spent on this at most, whatever is left.
const MOST_STEPS: u64 = 60_000_000;

/// Looks for an answer that costs no more and has fewer patterns: fixes the pattern that can
/// be repeated most often as long as the relaxation says the rest still fits the cost.
pub(crate) fn fewer_setups(
    inst: &Instance,
    pool: &Pool,
    best: &Answer,
    rng: &mut Rng,
    meter: &mut Meter<'_>,
) -> Option<Answer> {
    let copies: u64 = inst.kinds.iter().map(|k| u64::from(k.copies)).sum();
    if meter.over() || best.used.len() < 2 || copies < 2 * inst.kinds.len() as u64 {
        return None;
    }
    let until = meter.spent() + MOST_STEPS.min(meter.left());
    let mut master = Master::over(inst, pool);
    master.lp.primal();
    meter.spend(master.lp.take_steps());
    let root = master.lp.save();
    let mut found: Option<Answer> = None;
    for attempt in 0..8 {
        let most = found.as_ref().unwrap_or(best).used.len();
        let noise = if attempt == 0 { 0.0 } else { 0.5 };
        let used = dive(inst, pool, &mut master, best.cost, most, noise, rng, meter, until);
        if let Some(used) = used {
            let cost = used.iter().map(|(p, n)| cost_of(inst, pool, *p) * i64::from(*n)).sum();
            found = Some(Answer { cost, missing: vec![0; inst.kinds.len()], used });
        }
        if meter.spent() >= until || meter.over() {
            break;
        }
        let demand: Vec<u32> = inst.kinds.iter().map(|k| k.copies).collect();
        let rhs = master.rhs(&demand, &search::all_sheets(inst));
        master.lp.set_rhs(&rhs);
        master.lp.restore(&root);
    }
    found
}

fn cost_of(inst: &Instance, pool: &Pool, pattern: usize) -> i64 {
    inst.sheets[pool.patterns[pattern].sheet].cost
}

/// How often a pattern can be cut without a spare piece.
fn repeats(pattern: &Pattern, remaining: &[u32], left: &[u32]) -> u32 {
    let times = pattern.counts.iter().map(|(k, n)| remaining[*k] / n).min();
    times.unwrap_or(0).min(left[pattern.sheet])
}

#[allow(clippy::too_many_arguments, reason = "one loop's state, passed once")]
fn dive(
    inst: &Instance,
    pool: &Pool,
    master: &mut Master<'_>,
    goal: i64,
    most: usize,
    noise: f64,
    rng: &mut Rng,
    meter: &mut Meter<'_>,
    until: u64,
) -> Option<Vec<(usize, u32)>> {
    let mut remaining: Vec<u32> = inst.kinds.iter().map(|k| k.copies).collect();
    let mut left = search::all_sheets(inst);
    let mut used: Vec<(usize, u32)> = Vec::new();
    let mut fixed = 0;
    while remaining.iter().any(|n| *n > 0) {
        if used.len() + 1 >= most || meter.spent() >= until || meter.over() {
            return None;
        }
        let slack = goal as f64 - fixed as f64 - master.lp.objective() + 1e-6;
        let mut choices: Vec<(f64, usize, u32)> = Vec::new();
        for (number, pattern) in pool.patterns.iter().enumerate() {
            let mut times = repeats(pattern, &remaining, &left);
            if times == 0 {
                // The last sheets may leave a place or two empty.
                let wanted =
                    pattern.counts.iter().map(|(k, n)| remaining[*k].min(*n)).sum::<u32>();
                if wanted < remaining.iter().sum() || left[pattern.sheet] == 0 {
                    continue;
                }
                times = 1;
            }
            let reduced = master.lp.reduced_cost(master.column_of(number)).max(0.0);
            while times > 0 && reduced * f64::from(times) > slack {
                times -= 1;
            }
            if times > 0 {
                let area: i64 = pattern
                    .counts
                    .iter()
                    .map(|(k, n)| inst.kinds[*k].area() * i64::from((*n).min(remaining[*k])))
                    .sum();
                let share = area as f64 / inst.sheets[pattern.sheet].area() as f64;
                let key = f64::from(times) * share * (1.0 + noise * rng.unit());
                choices.push((key, number, times));
            }
        }
        meter.spend(pool.patterns.len() as u64 * 20);
        choices.sort_by(|a, b| b.0.total_cmp(&a.0));
        let before = master.lp.save();
        let mut chosen = None;
        for &(_, number, times) in choices.iter().take(12) {
            let pattern = &pool.patterns[number];
            let cost = cost_of(inst, pool, number);
            let mut rest = remaining.clone();
            for (kind, n) in &pattern.counts {
                rest[*kind] = rest[*kind].saturating_sub(n * times);
            }
            let mut spare = left.clone();
            search::take(&mut spare[pattern.sheet], times);
            let total = fixed + cost * i64::from(times);
            master.lp.set_rhs(&master.rhs(&rest, &spare));
            master.lp.dual();
            meter.spend(master.lp.take_steps());
            if total as f64 + master.lp.objective() <= goal as f64 + 1e-6 {
                chosen = Some((number, times, rest, spare, total));
                break;
            }
            master.lp.restore(&before);
        }
        let (number, times, rest, spare, total) = chosen?;
        (remaining, left, fixed) = (rest, spare, total);
        match used.iter_mut().find(|(p, _)| *p == number) {
            Some((_, n)) => *n += times,
            None => used.push((number, times)),
        }
    }
    Some(used)
}

/// Packs the emptiest sheet anew so that what is left of it is in one large part.
pub(crate) fn one_remnant(
    inst: &Instance,
    pool: &mut Pool,
    best: &mut Answer,
    search: &mut Search<'_>,
) {
    let used =
        |placed: &[Placed]| -> i64 { placed.iter().map(|p| inst.kinds[p.kind].area()).sum() };
    let single = best.used.iter().enumerate().filter(|(_, (_, times))| *times == 1);
    let emptiest = single.max_by_key(|(_, (number, _))| {
        let pattern = &pool.patterns[*number];
        inst.sheets[pattern.sheet].area() - used(&pattern.placed)
    });
    let Some((slot, &(number, _))) = emptiest else { return };
    let pattern = &pool.patterns[number];
    let sheet = pattern.sheet;
    let rest = |placed: &[Placed]| tree::build(inst, sheet, placed).map(|n| n.largest_rest());
    let mut placed = pattern.placed.clone();
    let Some(mut largest) = rest(&placed) else { return };
    let mut order: Vec<usize> = pattern.counts.iter().map(|(k, _)| *k).collect();
    let mut wanted = vec![0; inst.kinds.len()];
    for (kind, n) in &pattern.counts {
        wanted[*kind] = *n;
    }
    let (width, height) = (inst.sheets[sheet].w, inst.sheets[sheet].h);
    for across in [true, false] {
        // Ever less of the sheet, as long as everything still goes in.
        let mut narrow = inst.clone();
        for _ in 0..40 {
            let extent = |p: &Placed| {
                let (w, h) = inst.kinds[p.kind].size(p.turned);
                if across { p.x + w } else { p.y + h }
            };
            let mut better = None;
            for _ in 0..40 {
                let (mut trial, mut open) = (Vec::new(), wanted.clone());
                search.shuffle_by_size(&mut order);
                search.fill_in(&narrow, sheet, &order, &mut open, &mut trial);
                if open.iter().all(|n| *n == 0) {
                    better = Some(trial);
                    break;
                }
            }
            let Some(trial) = better else { break };
            if let Some(area) = rest(&trial)
                && area > largest
            {
                largest = area;
                placed.clone_from(&trial);
            }
            let reach = trial.iter().map(extent).max().unwrap_or(0) - 1;
            if across {
                narrow.sheets[sheet].w = reach.min(width);
            } else {
                narrow.sheets[sheet].h = reach.min(height);
            }
        }
    }
    best.used[slot].0 = pool.replace_places(number, placed);
}
