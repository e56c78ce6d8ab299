//! A miscut is recorded as cut, and everything after it follows from the real window.

use super::{Command, Refusal, layer, mat, opening};
use crate::geometry::{Point, Rect, Seen, Sides, Size};
use crate::layout::layout;
use crate::length::Length;
use crate::spec::{
    Came, Document, Fixing, InHand, LayerId, Meets, OpeningId, Placement, VariantId,
};

/// A board and a window as measured after cutting.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Measured {
    /// The board; `None` where it came out as planned, or was measured before.
    pub outer: Option<Size>,
    /// The layer that was measured; `None`: the innermost, all of them being cut.
    pub layer: Option<LayerId>,
    /// Its sight edge.
    pub sight: Size,
    /// From the board's left edge to it, seen as `seen` says.
    pub left: Length,
    /// From the board's top edge to it.
    pub top: Length,
    /// Which side of the board was up when it was measured.
    pub seen: Seen,
}

impl Measured {
    /// Where the window lies, seen from the front, in that board.
    pub fn window(&self, board: Size) -> Rect {
        let left = match self.seen {
            Seen::Front => self.left,
            Seen::Back => board.width - self.sight.width - self.left,
        };
        Rect::new(Point::new(left, self.top), self.sight)
    }

    /// Whether that window can have been cut in that board: it lies on it, with something left
    /// on every side.
    pub fn lies_on(&self, board: Size) -> bool {
        let board = self.outer.unwrap_or(board);
        let borders = self.window(board).within(Rect::at_origin(board));
        self.sight.is_positive() && borders.least().is_positive()
    }
}

/// The command that records the measured window; `None` where there is no such window.
///
/// The layers above the measured one are cut as well: as they were measured, else as the bench
/// had them. Those below that are still to be cut follow. Where the innermost one is measured,
/// the sheet lies under it as nearly as it did.
pub fn as_cut(
    document: &Document,
    id: VariantId,
    opening: OpeningId,
    measured: Measured,
) -> Option<Command> {
    let mat = &document.variant(id)?.mat;
    let bench = layout(document, mat).bench;
    let window = bench.opening(opening)?;
    let last = window.layers.len().checked_sub(1)?;
    let at = match measured.layer {
        Some(id) => window.layers.iter().position(|cut| cut.layer == id)?,
        None => last,
    };
    let board = measured.outer.unwrap_or(bench.outer);
    let mut commands = Vec::with_capacity(last + 3);
    for (index, cut) in window.layers.iter().enumerate() {
        let lies = if index == at { measured.window(board) } else { cut.sight.bounds };
        if index <= at || cut.done {
            let borders = lies.within(Rect::at_origin(board));
            let came = Came { sight: lies.size, borders };
            commands.push(Command::SetCut(id, opening, cut.layer, came));
        }
    }
    if at == last {
        // It is smaller or larger on both sides alike, and the sheet stays in its middle.
        let [(more_left, _), (more_top, _)] = [
            window.sight.size.width - measured.sight.width,
            window.sight.size.height - measured.sight.height,
        ]
        .map(Length::halves);
        let hand = InHand {
            sight: measured.sight,
            overlap_left: window.overlap.left + more_left,
            overlap_top: window.overlap.top + more_top,
        };
        commands.push(Command::SetMeets(id, opening, Meets::InHand(hand)));
    }
    let placement = Placement::Free { left: measured.left, top: measured.top };
    commands.push(Command::SetFixing(id, Fixing::Outer { size: board, placement }));
    Some(Command::Together("as cut", commands))
}

/// The strip of a liner that follows what is cut above it: how far its exact sight edge stands
/// inside that; `None` where it is free.
pub(super) fn strip(
    document: &Document,
    id: VariantId,
    opening: OpeningId,
    layer: LayerId,
) -> Option<Sides<Length>> {
    let mat = &document.variant(id)?.mat;
    let index = mat.layers.iter().position(|one| one.id == layer)?;
    if !mat.follows_what_is_cut(mat.opening(opening)?, index) {
        return None;
    }
    let exact = layout(document, mat).exact;
    exact.opening(opening)?.layers.get(index).map(|cut| cut.offset)
}

/// What the plan says beside what is cut is kept in step with it: the offsets are those that
/// follow, and a window placed by hand in the board that was cut lies where it came to lie.
pub(super) fn follow(document: &mut Document) {
    for index in 0..document.variants.len() {
        let Some(variant) = document.variants.get(index) else { continue };
        let Some(board) = variant.mat.cut_board() else { continue };
        let exact = layout(document, &variant.mat).exact;
        let Some(variant) = document.variants.get_mut(index) else { continue };
        for (opening, window) in variant.mat.openings.iter_mut().zip(&exact.openings) {
            for cut in window.layers.iter().skip(1) {
                opening.offsets.insert(cut.layer, cut.offset);
            }
        }
        let at = exact.group().at;
        if let Fixing::Outer { size, placement: Placement::Free { left, top } } =
            &mut variant.mat.fixing
            && *size == board
        {
            (*left, *top) = (at.x, at.y);
        }
    }
}

/// The layer's window is no longer cut; where it was the innermost, the picture shows in it as
/// it did.
pub(super) fn cut_anew(
    document: &mut Document,
    id: VariantId,
    opening_id: OpeningId,
    layer_id: LayerId,
) -> Result<(), Refusal> {
    let exact = document.variant(id).map(|variant| layout(document, &variant.mat).exact);
    let reveal = exact.and_then(|exact| Some(exact.opening(opening_id)?.reveal));
    let mat = mat(document, id)?;
    layer(mat, layer_id)?;
    let innermost = mat.layers.last().is_some_and(|last| last.id == layer_id);
    let opening = opening(mat, opening_id)?;
    opening.cut.remove(&layer_id);
    if let (true, Meets::InHand(_), Some(reveal)) = (innermost, opening.meets, reveal) {
        opening.meets = Meets::Reveal(reveal);
    }
    Ok(())
}

#[cfg(test)]
mod tests;
