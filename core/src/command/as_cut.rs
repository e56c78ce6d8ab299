//! A miscut is recorded as cut, and everything after it follows from the real window.

use super::{Command, Refusal, layer, mat, opening};
use crate::geometry::{Point, Rect, Seen, Sides, Size};
use crate::layout::{Figures, Window, layout};
use crate::length::{Length, Unit};
use crate::spec::{
    AsCut, BoardBy, Document, InHand, LayerId, Mat, Opening, OpeningId, Placement, Planned,
    VariantId, WindowBy,
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

    /// Why it cannot be entered, in words: another layer was measured already, on a board of
    /// another size. Which of its borders was measured is no longer known then, so none of them
    /// may take the difference.
    pub fn refusal(&self, mat: &Mat, opening: OpeningId, unit: Unit) -> Option<String> {
        let (board, cut) = (self.outer?, mat.cut_board()?);
        let own = self.layer.or(mat.layers.last().map(|last| last.id));
        let opening = mat.opening(opening)?;
        let other = mat
            .layers
            .iter()
            .position(|layer| Some(layer.id) != own && opening.cut.contains_key(&layer.id))?;
        let size = |size: Size| size.sides_text(|length| length.text(unit));
        let name = mat.the_layer(other);
        (board != cut).then(|| {
            format!(
                "you gave a board of {}, but {name} was cut from one of {}, and all layers \
                 are measured on one board. Keep {}, or have {name} cut again and enter it \
                 from the new board",
                size(board),
                size(cut),
                size(cut),
            )
        })
    }

    /// Whether that window can have been cut in that board: it lies on it, with something left
    /// on every side.
    pub fn fits_on(&self, board: Size) -> bool {
        let board = self.outer.unwrap_or(board);
        let borders = self.window(board).within(Rect::at_origin(board));
        self.sight.is_positive() && borders.least().is_positive()
    }
}

/// The command that records the measured window; `None` where there is no such window, or where
/// it is [refused](Measured::refusal).
///
/// The layers above the measured one count as cut as well, where they were measured or else as
/// the bench had them; one that is to be cut again above what is cut stays so. Layers below that
/// are still to be cut follow the measured one. Where the innermost layer is measured, the sheet
/// stays as near to its place as it can.
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
    if measured.refusal(mat, opening, document.unit).is_some() {
        return None;
    }
    let board = measured.outer.unwrap_or(bench.outer);
    let again = window.layers.get(at).is_some_and(|cut| cut.done);
    let mut commands = Vec::with_capacity(last + 3);
    for (index, cut) in window.layers.iter().enumerate() {
        let sight = if index == at { measured.window(board) } else { cut.sight.bounds };
        if index == at || cut.done || (index < at && !again) {
            let borders = sight.within(Rect::at_origin(board));
            let as_cut = AsCut { sight: sight.size, borders };
            commands.push(Command::SetCut(id, opening, cut.layer, as_cut));
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
        commands.push(Command::SetWindowBy(id, opening, WindowBy::InHand(hand)));
    }
    let placement = Placement::Free { left: measured.left, top: measured.top };
    commands.push(Command::SetBoardBy(id, BoardBy::Outer { size: board, placement }));
    Some(Command::Together("as cut", commands))
}

/// The strip of an undermat that follows what is cut above it: how far its exact sight edge stands
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

/// Keeps the rest of the plan in step with what is cut: offsets become those that result, and a
/// window placed by hand in a board that is cut takes its measured place.
pub(super) fn follow(document: &mut Document) {
    for index in 0..document.variants.len() {
        let Some(variant) = document.variants.get_mut(index) else { continue };
        if is_uncut(&variant.mat) {
            variant.mat.planned = None;
        }
        let Some(variant) = document.variants.get(index) else { continue };
        let Some(board) = variant.mat.cut_board() else { continue };
        let exact = layout(document, &variant.mat).exact;
        let Some(variant) = document.variants.get_mut(index) else { continue };
        let innermost = variant.mat.layers.last().map(|last| last.id);
        for (opening, window) in variant.mat.openings.iter_mut().zip(&exact.openings) {
            // In hand is only what is cut through to the innermost layer.
            let through = innermost.is_none_or(|innermost| opening.is_cut(innermost));
            if let (WindowBy::InHand(_), false) = (opening.window_by, through) {
                opening.window_by = WindowBy::Reveal(window.reveal);
            }
            for cut in window.layers.iter().skip(1) {
                opening.offsets.insert(cut.layer, cut.offset);
            }
        }
        let at = exact.group().at;
        if let BoardBy::Outer { size, placement: Placement::Free { left, top } } =
            &mut variant.mat.board_by
            && *size == board
        {
            (*left, *top) = (at.x, at.y);
        }
    }
}

