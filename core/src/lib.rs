//! Measures, documents, layout and rules of window mats.
//!
//! All that is true of a mat whether or not a screen exists. Nothing here touches a clock, a
//! locale or a window: those come in as arguments. The modules stand on layers, each using
//! only those above it in this list; `tests/layers.rs` of the tests package holds the order.

pub mod command;
pub mod derived;
pub mod figures;
pub mod file;
pub mod finding;
pub mod geometry;
pub mod history;
pub mod layout;
pub mod length;
pub mod material;
pub mod rules;
pub mod spec;

#[cfg(test)]
pub(crate) mod sample;
