//! A handle in words: what rides along with the pointer, what the line at the foot says.

use sightedge_core::geometry::{Side, Sides};
use sightedge_core::length::Length;
use sightedge_core::spec::BoardBy;

use super::{Handle, HandleContext, Tie};
use crate::window::gesture;
use sightedge_service::wording;

impl Handle {
    /// What it is, for the pointer's label and for screen readers.
    pub fn name(self, cx: HandleContext<'_>) -> String {
        match (self.kind(cx), self) {
            (Some(kind), _) => {
                self.side().map_or(kind.clone(), |side| named(&kind, side.name()))
            }
            (None, Self::Outer(Side::Left | Side::Right)) => "Outer width".to_owned(),
            (None, Self::Outer(_)) => "Outer height".to_owned(),
            // Of the two, the one that a typed number sets.
            (None, Self::Sheet(_)) => "Overlap, top".to_owned(),
            (None, _) => "Top border to the window".to_owned(),
        }
    }

    /// What its four sides have one each of; `None` for what has no sides of its own.
    fn kind(self, cx: HandleContext<'_>) -> Option<String> {
        Some(match self {
            Self::Sight(..) => "Reveal".to_owned(),
            Self::Undermat(_, layer, _) => {
                let index = cx.mat().layers.iter().position(|l| l.id == layer).unwrap_or(1);
                if cx.mat().layers.len() > 2 {
                    format!("Offset of undermat {index}")
                } else {
                    "Undermat offset".to_owned()
                }
            }
            Self::Outer(_) if matches!(cx.mat().board_by, BoardBy::Borders(_)) => {
                "Border".to_owned()
            }
            Self::Outer(_) | Self::Window(_) | Self::Sheet(_) => return None,
        })
    }

    /// The lengths of the four sides that it is one of.
    fn four(self, cx: HandleContext<'_>) -> Option<Sides<Length>> {
        match (self, cx.mat().board_by) {
            (Self::Sight(id, _), _) => Some(cx.window(id)?.reveal),
            (Self::Undermat(id, layer, _), _) => Some(cx.mat().opening(id)?.offset(layer)),
            (Self::Outer(_), BoardBy::Borders(borders)) => Some(borders),
            _ => None,
        }
    }

    /// What moves with it and how long that is, a line each; in one line where it is all alike.
    pub fn readout(self, cx: HandleContext<'_>, tie: Tie) -> Vec<String> {
        let unit = cx.document.unit;
        let line =
            |name: &str, length: Length| format!("{name}  {}", wording::length(length, unit));
        let (Some(kind), Some(four), Some(side)) = (self.kind(cx), self.four(cx), self.side())
        else {
            let value = self.value(cx, self.moves(cx).0);
            return value.map(|value| line(&self.name(cx), value)).into_iter().collect();
        };
        let moved = tie.sides(side);
        if moved.iter().all(|other| four.of(*other) == four.of(side)) {
            let which = match (tie, side) {
                (Tie::All, _) => "all sides",
                (Tie::One, side) => side.name(),
                (Tie::Opposite, Side::Left | Side::Right) => "left and right",
                (Tie::Opposite, Side::Top | Side::Bottom) => "top and bottom",
            };
            return vec![line(&named(&kind, which), four.of(side))];
        }
        let moved = Side::ALL.into_iter().filter(|side| moved.contains(side));
        moved.map(|side| line(&named(&kind, side.name()), four.of(side))).collect()
    }

    /// What a drag of it does with the keys that are held, and what other keys would do, for the
    /// line at the foot.
    pub fn hint(self, cx: HandleContext<'_>, tie: Tie) -> String {
        let borders = matches!(cx.mat().board_by, BoardBy::Borders(_));
        let what = match self {
            Self::Sight(..) => "reveal",
            Self::Undermat(..) => "offset",
            Self::Outer(_) if borders => "border",
            Self::Outer(side) => {
                let what = match side {
                    Side::Left | Side::Right => "width",
                    Side::Top | Side::Bottom => "height",
                };
                let edges = match tie {
                    Tie::Opposite => "both edges move",
                    Tie::All | Tie::One => "this edge moves",
                };
                let keys =
                    gesture::line(&[gesture::BOTH_EDGES, gesture::OFF_RULER, gesture::CANCEL]);
                return format!("The board’s {what} changes: {edges}. {keys}");
            }
            Self::Window(_) => {
                let keys = gesture::line(&[gesture::FREE, gesture::CANCEL]);
                return format!("The window moves on the board. {keys}");
            }
            Self::Sheet(_) => {
                let keys = gesture::line(&[gesture::FREE, gesture::CANCEL]);
                return format!("The sheet moves under the window. {keys}");
            }
        };
        let side = self.side().unwrap_or(Side::Top);
        let does = match (tie, side) {
            (Tie::All, _) => format!("All four {what}s change by the same amount."),
            (Tie::One, side) => format!("Only the {} {what} changes.", side.name()),
            (Tie::Opposite, Side::Left | Side::Right) => {
                format!("The left and right {what}s change by the same amount.")
            }
            (Tie::Opposite, Side::Top | Side::Bottom) => {
                format!("The top and bottom {what}s change by the same amount.")
            }
        };
        let keys = [gesture::THIS_SIDE, gesture::OPPOSITE, gesture::OFF_RULER, gesture::CANCEL];
        format!("{does} {}", gesture::line(&keys))
    }

    /// What the keys do with a number that is typed for it.
    pub fn typing(self, cx: HandleContext<'_>) -> &'static str {
        if self.four(cx).is_some() {
            "Enter sets it on all four sides\nShift+Enter: this side alone; Ctrl+Enter: opposite \
             sides"
        } else {
            "Enter sets it"
        }
    }
}

fn named(kind: &str, which: &str) -> String {
    format!("{kind}, {which}")
}
