//! The panels: each reads a [`View`] and returns requests.

mod board;
mod colours;
mod figures;
mod layers;
mod picker;
mod print;
mod units;
mod window;

pub use figures::figures;

use egui::Ui;

use crate::window::context::{Requests, View};

/// The maker's decisions, in the order of the job.
pub fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    print::show(ui, view, requests);
    window::show(ui, view, requests);
    board::show(ui, view, requests);
    layers::show(ui, view, requests);
    units::show(ui, view, requests);
}
