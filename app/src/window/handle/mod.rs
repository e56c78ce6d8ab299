//! What can be taken hold of on the board, and what moving it means.
//!
//! A handle's value is a length a person knows: a reveal, an offset, a border, an outer size.
//! [`Handle::set`] gives the command that makes it so; drags, nudges and typed numbers all go
//! through it, so that the three can never mean different things.

mod judge;
mod placing;
mod reach;
mod readout;
mod rests;
mod tie;

use sightedge_core::command::Command;
use sightedge_core::geometry::{Rect, Side};
use sightedge_core::layout::{Figures, Layout, Window};
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::{
    BoardBy, Document, InHand, LayerId, Mat, OpeningId, Placement, Variant, WindowBy,
};

pub use judge::{Judge, worsened};
use placing::{place_window, set_outer, set_reveal};
pub use reach::value_at;
pub use rests::Rest;
pub use tie::{Others, Pull, Tie};

/// Something on the board that can be dragged, nudged or set by a number.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Handle {
    /// One side of the innermost sight edge: its reveal.
    Sight(OpeningId, Side),
    /// One side of a layer's sight edge above the innermost: the offset of the layer below.
    Undermat(OpeningId, LayerId, Side),
    /// The whole window: its place on the board.
    Window(OpeningId),
    /// One side of the board.
    Outer(Side),
    /// The sheet under a window in hand.
    Sheet(OpeningId),
}

/// The part of the drawing that keeps its place on the screen while a handle is dragged.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Anchor {
    /// The picture: the board grows round it.
    Image,
    /// The board.
    Board,
    /// The board's middle: opposite edges move by the same amount.
    Middle,
    /// One edge of the board, the others free.
    Edge(Side),
}

/// The plan as a handle sees it.
#[derive(Clone, Copy, Debug)]
pub struct HandleContext<'a> {
    /// The plan.
    pub document: &'a Document,
    /// The variant in hand.
    pub variant: &'a Variant,
    /// Where everything lies.
    pub layout: &'a Layout,
}

/// The step of a drag or a nudge: the ruler's, or freed from it.
pub fn step(document: &Document, freed: bool) -> Length {
    if !freed {
        return document.ruler.step();
    }
    match document.unit {
        Unit::Inch => Length::inch_128ths(1),
        Unit::Millimetre => Length::um(100),
    }
}

/// `value` moved by `steps`; from between two marks of the ruler, the first step goes to the
/// next mark.
pub fn nudged(value: Length, step: Length, steps: i64) -> Length {
    let floor = value.floor_to(step);
    let from = if steps < 0 && floor != value { floor + step } else { floor };
    from + step * steps
}

impl<'a> HandleContext<'a> {
    fn mat(&self) -> &'a Mat {
        &self.variant.mat
    }

    fn figures(&self) -> &'a Figures {
        &self.layout.exact
    }

    fn window(&self, id: OpeningId) -> Option<&'a Window> {
        self.figures().opening(id)
    }
}

impl Handle {
    /// What can be taken hold of in this plan, in the order the Tab key walks.
    pub fn all(cx: HandleContext<'_>) -> Vec<Self> {
        let mut handles = Vec::new();
        for opening in &cx.mat().openings {
            let id = opening.id;
            match opening.window_by {
                WindowBy::Reveal(_) => {
                    let last = cx.mat().layers.len().saturating_sub(1);
                    if !cx.mat().is_cut(opening, last) {
                        handles.extend(Side::ALL.map(|side| Self::Sight(id, side)));
                    }
                    if cx.mat().cut_board().is_none() {
                        handles.push(Self::Window(id));
                    }
                }
                WindowBy::InHand(_) => handles.push(Self::Sheet(id)),
            }
            let inner = cx.mat().layers.iter().enumerate().skip(1);
            for (index, layer) in inner {
                // The edge that would move is that of the layer above.
                if opening.cut.contains_key(&layer.id)
                    || cx
                        .mat()
                        .layers
                        .get(index - 1)
                        .is_some_and(|above| opening.cut.contains_key(&above.id))
                {
                    continue;
                }
                handles.extend(Side::ALL.map(|side| Self::Undermat(id, layer.id, side)));
            }
        }
        if cx.mat().cut_board().is_none() {
            handles.extend(Side::ALL.map(Self::Outer));
        }
        handles
    }

    /// What stays where it is on the screen while this moves.
    pub fn anchor(self, cx: HandleContext<'_>, tie: Tie) -> Anchor {
        match (self, cx.mat().board_by, tie) {
            (Self::Window(_) | Self::Sheet(_), ..)
            | (Self::Sight(..) | Self::Undermat(..), BoardBy::Outer { .. }, _) => Anchor::Board,
            (Self::Outer(_), BoardBy::Outer { .. }, Tie::Opposite) => Anchor::Middle,
            (Self::Outer(side), BoardBy::Outer { .. }, _)
            | (Self::Outer(side), BoardBy::Borders(_), Tie::One) => {
                Anchor::Edge(side.opposite())
            }
            // The borders are given, so the board grows and shrinks with its window.
            (Self::Sight(..) | Self::Undermat(..) | Self::Outer(_), BoardBy::Borders(_), _) => {
                Anchor::Image
            }
        }
    }

