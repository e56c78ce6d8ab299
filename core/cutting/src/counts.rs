//! How many sheets a plan takes, by where they come from: to buy, in hand, fallen from windows.

use std::fmt;

use crate::plan::{Pattern, Plan};
use crate::problem::{Problem, Supply};

/// Where a sheet comes from.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Source {
    /// There are as many as are needed: each one used is one to buy.
    Bought,
    /// One of so many that are there: whole sheets, or offcuts of earlier jobs.
    InHand,
    /// It falls from a window of this job.
    DropOut,
}

impl Source {
    /// For other programs and in a list: `bought`, `in hand`, `drop-out`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bought => "bought",
            Self::InHand => "in hand",
            Self::DropOut => "drop-out",
        }
    }
}

impl Supply {
    /// Where its sheets come from.
    #[must_use]
    pub const fn source(self) -> Source {
        match self {
            Self::Unlimited => Source::Bought,
            Self::InHand(_) => Source::InHand,
            Self::Window { .. } => Source::DropOut,
        }
    }
}

/// Where the sheets of a pattern come from; those of a stock that is not there are bought.
#[must_use]
pub fn source(problem: &Problem, pattern: &Pattern) -> Source {
    problem.stocks.get(pattern.stock).map_or(Source::Bought, |stock| stock.supply.source())
}

/// The sheets of a plan, those bought and those owned apart.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq)]
pub struct Counts {
    /// To buy.
    pub bought: u64,
    /// In hand already.
    pub in_hand: u64,
    /// Fallen from windows of the same job.
    pub drop_outs: u64,
}

impl Counts {
    /// Those of a plan.
    #[must_use]
    pub fn of(problem: &Problem, plan: &Plan) -> Self {
        let mut counts = Self::default();
        for pattern in &plan.patterns {
            *counts.place(source(problem, pattern)) += u64::from(pattern.copies);
        }
        counts
    }

    const fn place(&mut self, source: Source) -> &mut u64 {
        match source {
            Source::Bought => &mut self.bought,
            Source::InHand => &mut self.in_hand,
            Source::DropOut => &mut self.drop_outs,
        }
    }

    /// Those of another board beside these.
    pub const fn add(&mut self, other: Self) {
        self.bought += other.bought;
        self.in_hand += other.in_hand;
        self.drop_outs += other.drop_outs;
    }
}

/// As in `3 sheets to buy, 2 in hand, 1 drop-out`.
impl fmt::Display for Counts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.bought {
            0 => f.write_str("no sheet to buy")?,
            1 => f.write_str("1 sheet to buy")?,
            n => write!(f, "{n} sheets to buy")?,
        }
        if self.in_hand > 0 {
            write!(f, ", {} in hand", self.in_hand)?;
        }
        match self.drop_outs {
            0 => Ok(()),
            1 => f.write_str(", 1 drop-out"),
            n => write!(f, ", {n} drop-outs"),
        }
    }
}

/// Which of a plan's sheets a pattern is, counted apart by where they come from: `sheet 1`,
/// `sheets 2 to 4, alike`, `sheet in hand 1`, `drop-out 2`.
#[must_use]
pub fn which(problem: &Problem, plan: &Plan, number: usize) -> String {
    let Some(pattern) = plan.patterns.get(number) else { return String::new() };
    let from = source(problem, pattern);
    let before = plan.patterns.iter().take(number);
    let before = before.filter(|other| source(problem, other) == from);
    let first = 1 + before.map(|other| u64::from(other.copies)).sum::<u64>();
    let last = (first + u64::from(pattern.copies)).saturating_sub(1);
    let (one, many) = match from {
        Source::Bought => ("sheet", "sheets"),
        Source::InHand => ("sheet in hand", "sheets in hand"),
        Source::DropOut => ("drop-out", "drop-outs"),
    };
    match pattern.copies {
        0 | 1 => format!("{one} {first}"),
        2 => format!("{many} {first} and {last}, alike"),
        _ => format!("{many} {first} to {last}, alike"),
    }
}
