//! The program around the core: the headless verbs and the window.
//!
//! Only this package knows of a screen. Panels and canvas read the plan and return asks
//! ([`action`]); the window ([`app`]) carries them out after the frame.

pub mod action;
pub mod app;
pub mod asking;
pub mod canvas;
pub mod cli;
pub mod clock;
pub mod cutting;
pub mod demo;
pub mod desk;
pub mod dialog;
pub mod files;
pub mod handle;
pub mod jobs;
pub mod opening;
pub mod panels;
pub mod rooms;
mod session;
pub mod state;
pub mod studio;
pub mod textures;
pub mod theme;
pub mod view;
pub mod widgets;
pub mod window;
pub mod wording;
pub mod words;
