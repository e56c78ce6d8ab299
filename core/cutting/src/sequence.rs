//! The cuts of a sheet in the order in which they are made, each on a piece that has a name.
//!
//! The sheet, once it is trimmed, is A (the next one B). Each cut takes one piece, lays one edge of
//! it against the stop and makes two pieces of it, which get the next names: A1 and A2, then A3 and
//! A4. No name is used twice and no piece changes its size under its name, so that a stop can only
//! be read from that piece's own edge. Window, paper, table and report all read this.

mod instruction;

use crate::plan::{Cut, Fate, Part, Pattern, Plan};
use crate::problem::{Problem, Trim};

pub use instruction::{Instruction, LengthFormat};

/// The sequence of one sheet; lengths are the problem's.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Sequence {
    /// Full width and height of the sheet, before it is trimmed.
    pub sheet: (i64, i64),
    /// What is cut off its edges first.
    pub trim: Trim,
    /// The width that each cut removes, beyond the stop's side of the blade.
    pub kerf: i64,
    /// All pieces with a name: the trimmed sheet, then what falls, cut by cut.
    pub pieces: Vec<NamedPiece>,
    /// The cuts in their order, those of a piece before those of what falls from it. The trims
    /// are not among them.
    pub cuts: Vec<Step>,
}

/// A piece with its name: lower left corner from the sheet's own.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct NamedPiece {
    /// A, A1, A2 ...
    pub name: String,
    /// From the sheet's left edge.
    pub x: i64,
    /// From the sheet's lower edge.
    pub y: i64,
    /// Width.
    pub width: i64,
    /// Height.
    pub height: i64,
    /// What becomes of it.
    pub becomes: Becomes,
}

/// What becomes of a piece that fell.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Becomes {
    /// It is cut on.
    Cut,
    /// It is one of the problem's pieces.
    Piece {
        /// Index in [`Problem::pieces`].
        piece: usize,
        /// Whether it lies turned by a quarter.
        turned: bool,
    },
    /// It is left over.
    Rest,
}

/// One straight cut, edge to edge.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Step {
    /// Which way it runs.
    pub cut: Cut,
    /// The piece that is cut, by its place in [`Sequence::pieces`].
    pub of: usize,
    /// From that piece's edge at the stop to the cut: how wide (or high) what falls there is.
    pub stop: i64,
    /// What lies between stop and blade.
    pub first: usize,
    /// What lies beyond the blade, where the cut leaves anything of it.
    pub second: Option<usize>,
    /// Its ends on the sheet, from the lower left corner.
    pub from: (i64, i64),
    /// See `from`.
    pub to: (i64, i64),
    /// Depth in the tree, from 1: cuts of the first stage run through the whole sheet.
    pub stage: usize,
}

impl Step {
    /// How long it is.
    #[must_use]
    pub const fn length(&self) -> i64 {
        (self.to.0 - self.from.0) + (self.to.1 - self.from.1)
    }

    /// The edge of the piece that lies against the stop, as the sheet is drawn.
    #[must_use]
    pub const fn edge(&self) -> &'static str {
        match self.cut {
            Cut::Upright => "left edge",
            Cut::Level => "lower edge",
        }
    }

    /// What falls: first the part at the stop.
    pub fn falls(&self) -> impl Iterator<Item = usize> {
        std::iter::once(self.first).chain(self.second)
    }
}

impl Sequence {
    /// The sequence of a pattern, its sheet called after its number among all sheets that are
    /// cut together, from 0.
    ///
    /// A pattern whose stock does not exist has no trim.
    #[must_use]
    pub fn new(problem: &Problem, pattern: &Pattern, number: usize) -> Self {
        let root = &pattern.root;
        let stock = problem.stocks.get(pattern.stock);
        let mut sequence = Self {
            sheet: stock.map_or((root.width, root.height), |stock| (stock.width, stock.height)),
            trim: stock.map_or(Trim::default(), |stock| stock.trim),
            kerf: problem.kerf.max(0),
            pieces: Vec::new(),
            cuts: Vec::new(),
        };
        sequence.add_named(letters(number), (root.x, root.y), (root.width, root.height));
        sequence.cut_up(0, root, 1);
        sequence
    }

