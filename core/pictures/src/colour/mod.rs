//! Colours for the mat, drawn from a picture's pixels: pure functions, the same result for the
//! same pixels every time.

mod boards;
mod lab;
mod palette;
mod suggest;
mod vision;

pub use boards::nearest_boards;
pub use lab::{Lab, contrast_ratio, delta_e_2000, relative_luminance};
pub use palette::{Palette, Swatch, palette_of};
pub use suggest::{Intent, Reason, Suggestion, suggestions};
pub use vision::{Vision, simulate};
