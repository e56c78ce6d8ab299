//! A show that is cut in part: what is cut stays as it is, and only the rest is planned.

use sightedge_core::length::Length;
use sightedge_cutting::{Bound, Certificate, Supply};

use super::Wanted;
use super::model::{BoardPlan, Cutting, Shop};
use super::stock::Make;

impl Cutting {
    /// The sheets that are ticked as cut, as boards of their own; none where all of it is in the
    /// stock already.
    pub fn done(&self) -> Vec<BoardPlan> {
        if self.settled {
            return Vec::new();
        }
        let boards = self.boards.iter().enumerate();
        boards
            .filter_map(|(at, board)| {
                let numbers: Vec<usize> = (0..board.plan.patterns.len())
                    .map(|pattern| self.number(at, pattern))
                    .collect();
                board.done(&numbers)
            })
            .collect()
    }

    /// Takes back every tick but those of sheets that are in the stock's count already.
    pub fn untick(&mut self) {
        for board in &mut self.boards {
            let settled: Vec<u32> = (0..board.cut.len()).map(|at| board.settled(at)).collect();
            board.cut = settled;
        }
    }

    /// How many sheets are ticked as cut and not in the stock yet.
    pub fn ticked(&self) -> u64 {
        if self.settled {
            return 0;
        }
        self.boards.iter().flat_map(|board| &board.cut).map(|count| u64::from(*count)).sum()
    }
}

impl BoardPlan {
    /// What is cut of it, with no piece more than that makes; `None` where nothing is.
    fn done(&self, numbers: &[usize]) -> Option<Self> {
        // A drop-out whose window is not cut yet cannot be cut.
        self.kept(numbers, |_| true).filter(|board| board.faults().is_empty()).or_else(|| {
            let whole = |supply: Supply| !matches!(supply, Supply::Window { .. });
            self.kept(numbers, whole).filter(|board| board.faults().is_empty())
        })
    }

    fn kept(&self, numbers: &[usize], keeps: impl Fn(Supply) -> bool) -> Option<Self> {
        let mut done = self.clone();
        (done.cut, done.settled, done.numbers) = (Vec::new(), Vec::new(), Vec::new());
        done.plan.patterns.clear();
        done.problem.pieces.iter_mut().for_each(|piece| piece.copies = 0);
        for (at, pattern) in self.plan.patterns.iter().enumerate() {
            let cut = self.cut.get(at).copied().unwrap_or(0).min(pattern.copies);
            let supply = self.problem.stocks.get(pattern.stock)?.supply;
            if cut == 0 || !keeps(supply) {
                continue;
            }
            for placed in &pattern.placements {
                let piece = done.problem.pieces.get_mut(placed.piece)?;
                piece.copies = piece.copies.saturating_add(cut);
            }
            let mut pattern = pattern.clone();
            pattern.copies = cut;
            done.plan.patterns.push(pattern);
            done.cut.push(cut);
            done.settled.push(self.settled(at).min(cut));
            done.numbers.push(numbers.get(at).copied().unwrap_or(at));
        }
        if done.plan.patterns.is_empty() {
            return None;
        }
        let plan = &mut done.plan;
        let cost = |at: usize| done.problem.stocks.get(at).map_or(0, |stock| stock.cost);
        plan.cost = plan.patterns.iter().map(|p| cost(p.stock) * i64::from(p.copies)).sum();
        plan.sheets = plan.patterns.iter().map(|pattern| u64::from(pattern.copies)).sum();
        let mut setups: Vec<usize> =
            plan.patterns.iter().map(|pattern| pattern.setup).collect();
        setups.sort_unstable();
        setups.dedup();
        plan.setups = setups.len();
        plan.missing = vec![0; done.problem.pieces.len()];
        plan.bound = Bound { area: 0, cost: 0, exact: 0.0, gap: 0.0, proved: false };
        plan.certificate = Certificate::default();
        plan.complaints.clear();
        done.complaints.clear();
        done.is_done = true;
        Some(done)
    }

    /// Whether both are of one kind of board.
    fn is_of(&self, name: &str, make: Make) -> bool {
        let own =
            Make { thickness: self.thickness, colour: self.colour, turns: !self.patterned };
        self.name == name && own == make
    }
}

impl Shop {
    /// The stock that is left for the rest: without the sheets that are cut, but still counted.
    #[must_use]
    pub fn without(&self, done: &[BoardPlan]) -> Self {
        let mut left = self.clone();
        for board in done {
            for at in 0..board.plan.patterns.len() {
                left.take(board, at, board.unsettled(at));
            }
        }
        left
    }
}

/// Leaves out of what a board has to give the pieces that are cut already. A piece is the same where its name
/// and its size are.
pub(super) fn leave_out(wanted: &mut Vec<Wanted>, name: &str, make: Make, done: &[BoardPlan]) {
    for board in done.iter().filter(|board| board.is_of(name, make)) {
        let step = Length::from_units(board.step);
        for piece in &board.problem.pieces {
            let (width, height) = (board.length(piece.width), board.length(piece.height));
            // A plan's sizes are rounded up to whole steps.
            let near =
                |exact: Length, rounded: Length| exact <= rounded && rounded < exact + step;
            for _ in 0..piece.copies {
                let same = wanted.iter().position(|one| {
                    one.name == piece.name
                        && near(one.size.width, width)
                        && near(one.size.height, height)
                });
                if let Some(same) = same {
                    wanted.remove(same);
                }
            }
        }
    }
}