/// Marks the layer's window as not cut; where it was the innermost, it shows the picture as
/// before.
pub(super) fn cut_anew(
    document: &mut Document,
    id: VariantId,
    opening_id: OpeningId,
    layer_id: LayerId,
) -> Result<(), Refusal> {
    let exact = document.variant(id).map(|variant| layout(document, &variant.mat).exact);
    let window = exact.as_ref().and_then(|exact| exact.opening(opening_id));
    let reveal = window.map(|window| window.reveal);
    let mat = mat(document, id)?;
    layer(mat, layer_id)?;
    let innermost = mat.layers.last().is_some_and(|last| last.id == layer_id);
    let opening = opening(mat, opening_id)?;
    if let (true, Some(window)) = (opening.is_ready_cut(), window) {
        record(opening, window);
    }
    opening.cut.remove(&layer_id);
    if let (true, WindowBy::InHand(_), Some(reveal)) = (innermost, opening.window_by, reveal) {
        opening.window_by = WindowBy::Reveal(reveal);
    }
    if is_uncut(mat)
        && let Some(planned) = mat.planned.take()
    {
        restore(mat, *planned);
    }
    Ok(())
}

fn is_uncut(mat: &Mat) -> bool {
    mat.openings.iter().all(|opening| opening.cut.is_empty())
}

/// Before the first window is entered as cut: what is planned, and for which print.
pub(super) fn remember_plan(document: &mut Document, id: VariantId) {
    let print = document.inscribed.as_ref().and_then(|own| own.recorded.which());
    let Ok(mat) = mat(document, id) else { return };
    // A mat that was bought ready cut was not planned.
    if is_uncut(mat) && !mat.openings.iter().any(Opening::is_ready_cut) {
        let (board_by, openings) = (mat.board_by, mat.openings.clone());
        mat.planned = Some(Box::new(Planned { board_by, openings, print }));
    }
}

/// Nothing is cut any more: the mat returns to its earlier plan. A layer added since keeps its
/// strip.
fn restore(mat: &mut Mat, planned: Planned) {
    let Planned { board_by, openings, print: _ } = planned;
    mat.board_by = board_by;
    for before in openings {
        let Some(opening) = mat.openings.iter_mut().find(|one| one.id == before.id) else {
            continue;
        };
        opening.window_by = before.window_by;
        opening.offsets.extend(before.offsets);
    }
}

/// Records every layer that is not recorded yet as cut where it lies.
fn record(opening: &mut Opening, window: &Window) {
    for cut in &window.layers {
        let as_cut = AsCut { sight: cut.sight.bounds.size, borders: cut.borders };
        opening.cut.entry(cut.layer).or_insert(as_cut);
    }
}

/// A window in hand is cut through all layers: where only some were measured, the others are cut
/// as they lie.
pub(super) fn take_in_hand(document: &mut Document, id: VariantId, opening_id: OpeningId) {
    let Some(variant) = document.variant(id) else { return };
    let exact = layout(document, &variant.mat).exact;
    let Ok(mat) = mat(document, id) else { return };
    let innermost = mat.layers.last().map(|last| last.id);
    let Ok(opening) = opening(mat, opening_id) else { return };
    let through = innermost.is_none_or(|innermost| opening.is_cut(innermost));
    if let (WindowBy::InHand(_), false, Some(window)) =
        (opening.window_by, through, exact.opening(opening_id))
    {
        record(opening, window);
    }
}

/// Called before an undermat is added under what is cut: the layers above it stay as measured, and
/// its reveal becomes the paper that shows now, less its own strip.
pub(super) fn prepare_for_undermat(
    document: &mut Document,
    id: VariantId,
    offset: Sides<Length>,
) {
    let Some(variant) = document.variant(id) else { return };
    let exact = layout(document, &variant.mat).exact;
    let Ok(mat) = mat(document, id) else { return };
    for (opening, window) in mat.openings.iter_mut().zip(&exact.openings) {
        if opening.is_ready_cut() {
            record(opening, window);
        }
        if !opening.cut.is_empty() {
            opening.window_by = WindowBy::Reveal(window.reveal.minus(offset));
        }
    }
}

/// Called after the innermost of several measured layers is removed: the one above it is the
/// innermost now, and the picture stays where it lies under it.
pub(super) fn after_innermost_removed(mat: &mut Mat, removed: LayerId, before: &Figures) {
    let Some(innermost) = mat.layers.last().map(|last| last.id) else { return };
    for (opening, window) in mat.openings.iter_mut().zip(&before.openings) {
        let Some(cut) = window.layers.last().filter(|cut| cut.layer == removed) else {
            continue;
        };
        // Bought ready cut, it stays so.
        let ready = window.layers.iter().all(|cut| cut.done);
        let WindowBy::InHand(_) = opening.window_by else { continue };
        opening.window_by = match opening.cut.get(&innermost) {
            Some(as_cut) => WindowBy::InHand(InHand {
                sight: as_cut.sight,
                overlap_left: window.overlap.left - cut.offset.left,
                overlap_top: window.overlap.top - cut.offset.top,
            }),
            None if !ready => WindowBy::Reveal(window.reveal.plus(cut.offset)),
            None => continue,
        };
    }
}

#[cfg(test)]
mod tests;
