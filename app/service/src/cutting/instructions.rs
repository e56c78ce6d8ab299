//! A plan's cuts in words, with its lengths as they are read: window, paper and command say the
//! same.

use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit};
use sightedge_cutting::{
    Instruction, LengthFormat, Pattern, Plan, Problem, Sequence, Source, source, which,
};

/// The caution at every list of cuts.
pub const BLADES: &str = "Fresh blade, fingers behind the guard; retract it after each cut.";

/// Writes a board's cuts.
#[derive(Clone, Copy, Debug)]
pub struct InstructionWriter<'a> {
    /// The board's name.
    pub board: &'a str,
    /// What was asked.
    pub problem: &'a Problem,
    /// What came out.
    pub plan: &'a Plan,
    /// One unit of the problem.
    pub step: Length,
    /// What lengths are read in.
    pub unit: Unit,
    /// How lengths are set: as they are typed, or as in print.
    pub set: fn(&str) -> String,
}

/// A size as it is typed: `18 3/4 × 32 in`.
pub fn size(size: Size, unit: Unit) -> String {
    size.extent_text(|length| length.text(unit))
}

impl InstructionWriter<'_> {
    fn size(&self, width: i64, height: i64) -> String {
        (self.set)(&size(Size::new(self.step * width, self.step * height), self.unit))
    }

    fn with<T>(&self, told: impl FnOnce(LengthFormat<'_>) -> T) -> T {
        let length = |units: i64| (self.set)(&(self.step * units).text(self.unit));
        let size = |width: i64, height: i64| self.size(width, height);
        told(LengthFormat { length: &length, size: &size })
    }

    /// A cut of a sequence; `None` where there is no such cut.
    pub fn cut(&self, sequence: &Sequence, number: usize) -> Option<Instruction> {
        self.with(|written| sequence.instruction(self.problem, number, written))
    }

    /// What is done before the first cut, where there is anything to do.
    pub fn first(&self, sequence: &Sequence) -> Option<String> {
        self.with(|written| sequence.first(self.problem, written))
    }

    /// What a sheet is and how large, as in `32 × 40 in` or `offcut 17 × 21 in`.
    pub fn stock(&self, pattern: &Pattern) -> String {
        let stock = &self.problem.stocks[pattern.stock];
        match source(self.problem, pattern) {
            // What fell is called after its mat; other sheets after their size.
            Source::DropOut => {
                format!("{}, {}", stock.name, self.size(stock.width, stock.height))
            }
            Source::Bought | Source::InHand => (self.set)(&stock.name),
        }
    }

    /// The board, the sheet's size and which sheets these are, in one line: what every line
    /// about a cut begins with where it stands alone.
    pub fn sheet(&self, number: usize) -> String {
        let stock = self.plan.patterns.get(number).map(|pattern| self.stock(pattern));
        let which = which(self.problem, self.plan, number);
        format!("{}, {}, {which}", self.board, stock.unwrap_or_default())
    }
}
