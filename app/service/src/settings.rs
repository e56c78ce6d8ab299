//! What the window remembers from one day to the next.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};
use sightedge_core::length::Unit;
use sightedge_papers::House;

use crate::monitors::KeptMonitor;
use crate::usual_words::Words;

/// Settings of the window. All of them are small comforts: a file that cannot be read is
/// started anew.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
#[expect(clippy::struct_excessive_bools, reason = "switches of a person's own, each by itself")]
pub struct Settings {
    /// Inner size in points.
    pub window: (f32, f32),
    /// Whether the dark theme is on.
    pub dark: bool,
    /// The grey round the board, 0 to 255.
    pub surround: u8,
    /// Plans and pictures last opened, the newest first.
    pub recent: Vec<PathBuf>,
    /// Whether new plans start in millimetres.
    pub metric: bool,
    /// Dimension lines.
    pub dimensions: bool,
    /// The outline of what is hidden.
    pub hidden: bool,
    /// The magnified corner.
    pub corner: bool,
    /// The wall of the client's view: red, green, blue.
    pub wall: [u8; 3],
    /// The frame round the mat, in place of dimension lines.
    pub frame: bool,
    /// What is under the pointer, magnified.
    pub magnifier: bool,
    /// The places whose figures are folded.
    pub folded: Vec<String>,
    /// What new inscriptions begin with.
    pub words: Words,
    /// The size of text and all else in the window, in per cent: see [`Settings::text`].
    pub text: u16,
    /// Whether the first start is over, at which the window says what to do.
    pub greeted: bool,
    /// The head of printouts that leave the house.
    pub studio: House,
    /// What was chosen for each monitor.
    pub monitors: Vec<KeptMonitor>,
}

/// The sizes that text can have, in per cent.
pub const TEXT_SIZES: [u16; 8] = [90, 100, 110, 125, 140, 150, 175, 200];

/// The greys the surround can have, near black to near white (mid grey at first).
pub const SURROUNDS: [u8; 5] = [32, 76, 128, 188, 236];

const MOST_RECENT: usize = 10;

impl Default for Settings {
    fn default() -> Self {
        Self {
            window: (1280.0, 800.0),
            dark: false,
            surround: 128,
            recent: Vec::new(),
            metric: !inches_here(),
            dimensions: true,
            hidden: false,
            corner: false,
            frame: false,
            wall: [236, 235, 231],
            magnifier: false,
            folded: Vec::new(),
            words: Words::default(),
            text: 100,
            greeted: false,
            studio: House::default(),
            monitors: Vec::new(),
        }
    }
}

/// Whether the system's locale is of a place that measures boards in inches.
fn inches_here() -> bool {
    let locale = ["LC_ALL", "LC_MEASUREMENT", "LANG"]
        .iter()
        .find_map(|name| std::env::var(name).ok().filter(|value| !value.is_empty()))
        .unwrap_or_default();
    // No locale tells nothing; the trade's own tables are in inches.
    !locale.contains('_') || ["_US", "_CA", "_LR", "_MM"].iter().any(|at| locale.contains(at))
}

impl Settings {
    /// What new plans are measured in.
    pub const fn unit(&self) -> Unit {
        if self.metric { Unit::Millimetre } else { Unit::Inch }
    }

    /// Whether that place's figures are folded.
    pub fn is_folded(&self, place: &str) -> bool {
        self.folded.iter().any(|one| one == place)
    }

    /// Folds that place's figures, or shows them.
    pub fn fold(&mut self, place: &str, folded: bool) {
        self.folded.retain(|one| one != place);
        if folded {
            self.folded.push(place.to_owned());
        }
    }

    /// How large text is, as a share of its usual size; what is no such size is held within them.
    pub fn text_scale(&self) -> f32 {
        let [least, .., most] = TEXT_SIZES;
        f32::from(self.text.clamp(least, most)) / 100.0
    }

    /// The next larger size of text, or the next smaller one.
    pub fn step_text(&mut self, larger: bool) {
        let [least, .., most] = TEXT_SIZES;
        self.text = if larger {
            TEXT_SIZES.into_iter().find(|size| *size > self.text).unwrap_or(most)
        } else {
            TEXT_SIZES.into_iter().rev().find(|size| *size < self.text).unwrap_or(least)
        };
    }

    /// Puts a file at the head of those last opened.
    pub fn opened(&mut self, path: &Path) {
        self.recent.retain(|old| old != path);
        self.recent.insert(0, path.to_owned());
        self.recent.truncate(MOST_RECENT);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_grows_and_shrinks_between_its_ends() {
        let mut settings = Settings::default();
        let mut sizes = Vec::new();
        for _ in 0..10 {
            settings.step_text(true);
            sizes.push(settings.text);
        }
        assert_eq!(sizes, [110, 125, 140, 150, 175, 200, 200, 200, 200, 200]);
        for _ in 0..10 {
            settings.step_text(false);
        }
        assert_eq!(settings.text, 90);
        // What was written by hand into the file does no harm.
        settings.text = 0;
        assert!((settings.text_scale() - 0.9).abs() < 1e-6, "{}", settings.text_scale());
        settings.step_text(true);
        assert_eq!(settings.text, 90);
        settings.text = 9000;
        assert!((settings.text_scale() - 2.0).abs() < 1e-6, "{}", settings.text_scale());
    }
}
