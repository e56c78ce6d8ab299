//! The program around the core: two fronts, the commands and the window, on one service.

pub mod commands;
pub mod window;
