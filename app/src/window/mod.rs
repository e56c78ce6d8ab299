//! The window: one front on the service, and the only part of the program that knows a screen.
//!
//! Screens read the plan and return requests, which the window carries out after the frame.

pub mod app;
pub mod canvas;
pub mod context;
pub mod handle;
pub mod question;
pub mod request;
pub mod run;
pub mod screens;
pub mod session;
pub mod textures;
pub mod theme;
pub mod widgets;
pub mod workers;
