//! What the line at the foot says: each message belongs to the place where it arose.

use crate::window::request::Screen;

/// The messages that stand.
#[derive(Clone, Debug, Default)]
pub(super) struct Messages(Vec<(Screen, String)>);

impl Messages {
    /// Says something in a place; what was said there before goes.
    pub(super) fn say(&mut self, at: Screen, words: impl Into<String>) {
        self.forget(at);
        self.0.push((at, words.into()));
    }

    /// What stands in a place.
    pub(super) fn of(&self, at: Screen) -> Option<&str> {
        self.0.iter().find(|(place, _)| *place == at).map(|(_, words)| words.as_str())
    }

    /// What was said in a place no longer holds.
    pub(super) fn forget(&mut self, at: Screen) {
        self.0.retain(|(place, _)| *place != at);
    }
}
