//! The monitor that the window stands on, and what follows from it.

mod dialog;
mod outline;

pub(super) use dialog::Dialog;

use egui::{Context, ViewportId};
use sightedge_service::monitors::{Look, Monitor, Told, of_window};

use super::App;
use crate::window::display::Display;

impl App {
    /// Watches the monitors from now on: those that `look` finds.
    pub fn watch_monitors(&mut self, context: &Context, look: Look) {
        self.jobs.watch_monitors(context, look);
    }

    /// The system calls the monitor so that the window stands on; gives whether that is another
    /// one than before.
    pub fn stands_on(&mut self, output: Option<String>) -> bool {
        let other = self.output != output;
        self.output = output;
        other
    }

    /// The system tells of these monitors.
    pub fn told_of_monitors(&mut self, told: Vec<Told>) {
        self.jobs.look_with(Some(told), &self.settings.monitors);
    }

    /// The monitor that the native window being shown stands on, where that is known.
    pub(super) fn monitor(&self, context: &Context) -> Option<&Monitor> {
        let middle = context.input(|input| {
            let rect = input.viewport().inner_rect?;
            let middle = rect.center() * input.pixels_per_point();
            Some((whole(middle.x), whole(middle.y)))
        });
        // The system names the monitor of the first native window only.
        let first = context.viewport_id() == ViewportId::ROOT;
        of_window(&self.monitors, self.output.as_deref().filter(|_| first), middle)
    }

    /// What is known of that monitor: any other native window sets this at the start of its frame.
    pub(super) fn display(&self, context: &Context) -> Display {
        let monitor = self.monitor(context);
        monitor.map(|one| Display::new(one, &self.settings.monitors)).unwrap_or_default()
    }

    /// Before each frame: all is painted for the monitor that the window stands on now.
    pub(super) fn follow_monitor(&mut self, context: &Context) {
        self.jobs.look_with(None, &self.settings.monitors);
        let display = self.display(context);
        if self.jobs.show_on(display.colours.clone()) {
            self.textures.renew();
        }
        display.set(context);
    }
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "a place among monitors, in whole pixels"
)]
fn whole(value: f32) -> i32 {
    value.round() as i32
}
