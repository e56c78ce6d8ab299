//! What the line at the foot says: each message belongs to the place where it arose.

use crate::window::request::Screen;

/// The messages that stand.
#[derive(Clone, Debug, Default)]
pub(super) struct Messages(Vec<(Screen, String)>);

impl Messages {
    /// Shows a message in a place, instead of the one before.
    pub(super) fn say(&mut self, at: Screen, words: impl Into<String>) {
        self.forget(at);
        self.0.push((at, words.into()));
    }

    /// What stands in a place.
    pub(super) fn of(&self, at: Screen) -> Option<&str> {
        self.0.iter().find(|(place, _)| *place == at).map(|(_, words)| words.as_str())
    }

    /// Removes the message of a place.
    pub(super) fn forget(&mut self, at: Screen) {
        self.0.retain(|(place, _)| *place != at);
    }
}
