//! Undoing what was done last: by a new entry, never by deleting one.

use sightedge_studio::{Change, Error, Note, PrintDetails, PrintId, Record, State};

use super::Editions;
use super::messages::{Outcome, Undo};
use crate::window::request::AppCommand;
use sightedge_service::record;

/// What was done last and can be undone.
#[derive(Debug)]
pub(super) struct LastChange {
    undo: Undo,
    /// Whether it is to be undone.
    requested: bool,
}

impl LastChange {
    pub(super) const fn new(undo: Undo) -> Self {
        Self { undo, requested: false }
    }

    /// How it is called.
    pub(super) fn words(&self) -> &str {
        self.undo.words()
    }

    /// Has it undone.
    pub(super) const fn request_undo(&mut self) {
        self.requested = true;
    }
}

impl Editions {
    /// Carries out what this screen takes upon itself. Undo is the record's here, so that no key
    /// changes a plan that is not in sight.
    pub(in crate::window::screens) fn command(&mut self, command: &AppCommand) -> bool {
        match command {
            AppCommand::Undo => {
                if let Some(last) = &mut self.last_change {
                    last.request_undo();
                } else {
                    self.status.said = Some(
                        "Nothing was done to a print just now. Here Ctrl+Z undoes only the last \
                         change of the record; steps of the plan are undone at the mat."
                        .to_owned(),
                    );
                }
            }
            AppCommand::Redo => {
                self.status.said = Some(
                    "The record keeps every entry: issue the number again instead.".to_owned(),
                );
            }
            _ => return false,
        }
        true
    }

    /// What undo would undo.
    pub(in crate::window::screens) fn step(&self) -> Option<&str> {
        self.last_change.as_ref().map(LastChange::words)
    }

    /// Undoes what was done last, once that was asked for.
    pub(super) fn undo_requested(&mut self) {
        let Some(last) = self.last_change.take_if(|last| last.requested) else { return };
        let undo = last.undo;
        let what = undo.words().to_owned();
        let id = match undo {
            Undo::Issued(id, _) => id,
            Undo::Changed { print, before, after, .. } => {
                self.change(move |record| restored(record, print, *before, &after, &what));
                return;
            }
            Undo::By(_, change) => {
                self.change(change);
                return;
            }
        };
        self.change(move |record| {
            let there = record.print(id)?;
            // Another window may have sold it meanwhile.
            if !there.live || there.now.state != State::Studio {
                return Err(Error::Unreadable(format!(
                    "{what} was to be undone, but its print is {} by now. Choose the number to \
                     see what happened, and correct that",
                    there.now.state.name()
                )));
            }
            record.change(id, &Change::Void, &at_once())?;
            Ok(Outcome {
                said: format!(
                    "Undone: {what}. The number is free again; both entries stay in its history."
                ),
                freed: Some(id),
                ..Outcome::default()
            })
        });
    }
}

/// The note of an entry that undoes another.
pub(super) fn at_once() -> Note {
    Note::because(&record::today(), "undone at once")
}

/// What is said once something was undone.
pub(super) fn undone(what: &str) -> String {
    format!("Undone: {what}. Both entries stay in the history.")
}

/// Restores a print as it was, unless something happened to it meanwhile.
fn restored(
    record: &mut dyn Record,
    print: PrintId,
    before: PrintDetails,
    after: &PrintDetails,
    what: &str,
) -> Result<Outcome, Error> {
    let there = record.print(print)?;
    if !there.live || there.now != *after {
        return Err(Error::Unreadable(format!(
            "{what} was to be undone, but something else happened to the print since: it is {}. \
             Choose the number to see what, and correct that",
            there.now.state.name()
        )));
    }
    record.change(print, &Change::Correct(Box::new(before)), &at_once())?;
    Ok(Outcome { said: undone(what), ..Outcome::default() })
}
