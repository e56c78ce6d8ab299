//! How a print is numbered within its edition, and how a catalogue writes sizes.

mod dimensions;
mod notation;

pub use dimensions::{Order, dimensions, dimensions_cm, dimensions_in};
pub use notation::{Kind, Notation, Numerals, roman};
