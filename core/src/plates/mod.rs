//! What is drawn of a mat: its face, its dimensions, what it hides, what lies behind it,
//! sections through it and through its package.
//!
//! Each plate is a pure function from a mat and one set of figures to a [`Drawing`].
//!
//! [`Drawing`]: crate::drawing::Drawing

mod assembly;
mod card;
mod cuts;
mod dimensioning;
mod dimensions;
mod frame;
mod front;
mod hidden;
pub mod inscription;
mod light;
mod outline;
mod package;
mod row;
mod section;
mod template;

pub use crate::geometry::Seen;
pub use crate::spec::layer_name;
pub use assembly::{AssemblyView, HumidityShown, Subject, assembly};
pub use card::back;
pub use cuts::{CutAt, Part, closed_lines, cuts, over_cut};
pub use dimensions::{dimensions, dimensions_on_screen};
pub use frame::outermost;
pub use front::{finished, front};
pub use hidden::hidden;
pub use outline::outline;
pub use package::package;
pub use row::{middle, row};
pub use section::section;
pub use template::{corner, placing};

use crate::geometry::{Point, Rect};
use crate::length::Length;
use crate::material::Colour;
use crate::spec::Mat;

/// How a mat is shown on screen and paper; it changes nothing at the bench.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Look {
    /// The grey round the board, in sRGB, 0 black to 255 white.
    pub surround: u8,
    /// The room round the board, in thousandths of its longer side.
    pub margin: u16,
    /// The paper of a sheet whose own white is not known.
    pub paper: Colour,
    /// The core of a board, seen where it is cut.
    pub core: Colour,
}

impl Look {
    /// The white of the paper of a mat's picture: the paper's own where it is known.
    pub fn paper_of(&self, mat: &Mat) -> Colour {
        mat.assembly.paper.as_ref().and_then(|paper| paper.white).unwrap_or(self.paper)
    }
}

impl Default for Look {
    /// A middle grey, in which colours are judged best; a bright paper; a white core.
    fn default() -> Self {
        Self {
            surround: 150,
            margin: 90,
            paper: Colour::new(251, 250, 247),
            core: Colour::new(250, 249, 246),
        }
    }
}

/// A rectangle on a board of that width, seen from the board's other side.
fn mirrored(rect: Rect, wide: Length) -> Rect {
    Rect::new(Point::new(wide - rect.right(), rect.top()), rect.size)
}

#[cfg(test)]
mod tests;
#[cfg(test)]
pub(crate) use tests::nonsense;
