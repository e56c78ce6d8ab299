//! Draws the demo pictures: photographs of a place that does not exist, by our own code.
//!
//! Light comes from a modelled dusk sky; land, rocks and timber are distance fields found by
//! marching rays; the sea mirrors them through the slopes a long exposure averages. Every
//! number is computed in an order and by functions that give the same bits everywhere.

#![allow(
    clippy::many_single_char_names,
    reason = "places, normals and rays are p, n, o and d wherever light is computed"
)]

mod film;
mod noise;
mod picture;
mod scenes;
mod shapes;
mod sky;
mod vector;
mod world;

pub use picture::{Area, Picture};
pub use scenes::all;
