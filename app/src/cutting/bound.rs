//! What a plan's bound says, in plain words.

use sightedge_cutting::{Plan, Problem, Supply};

/// Fewer sheets cannot do, in plain words; and how far from that the plan may be. `priced`:
/// whether costs are prices, else square centimetres.
pub fn in_words(problem: &Problem, plan: &Plan, priced: bool) -> String {
    let sheets = |n: u64| if n == 1 { "1 sheet".to_owned() } else { format!("{n} sheets") };
    let bought: Vec<i64> =
        problem.stocks.iter().map(|s| s.cost).filter(|cost| *cost > 0).collect();
    if plan.missing.iter().any(|n| *n > 0) {
        return "Some pieces have no place yet: see below.".to_owned();
    }
    // With one cost for all bought sheets the bound on cost is one on their number.
    if let [cost, rest @ ..] = bought.as_slice()
        && rest.iter().all(|other| other == cost)
    {
        // Offcuts in hand are sheets of the plan, too, and none of these.
        let free = |supply: &Supply| !matches!(supply, Supply::Window { .. });
        let offcuts = problem.stocks.iter().any(|s| s.cost == 0 && free(&s.supply));
        let (verb, uses) = if offcuts { ("buy", "buys") } else { ("use", "uses") };
        let least = u64::try_from(plan.bound.cost / cost).unwrap_or(0);
        let taken = u64::try_from(plan.cost / cost).unwrap_or(0);
        if plan.bound.proved {
            return format!("No plan can {verb} fewer than {}.", sheets(least));
        }
        let more = taken.saturating_sub(least);
        return format!(
            "No plan can {verb} fewer than {}; this one {uses} {} more.",
            sheets(least),
            sheets(more)
        );
    }
    let (least, less) = if priced {
        ("No plan can cost less.", "cost")
    } else {
        ("No plan can use less board.", "use")
    };
    if plan.bound.proved {
        return least.to_owned();
    }
    let board = if priced { "" } else { " board" };
    format!("A plan might {less} up to {:.1} % less{board}, none can do better.", share(plan))
}

/// How much less the bound is than the cost, in percent of the cost.
#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "a share for the eye")]
fn share(plan: &Plan) -> f64 {
    100.0 * (plan.cost - plan.bound.cost) as f64 / plan.cost.max(1) as f64
}
