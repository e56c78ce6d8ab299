//! How the steps write figures.

use super::fill::Figures;
use crate::geometry::{Sides, Size};
use crate::length::{Length, Round, Unit};
use crate::weight::Weights;

/// Writes lengths and weights in the plan's units.
#[derive(Clone, Copy)]
pub(super) struct Formatter(pub(super) Unit, pub(super) Weights);

impl Formatter {
    pub(super) const fn unit(self) -> Unit {
        self.0
    }

    pub(super) fn length(self, length: Length) -> String {
        length.text(self.0)
    }

    /// A length that is measured at the bench but is not on its ruler.
    pub(super) fn near(self, length: Length) -> String {
        length.near(self.0)
    }

    /// What is needed at least.
    pub(super) fn up(self, length: Length) -> String {
        length.sensible(self.0, Round::Up)
    }

    pub(super) fn size(self, size: Size) -> String {
        format!("{} × {}", self.length(size.width), self.length(size.height))
    }

    pub(super) fn sides(
        self,
        into: &mut Figures,
        names: [&'static str; 4],
        sides: Sides<Length>,
    ) {
        for (name, (_, side)) in names.into_iter().zip(sides.each()) {
            into.insert(name, self.length(side));
        }
    }
}
