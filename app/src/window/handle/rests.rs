//! Where a drag likes to rest: where a maker wants to stop.
//!
//! These are the places worth stopping at in themselves; whether one of them would fail is not
//! known here: the rules say that ([`Handle::rest_near`]), and the drag does not rest there.

use sightedge_core::geometry::{Side, Sides};
use sightedge_core::layout::optical_top;
use sightedge_core::length::Length;
use sightedge_core::spec::{BoardBy, margins, usual_offset, usual_overlap};

use super::{Handle, HandleContext, Tie, board};

/// A place a drag likes to rest at.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Rest {
    /// The handle's value there.
    pub value: Length,
    /// What it is, as said beside the pointer.
    pub name: String,
}

fn rest(value: Length, name: impl Into<String>) -> Rest {
    Rest { value, name: name.into() }
}

impl Handle {
    /// Where a drag of this handle likes to rest.
    pub fn rests(self, cx: HandleContext<'_>, across: bool, tie: Tie) -> Vec<Rest> {
        self.resting(cx, across, tie).unwrap_or_default()
    }

    fn resting(self, cx: HandleContext<'_>, across: bool, tie: Tie) -> Option<Vec<Rest>> {
        let usual = usual_overlap(cx.document.unit);
        Some(match self {
            Self::Sight(id, side) => {
                let reveal = cx.window(id)?.reveal;
                let work = cx.document.work(cx.mat().opening(id)?.work)?;
                let held = margins(work.sheet, work.image).map(|margin| margin - usual);
                let mut rests = where_one_is(
                    reveal,
                    side,
                    tie,
                    Sides::all(Length::ZERO),
                    "on the image's edge",
                );
                rests.extend(where_one_is(reveal, side, tie, held, "the usual overlap"));
                rests.extend(as_others(reveal, side, tie));
                rests
            }
            Self::Undermat(id, layer, side) => {
                let offset = cx.mat().opening(id)?.offset(layer);
                let usual = Sides::all(usual_offset(cx.document.unit));
                let mut rests = where_one_is(offset, side, tie, usual, "the usual offset");
                rests.extend(as_others(offset, side, tie));
                rests
            }
            Self::Outer(side) => match cx.mat().board_by {
                BoardBy::Borders(borders) => as_others(borders, side, tie),
                BoardBy::Outer { .. } => Vec::new(),
            },
            Self::Window(_) => window_rests(cx, across),
            Self::Sheet(id) => {
                let window = cx.window(id)?;
                let along = |sides: Sides<Length>| {
                    if across { (sides.left, sides.right) } else { (sides.top, sides.bottom) }
                };
                let even = |(first, second): (Length, Length)| (first + second).halves().0;
                let (overlap, reveal) = (along(window.overlap), along(window.reveal));
                let (first, last) = if across { ("left", "right") } else { ("top", "bottom") };
                vec![
                    rest(even(overlap), "the sheet centred"),
                    rest(overlap.0 + reveal.0 - even(reveal), "the image centred"),
                    rest(usual, format!("the usual overlap, {first}")),
                    rest(overlap.0 + overlap.1 - usual, format!("the usual overlap, {last}")),
                ]
            }
        })
    }
}

/// Where a side that moves comes to its own `goal`, the others changing by as much; the sides are
/// named where not all of them come to theirs at once.
fn where_one_is(
    sides: Sides<Length>,
    side: Side,
    tie: Tie,
    goal: Sides<Length>,
    name: &str,
) -> Vec<Rest> {
    let mut found: Vec<(Length, Vec<&str>)> = Vec::new();
    for moved in Side::ALL.into_iter().filter(|other| tie.sides(side).contains(other)) {
        let value = sides.of(side) + goal.of(moved) - sides.of(moved);
        match found.iter_mut().find(|(other, _)| *other == value) {
            Some((_, names)) => names.push(moved.name()),
            None => found.push((value, vec![moved.name()])),
        }
    }
    let at_once = found.len() == 1;
    let named = |(value, names): (Length, Vec<&str>)| {
        let name =
            if at_once { name.to_owned() } else { format!("{name}: {}", names.join(", ")) };
        rest(value, name)
    };
    found.into_iter().map(named).collect()
}

/// Where a side is as long as one that stays.
fn as_others(sides: Sides<Length>, side: Side, tie: Tie) -> Vec<Rest> {
    let moved = tie.sides(side);
    // Of two that are as long, the one across is the one that is meant.
    let mut stay: Vec<Side> = Side::ALL.into_iter().filter(|s| !moved.contains(s)).collect();
    stay.sort_by_key(|other| *other != side.opposite());
    let mut rests: Vec<Rest> = Vec::new();
    for other in stay {
        let value = sides.of(other);
        let pulled = moved.iter().fold(sides, |pulled, moved| {
            pulled.with(*moved, sides.of(*moved) + value - sides.of(side))
        });
        let name = if pulled == Sides::all(value) {
            "equal on all sides".to_owned()
        } else if other == side.opposite() {
            "as the opposite side".to_owned()
        } else {
            format!("as at the {}", other.name())
        };
        if rests.iter().all(|rest| rest.value != value) {
            rests.push(rest(value, name));
        }
    }
    rests
}

pub(super) fn window_rests(cx: HandleContext<'_>, across: bool) -> Vec<Rest> {
    let group = cx.figures().group();
    let borders = group.within(board(cx.figures()));
    if across {
        let equal = (borders.left + borders.right).halves().0;
        return vec![rest(equal, "equal borders")];
    }
    let room = borders.top + borders.bottom;
    let (equal, _) = room.halves();
    let optical = optical_top(cx.figures().outer, group.size);
    vec![
        rest(equal, "equal borders"),
        rest(optical, "optical centre"),
        rest(borders.left, "top as the left side"),
    ]
}