    /// The sheet's own name.
    #[must_use]
    pub fn name(&self) -> &str {
        self.pieces.first().map_or("", |sheet| &sheet.name)
    }

    fn add_named(
        &mut self,
        name: String,
        (x, y): (i64, i64),
        (width, height): (i64, i64),
    ) -> usize {
        self.pieces.push(NamedPiece { name, x, y, width, height, becomes: Becomes::Rest });
        self.pieces.len() - 1
    }

    fn falls(&mut self, at: (i64, i64), size: (i64, i64)) -> usize {
        let name = format!("{}{}", self.name(), self.pieces.len());
        self.add_named(name, at, size)
    }

    fn cut_up(&mut self, at: usize, part: &Part, stage: usize) {
        let (cut, parts) = match &part.fate {
            Fate::Rest => return,
            Fate::Piece { piece, turned } => {
                self.pieces[at].becomes = Becomes::Piece { piece: *piece, turned: *turned };
                return;
            }
            Fate::Cut { cut, parts } => (*cut, parts),
        };
        let mut freed = Vec::with_capacity(parts.len());
        let mut whole = at;
        for one in parts {
            let NamedPiece { x, y, width, height, .. } = self.pieces[whole];
            let (stop, long) = match cut {
                Cut::Upright => (one.width, width),
                Cut::Level => (one.height, height),
            };
            // The last part is what the cuts before it left.
            if stop >= long {
                freed.push((whole, one));
                break;
            }
            self.pieces[whole].becomes = Becomes::Cut;
            let rest = long - stop - self.kerf;
            let (size, beyond, left, from, to) = match cut {
                Cut::Upright => (
                    (stop, height),
                    (x + stop + self.kerf, y),
                    (rest, height),
                    (x + stop, y),
                    (x + stop, y + height),
                ),
                Cut::Level => (
                    (width, stop),
                    (x, y + stop + self.kerf),
                    (width, rest),
                    (x, y + stop),
                    (x + width, y + stop),
                ),
            };
            let first = self.falls((x, y), size);
            let second = (rest > 0).then(|| self.falls(beyond, left));
            self.cuts.push(Step { cut, of: whole, stop, first, second, from, to, stage });
            freed.push((first, one));
            match second {
                Some(second) => whole = second,
                None => break,
            }
        }
        for (piece, one) in freed {
            self.cut_up(piece, one, stage + 1);
        }
    }
}

/// The name of a sheet by its number, from 0: A, B ... Z, AA. I and O are not used, which read
/// as figures; source: ISO 5457, on the references of a drawing's fields.
#[must_use]
pub fn letters(number: usize) -> String {
    const LETTERS: [char; 24] = [
        'A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'J', 'K', 'L', 'M', 'N', 'P', 'Q', 'R', 'S',
        'T', 'U', 'V', 'W', 'X', 'Y', 'Z',
    ];
    let (mut name, mut rest) = (Vec::new(), number);
    loop {
        name.push(LETTERS[rest % LETTERS.len()]);
        match (rest / LETTERS.len()).checked_sub(1) {
            Some(next) => rest = next,
            None => break,
        }
    }
    name.into_iter().rev().collect()
}

/// The sequences of a plan, its sheets called after their numbers from `first` on.
#[must_use]
pub fn sequences(problem: &Problem, plan: &Plan, first: usize) -> Vec<Sequence> {
    let each = plan.patterns.iter().enumerate();
    each.map(|(at, pattern)| Sequence::new(problem, pattern, first + at)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: by hand: 24 letters, then two each.
    #[test]
    fn letters_go_on_and_none_reads_as_a_figure() {
        for (number, name) in [
            (0, "A"),
            (7, "H"),
            (8, "J"),
            (12, "N"),
            (13, "P"),
            (23, "Z"),
            (24, "AA"),
            (48, "BA"),
        ] {
            assert_eq!(letters(number), name, "{number}");
        }
    }
}
