//! What was changed of one's own tables, to be undone.

use sightedge_core::material::{Kind, OwnTables};

/// As many steps are kept. Source: our own choice.
const MOST: usize = 100;

/// A change, and the tables as they were on the other side of it.
#[derive(Debug)]
struct Change {
    name: String,
    kind: Kind,
    other: OwnTables,
}

/// Which way one goes through the changes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Way {
    /// The last one is undone.
    Back,
    /// What was undone is redone.
    Forth,
}

/// The changes of this session.
#[derive(Debug, Default)]
pub(super) struct Past {
    done: Vec<Change>,
    undone: Vec<Change>,
    /// What was asked for by key or button and is carried out with the next frame.
    pub(super) asked: Option<Way>,
}

impl Past {
    /// Tells of a change that is about to be made to `before`.
    pub(super) fn tell(&mut self, name: String, kind: Kind, before: OwnTables) {
        self.undone.clear();
        self.done.push(Change { name, kind, other: before });
        if self.done.len() > MOST {
            self.done.remove(0);
        }
    }

    /// Goes one step; gives what it was called, its table and the tables as they are to be.
    pub(super) fn go(&mut self, way: Way, now: OwnTables) -> Option<(String, Kind, OwnTables)> {
        let (from, to) = match way {
            Way::Back => (&mut self.done, &mut self.undone),
            Way::Forth => (&mut self.undone, &mut self.done),
        };
        let Change { name, kind, other } = from.pop()?;
        to.push(Change { name: name.clone(), kind, other: now });
        Some((name, kind, other))
    }

    /// What would be taken back and done again.
    pub(super) fn names(&self) -> (Option<&str>, Option<&str>) {
        (
            self.done.last().map(|change| change.name.as_str()),
            self.undone.last().map(|change| change.name.as_str()),
        )
    }
}
