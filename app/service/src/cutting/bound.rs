//! What a plan's bound says, in plain words.

use sightedge_cutting::{Plan, Problem, Source};

/// Fewer sheets cannot do, in plain words; and how far from that the plan may be. `priced`:
/// whether costs are prices, else square centimetres.
pub fn in_words(problem: &Problem, plan: &Plan, priced: bool) -> String {
    let sheets = |n: u64| if n == 1 { "1 sheet".to_owned() } else { format!("{n} sheets") };
    if plan.missing.iter().any(|n| *n > 0) {
        return "Some pieces have no place yet: see below.".to_owned();
    }
    // With one cost for all sheets that have one the bound on cost is one on their number.
    if let Some((cost, counted)) = counted(problem) {
        let least = u64::try_from(plan.bound.cost / cost).unwrap_or(0);
        let taken = u64::try_from(plan.cost / cost).unwrap_or(0);
        let (verb, uses, besides) = match counted {
            Counted::ToBuy => ("buy", "buys", ""),
            Counted::All => ("use", "uses", ""),
            Counted::NotOffcuts => ("use", "uses", ", offcuts not counted"),
        };
        if plan.bound.proved {
            return format!("No plan can {verb} fewer than {}{besides}.", sheets(least));
        }
        let more = taken.saturating_sub(least);
        return format!(
            "No plan can {verb} fewer than {}{besides}; this one {uses} {} more.",
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

/// Which sheets a bound on cost counts.
enum Counted {
    /// Those to buy; what is in hand costs nothing.
    ToBuy,
    /// All of them.
    All,
    /// All but what costs nothing.
    NotOffcuts,
}

/// The one cost of all sheets that have one, and which sheets these are; `None` where costs
/// differ, or where some to buy have none, as then their sum counts no sheets.
fn counted(problem: &Problem) -> Option<(i64, Counted)> {
    let real = || problem.stocks.iter().filter(|s| s.supply.source() != Source::DropOut);
    let mut costs = real().filter(|stock| stock.cost > 0);
    let cost = costs.next()?.cost;
    if costs.any(|other| other.cost != cost) {
        return None;
    }
    let is = |source: Source, free: bool| {
        real().any(|stock| stock.supply.source() == source && (stock.cost == 0) == free)
    };
    if is(Source::Bought, true) {
        return None;
    }
    let offcuts = is(Source::InHand, true);
    let counted = match (offcuts, is(Source::InHand, false)) {
        (false, _) => Counted::All,
        (true, false) => Counted::ToBuy,
        (true, true) => Counted::NotOffcuts,
    };
    Some((cost, counted))
}

/// How much less the bound is than the cost, in percent of the cost.
#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "a share for the eye")]
fn share(plan: &Plan) -> f64 {
    100.0 * (plan.cost - plan.bound.cost) as f64 / plan.cost.max(1) as f64
}
