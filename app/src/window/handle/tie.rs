//! Which sides move with the one that is dragged, and how.

use egui::Modifiers;
use sightedge_core::geometry::{Side, Sides};
use sightedge_core::length::Length;

/// Which sides move together.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Tie {
    /// All four: no key is held.
    #[default]
    All,
    /// The one side alone: Shift.
    One,
    /// It and the opposite one: Ctrl, on a Mac Cmd.
    Opposite,
}

/// What becomes of the sides that move with the one that is dragged.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Others {
    /// They change by as much: what was uneven on purpose stays so. A drag and a nudge.
    Follow,
    /// They get the very same length. A number that is typed.
    Equal,
}

/// How a handle is pulled.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pull {
    /// Across, for what moves both ways; else down.
    pub across: bool,
    /// Which sides move.
    pub tie: Tie,
    /// What the others become.
    pub others: Others,
}

impl Tie {
    /// What the keys that are held ask for.
    pub const fn of(held: Modifiers) -> Self {
        if held.command {
            Self::Opposite
        } else if held.shift {
            Self::One
        } else {
            Self::All
        }
    }

    /// The sides that move when `side` is moved.
    pub fn sides(self, side: Side) -> Vec<Side> {
        match self {
            Self::One => vec![side],
            Self::Opposite => vec![side, side.opposite()],
            Self::All => Side::ALL.to_vec(),
        }
    }
}

impl Pull {
    /// These sides once `side` is pulled to `value`.
    pub fn applied(self, sides: Sides<Length>, side: Side, value: Length) -> Sides<Length> {
        let by = value - sides.of(side);
        self.tie.sides(side).into_iter().fold(sides, |pulled, moved| {
            let new = match self.others {
                Others::Follow => sides.of(moved) + by,
                Others::Equal => value,
            };
            pulled.with(moved, new)
        })
    }
}