    /// The side it is, for an edge.
    pub const fn side(self) -> Option<Side> {
        match self {
            Self::Sight(_, side) | Self::Undermat(_, _, side) | Self::Outer(side) => Some(side),
            Self::Window(_) | Self::Sheet(_) => None,
        }
    }

    /// The rectangle on the board that it moves, or an edge of which it moves.
    pub fn rect(self, cx: HandleContext<'_>) -> Option<Rect> {
        let figures = cx.figures();
        Some(match self {
            Self::Sight(id, _) => figures.opening(id)?.sight,
            Self::Undermat(id, layer, _) => {
                let cuts = &figures.opening(id)?.layers;
                let below = cuts.iter().position(|cut| cut.layer == layer)?;
                cuts.get(below.checked_sub(1)?)?.sight.bounds
            }
            Self::Outer(_) => board(figures),
            Self::Window(_) => figures.group(),
            Self::Sheet(id) => figures.opening(id)?.sheet,
        })
    }

    /// Whether it moves across, down, or both.
    pub fn moves(self, cx: HandleContext<'_>) -> (bool, bool) {
        let along = |side| match side {
            Side::Left | Side::Right => (true, false),
            Side::Top | Side::Bottom => (false, true),
        };
        match self {
            Self::Sight(_, side) | Self::Undermat(_, _, side) | Self::Outer(side) => {
                along(side)
            }
            Self::Window(_) => (sideways(cx.mat()), true),
            Self::Sheet(_) => (true, true),
        }
    }

    /// The value that typing and nudging change: across for what moves both ways only where
    /// `across`.
    pub fn value(self, cx: HandleContext<'_>, across: bool) -> Option<Length> {
        Some(match self {
            Self::Sight(id, side) => cx.window(id)?.reveal.of(side),
            Self::Undermat(id, layer, side) => cx.mat().opening(id)?.offset(layer).of(side),
            Self::Window(_) => {
                let borders = cx.figures().group().within(board(cx.figures()));
                if across { borders.left } else { borders.top }
            }
            Self::Outer(side) => match cx.mat().board_by {
                BoardBy::Borders(borders) => borders.of(side),
                BoardBy::Outer { size, .. } => match side {
                    Side::Left | Side::Right => size.width,
                    Side::Top | Side::Bottom => size.height,
                },
            },
            Self::Sheet(id) => {
                let overlap = cx.window(id)?.overlap;
                if across { overlap.left } else { overlap.top }
            }
        })
    }

    /// The sides that move with it.
    pub fn sides(self, cx: HandleContext<'_>, tie: Tie) -> Vec<Side> {
        match (self, cx.mat().board_by) {
            // Width and height are each a length of their own.
            (Self::Outer(side), BoardBy::Outer { .. }) if tie == Tie::All => vec![side],
            _ => self.side().map_or_else(|| Side::ALL.to_vec(), |side| tie.sides(side)),
        }
    }

    /// The command that gives the handle this value, pulled so.
    pub fn set(self, cx: HandleContext<'_>, value: Length, pull: Pull) -> Option<Command> {
        let variant = cx.variant.id;
        match self {
            Self::Sight(id, side) => {
                let WindowBy::Reveal(reveal) = cx.mat().opening(id)?.window_by else {
                    return None;
                };
                Some(set_reveal(cx, id, reveal, pull.applied(reveal, side, value)))
            }
            Self::Undermat(id, layer, side) => {
                let offset = cx.mat().opening(id)?.offset(layer);
                let offset = pull.applied(offset, side, value);
                Some(Command::SetOffset(variant, id, layer, offset))
            }
            Self::Window(_) => Some(place_window(cx, value, pull.across)),
            Self::Outer(side) => Some(set_outer(cx, side, value, pull)),
            Self::Sheet(id) => {
                let WindowBy::InHand(hand) = cx.mat().opening(id)?.window_by else {
                    return None;
                };
                let hand = if pull.across {
                    InHand { overlap_left: value, ..hand }
                } else {
                    InHand { overlap_top: value, ..hand }
                };
                Some(Command::SetWindowBy(variant, id, WindowBy::InHand(hand)))
            }
        }
    }
}

fn board(figures: &Figures) -> Rect {
    Rect::at_origin(figures.outer)
}

/// Whether the window may be moved sideways.
fn sideways(mat: &Mat) -> bool {
    match mat.board_by {
        BoardBy::Borders(_) => true,
        BoardBy::Outer { placement, .. } => matches!(placement, Placement::Free { .. }),
    }
}

#[cfg(test)]
pub(crate) mod tests;
