//! A sheet cut by cut, for other programs.

use serde::Serialize;

use super::{Length, Writer};
use crate::sequence::{Becomes, Sequence};

/// A sheet cut by cut: trim it, then cut each named piece at its stop, and every piece is there in
/// the end.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SequenceReport {
    /// The sheet's name, as in `A`.
    pub sheet: String,
    /// What is cut off each of its edges first.
    pub trim: TrimReport,
    /// The sheet after that, under the same name.
    pub trimmed: NamedReport,
    /// The width that each cut removes, beyond the stop's side of the blade.
    pub kerf: Length,
    /// The cuts in their order.
    pub cuts: Vec<StepReport>,
}

/// What is cut off the edges of a sheet first.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TrimReport {
    /// Off the left edge.
    pub left: Length,
    /// Off the right edge.
    pub right: Length,
    /// Off the lower edge.
    pub bottom: Length,
    /// Off the upper edge.
    pub top: Length,
}

/// One cut of a sequence.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StepReport {
    /// From 1.
    pub number: usize,
    /// The name of the piece that is cut: the sheet's, or one that fell before.
    pub piece: String,
    /// Its width.
    pub width: Length,
    /// Its height.
    pub height: Length,
    /// Which edge of that piece lies against the stop: `left edge` or `lower edge`, as the
    /// sheet is drawn.
    pub edge: &'static str,
    /// From that edge to the cut.
    pub stop: Length,
    /// What falls: first what lay between stop and blade, then what lay beyond it, where the
    /// cut leaves anything of that.
    pub falls: Vec<NamedReport>,
}

/// A piece that has a name.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NamedReport {
    /// As in `A2`; no other piece is called that.
    pub name: String,
    /// Width as it lies.
    pub width: Length,
    /// Height as it lies.
    pub height: Length,
    /// `cut` (cut on), `piece`, or `rest` (left over).
    pub becomes: &'static str,
    /// Index of the piece, from 0, where it is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub piece: Option<usize>,
}

impl Writer<'_> {
    fn named(&self, sequence: &Sequence, at: usize) -> NamedReport {
        let named = &sequence.pieces[at];
        let (becomes, piece) = match named.becomes {
            Becomes::Cut => ("cut", None),
            Becomes::Piece { piece, .. } => ("piece", Some(piece)),
            Becomes::Rest => ("rest", None),
        };
        let (width, height) = (self.length(named.width), self.length(named.height));
        NamedReport { name: named.name.clone(), width, height, becomes, piece }
    }

    pub(super) fn sequence(&self, sequence: &Sequence) -> SequenceReport {
        let trim = sequence.trim;
        let cuts = (1..).zip(&sequence.cuts).map(|(number, step)| {
            let whole = self.named(sequence, step.of);
            StepReport {
                number,
                piece: whole.name,
                width: whole.width,
                height: whole.height,
                edge: step.edge(),
                stop: self.length(step.stop),
                falls: step.falls().map(|at| self.named(sequence, at)).collect(),
            }
        });
        SequenceReport {
            sheet: sequence.name().to_owned(),
            trim: TrimReport {
                left: self.length(trim.left),
                right: self.length(trim.right),
                bottom: self.length(trim.bottom),
                top: self.length(trim.top),
            },
            trimmed: self.named(sequence, 0),
            kerf: self.length(sequence.kerf),
            cuts: cuts.collect(),
        }
    }
}
