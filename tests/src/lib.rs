//! Checks of core and app against the outside world.

pub mod commands;
pub mod faulty;
pub mod imports;
pub mod plans;
pub mod random;
pub mod words;
