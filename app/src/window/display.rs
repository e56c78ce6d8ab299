//! The monitor that a window stands on: how a colour is made on it, and how large its pixels are.
//! Kept for each native window apart, since two of them may stand on different monitors.

use std::sync::Arc;

use egui::{Color32, Context, Id};
use sightedge_pictures::ToDisplay;
use sightedge_service::monitors::{KeptMonitor, Monitor, Scale};

/// What is known of a monitor, for whoever paints on it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Display {
    /// From sRGB to its colours; `None` where it is taken for sRGB.
    pub colours: Option<Arc<ToDisplay>>,
    /// The size of its pixels; `None` where it must be measured first.
    pub scale: Option<Scale>,
}

impl Display {
    /// What is known of `monitor`.
    pub fn new(monitor: &Monitor, kept: &[KeptMonitor]) -> Self {
        Self { colours: monitor.to_display().cloned(), scale: monitor.scale(kept) }
    }

    /// That of the window which is being shown.
    pub fn of(context: &Context) -> Self {
        let id = id(context);
        context.data(|data| data.get_temp(id)).unwrap_or_default()
    }

    /// The window which is being shown stands on this one.
    pub fn set(self, context: &Context) {
        let id = id(context);
        context.data_mut(|data| data.insert_temp(id, self));
    }

    /// An sRGB colour, as it is sent to this monitor.
    pub fn colour(&self, rgb: [u8; 3]) -> Color32 {
        let [red, green, blue] = self.colours.as_ref().map_or(rgb, |to| to.colour(rgb));
        Color32::from_rgb(red, green, blue)
    }

    /// Points of the window for each millimetre of the glass.
    pub fn points_per_mm(&self, pixels_per_point: f32) -> Option<f32> {
        self.scale.map(|scale| narrow(scale.per_mm()) / pixels_per_point)
    }
}

/// An sRGB colour of a board or a picture, as it is sent to the monitor. The tools' own greys
/// do not go through here: they stay neutral.
pub fn colour(context: &Context, rgb: [u8; 3]) -> Color32 {
    Display::of(context).colour(rgb)
}

fn id(context: &Context) -> Id {
    Id::unique(("display", context.viewport_id()))
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "pixels a millimetre: an f32 holds more digits than a hand can lay a card"
)]
const fn narrow(value: f64) -> f32 {
    value as f32
}
