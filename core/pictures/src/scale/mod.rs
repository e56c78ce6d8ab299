//! Reducing rows as they are decoded: linear light, Lanczos with three lobes, exact sizes.

mod kernel;
mod passes;
mod rows;

pub(crate) use kernel::Kernel;
pub(crate) use rows::{Reduced, Scaler, Window};
