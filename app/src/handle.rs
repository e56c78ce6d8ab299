//! What can be taken hold of on the board, and what moving it means.
//!
//! A handle's value is a length a person knows: a reveal, an offset, a border, an outer size.
//! [`Handle::set`] gives the command that makes it so; drags, nudges and typed numbers all go
//! through it, so that the three can never mean different things.

mod placing;
mod reach;
mod rests;

use sightedge_core::command::Command;
use sightedge_core::geometry::{Rect, Side};
use sightedge_core::layout::{Figures, Layout, Window};
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::{
    Document, Fixing, InHand, LayerId, Mat, Meets, OpeningId, Placement, Variant,
};

use placing::{place_window, set_outer};
pub use reach::value_at;
pub use rests::Rest;

/// Something on the board that can be dragged, nudged or set by a number.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Handle {
    /// One side of the innermost sight edge: its reveal.
    Sight(OpeningId, Side),
    /// One side of a layer's sight edge above the innermost: the offset of the layer below.
    Liner(OpeningId, LayerId, Side),
    /// The whole window: its place on the board.
    Window(OpeningId),
    /// One side of the board.
    Outer(Side),
    /// The sheet under a window in hand.
    Sheet(OpeningId),
}

/// Which sides move together.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Tie {
    /// The one side alone.
    #[default]
    One,
    /// It and the opposite one.
    Opposite,
    /// All four.
    All,
}

impl Tie {
    /// The sides that move when `side` is moved.
    pub fn sides(self, side: Side) -> Vec<Side> {
        match self {
            Self::One => vec![side],
            Self::Opposite => vec![side, side.opposite()],
            Self::All => Side::ALL.to_vec(),
        }
    }
}

/// What of the drawing stays where it is on the screen while a handle moves.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Anchor {
    /// The picture: the window's edges move round it.
    Image,
    /// The board.
    Board,
    /// One edge of the board, the others free.
    Edge(Side),
}

/// The plan as a handle sees it.
#[derive(Clone, Copy, Debug)]
pub struct Bench<'a> {
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

/// So many steps further: off the ruler, the first one goes to its next mark.
pub fn nudged(value: Length, step: Length, steps: i64) -> Length {
    let floor = value.floor_to(step);
    let from = if steps < 0 && floor != value { floor + step } else { floor };
    from + step * steps
}

impl<'a> Bench<'a> {
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
    pub fn all(bench: Bench<'_>) -> Vec<Self> {
        let mut handles = Vec::new();
        for opening in &bench.mat().openings {
            let id = opening.id;
            match opening.meets {
                Meets::Reveal(_) => {
                    let last = bench.mat().layers.len().saturating_sub(1);
                    if !bench.mat().is_cut(opening, last) {
                        handles.extend(Side::ALL.map(|side| Self::Sight(id, side)));
                    }
                    if bench.mat().cut_board().is_none() {
                        handles.push(Self::Window(id));
                    }
                }
                Meets::InHand(_) => handles.push(Self::Sheet(id)),
            }
            let inner = bench.mat().layers.iter().enumerate().skip(1);
            for (index, layer) in inner {
                // The edge that would move is that of the layer above.
                if opening.cut.contains_key(&layer.id)
                    || bench
                        .mat()
                        .layers
                        .get(index - 1)
                        .is_some_and(|above| opening.cut.contains_key(&above.id))
                {
                    continue;
                }
                handles.extend(Side::ALL.map(|side| Self::Liner(id, layer.id, side)));
            }
        }
        if bench.mat().cut_board().is_none() {
            handles.extend(Side::ALL.map(Self::Outer));
        }
        handles
    }

