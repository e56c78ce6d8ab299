//! The monitors that the window can stand on: how large their pixels are, and how a colour is
//! made on each.
//!
//! Under X11 all is asked of the server, and colord is asked where the server knows no profile.
//! Elsewhere the window tells which monitors there are, and a profile is the person's own file:
//! where the desktop converts colours itself, a second conversion would make them wrong.

#[cfg(all(unix, not(target_os = "macos")))]
mod colord;
mod edid;
mod kept;
mod look;
mod size;
mod wording;
#[cfg(all(unix, not(target_os = "macos")))]
mod x11;

use std::path::PathBuf;
use std::sync::Arc;

use sightedge_pictures::ToDisplay;

pub use edid::Edid;
pub use kept::{KeptMonitor, keep, kept};
pub use look::{Look, Told, try_profile};
pub use size::{HAND, Measured, Thing, widths};
pub use wording::{ASSUMED, NO_SCALE};

/// A monitor.
#[derive(Clone, Debug, PartialEq)]
pub struct Monitor {
    /// Where it is plugged in, as the system calls it.
    pub output: String,
    /// The name of its model, as it says itself.
    pub model: Option<String>,
    /// Its serial number, as it says itself.
    pub serial: Option<String>,
    /// Its top left corner among all monitors, in pixels.
    pub at: (i32, i32),
    /// Its pixels across and down, as it stands.
    pub pixels: (u32, u32),
    /// The size it reports, in millimetres.
    pub mm: Option<(u32, u32)>,
    /// How a colour is made on it.
    pub colours: Colours,
}

/// How a colour is made on a monitor.
#[derive(Clone, Debug, PartialEq)]
pub enum Colours {
    /// No profile is known: sRGB is assumed.
    Assumed,
    /// By a profile.
    Profile(Origin, Arc<ToDisplay>),
    /// There is one that cannot serve, for this reason: sRGB is assumed.
    Refused(Origin, String),
}

/// Where a profile comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// The person's own file.
    Own(PathBuf),
    /// The desktop's settings.
    Desktop,
}

/// How large a pixel is, and how that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scale {
    /// By the size that the monitor reports.
    Reported(f64),
    /// By a thing that was laid on it.
    Measured(f64, Measured),
}

impl Scale {
    /// Pixels a millimetre.
    pub const fn per_mm(self) -> f64 {
        match self {
            Self::Reported(per_mm) | Self::Measured(per_mm, _) => per_mm,
        }
    }
}

impl Monitor {
    /// What its settings are kept by: model and serial number where it says both, so that they
    /// follow it to another plug, else the plug with what model is known.
    pub fn key(&self) -> String {
        match (&self.model, &self.serial) {
            (Some(model), Some(serial)) => format!("{model} {serial}"),
            (Some(model), None) => format!("{model} at {}", self.output),
            (None, _) => self.output.clone(),
        }
    }

    /// The size of its pixels; `None` where it must be measured first.
    pub fn scale(&self, all: &[KeptMonitor]) -> Option<Scale> {
        if let Some(measured) = kept(all, &self.key()).and_then(|one| one.measured) {
            return Some(Scale::Measured(measured.per_mm(self.pixels.0), measured));
        }
        size::reported(self.pixels, self.mm?).map(Scale::Reported)
    }

    /// Whether a place among all monitors is on this one.
    pub fn holds(&self, (x, y): (i32, i32)) -> bool {
        let within = |at: i32, from: i32, length: u32| {
            at >= from && i64::from(at) < i64::from(from) + i64::from(length)
        };
        within(x, self.at.0, self.pixels.0) && within(y, self.at.1, self.pixels.1)
    }

    /// The conversion to its colours, where it has a profile.
    pub const fn to_display(&self) -> Option<&Arc<ToDisplay>> {
        match &self.colours {
            Colours::Profile(_, to) => Some(to),
            Colours::Assumed | Colours::Refused(..) => None,
        }
    }
}

/// The monitor that a window stands on: the one that the system names, else the one that holds
/// its middle, else the only one.
pub fn of_window<'a>(
    all: &'a [Monitor],
    named: Option<&str>,
    middle: Option<(i32, i32)>,
) -> Option<&'a Monitor> {
    let named = named.and_then(|name| all.iter().find(|one| one.output == name));
    let held = || middle.and_then(|at| all.iter().find(|one| one.holds(at)));
    let only = || if let [one] = all { Some(one) } else { None };
    named.or_else(held).or_else(only)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn monitor(output: &str, at: (i32, i32), pixels: (u32, u32)) -> Monitor {
        Monitor {
            output: output.to_owned(),
            model: None,
            serial: None,
            at,
            pixels,
            mm: None,
            colours: Colours::Assumed,
        }
    }

    #[test]
    fn a_window_stands_where_its_middle_is() {
        let all = [monitor("A", (0, 0), (1920, 1080)), monitor("B", (1920, 0), (2560, 1440))];
        let at = |named, middle| of_window(&all, named, middle).map(|one| one.output.as_str());
        assert_eq!(at(None, Some((1919, 500))), Some("A"));
        assert_eq!(at(None, Some((1920, 500))), Some("B"));
        assert_eq!(at(Some("B"), Some((10, 10))), Some("B"), "the system knows");
        assert_eq!(at(Some("C"), Some((10, 10))), Some("A"), "it calls it otherwise");
        assert_eq!(at(None, Some((-10, 10))), None);
        assert_eq!(at(None, None), None);
        assert_eq!(of_window(&all[..1], None, None).map(Monitor::key).as_deref(), Some("A"));
    }

    #[test]
    fn what_was_measured_goes_before_what_is_reported() {
        let mut one = monitor("A", (0, 0), (2560, 1440));
        assert_eq!(one.scale(&[]), None);
        one.mm = Some((640, 360));
        assert_eq!(one.scale(&[]), Some(Scale::Reported(4.0)));
        let mut all = Vec::new();
        let measured = Measured { thing: Thing::Card, wide: 85.6 * 5.0, across: 2560 };
        keep(&mut all, &one.key(), |kept| kept.measured = Some(measured));
        let scale = one.scale(&all).unwrap();
        assert!((scale.per_mm() - 5.0).abs() < 1e-9, "{scale:?}");
        // The display is set to half as many pixels.
        one.pixels = (1280, 720);
        assert!((one.scale(&all).unwrap().per_mm() - 2.5).abs() < 1e-9);
        // At another plug it is the same monitor where it says which one it is.
        (one.model, one.serial) = (Some("Studio 27".into()), Some("B-0042".into()));
        assert_eq!(one.key(), "Studio 27 B-0042");
        assert_eq!(one.scale(&all), Some(Scale::Reported(2.0)), "that is another one");
        keep(&mut all, "A", |kept| kept.measured = None);
        assert_eq!(all, [], "what holds nothing is forgotten");
    }
}
