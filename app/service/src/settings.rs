//! What the window remembers from one day to the next.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};
use sightedge_core::length::Unit;
use sightedge_papers::House;

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
    /// What new inscriptions begin with.
    pub words: Words,
    /// The head of printouts that leave the house.
    pub studio: House,
}

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
            words: Words::default(),
            studio: House::default(),
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

    /// Puts a file at the head of those last opened.
    pub fn opened(&mut self, path: &Path) {
        self.recent.retain(|old| old != path);
        self.recent.insert(0, path.to_owned());
        self.recent.truncate(MOST_RECENT);
    }
}