    /// What it is, for the pointer's label and for screen readers.
    pub fn name(self, bench: Bench<'_>) -> String {
        match self {
            Self::Sight(_, side) => format!("Reveal, {}", side.name()),
            Self::Liner(_, layer, side) => {
                let index = bench.mat().layers.iter().position(|l| l.id == layer).unwrap_or(1);
                if bench.mat().layers.len() > 2 {
                    format!("Offset of liner {index}, {}", side.name())
                } else {
                    format!("Liner offset, {}", side.name())
                }
            }
            Self::Window(_) => "Top border to the window".to_owned(),
            Self::Outer(side) => match (side, bench.mat().fixing) {
                (_, Fixing::Borders(_)) => format!("Border, {}", side.name()),
                (Side::Left | Side::Right, Fixing::Outer { .. }) => "Outer width".to_owned(),
                (Side::Top | Side::Bottom, Fixing::Outer { .. }) => "Outer height".to_owned(),
            },
            // Of the two, the one that a typed number sets.
            Self::Sheet(_) => "Overlap, top".to_owned(),
        }
    }

    /// What stays where it is on the screen while this moves.
    pub fn anchor(self, tie: Tie) -> Anchor {
        match self {
            Self::Window(_) | Self::Sheet(_) => Anchor::Board,
            Self::Outer(side) if tie == Tie::One => Anchor::Edge(side.opposite()),
            Self::Sight(..) | Self::Liner(..) | Self::Outer(_) => Anchor::Image,
        }
    }

    /// Whether it moves across, down, or both.
    pub fn moves(self, bench: Bench<'_>) -> (bool, bool) {
        let along = |side| match side {
            Side::Left | Side::Right => (true, false),
            Side::Top | Side::Bottom => (false, true),
        };
        match self {
            Self::Sight(_, side) | Self::Liner(_, _, side) | Self::Outer(side) => along(side),
            Self::Window(_) => (sideways(bench.mat()), true),
            Self::Sheet(_) => (true, true),
        }
    }

    /// The value that typing and nudging change: across for what moves both ways only where
    /// `across`.
    pub fn value(self, bench: Bench<'_>, across: bool) -> Option<Length> {
        Some(match self {
            Self::Sight(id, side) => bench.window(id)?.reveal.of(side),
            Self::Liner(id, layer, side) => bench.mat().opening(id)?.offset(layer).of(side),
            Self::Window(_) => {
                let borders = bench.figures().group().within(board(bench.figures()));
                if across { borders.left } else { borders.top }
            }
            Self::Outer(side) => match bench.mat().fixing {
                Fixing::Borders(borders) => borders.of(side),
                Fixing::Outer { size, .. } => match side {
                    Side::Left | Side::Right => size.width,
                    Side::Top | Side::Bottom => size.height,
                },
            },
            Self::Sheet(id) => {
                let overlap = bench.window(id)?.overlap;
                if across { overlap.left } else { overlap.top }
            }
        })
    }

    /// The command that gives the handle this value.
    pub fn set(
        self,
        bench: Bench<'_>,
        value: Length,
        across: bool,
        tie: Tie,
    ) -> Option<Command> {
        let variant = bench.variant.id;
        match self {
            Self::Sight(id, side) => {
                let Meets::Reveal(mut reveal) = bench.mat().opening(id)?.meets else {
                    return None;
                };
                for side in tie.sides(side) {
                    reveal = reveal.with(side, value);
                }
                Some(Command::SetMeets(variant, id, Meets::Reveal(reveal)))
            }
            Self::Liner(id, layer, side) => {
                let mut offset = bench.mat().opening(id)?.offset(layer);
                for side in tie.sides(side) {
                    offset = offset.with(side, value);
                }
                Some(Command::SetOffset(variant, id, layer, offset))
            }
            Self::Window(_) => Some(place_window(bench, value, across)),
            Self::Outer(side) => Some(set_outer(bench, side, value, tie)),
            Self::Sheet(id) => {
                let Meets::InHand(hand) = bench.mat().opening(id)?.meets else { return None };
                let hand = if across {
                    InHand { overlap_left: value, ..hand }
                } else {
                    InHand { overlap_top: value, ..hand }
                };
                Some(Command::SetMeets(variant, id, Meets::InHand(hand)))
            }
        }
    }
}

fn board(figures: &Figures) -> Rect {
    Rect::at_origin(figures.outer)
}

/// Whether the window may be moved sideways.
fn sideways(mat: &Mat) -> bool {
    match mat.fixing {
        Fixing::Borders(_) => true,
        Fixing::Outer { placement, .. } => matches!(placement, Placement::Free { .. }),
    }
}
