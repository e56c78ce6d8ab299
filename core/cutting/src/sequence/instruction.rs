//! A sequence as instructions in words.

use super::{Becomes, NamedPiece, Sequence};
use crate::problem::{Problem, Trim};

/// A cut in words.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Instruction {
    /// The piece that is cut and its size, as in `A2, 18 3/4 × 32 in`.
    pub piece: String,
    /// The edge that lies against the stop, as in `left edge`.
    pub edge: &'static str,
    /// Where the stop is set, as in `13 1/2 in`.
    pub stop: String,
    /// What falls, each with name and size, and what it is where it is cut no further.
    pub falls: Vec<String>,
}

impl Instruction {
    /// All of it in one line.
    #[must_use]
    pub fn line(&self) -> String {
        let Self { piece, edge, stop, falls } = self;
        format!("{piece}, {edge} against the stop, stop {stop}: {}", falls.join("; "))
    }
}

/// How lengths are written: one length with its unit, and a width by a height.
#[derive(Clone, Copy)]
pub struct LengthFormat<'a> {
    /// One length.
    pub length: &'a dyn Fn(i64) -> String,
    /// Width and height.
    pub size: &'a dyn Fn(i64, i64) -> String,
}

impl std::fmt::Debug for LengthFormat<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Written")
    }
}

impl Sequence {
    /// A piece by its name and size, and what it is where it is cut no further.
    #[must_use]
    pub fn piece(&self, problem: &Problem, at: usize, format: LengthFormat<'_>) -> String {
        let Some(NamedPiece { name, width, height, becomes, .. }) = self.pieces.get(at) else {
            return String::new();
        };
        let size = (format.size)(*width, *height);
        match becomes {
            Becomes::Cut => format!("{name}, {size}"),
            Becomes::Rest => format!("{name}, {size}, left over"),
            Becomes::Piece { piece, turned } => {
                let what = problem.pieces.get(*piece).map_or("", |piece| &piece.name);
                let turned = if *turned && width != height { ", turned" } else { "" };
                format!("{name}, {size}{turned}, {what}")
            }
        }
    }

    /// A cut in words; `None` where there is no such cut.
    #[must_use]
    pub fn instruction(
        &self,
        problem: &Problem,
        cut: usize,
        format: LengthFormat<'_>,
    ) -> Option<Instruction> {
        let step = self.cuts.get(cut)?;
        Some(Instruction {
            piece: self.piece(problem, step.of, format),
            edge: step.edge(),
            stop: (format.length)(step.stop),
            falls: step.falls().map(|at| self.piece(problem, at, format)).collect(),
        })
    }

    /// What is done before the first cut: what is trimmed off, and what is left; or that there
    /// is nothing to cut.
    #[must_use]
    pub fn first(&self, problem: &Problem, format: LengthFormat<'_>) -> Option<String> {
        let name = self.name();
        let Trim { left, right, bottom, top } = self.trim;
        let edges = [("left", left), ("right", right), ("lower", bottom), ("upper", top)];
        let off: Vec<_> = edges.iter().filter(|(_, edge)| *edge > 0).collect();
        let trimmed = match off.as_slice() {
            [] if self.cuts.is_empty() => {
                return Some(format!("{}, used whole", self.piece(problem, 0, format)));
            }
            [] => return None,
            [_, rest @ ..] if rest.len() == 3 && rest.iter().all(|(_, edge)| *edge == left) => {
                format!("{} off each edge", (format.length)(left))
            }
            some => {
                let each = |(edge, off): &&(&str, i64)| {
                    format!("{} off the {edge} edge", (format.length)(*off))
                };
                some.iter().map(each).collect::<Vec<_>>().join(", ")
            }
        };
        let full = (format.size)(self.sheet.0, self.sheet.1);
        let left = self.piece(problem, 0, format);
        Some(format!("{name}, {full}, trim {trimmed}: {left}"))
    }
}
