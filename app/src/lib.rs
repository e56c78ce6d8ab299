//! The program around the core: the headless verbs and the window.

pub mod cli;
pub mod opening;
