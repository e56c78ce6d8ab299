//! The window: one front on the service, and the only part of the program that knows a screen.
//!
//! Screens read the plan and return requests, which the window carries out after the frame. Each
//! module uses only those above it in this list; a test holds the order.
//!
//! ```text
//! theme                   colours, sizes and typefaces of the tools
//! display                 the monitor a window stands on: its colours, its pixels
//! gesture                 what keys and drags do, in words
//! handle                  what can be dragged, and what moving it means
//! session                 one open plan: its history, what is being dragged
//! workers                 all that is slow, off the frame; dialogs
//! request                 what can be asked of the window, with keys and labels
//! textures                pictures on the screen
//! widgets                 fields, choices, lists, panels
//! help                    the words of the job, their pictures, legends
//! context                 what a screen may read, and where it puts its requests
//! canvas                  the board, its handles and dimension lines
//! screens                 a folder for each place of work
//! question                what the window asks before it goes on
//! app                     open plans; requests are carried out here
//! run                     the native window
//! ```

pub mod app;
pub mod canvas;
pub mod context;
pub mod display;
pub mod gesture;
pub mod handle;
pub mod help;
pub mod question;
pub mod request;
pub mod run;
pub mod screens;
pub mod session;
pub mod textures;
pub mod theme;
pub mod widgets;
pub mod workers;
