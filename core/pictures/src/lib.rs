//! Opening pictures: any print file, fast, in its true colours, and colours for the mat
//! drawn from it.
//!
//! - [`probe`] reads headers only: pixels, stated resolution, profile, orientation.
//! - [`preview`] returns 8-bit sRGB pixels at the exact size wanted: linear-light Lanczos
//!   reduction, ICC profile to sRGB, all eight orientations.
//! - [`first_look`] returns the small picture that a file may hold of itself.
//! - [`content_hash`] finds a picture again after it was moved.
//! - [`job`] writes a request and its reply down, for a child process.
//! - [`colour`] draws mat colours from a preview's pixels.
//! - [`ToDisplay`] takes sRGB to a monitor's own colours.
//!
//! Nothing here panics on what a file holds: what is wrong with a file is a [`Finding`] where
//! something can still be shown, else a [`PictureError`] that says what to do.
#![forbid(unsafe_code)]

pub mod colour;
mod decode;
mod display;
mod error;
mod facts;
mod finding;
mod format;
mod guard;
mod hash;
pub mod job;
mod limits;
mod orient;
mod pipeline;
mod preview;
mod profile;
mod scale;
mod size;
mod target;
mod tone;
mod write;

pub use display::{ProfileRefused, ToDisplay};
pub use error::PictureError;
pub use facts::Facts;
pub use finding::{Finding, Severity};
pub use format::Format;
pub use hash::{ContentHash, FileStamp, content_hash, find_moved};
pub use limits::{CancelToken, Limits};
pub use orient::Orientation;
pub use preview::{first_look, preview, probe};
pub use profile::{ProfileFacts, ToSrgb};
pub use size::{Resolution, ResolutionSource, Size};
pub use target::{Preview, Region, Target};
pub use write::{WriteForm, read_ppm, write_png, write_ppm};
