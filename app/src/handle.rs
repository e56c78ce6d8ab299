//! What can be taken hold of on the board, and what moving it means.
//!
//! A handle's value is a length a person knows: a reveal, an offset, a border, an outer size.
//! [`Handle::set`] gives the command that makes it so; drags, nudges and typed numbers all go
//! through it, so that the three can never mean different things.

use sightedge_core::command::Command;
use sightedge_core::geometry::{Point, Rect, Side, Sides, Size};
use sightedge_core::layout::{Figures, Layout, Window};
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::{
    Document, Fixing, InHand, LayerId, Mat, Meets, OpeningId, Placement, Variant,
};

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

/// A place a drag likes to rest at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Rest {
    /// The handle's value there.
    pub value: Length,
    /// What it is, as said beside the pointer.
    pub name: &'static str,
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
                    handles.extend(Side::ALL.map(|side| Self::Sight(id, side)));
                    handles.push(Self::Window(id));
                }
                Meets::InHand(_) => handles.push(Self::Sheet(id)),
            }
            let inner = bench.mat().layers.iter().skip(1);
            for layer in inner {
                handles.extend(Side::ALL.map(|side| Self::Liner(id, layer.id, side)));
            }
        }
        handles.extend(Side::ALL.map(Self::Outer));
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

    /// Where a drag of this handle likes to rest.
    pub fn rests(self, bench: Bench<'_>, across: bool) -> Vec<Rest> {
        let rest = |value, name| Rest { value, name };
        match self {
            Self::Sight(id, side) => {
                let Some(window) = bench.window(id) else { return Vec::new() };
                let margin = window.overlap.of(side) + window.reveal.of(side);
                vec![
                    rest(Length::ZERO, "on the image's edge"),
                    rest(window.reveal.of(side.opposite()), "as the opposite side"),
                    rest(margin, "on the sheet's edge"),
                ]
            }
            Self::Liner(id, layer, side) => {
                let Some(opening) = bench.mat().opening(id) else { return Vec::new() };
                let opposite = opening.offset(layer).of(side.opposite());
                vec![rest(opposite, "as the opposite side")]
            }
            Self::Window(_) => window_rests(bench, across),
            Self::Sheet(id) => {
                let Some(window) = bench.window(id) else { return Vec::new() };
                let (overlap, reveal) = (window.overlap, window.reveal);
                let (sheet, image) = if across {
                    let even = |s: Sides<Length>| (s.left + s.right).halves().0;
                    (even(overlap), overlap.left + reveal.left - even(reveal))
                } else {
                    let even = |s: Sides<Length>| (s.top + s.bottom).halves().0;
                    (even(overlap), overlap.top + reveal.top - even(reveal))
                };
                vec![rest(sheet, "the sheet centred"), rest(image, "the image centred")]
            }
            Self::Outer(_) => Vec::new(),
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

fn window_rests(bench: Bench<'_>, across: bool) -> Vec<Rest> {
    let group = bench.figures().group();
    let borders = group.within(board(bench.figures()));
    if across {
        let equal = (borders.left + borders.right).halves().0;
        return vec![Rest { value: equal, name: "equal borders" }];
    }
    let room = borders.top + borders.bottom;
    let (equal, _) = room.halves();
    // (W + w)(H - h) / 4W, as in the layout.
    let outer = bench.figures().outer;
    let optical = room.scaled(
        i128::from((outer.width + group.size.width).units()),
        4 * i128::from(outer.width.units()),
    );
    vec![
        Rest { value: equal, name: "equal borders" },
        Rest { value: optical, name: "optical centre" },
        Rest { value: borders.left, name: "top as the left side" },
    ]
}

fn place_window(bench: Bench<'_>, value: Length, across: bool) -> Command {
    let borders = bench.figures().group().within(board(bench.figures()));
    let variant = bench.variant.id;
    let fixing = match bench.mat().fixing {
        Fixing::Borders(top) => {
            let (old, first, second) = if across {
                (borders.left, Side::Left, Side::Right)
            } else {
                (borders.top, Side::Top, Side::Bottom)
            };
            let by = value - old;
            Fixing::Borders(
                top.with(first, top.of(first) + by).with(second, top.of(second) - by),
            )
        }
        Fixing::Outer { size, placement } => {
            let room = borders.top + borders.bottom;
            let placement = match placement {
                Placement::Free { left, top } if across => {
                    let _ = left;
                    Placement::Free { left: value, top }
                }
                Placement::Free { left, .. } => Placement::Free { left, top: value },
                _ => {
                    let rests = window_rests(bench, false);
                    let on = |name| rests.iter().any(|r| r.name == name && r.value == value);
                    if on("equal borders") {
                        Placement::Centred
                    } else if on("optical centre") {
                        Placement::Optical
                    } else {
                        Placement::BottomExtra(room - value * 2)
                    }
                }
            };
            Fixing::Outer { size, placement }
        }
    };
    Command::SetFixing(variant, fixing)
}

fn set_outer(bench: Bench<'_>, side: Side, value: Length, tie: Tie) -> Command {
    let fixing = match bench.mat().fixing {
        Fixing::Borders(mut borders) => {
            for side in tie.sides(side) {
                borders = borders.with(side, value);
            }
            Fixing::Borders(borders)
        }
        Fixing::Outer { size, placement } => {
            let across = matches!(side, Side::Left | Side::Right);
            let by = value - if across { size.width } else { size.height };
            let both = tie == Tie::All;
            let width = if across || both { size.width + by } else { size.width };
            let height = if !across || both { size.height + by } else { size.height };
            // A window placed by hand stays where it is under the fixed edge.
            let placement = match placement {
                Placement::Free { left, top } if tie == Tie::One => Placement::Free {
                    left: if side == Side::Left { left + by } else { left },
                    top: if side == Side::Top { top + by } else { top },
                },
                other => other,
            };
            Fixing::Outer { size: Size::new(width, height), placement }
        }
    };
    Command::SetFixing(bench.variant.id, fixing)
}

/// Where a dragged handle's value stands when the pointer is at `at` on the board, `at` being
/// measured with the handle's [`Anchor`] held still.
pub fn value_at(
    handle: Handle,
    bench: Bench<'_>,
    at: Point,
    across: bool,
    tie: Tie,
) -> Option<Length> {
    let figures = bench.figures();
    Some(match handle {
        Handle::Sight(id, side) => {
            let image = bench.window(id)?.image;
            outwards(image, side, at)
        }
        Handle::Liner(id, layer, side) => {
            let window = bench.window(id)?;
            let below = window.layers.iter().find(|cut| cut.layer == layer)?;
            outwards(below.sight.bounds, side, at)
        }
        Handle::Window(_) => {
            if across {
                at.x
            } else {
                at.y
            }
        }
        Handle::Outer(side) => match bench.mat().fixing {
            Fixing::Borders(_) => {
                let window = around_top(figures)?;
                outwards(window, side, at)
            }
            // Both sides at once: the middle stays, so each side gives half.
            Fixing::Outer { size, .. } if tie != Tie::One => {
                let out = outwards(board(figures), side, at);
                let now = if matches!(side, Side::Left | Side::Right) {
                    size.width
                } else {
                    size.height
                };
                now + out * 2
            }
            Fixing::Outer { .. } => match side {
                Side::Right => at.x,
                Side::Left => figures.outer.width - at.x,
                Side::Bottom => at.y,
                Side::Top => figures.outer.height - at.y,
            },
        },
        Handle::Sheet(id) => {
            let sight = bench.window(id)?.sight;
            if across { sight.left() - at.x } else { sight.top() - at.y }
        }
    })
}

/// How far `at` lies outside one side of `rect`.
fn outwards(rect: Rect, side: Side, at: Point) -> Length {
    match side {
        Side::Top => rect.top() - at.y,
        Side::Right => at.x - rect.right(),
        Side::Bottom => at.y - rect.bottom(),
        Side::Left => rect.left() - at.x,
    }
}

/// The top layer's windows together.
fn around_top(figures: &Figures) -> Option<Rect> {
    let mut rects = figures.openings.iter().filter_map(|w| w.top().map(|cut| cut.sight.bounds));
    let first = rects.next()?;
    Some(rects.fold(first, |all, next| {
        let out = all.within(next).map(|inside| inside.max(Length::ZERO));
        all.outset(out)
    }))
}
