//! Colours for the mat, drawn from a picture's pixels: pure functions, the same result for the
//! same pixels every time.

mod lab;

pub use lab::{Lab, contrast_ratio, delta_e_2000, relative_luminance};
